package export

import (
	"fmt"
	"html"
	"math"
	"strings"

	"fretband/export/pdf"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// figure is a small workshop drawing, in mm of the part, y up. It is drawn alike on
// paper and on the screen, at whatever scale has room.
type figure struct {
	title string
	box   plane.Box
	items []figureItem
}

// figureItem is a line, filled or not, or a word.
type figureItem struct {
	edges  []plane.Edge
	closed bool
	kind   lineKind
	text   string
	at     plane.Point
	align  pdf.Align
	turned bool // reads upwards
}

type lineKind int

const (
	edgeLine    lineKind = iota // of the part
	fineLine                    // dimensions
	centreLine                  // dashes and dots
	dashedLine                  // kept solid
	engraveLine                 // marks
)

func (f *figure) loop(l plane.Loop, k lineKind) {
	f.items = append(f.items, figureItem{edges: l.Edges(), closed: true, kind: k})
	f.box = f.box.Union(l.Bounds())
}

func (f *figure) chain(es []plane.Edge, k lineKind) {
	if len(es) == 0 {
		return
	}
	f.items = append(f.items, figureItem{edges: es, kind: k})
	for _, e := range es {
		f.box = f.box.Union(e.Bounds())
	}
}

func (f *figure) line(a, b plane.Point, k lineKind) { f.chain([]plane.Edge{{A: a, B: b}}, k) }

// dimension draws a dimension line from a to b, off to the left of the way from a
// to b by a distance, with its figure.
func (f *figure) dimension(a, b plane.Point, off, letter float64, text string) {
	d := b.Sub(a).Unit()
	n := d.Left()
	p, q := a.Add(n.Mul(off)), b.Add(n.Mul(off))
	gap := letter * 0.4
	for _, e := range [2][2]plane.Point{{a, p}, {b, q}} {
		if e[0].Dist(e[1]) > gap {
			f.line(e[0].Add(n.Mul(math.Copysign(gap, off))), e[1].Add(n.Mul(math.Copysign(gap, off))), fineLine)
		}
	}
	f.line(p, q, fineLine)
	for _, e := range [2]struct {
		at  plane.Point
		dir float64
	}{{p, 1}, {q, -1}} { // strokes across the ends, as the trade draws them
		s := d.Mul(e.dir).Add(n).Unit().Mul(letter * 0.35)
		f.line(e.at.Sub(s), e.at.Add(s), fineLine)
	}
	m := p.Mid(q)
	upright := math.Abs(d.Y) > math.Abs(d.X)
	if upright {
		m.X -= letter * 0.35
	} else {
		m.Y += letter * 0.3
	}
	f.items = append(f.items, figureItem{text: text, at: m, align: pdf.Centre, turned: upright})
	f.box = f.box.Union(plane.Box{Min: m.Sub(plane.Pt(letter, letter)), Max: m.Add(plane.Pt(letter, letter))})
}

// blankFigure is the flat blank with its length, width and the width of its ends.
// letter is the height of figures, mm of the part.
func blankFigure(s *pattern.Sheet, r *check.Report, letter float64) figure {
	f := figure{title: "The blank, " + faceShown(s), box: plane.EmptyBox()}
	f.loop(s.Flat.Outline.CCW(), edgeLine)
	for _, o := range s.Openings {
		f.loop(o.Loop, edgeLine)
	}
	for _, k := range s.Reserves {
		f.loop(k.Loop, dashedLine)
	}
	for _, e := range engravings(s) {
		for _, st := range e.strokes {
			f.items = append(f.items, figureItem{edges: st.Edges(), closed: st.Closed, kind: engraveLine})
		}
	}
	b := s.Flat.Outline.Bounds()
	f.line(plane.Pt(0, b.Min.Y-letter), plane.Pt(0, b.Max.Y+letter), centreLine)
	f.line(plane.Pt(b.Min.X-letter, 0), plane.Pt(b.Max.X+letter, 0), centreLine)
	if s.Flat.Flared() {
		f.dimension(plane.Pt(b.Min.X, b.Min.Y), plane.Pt(b.Max.X, b.Min.Y), -2.2*letter, letter, "chord "+mm(b.W()))
	} else {
		f.dimension(plane.Pt(b.Min.X, b.Min.Y), plane.Pt(b.Max.X, b.Min.Y), -2.2*letter, letter, mm(r.BlankLen))
	}
	f.dimension(plane.Pt(b.Min.X, b.Min.Y), plane.Pt(b.Min.X, b.Max.Y), 2.2*letter, letter, mm(b.H()))
	return f
}

func faceShown(s *pattern.Sheet) string {
	if s.Design.Band.Making == unroll.Formed {
		return drawnFace(s)
	}
	return "flat, outer face up"
}

// profileFigure is the band seen along its axis: both faces at mid width, with the
// inside across and the gap.
func profileFigure(s *pattern.Sheet, letter float64) figure {
	f := figure{title: "The band along its axis", box: plane.EmptyBox()}
	t := s.Flat.Thickness
	const n = 240
	at := func(i int, depth float64) plane.Point {
		x := s.Flat.Length * (float64(i)/n - 0.5)
		p := s.Flat.Bend(s.Flat.Place(x, 0), depth)
		return plane.Pt(p.X, p.Y)
	}
	inner := plane.EmptyBox()
	var faces [2][]plane.Edge
	for k, depth := range [2]float64{0, t} {
		for i := range n {
			faces[k] = append(faces[k], plane.Edge{A: at(i, depth), B: at(i+1, depth)})
		}
		f.chain(faces[k], edgeLine)
	}
	for i := range n + 1 {
		inner = inner.Add(at(i, 0))
	}
	if s.Design.Band.Kind == unroll.Cuff {
		f.line(at(0, 0), at(0, t), edgeLine)
		f.line(at(n, 0), at(n, t), edgeLine)
		a, b := at(n, 0), at(0, 0)
		if a.X > b.X {
			a, b = b, a
		}
		f.dimension(a, b, -3*letter, letter, "gap straight across "+mm(a.Dist(b)))
	}
	mid := inner.Centre()
	f.dimension(plane.Pt(inner.Min.X, mid.Y), plane.Pt(inner.Max.X, mid.Y), 0, letter, mm(inner.W()))
	f.dimension(plane.Pt(f.box.Max.X, inner.Min.Y), plane.Pt(f.box.Max.X, inner.Max.Y), -4*letter, letter, mm(inner.H()))
	return f
}

// sectionFigure is the section across the band at the front.
func sectionFigure(s *pattern.Sheet, r *check.Report, letter float64) figure {
	f := figure{title: "Section at the front", box: plane.EmptyBox()}
	bottom, top := s.Flat.EdgesAt(0)
	const n = 48
	at := func(i int, depth float64) plane.Point {
		p := s.Flat.Bend(s.Flat.Place(0, bottom+(top-bottom)*float64(i)/n), depth)
		return plane.Pt(p.Y, p.Z)
	}
	var l plane.Loop
	for i := range n + 1 {
		l = append(l, plane.Vertex{Point: at(i, 0)})
	}
	for i := n; i >= 0; i-- {
		l = append(l, plane.Vertex{Point: at(i, s.Flat.Thickness)})
	}
	f.loop(l, edgeLine)
	b := f.box
	f.dimension(plane.Pt(b.Min.X, b.Min.Y), plane.Pt(b.Min.X, b.Max.Y), 1.8*letter, letter, mm(b.H()))
	f.items = append(f.items, figureItem{text: "t " + mm(r.Thickness), at: plane.Pt(b.Max.X+letter*0.5, b.Centre().Y), align: pdf.Left})
	f.box = f.box.Union(plane.Box{Min: b.Max, Max: b.Max.Add(plane.Pt(4*letter, 0))})
	return f
}

// scaleFor returns paper mm to part mm so that the figure has room, never over 1.
func (f figure) scaleFor(w, h float64) float64 {
	return math.Min(1, math.Min(w/f.box.W(), h/f.box.H()))
}

var figurePens = map[lineKind]pdf.Pen{
	edgeLine:    {Width: 0.15},
	fineLine:    {Width: 0.08, Grey: 0.25},
	centreLine:  {Width: 0.08, Dashes: []float64{3, 0.7, 0.5, 0.7}, Grey: 0.4},
	dashedLine:  {Width: 0.1, Dashes: []float64{1, 0.7}},
	engraveLine: {Width: 0.1, Grey: 0.5},
}

// draw draws the figure on paper with its box's lower left corner at p.
func (f figure) draw(d *pdf.Doc, p plane.Point, k, letter float64) {
	to := func(q plane.Point) plane.Point { return q.Sub(f.box.Min).Mul(k).Add(p) }
	for _, it := range f.items {
		if it.text != "" {
			font := pdf.Font{Size: letter * k}
			q := to(it.at)
			if it.turned { // the library writes level only: beside the line
				q.X -= letter * k * 0.3
				d.Text(q, it.text, font, pdf.Right)
				continue
			}
			d.Text(q, it.text, font, it.align)
			continue
		}
		es := make([]plane.Edge, len(it.edges))
		for i, e := range it.edges {
			es[i] = plane.Edge{A: to(e.A), B: to(e.B), Bulge: e.Bulge}
		}
		d.Chain(es, it.closed, plane.Point{}, figurePens[it.kind])
	}
}

// svg returns the figure as an SVG element that is w mm wide at the most.
func (f figure) svg(w, h, letter float64) string {
	k := f.scaleFor(w, h)
	var b strings.Builder
	fmt.Fprintf(&b, "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%smm\" height=\"%smm\" viewBox=\"0 0 %s %s\" role=\"img\" aria-label=\"%s\">\n",
		decimal(f.box.W()*k, 1), decimal(f.box.H()*k, 1), mm(f.box.W()), mm(f.box.H()), html.EscapeString(f.title))
	frame := svgFrame{x: -f.box.Min.X, y: f.box.Max.Y}
	styles := map[lineKind]string{
		edgeLine:    `stroke="#000" stroke-width="%s"`,
		fineLine:    `stroke="#444" stroke-width="%s"`,
		centreLine:  `stroke="#777" stroke-width="%s" stroke-dasharray="3 .7 .5 .7"`,
		dashedLine:  `stroke="#000" stroke-width="%s" stroke-dasharray="1 .7"`,
		engraveLine: `stroke="#777" stroke-width="%s"`,
	}
	for _, it := range f.items {
		if it.text != "" {
			q := frame.at(it.at)
			turn := ""
			if it.turned {
				turn = fmt.Sprintf(" transform=\"rotate(-90 %s %s)\"", mm(q.X), mm(q.Y))
			}
			anchor := map[pdf.Align]string{pdf.Left: "start", pdf.Centre: "middle", pdf.Right: "end"}[it.align]
			fmt.Fprintf(&b, "<text x=\"%s\" y=\"%s\" font-size=\"%s\" text-anchor=\"%s\"%s>%s</text>\n",
				mm(q.X), mm(q.Y), mm(letter), anchor, turn, html.EscapeString(it.text))
			continue
		}
		pen := fmt.Sprintf(styles[it.kind], decimal(figurePens[it.kind].Width/k, 3))
		fmt.Fprintf(&b, "<path fill=\"none\" %s d=\"%s\"/>\n", pen, frame.edges(it.edges, it.closed))
	}
	b.WriteString("</svg>\n")
	return b.String()
}
