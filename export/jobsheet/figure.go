package jobsheet

import (
	"math"

	"fretband/export"
	"fretband/export/pdf"
	"fretband/export/picture"
	"fretband/pattern"
	"fretband/unroll/plane"
)

// figure is a small workshop drawing in mm of paper, y up, at the scale k: mm of paper
// to a mm of the part. It is drawn alike on paper and on the screen, as finely as paper
// can show and no finer.
type figure struct {
	title string
	k     float64
	box   plane.Box // of paper
	items []figureItem
}

// figureItem is a line, filled or not, or a word.
type figureItem struct {
	edges  plane.Chain
	closed bool
	white  bool // filled with white
	kind   lineKind
	text   string
	at     plane.Point
	align  pdf.Align
}

type lineKind int

const (
	edgeLine    lineKind = iota // of the part
	fineLine                    // dimensions
	centreLine                  // dashes and dots
	dashedLine                  // kept solid
	engraveLine                 // marks
)

// figureLetter is the size of letters in figures, mm.
const figureLetter = 2.4

// fitted builds a figure at the largest scale at which it fits, at most the scale most.
// Only what build draws of the part grows with the scale, so that two steps find it. Scales
// over 1 are whole.
func fitted(title string, size plane.Box, w, h, most float64, build func(f *figure)) figure {
	var f figure
	k := math.Min(most, math.Min(w/size.W(), h/size.H()))
	for range 3 {
		f = figure{title: title, k: k, box: plane.EmptyBox()}
		build(&f)
		round := f.box.W() - k*size.W()
		k = math.Min(most, math.Min((w-round)/size.W(), (h-(f.box.H()-k*size.H()))/size.H()))
		if k > 1 {
			k = math.Floor(k)
		}
		k = math.Max(k, 0.01)
	}
	f = figure{title: title, k: k, box: plane.EmptyBox()}
	build(&f)
	return f
}

// scaleWords say how large the figure is drawn.
func (f figure) scaleWords() string {
	if f.k >= 1 {
		return export.MM(f.k) + " : 1"
	}
	return "not to scale"
}

func (f figure) to(p plane.Point) plane.Point { return p.Mul(f.k) }

// loop and chain draw what is given in mm of the part.
func (f *figure) loop(l plane.Loop, kind lineKind) {
	f.box = f.box.Union(boxTimes(l.Bounds(), f.k))
	if es := picture.OnPaper(l.Edges(), f.k); len(es) > 1 {
		f.items = append(f.items, figureItem{edges: es, closed: true, kind: kind})
	}
}

func (f *figure) chain(es plane.Chain, kind lineKind) {
	f.box = f.box.Union(boxTimes(es.Bounds(), f.k))
	if on := picture.OnPaper(es, f.k); len(on) > 0 {
		f.items = append(f.items, figureItem{edges: on, kind: kind})
	}
}

func boxTimes(b plane.Box, k float64) plane.Box {
	return plane.Box{Min: b.Min.Mul(k), Max: b.Max.Mul(k)}
}

// stroke draws a line that is given on paper.
func (f *figure) stroke(a, b plane.Point, kind lineKind) {
	f.items = append(f.items, figureItem{edges: []plane.Edge{{A: a, B: b}}, kind: kind})
	f.box = f.box.Add(a).Add(b)
}

// word writes at a position on paper.
func (f *figure) word(p plane.Point, text string, align pdf.Align) {
	f.items = append(f.items, figureItem{text: text, at: p, align: align})
	w := wordWidth(text)
	left := p.X
	switch align {
	case pdf.Centre:
		left -= w / 2
	case pdf.Right:
		left -= w
	}
	f.box = f.box.Add(plane.Pt(left, p.Y-figureLetter*0.3)).Add(plane.Pt(left+w, p.Y+figureLetter*0.8))
}

func wordWidth(text string) float64 {
	return export.LetterWide * figureLetter * float64(len([]rune(text)))
}

// dimension draws a dimension line from a to b, mm of the part, off to the left of the
// way from a to b by a distance on paper, with its figure. Figures read level.
func (f *figure) dimension(a, b plane.Point, off float64, text string) {
	a, b = f.to(a), f.to(b)
	d := b.Sub(a).Unit()
	n := d.Left()
	p, q := a.Add(n.Mul(off)), b.Add(n.Mul(off))
	const gap, past = 0.8, 0.8
	if math.Abs(off) > gap {
		side := n.Mul(math.Copysign(1, off))
		f.stroke(a.Add(side.Mul(gap)), p.Add(side.Mul(past)), fineLine)
		f.stroke(b.Add(side.Mul(gap)), q.Add(side.Mul(past)), fineLine)
	}
	f.stroke(p, q, fineLine)
	f.arrow(p, d.Mul(-1))
	f.arrow(q, d)
	m := p.Mid(q)
	if math.Abs(d.Y) <= math.Abs(d.X) {
		m.Y += 0.7
		if wordWidth(text) > p.Dist(q)-1 { // wider than the line: clear of what the line ends at
			m.Y -= 1.4 + figureLetter
		}
		f.word(m, text, pdf.Centre)
		return
	}
	m.Y -= 0.36 * figureLetter
	if n.X*off > 0 {
		f.word(m.Add(plane.Pt(0.9, 0)), text, pdf.Left)
	} else {
		f.word(m.Add(plane.Pt(-0.9, 0)), text, pdf.Right)
	}
}

