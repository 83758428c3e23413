package template

import (
	"math"
	"strconv"

	"fretband/export"
	"fretband/export/pdf"
	"fretband/pattern"
	"fretband/unroll/plane"
)

// drillShown is how much room round a pilot hole it takes for its circle to be told from
// the line that is sawn, mm: ours.
const drillShown = 0.15

// contentBox returns what of the blank's frame has to be shown: the part, and what is
// written round it.
func (t *template) contentBox() plane.Box {
	b := t.drawn.Union(export.Again(t.sheet).Bounds())
	under := t.underRows(t.outline.Bounds().W(), t.options.Parts())
	b = b.Grow(overhang)
	low, high := t.beyond()
	b.Min.Y = low - 1 - underStep*float64(len(under))
	b.Max.Y = max(b.Max.Y, high)
	return b
}

// beyond returns how far down and up the part is drawn with its centre lines and the numbers
// that stand off it.
func (t *template) beyond() (low, high float64) {
	low, high = t.drawn.Min.Y-overhang, t.drawn.Max.Y+overhang
	for _, m := range t.pilotMarks {
		if m.out {
			low, high = min(low, m.at.Y-ledApart), max(high, m.at.Y+m.height+ledApart)
		}
	}
	return low, high
}

// drawPart draws a copy of the part, moved by v.
func (t *template) drawPart(v plane.Point, copy int) {
	seen := t.area.Move(plane.Pt(-v.X, -v.Y))
	d := t.doc
	t.drawCentreLines(v)
	for _, m := range t.sheet.Engravings {
		if t.sheet.Design.Engravings[m.Engraving].Kind == pattern.TextEngraving {
			d.Fill(m.Frame, v, 1) // nor through a name
		}
	}
	for _, r := range t.sheet.Reserves {
		for _, l := range t.sheet.Again(r.Loop) {
			if !l.Bounds().Meets(seen) {
				continue
			}
			d.Loop(l, v, reservePen)
			if r.Reserve < len(t.sheet.Design.Reserves) {
				t.reserveWords(l, export.Plain(t.sheet.Design.Reserves[r.Reserve].Note), v)
			}
		}
	}
	for _, set := range t.sheet.Added {
		for _, one := range set.Marked() {
			for _, l := range t.sheet.Again(one) {
				if l.Bounds().Meets(seen) {
					d.Loop(l, v, reservePen)
				}
			}
		}
	}
	var openings []plane.Loop
	for _, o := range t.sheet.Openings {
		if o.Box.Meets(seen) {
			openings = append(openings, o.Loop.CCW())
		}
	}
	d.Filled(openings, v, 1, edgePen) // no centre line through a number
	for _, l := range export.Again(t.sheet) {
		d.Fill(l, v, 1)
		d.Loop(l, v, againPen)
	}
	if t.lapped {
		t.drawLap(v)
	} else {
		d.Loop(t.outline, v, outlinePen)
	}
	for _, m := range t.sheet.Engravings {
		for _, s := range m.Strokes {
			pen := gravePen
			if m.Inside {
				pen = innerPen
			}
			d.Chain(s.Edges(), s.Closed, v, pen)
		}
	}
	t.drawPilots(v, seen)
	t.drawUnder(v, seen, copy)
}

