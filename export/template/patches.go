package template

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"fretband/export"
	"fretband/export/pdf"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll/plane"
)

// A band that is round already and domed or flared has no saw template: no strip of paper
// lies flat on it. Its bench gets a patch of paper for each opening instead, which is small
// enough to be rubbed down, and says where on the band it goes: how far round from the
// front, and how far over the outside from the lower edge.

// Measures of a sheet of patches, mm: ours.
const (
	patchRoom  = 2.5 // from an opening to where its patch is cut out
	patchGap   = 3.0 // between patches
	patchLines = 6.4 // for the two lines of words under a patch
	patchLeast = 22  // the least width of a patch with its words
	patchArm   = 1.6 // of the cross at the middle, either way

	patchLeading = 3.6 // from line to line of words
)

// patch is one opening as it lies on the outside of the band, its middle at the origin.
type patch struct {
	number int
	loop   plane.Loop
	round  float64 // degrees round from the front, to the right
	up     float64 // over the outside from the lower edge, mm
}

// patchesOf returns the patches of all openings by their numbers.
func patchesOf(s *pattern.Sheet) []patch {
	ps := make([]patch, 0, len(s.Openings))
	for _, o := range s.Openings {
		ps = append(ps, patchOf(s, o))
	}
	slices.SortFunc(ps, func(a, b patch) int { return a.number - b.number })
	return ps
}

func patchOf(s *pattern.Sheet, o pattern.Opening) patch {
	f := s.Flat
	depth := f.Thickness + wrapPaper/2
	c := o.Loop.Bounds().Centre()
	x, v := f.Where(c)
	along := f.Along(x, v, 0).Unit()
	var l plane.Loop
	for _, e := range o.Loop.Edges() {
		n := max(1, int(math.Ceil(e.Len()/wrapStep)))
		for k := range n {
			d := e.At(float64(k) / float64(n)).Sub(c)
			ku, kv := f.Stretch(c.Add(d.Mul(0.5)), depth)
			l = append(l, plane.Vertex{Point: plane.Pt(d.Dot(along)*ku, along.Cross(d)*kv)})
		}
	}
	p := f.Bend(c, f.Thickness) // its X points to the left of who looks at the front
	up, from := 0.0, f.Place(x, 0)
	bottom, _ := f.EdgesAt(x)
	const steps = 64
	for i := range steps + 1 {
		to := f.Place(x, bottom+(v-bottom)*float64(i)/steps)
		if i > 0 {
			up += f.LengthAt(from, to, f.Thickness)
		}
		from = to
	}
	return patch{o.Number, l, math.Atan2(-p.X, p.Y) * 180 / math.Pi, up}
}

// where says where the patch goes.
func (p patch) where() (round, up string) {
	up = pattern.Say("%.1f mm up", p.up)
	const seen = 0.05 // of a degree
	switch {
	case math.Abs(p.round) < seen:
		return "at the front", up
	case math.Abs(p.round) > 180-seen:
		return "at the back", up
	case p.round < 0:
		return pattern.Say("%.1f° left", -p.round), up
	}
	return pattern.Say("%.1f° right", p.round), up
}

func (p patch) label(round string) string { return fmt.Sprintf("%d:  %s", p.number, round) }

// patchWords say how patches are laid on.
func patchWords() []string {
	return []string{
		"Print at 100 % (actual size). Do not scale or fit to page. Check the ruler before sawing.",
		"The band is round already, and no strip of paper lies flat on it. So each opening has a patch of its own. " +
			"Scribe a line across the outside at the front, the middle of the pattern; for a cuff it is opposite the gap. Hold the band with its lower edge down and its outside towards you.",
		"For each opening go round from the front by the angle, to the right or to the left, about the middle of the inside as you look along the band's axis. " +
			"From there go up from the lower edge by the length given, measured over the outside. Mark the place, cut the patch out and glue it on: its cross on the mark, its arrow pointing up, straight across the band. Rub it down from the middle.",
		"Glue on a few patches and compare them with the picture of the job sheet before you saw. Drill and saw from the outside, on the inner side of each line.",
	}
}

// WritePatches writes the patches of all openings at true size, with where on the band each
// goes, on as many sheets of paper as they take.
func WritePatches(w io.Writer, s *pattern.Sheet, r *check.Report, o export.Options) error {
	s, r = export.CutBy(s, r, export.Saw)
	if r.Pieces > 1 {
		return fmt.Errorf("%d pieces: %w", r.Pieces, export.ErrPieces)
	}
	doc, err := pdf.New(export.Title(s.Design) + ", patches to mark out by")
	if err != nil {
		return err
	}
	doc.Keywords = export.TagOf(s.Design, export.TagRoom)
	paper, _ := export.SheetOf(o.Paper)
	d := &patchSheets{template: template{doc: doc, part: s, sheet: s, report: r, options: o, words: map[wordIn]float64{}}, paper: paper, patches: patchesOf(s)}
	d.draw()
	_, err = doc.WriteTo(w)
	return err
}

