package template

import (
	"errors"
	"math"
	"slices"

	"fretband/export"
	"fretband/export/pdf"
	"fretband/pattern"
	"fretband/unroll/plane"
)

// Measures of a strip that is wrapped round a band, mm: ours, but for the paper's thickness,
// which is that of common printing paper of 80 g/m² (common practice).
const (
	wrapPaper = 0.1
	wrapLap   = 8.0 // how far one end runs under the other
	wrapStep  = 0.1 // chords of what is drawn on the strip
)

// ErrNoStrip says that the bench can't have a template of a band.
var ErrNoStrip = errors.New("no saw template: the band is made in the round and is domed or flared, and no strip of paper lies flat on it: " +
	"make the patches to mark out by instead")

// strip returns the sheet as it is drawn on a strip of paper round the outside of the band:
// lengths along the band are those half way through the paper.
func strip(s *pattern.Sheet, o export.Options) (*pattern.Sheet, error) {
	f := s.Flat
	if export.MarkedOut(s, o) {
		return nil, ErrNoStrip
	}
	// The drawing's x, from the middle, on the strip: a table of its integral.
	const n = 4096
	step := f.Length / n
	sums := make([]float64, n+1)
	for i := range n {
		along, _ := f.Stretch(plane.Pt(step*(float64(i)+0.5)-f.Length/2, 0), f.Thickness+wrapPaper/2)
		sums[i+1] = sums[i] + along*step
	}
	long := sums[n]
	onto := func(p plane.Point) plane.Point {
		at := p.X/f.Length + 0.5
		round := math.Floor(at)
		k := (at - round) * n
		i := min(int(k), n-1)
		return plane.Pt(long*(round-0.5)+sums[i]+(k-float64(i))*(sums[i+1]-sums[i]), p.Y)
	}
	chain := func(es []plane.Edge, closed bool) []plane.Point {
		var pts []plane.Point
		for _, e := range es {
			m := max(1, int(math.Ceil(e.Len()/wrapStep)))
			for k := range m {
				pts = append(pts, onto(e.At(float64(k)/float64(m))))
			}
		}
		if !closed && len(es) > 0 {
			pts = append(pts, onto(es[len(es)-1].B))
		}
		return pts
	}
	loop := func(l plane.Loop) plane.Loop { return plane.Polygon(chain(l.Edges(), true)...) }
	w := *s
	w.Flat = f.OnStrip(long, loop(f.Outline))
	w.Openings = slices.Clone(s.Openings)
	for i := range w.Openings {
		o := &w.Openings[i]
		o.Loop, o.Shape = loop(o.Loop), -1
		o.Box = o.Loop.Bounds()
	}
	w.Reserves = slices.Clone(s.Reserves)
	for i := range w.Reserves {
		w.Reserves[i].Loop = loop(w.Reserves[i].Loop)
	}
	w.Added = slices.Clone(s.Added)
	for i := range w.Added {
		w.Added[i] = w.Added[i].Mapped(loop)
	}
	w.Engravings = slices.Clone(s.Engravings)
	for i := range w.Engravings {
		m := &w.Engravings[i]
		m.Frame = loop(m.Frame)
		m.Strokes = slices.Clone(m.Strokes)
		for k := range m.Strokes {
			st := &m.Strokes[k]
			pts := chain(st.Edges(), st.Closed)
			st.Line = plane.Polygon(pts...)
		}
	}
	return &w, nil
}

// wrapWords say how the strip is laid and by what it is checked.
func (t *template) wrapWords() []string {
	f := t.part.Flat
	lines := []string{"Cut the strip out and wrap it once round the outside of the ready band, its printed side out. Saw and drill from the outside; the band is not bent."}
	said := pattern.Say("Round the outside it measures %.2f mm from line to line, paper of %s mm counted in", t.sheet.Flat.Length, export.MM(wrapPaper))
	if f.Oval.A == f.Oval.B {
		said = pattern.Say("Of a band of %.2f mm outside diameter. ", 2*(f.Oval.A+f.Thickness)) + said
	}
	if t.part.Seamless() {
		return append(lines, said+pattern.Say(". The right end runs %s mm under the left one: the left end's line lies on the dashed line of the right end. If they don't meet, the print or the band is not to size.", export.MM(wrapLap)))
	}
	return append(lines, said+".")
}

// drawLap draws the long edges and the ends of a strip whose ends overlap. No line at an end
// runs through an opening.
func (t *template) drawLap(v plane.Point) {
	half := t.sheet.Flat.Length / 2
	b := t.outline.Bounds()
	const beside = 1.5 // from an opening to the line at an end
	for _, e := range t.outline.Edges() {
		if math.Abs(e.A.X-e.B.X) > plane.Snap {
			t.doc.Chain([]plane.Edge{e}, false, v, outlinePen)
		}
	}
	openings := export.Again(t.sheet)
	for _, o := range t.sheet.Openings {
		openings = append(openings, o.Loop)
	}
	clear := func(p plane.Point) bool {
		for _, l := range openings {
			if l.Bounds().Grow(beside).Contains(p) && (l.Contains(p) || l.Nearest(p).D < numberClear) {
				return false
			}
		}
		return true
	}
	for _, end := range []struct {
		x   float64
		pen pdf.Pen
	}{{-half, outlinePen}, {half, joinPen}} {
		var from *plane.Point
		for y := b.Min.Y; ; y += wrapStep {
			p := plane.Pt(end.x, min(y, b.Max.Y))
			switch ok := clear(p); {
			case ok && from == nil:
				from = &p
			case from != nil && (!ok || y >= b.Max.Y):
				t.doc.Line(from.Add(v), p.Add(v), end.pen)
				from = nil
			}
			if y >= b.Max.Y {
				break
			}
		}
	}
	lap := plane.Pt(half+wrapLap, b.Min.Y)
	for _, y := range [2]float64{b.Min.Y, b.Max.Y} {
		t.doc.Line(plane.Pt(half, y).Add(v), plane.Pt(lap.X, y).Add(v), againPen)
	}
	t.doc.Line(lap.Add(v), plane.Pt(lap.X, b.Max.Y).Add(v), outlinePen)
	t.doc.Text(plane.Pt(half+wrapLap/2, b.Max.Y+1).Add(v), "goes under", smallFont, pdf.Centre)
}
