package cut

import (
	"bufio"
	"fmt"
	"io"
	"strconv"
	"strings"

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
	layerLeads    = "LEAD_INS"
	layerNotes    = "NOTES_NOT_CUT" // not plotted, where the release can say so
)

// Measures of the notes in the drawing, mm: ours.
const (
	dxfGap     = 8.0 // from the lowest line of the part to the first note
	dxfText    = 2.5 // letter height
	dxfLine    = 4.5
	dxfLetters = 96 // letters to a line
)

// dxfComment is the group code of what is not read (DXF Reference, group codes).
const dxfComment = 999

// dxfUnits is the first note of a release 12 file, whose header can't name a unit.
const dxfUnits = "Units: millimetres"

// drawDXF writes the cuts of a plan in DXF.
func drawDXF(out io.Writer, p cutPlan, s *pattern.Sheet, r *check.Report, o export.Options) error {
	d := &dxf{w: bufio.NewWriter(out), r12: release12(o)}
	notes := noteLines(s, r, o, dxfLetters)
	if d.r12 {
		notes = append([]string{dxfUnits}, notes...)
	}
	box := p.bounds()
	low := box.Min.Y - dxfGap - dxfText
	ext := box.Add(plane.Pt(box.Min.X, low-float64(len(notes)-1)*dxfLine))

	d.pair(dxfComment, export.TagOf(s.Design, export.TagRoom))
	d.open(ext, dxfLayers(p))
	d.section("ENTITIES")
	for _, m := range p.marks {
		d.dxfMark(m)
	}
	for _, c := range p.cuts {
		layer := layerOpenings
		if c.outline() {
			layer = layerOutline
		}
		if len(c.lead) > 0 {
			d.chain(layerLeads, c.lead)
		}
		if c.runs == nil {
			d.vertices(layer, c.loop, true)
		}
		for _, r := range c.runs {
			d.chain(layer, r)
		}
	}
	for i, n := range notes {
		indent := len(n) - len(strings.TrimLeft(n, " "))
		d.text(layerNotes, plane.Pt(box.Min.X+float64(indent)*dxfText, low-float64(i)*dxfLine), strings.TrimSpace(n))
	}
	d.endSection()
	d.close(ext)
	return d.w.Flush()
}

// release12 reports whether the options ask for the older release.
func release12(o export.Options) bool { return o.Curves == export.ArcsR12 || o.Curves == export.Chords }

// dxfLayer is an entry of the table of layers.
type dxfLayer struct {
	name   string
	colour int // index
	h      int // handle, in release 2000
}

// dxfLayers lists the layers that a plan needs.
func dxfLayers(p cutPlan) []dxfLayer {
	const shows = 7 // black or white, whichever shows
	ls := []dxfLayer{{"0", shows, hLayer0}, {layerOpenings, shows, hLayerOpenings}, {layerOutline, shows, hLayerOutline}, {layerNotes, shows, hLayerNotes}}
	if len(p.marks) > 0 {
		ls = append(ls, dxfLayer{export.LayerMarks, marksGreyIndex, hLayerMarks})
	}
	if p.leads() {
		ls = append(ls, dxfLayer{layerLeads, shows, hLayerLeads})
	}
	return ls
}

// dxf writes pairs of group code and value, and of these what the two releases
// write differently. Write errors stay in w until Flush.
type dxf struct {
	w      *bufio.Writer
	r12    bool
	entity int // written so far; release 2000 numbers them
}

// open writes what stands before the entities.
func (d *dxf) open(ext plane.Box, layers []dxfLayer) {
	if d.r12 {
		d.openR12(ext, layers)
		return
	}
	d.open2000(ext, layers)
}

// close writes what stands after the entities.
func (d *dxf) close(ext plane.Box) {
	if !d.r12 {
		d.objects2000(ext)
	}
	d.pair(0, "EOF")
}

// begin opens an entity. Colour and line type are left to the layer.
func (d *dxf) begin(kind, layer, class string) {
	if d.r12 {
		d.beginR12(kind, layer)
		return
	}
	d.begin2000(kind, layer, class)
}

// vertices writes the vertices of edges, closed or open.
func (d *dxf) vertices(layer string, l plane.Loop, closed bool) {
	if d.r12 {
		d.verticesR12(layer, l, closed)
		return
	}
	d.vertices2000(layer, l, closed)
}

// chain writes edges that run into one another, open.
func (d *dxf) chain(layer string, es []plane.Edge) {
	l := make(plane.Loop, 0, len(es)+1)
	for _, e := range es {
		l = append(l, plane.Vertex{Point: e.A, Bulge: e.Bulge})
	}
	d.vertices(layer, append(l, plane.Vertex{Point: es[len(es)-1].B}), false)
}

func (d *dxf) text(layer string, at plane.Point, s string) {
	d.begin("TEXT", layer, "AcDbText")
	d.point3(10, at.X, at.Y, 0)
	d.real(40, dxfText)
	if d.r12 {
		d.pair(1, sevenBit(s))
		return
	}
	d.pair(1, dxfString(s))
	d.pair(100, "AcDbText")
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
func (d *dxf) real(code int, v float64) { d.pair(code, dxfReal(export.Coord(v))) }

func dxfReal(s string) string {
	if !strings.Contains(s, ".") {
		s += ".0"
	}
	return s
}

// bulge writes a bulge with all the digits there are: the height of an arc is
// its bulge times half the chord.
func (d *dxf) bulge(v float64) { d.pair(42, dxfReal(export.Decimal(v, 17))) }

func (d *dxf) point(code int, p plane.Point) {
	d.real(code, p.X)
	d.real(code+10, p.Y)
}

func (d *dxf) point3(code int, x, y, z float64) {
	d.real(code, x)
	d.real(code+10, y)
	d.real(code+20, z)
}

func (d *dxf) section(name string) {
	d.pair(0, "SECTION")
	d.pair(2, name)
}

// extents and decimals are header variables that both releases have.
func (d *dxf) extents(ext plane.Box) {
	d.pair(9, "$INSBASE")
	d.point3(10, 0, 0, 0)
	d.pair(9, "$EXTMIN")
	d.point3(10, ext.Min.X, ext.Min.Y, 0)
	d.pair(9, "$EXTMAX")
	d.point3(10, ext.Max.X, ext.Max.Y, 0)
}

func (d *dxf) decimals() {
	d.pair(9, "$LUNITS")
	d.num(70, 2) // decimal
	d.pair(9, "$LUPREC")
	d.num(70, 4)
}

func (d *dxf) endSection() { d.pair(0, "ENDSEC") }
