package cut

import (
	"bufio"
	_ "embed"
	"fmt"
	"io"
	"strconv"
	"strings"
	"text/template"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll/plane"
)

// Layers of the cut file, by purpose. All names are such as release 12 takes: at
// most 31 capital letters, digits and underscores.
const (
	layerOpenings = "OPENINGS"
	layerOutline  = "OUTLINE"
	layerWords    = "NOTES_NOT_CUT" // only if they are asked for; not plotted, where the release can say so
)

// dxfComment is the group code of what is not read (DXF Reference, group codes), in which the
// words stand. A line of release 12 has 255 letters at most.
const (
	dxfComment = 999
	dxfLetters = 96
)

// dxfUnits is the first comment of a release 12 file, whose header can't name a unit.
const dxfUnits = "Units: millimetres"

// drawDXF writes a cutting plan down in DXF.
func drawDXF(out io.Writer, p cuttingPlan, s *pattern.Sheet, r *check.Report, o export.Options) error {
	d := &dxf{w: bufio.NewWriter(out), r12: release12(o)}
	words := fileWords(s, r, o)
	if d.r12 {
		words = append([]string{dxfUnits}, words...)
	}
	b := page(p, o)
	drawn, err := drawnWords(b, words, o)
	if err != nil {
		return err
	}
	before, after, err := skeletonOf(d.r12, b, dxfLayers(p, o))
	if err != nil {
		return err
	}
	d.pair(dxfComment, export.TagOf(s.Design, export.TagRoom))
	for _, line := range words {
		for _, l := range wrap(line, dxfLetters) {
			d.pair(dxfComment, d.coded(l))
		}
	}
	d.w.WriteString(before)
	for _, m := range p.engraved {
		d.engraved(m)
	}
	for _, c := range p.lines {
		layer := layerOpenings
		if c.outline() {
			layer = layerOutline
		}
		if c.runs == nil {
			d.vertices(layer, c.loop, true)
		}
		for _, r := range c.runs {
			d.chain(layer, r.path())
		}
	}
	for _, l := range drawn {
		d.text(layerWords, l.at, strings.TrimSpace(l.text))
	}
	d.w.WriteString(after)
	return d.w.Flush()
}

// release12 reports whether the options ask for the older release.
func release12(o export.Options) bool { return o.Curves == export.ArcsR12 || o.Curves == export.Chords }

// Each release has a skeleton: a whole file of it that draws nothing, with the extents and
// layers left open. What its sections have to hold is in the open DXF reference. The lines
// go where the section of entities begins.
var (
	//go:embed release2000.dxf
	text2000 string // AC1015
	//go:embed release12.dxf
	text12 string // AC1009: only what is referred to is needed, a line type and the layers

	skeleton2000, skeleton12 = skeleton(text2000), skeleton(text12)
)

func skeleton(text string) *template.Template {
	return template.Must(template.New("").Funcs(template.FuncMap{"real": real}).Parse(text))
}

// Handles of the skeleton of release 2000: that of the model's record, which owns all
// entities, and the first that is free.
const (
	modelRecord = "15"
	firstEntity = 0x100
)

// dxfLayer is an entry of the table of layers.
type dxfLayer struct {
	Name       string
	Colour     int    // index
	Handle     string // in release 2000
	NotPlotted bool
}

// dxfLayers lists the layers that a plan needs.
func dxfLayers(p cuttingPlan, o export.Options) []dxfLayer {
	const shows = 7 // black or white, whichever shows
	ls := []dxfLayer{{"0", shows, "E", false}, {layerOpenings, o.OpeningsLine().DXF, "F", false}, {layerOutline, o.OutlineLine().DXF, "10", false}}
	if o.Words == export.WordsDrawn {
		ls = append(ls, dxfLayer{layerWords, shows, "11", true})
	}
	if len(onFace(p.engraved, false)) > 0 {
		ls = append(ls, dxfLayer{export.LayerEngraved, o.EngravedLine().DXF, "22", false})
	}
	if len(onFace(p.engraved, true)) > 0 {
		ls = append(ls, dxfLayer{export.LayerInside, o.EngravedLine().DXF, "23", false})
	}
	return ls
}