// drawPilots draws the pilot holes, the numbers of the openings, and the strokes on the
// waste side, which the outline has too.
func (t *template) drawPilots(v plane.Point, seen plane.Box) {
	var crosses, led []plane.Edge
	var holes []plane.Loop
	waste := append([]plane.Edge(nil), t.edges...)
	for _, m := range t.pilotMarks {
		if m.out && seen.Contains(m.at) {
			t.doc.Fill(plane.Rect(m.box(t.widthOf(strconv.Itoa(m.number), m.height)).Grow(numberClear/2)), v, 1) // no centre line through it
		}
	}
	for _, m := range t.pilotMarks {
		if !seen.Contains(m.pilot) {
			continue
		}
		if arm := m.arm(); arm > 0.05 {
			crosses = append(crosses,
				plane.Edge{A: m.pilot.Sub(plane.Pt(arm, 0)), B: m.pilot.Add(plane.Pt(arm, 0))},
				plane.Edge{A: m.pilot.Sub(plane.Pt(0, arm)), B: m.pilot.Add(plane.Pt(0, arm))})
		}
		if m.drill > 0 && m.room > m.drill/2+drillShown {
			holes = append(holes, plane.Circle(m.pilot, m.drill/2))
		}
		for _, e := range m.waste {
			waste = append(waste, plane.Edge{A: e.A.Add(m.pilot), B: e.B.Add(m.pilot)})
		}
		if m.out {
			led = append(led, m.led)
		}
		if m.numbered {
			t.doc.Text(m.at.Add(v), strconv.Itoa(m.number), digits(m.height), pdf.Centre)
		}
	}
	t.doc.Lines(waste, v, wastePen)
	t.doc.Lines(crosses, v, engravingPen)
	t.doc.Loops(holes, v, wastePen)
	t.doc.Lines(led, v, ledPen)
}

// drawCentreLines draws the line along the middle, that across it, and those half way
// to the ends.
func (t *template) drawCentreLines(v plane.Point) {
	f := t.sheet.Flat
	t.doc.Chain(t.middleLine(), false, v, centrePen)
	for _, x := range [3]float64{0, -f.Length / 4, f.Length / 4} {
		low, high := f.EdgesAt(x)
		if low >= high { // made by hand
			b := t.outline.Bounds()
			low, high = b.Min.Y, b.Max.Y
		}
		out := overhang
		if x != 0 {
			out /= 2
		}
		t.doc.Line(f.Place(x, low-out).Add(v), f.Place(x, high+out).Add(v), centrePen)
	}
}

// middleLine returns the line along the middle of the blank: the arc of a flared
// one.
func (t *template) middleLine() []plane.Edge {
	f := t.sheet.Flat
	if !f.Flared() {
		b := t.outline.Bounds()
		return []plane.Edge{{A: plane.Pt(b.Min.X-overhang, 0), B: plane.Pt(b.Max.X+overhang, 0)}}
	}
	const n = 4
	long := f.Length/2 + overhang
	es := make([]plane.Edge, n)
	for i := range es {
		at := func(i int) plane.Point { return f.Place(long*(2*float64(i)/n-1), 0) }
		// The arc turns by its length over the apex's distance, clockwise if that
		// lies below.
		es[i] = plane.Edge{A: at(i), B: at(i + 1), Bulge: math.Tan(2 * long / f.Apex() / n / 4)}
	}
	return es
}

// reserveWords writes what a reserve is for into it, where there is room.
func (t *template) reserveWords(l plane.Loop, words string, v plane.Point) {
	b := l.Bounds()
	for _, size := range []float64{smallFont.Size, 1.9, 1.6} {
		f := pdf.Font{Size: size}
		// Over the middle, so that a centre line through it stays to be seen; a
		// circle is narrower up there.
		const over = 0.5
		w, up := t.doc.TextWidth(words, f)/2, over+f.CapHeight()
		c := b.Centre()
		if l.Contains(plane.Pt(c.X-w-0.3, c.Y+up+0.3)) && l.Contains(plane.Pt(c.X+w+0.3, c.Y+up+0.3)) {
			if t.engravedOver(plane.Box{Min: plane.Pt(c.X-w, c.Y+over), Max: plane.Pt(c.X+w, c.Y+up)}) {
				return // the notes say what it is for
			}
			t.doc.Text(plane.Pt(c.X, c.Y+over).Add(v), words, f, pdf.Centre)
			return
		}
	}
}

// engravedOver reports whether an engraving is drawn where words would be.
func (t *template) engravedOver(b plane.Box) bool {
	for _, m := range t.sheet.Engravings {
		if engravedBox(m).Meets(b) {
			return true
		}
	}
	return false
}