// arrow draws an arrowhead with its point at p that points along d.
func (f *figure) arrow(p, d plane.Point) {
	const long, half = 1.7, 0.3
	foot := p.Sub(d.Mul(long))
	side := d.Left().Mul(half)
	for i := -1.0; i <= 1; i++ {
		f.stroke(foot.Add(side.Mul(i)), p, fineLine)
	}
}

// leader points at a position of the part from a position on paper beside a word.
func (f *figure) leader(at plane.Point, from plane.Point, text string) {
	p := f.to(at)
	f.stroke(from, p, fineLine)
	f.arrow(p, p.Sub(from).Unit())
	f.word(from.Add(plane.Pt(0.6, -0.3*figureLetter)), text, pdf.Left)
}

// number draws a number in a circle at a position of the part, or at the figure's edge if
// that lies outside, and beside the numbers that are there already. It returns its position
// on paper.
func (f *figure) number(at plane.Point, text string, taken []plane.Point) plane.Point {
	r := 1.25 + 0.3*figureLetter*float64(max(0, len(text)-1))
	p := f.to(at)
	p.X = math.Min(math.Max(p.X, f.box.Min.X), f.box.Max.X)
	p.Y = math.Min(math.Max(p.Y, f.box.Min.Y), f.box.Max.Y)
	for i := 0; i < len(taken) && p.X+r < f.box.Max.X; i++ {
		if p.Dist(taken[i]) < 1.5*r {
			p.X = taken[i].X + 2.2*r
			i = -1 // the new position is to be free of all
		}
	}
	f.items = append(f.items, figureItem{edges: plane.Circle(p, r).Edges(), closed: true, white: true, kind: edgeLine})
	f.word(p.Sub(plane.Pt(0, 0.36*figureLetter)), text, pdf.Centre)
	return p
}

var figurePens = map[lineKind]pdf.Pen{
	edgeLine:    {Width: 0.15},
	fineLine:    {Width: 0.08, Grey: 0.25},
	centreLine:  {Width: 0.08, Dashes: []float64{3, 0.7, 0.5, 0.7}, Grey: 0.4},
	dashedLine:  {Width: 0.1, Dashes: []float64{1, 0.7}},
	engraveLine: {Width: 0.1, Grey: 0.5}, // no dashes: they hide what letters say
}

// pen is the pen of a kind of line. Many openings are drawn finer.
func (f figure) pen(kind lineKind) pdf.Pen {
	p := figurePens[kind]
	if kind == edgeLine && len(f.items) > 2000 {
		p.Width = 0.05
	}
	return p
}

// draw draws the figure on paper with its box's lower left corner at p.
func (f figure) draw(d *pdf.Doc, p plane.Point) {
	by := p.Sub(f.box.Min)
	for _, it := range f.items {
		if it.text != "" {
			d.Text(it.at.Add(by), it.text, pdf.Font{Size: figureLetter}, it.align)
			continue
		}
		if it.white {
			d.Fill(it.edges.Loop(), by, 1)
		}
		d.Chain(it.edges, it.closed, by, f.pen(it.kind))
	}
}

// blankLines draws the blank: outline, openings, what is kept solid, what is engraved.
func (f *figure) blankLines(s *pattern.Sheet) {
	f.loop(s.Flat.Outline.CCW(), edgeLine)
	for _, o := range s.Openings {
		f.loop(o.Loop, edgeLine)
	}
	for _, r := range s.Reserves {
		if nearBlank(s, r.Loop.Bounds()) {
			f.loop(r.Loop, dashedLine)
		}
	}
	for _, set := range s.Added {
		for _, l := range set.Marked() {
			f.loop(l, dashedLine)
		}
	}
	for _, m := range s.Engravings {
		for _, st := range m.Strokes {
			if on := picture.OnPaper(st.Edges(), f.k); len(on) > 0 {
				f.items = append(f.items, figureItem{edges: on, closed: st.Closed, kind: engraveLine})
			}
		}
	}
}

func (f figure) caption() string { return f.title + ", mm, " + f.scaleWords() }