// skeletonOf returns what is before and after the entities.
func skeletonOf(r12 bool, ext plane.Box, layers []dxfLayer) (before, after string, err error) {
	t := skeleton2000
	if r12 {
		t = skeleton12
	}
	var b strings.Builder
	err = t.Execute(&b, struct {
		plane.Box
		View   float64 // the height of the view: it is 3 wide to 2 high and shows everything
		Layers []dxfLayer
	}{ext, 1.1 * max(ext.H(), ext.W()/1.5), layers})
	const section = "ENTITIES\n"
	before, after, _ = strings.Cut(b.String(), section)
	return before + section, after, err
}

// dxf writes pairs of group code and value. Write errors stay in w until Flush.
type dxf struct {
	w      *bufio.Writer
	r12    bool
	entity int // written so far; release 2000 numbers them
}

// begin opens an entity of the model. Colour and line type are left to the layer.
func (d *dxf) begin(kind, layer, class string) {
	d.pair(0, kind)
	if d.r12 {
		d.pair(8, layer)
		return
	}
	d.pair(5, fmt.Sprintf("%X", firstEntity+d.entity))
	d.entity++
	d.pair(330, modelRecord)
	d.pair(100, "AcDbEntity")
	d.pair(8, layer)
	d.pair(100, class)
}

// vertices writes the vertices of edges, closed or open: as LWPOLYLINE, which release 12
// has not, or as POLYLINE with a VERTEX each.
func (d *dxf) vertices(layer string, l plane.Loop, closed bool) {
	flag := 0
	if closed {
		flag = 1
	}
	if d.r12 {
		d.begin("POLYLINE", layer, "")
		d.num(66, 1) // vertices follow
		d.point3(10, 0, 0, 0)
		d.num(70, flag)
	} else {
		d.begin("LWPOLYLINE", layer, "AcDbPolyline")
		d.num(90, len(l))
		d.num(70, flag)
		d.real(43, 0)
	}
	for _, v := range l {
		if d.r12 {
			d.begin("VERTEX", layer, "")
			d.point3(10, v.X, v.Y, 0)
		} else {
			d.real(10, v.X)
			d.real(20, v.Y)
		}
		if v.Bulge != 0 {
			d.bulge(v.Bulge)
		}
	}
	if d.r12 {
		d.begin("SEQEND", layer, "")
	}
}

// chain writes edges that run into one another, open.
func (d *dxf) chain(layer string, es plane.Chain) {
	d.vertices(layer, append(es.Loop(), plane.Vertex{Point: es[len(es)-1].B}), false)
}

func (d *dxf) text(layer string, at plane.Point, s string) {
	d.begin("TEXT", layer, "AcDbText")
	d.point3(10, at.X, at.Y, 0)
	d.real(40, wordsHigh)
	d.pair(1, d.coded(s))
	if !d.r12 {
		d.pair(100, "AcDbText")
	}
}

// coded returns text as the release has it.
func (d *dxf) coded(s string) string {
	if d.r12 {
		return sevenBit(s)
	}
	return dxfString(s)
}

func (d *dxf) pair(code int, value string) {
	b := d.w.AvailableBuffer()
	for most := 100; most > 1 && code < most; most /= 10 {
		b = append(b, ' ')
	}
	b = strconv.AppendInt(b, int64(code), 10)
	b = append(b, '\n')
	b = append(b, value...)
	d.w.Write(append(b, '\n'))
}

func (d *dxf) num(code, value int) { d.pair(code, fmt.Sprint(value)) }

// real writes a number with the decimal point that strict readers want.
func (d *dxf) real(code int, v float64) { d.pair(code, real(v)) }

func real(v float64) string { return withPoint(export.Coord(v)) }

func withPoint(s string) string {
	if !strings.Contains(s, ".") {
		s += ".0"
	}
	return s
}

// bulge writes a bulge with all the digits there are: the height of an arc is
// its bulge times half the chord.
func (d *dxf) bulge(v float64) { d.pair(42, withPoint(export.Decimal(v, 17))) }

func (d *dxf) point3(code int, x, y, z float64) {
	d.real(code, x)
	d.real(code+10, y)
	d.real(code+20, z)
}