// patchSheets draws patches on sheets of paper, whose heads count them.
type patchSheets struct {
	template
	paper   export.Paper
	patches []patch
}

// patchLine is a line of what is said above the patches.
type patchLine struct {
	text string
	font pdf.Font
}

// patchRow is patches beside each other.
type patchRow struct {
	patches []patch
	high    float64
}

func (d *patchSheets) width(p patch) float64 {
	round, up := p.where()
	least := max(patchLeast, d.doc.TextWidth(p.label(round), headingFont), d.doc.TextWidth(up, smallFont))
	return max(p.loop.Bounds().W()+2*patchRoom, least)
}

func (d *patchSheets) rows() []patchRow {
	var rows []patchRow
	x := math.Inf(1)
	for _, p := range d.patches {
		w, h := d.width(p), p.loop.Bounds().H()+2*patchRoom+patchLines
		if x+w > d.paper.W-2*margin {
			rows, x = append(rows, patchRow{}), 0
		}
		row := &rows[len(rows)-1]
		row.patches, row.high = append(row.patches, p), max(row.high, h)
		x += w + patchGap
	}
	return rows
}

func (d *patchSheets) draw() {
	const foot = 10.0 // mm kept for the ruler
	var said []patchLine
	for i, words := range patchWords() {
		font := textFont
		if i == 0 {
			font = headingFont
		}
		for _, l := range d.breakLine(words, font, d.paper.W-2*margin) {
			said = append(said, patchLine{strings.TrimSpace(l), font})
		}
	}
	var pages [][]patchRow
	room := 0.0
	top := func(page int) float64 {
		y := d.paper.H - margin - 12
		if page == 0 {
			y -= float64(len(said))*patchLeading + 2
		}
		return y
	}
	for _, row := range d.rows() {
		if len(pages) == 0 || row.high > room {
			pages = append(pages, nil)
			room = top(len(pages)-1) - margin - foot
		}
		last := len(pages) - 1
		pages[last] = append(pages[last], row)
		room -= row.high + patchGap
	}
	for i, rows := range pages {
		d.doc.Page(d.paper.W, d.paper.H)
		y := d.paper.H - margin
		which := fmt.Sprintf("sheet %d of %d", i+1, len(pages))
		d.doc.Text(plane.Pt(d.paper.W-margin, y-4), which, strongFont, pdf.Right)
		d.doc.Text(plane.Pt(margin, y-4), d.shortened(export.Title(d.part.Design)+": patches to mark out by", titleFont, d.paper.W-2*margin-d.doc.TextWidth(which, strongFont)-5), titleFont, pdf.Left)
		d.doc.Text(plane.Pt(margin, y-8.6), strings.Join([]string{"Content number " + export.ContentNumber(d.part.Design), export.InsideWords(d.part), export.MM(d.report.Thickness) + " mm thick", "1:1"}, ", "), smallFont, pdf.Left)
		if i == 0 {
			for k, l := range said {
				d.doc.Text(plane.Pt(margin, y-10-float64(k+1)*patchLeading), l.text, l.font, pdf.Left)
			}
		}
		y = top(i)
		for _, row := range rows {
			x := margin
			for _, p := range row.patches {
				w := d.width(p)
				d.one(p, plane.Box{Min: plane.Pt(x, y-row.high), Max: plane.Pt(x+w, y)})
				x += w + patchGap
			}
			y -= row.high + patchGap
		}
		d.drawRuler(plane.Pt(margin, margin), plane.Pt(1, 0))
		d.doc.Text(plane.Pt(margin+rulerLength+4, margin), rulerWords, smallFont, pdf.Left)
	}
}

// one draws a patch with its words in a box.
func (d *patchSheets) one(p patch, in plane.Box) {
	b := p.loop.Bounds()
	// The drawing stands in the middle above the words.
	low := in.Min.Y + patchLines
	at := plane.Pt((in.Min.X+in.Max.X)/2, (low+in.Max.Y)/2).Sub(b.Centre())
	cutOut := b.Grow(patchRoom)
	d.doc.Loop(plane.Rect(cutOut), at, againPen)
	d.doc.Loop(p.loop, at, edgePen)
	for _, v := range []plane.Point{plane.Pt(patchArm, 0), plane.Pt(0, patchArm)} {
		d.doc.Line(at.Sub(v), at.Add(v), wastePen)
	}
	// The arrow that points up stands at the upper edge of the patch.
	tip := at.Add(plane.Pt(0, cutOut.Max.Y-0.3))
	for _, v := range []plane.Point{plane.Pt(-0.6, -0.9), plane.Pt(0.6, -0.9), plane.Pt(0, -1.7)} {
		d.doc.Line(tip, tip.Add(v), edgePen)
	}
	round, up := p.where()
	d.doc.Text(plane.Pt(at.X, at.Y+cutOut.Min.Y-2.8), p.label(round), headingFont, pdf.Centre)
	d.doc.Text(plane.Pt(at.X, at.Y+cutOut.Min.Y-5.8), up, smallFont, pdf.Centre)
}
