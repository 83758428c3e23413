package pattern

import (
	"math"
	"slices"

	"fretband/unroll"
	"fretband/unroll/plane"
)

// TieLine returns the line that the middle of a tie runs along from one of its positions.
func TieLine(f unroll.Flat, e Edit, p EditPosition) plane.Edge {
	dx, dy, bow := e.SpanXMM, e.SpanYMM, e.BowMM
	if p.FlipX {
		dx, bow = -dx, -bow
	}
	if p.FlipY {
		dy, bow = -dy, -bow
	}
	x, v := f.Where(p.At)
	to := f.Placeable().Nearest(plane.Pt(x+dx, v+dy))
	l := plane.Edge{A: p.At, B: f.Place(to.X, to.Y)}
	if chord := l.Chord(); chord > plane.Snap {
		l.Bulge = max(-1, min(1, -2*bow/chord))
	}
	return l
}

// TieOutline returns the edge of a tie between the ends of its line.
func TieOutline(line plane.Edge, width float64) plane.Loop {
	w := newTieWay(line, width/2)
	return w.stripe(0, w.length)
}

// TieWidth returns the width that a tie is laid with: its own or, if that is less, the
// bridge rule.
func (e Edit) TieWidth(r DesignRules) float64 { return max(e.WidthMM, r.BridgeMM) }

// tieWay is the way that the middle of a tie takes: its line and, beyond both ends, straight
// on. Places on it are lengths from the line's first end, negative before it.
type tieWay struct {
	line   plane.Edge
	length float64
	half   float64 // of the width
}

// sharpest is the least radius of a tie's bow, in half widths: its inner side is an arc
// too. A sharper one is laid as that.
const sharpest = 1.05

func newTieWay(l plane.Edge, half float64) tieWay {
	if r := sharpest * half; l.Bulge != 0 && l.Radius() < r {
		// The bulge b of an arc of radius r over a chord c: c (1 + b^2) = 4 r b.
		k := 2 * r / l.Chord()
		l.Bulge = math.Copysign(k-math.Sqrt(max(0, k*k-1)), l.Bulge)
	}
	return tieWay{l, l.Len(), half}
}

// edges returns the way from one place to another, by one to three edges.
func (w tieWay) edges(from, to float64) []plane.Edge {
	var es []plane.Edge
	if from < 0 {
		es = append(es, plane.Edge{A: w.at(from), B: w.at(min(to, 0))})
	}
	if a, b := max(from, 0), min(to, w.length); a < b {
		part := w.line
		if a > 0 || b < w.length {
			part = w.line.Part(a/w.length, b/w.length)
		}
		es = append(es, part)
	}
	if to > w.length {
		es = append(es, plane.Edge{A: w.at(max(from, w.length)), B: w.at(to)})
	}
	return es
}

func (w tieWay) at(s float64) plane.Point {
	switch {
	case s < 0:
		return w.line.A.Add(w.line.Tangent(0).Mul(s))
	case s > w.length:
		return w.line.B.Add(w.line.Tangent(1).Mul(s - w.length))
	}
	return w.line.At(s / w.length)
}

// stripe returns the edge of the tie from one place of its way to another, square at both
// ends, counter-clockwise.
func (w tieWay) stripe(from, to float64) plane.Loop {
	es := w.edges(from, to)
	var right, left plane.Loop
	for i, e := range es {
		a, b := e.Tangent(0).Left().Mul(w.half), e.Tangent(1).Left().Mul(w.half)
		right = append(right, plane.Vertex{Point: e.A.Sub(a), Bulge: e.Bulge})
		left = append(left, plane.Vertex{Point: e.A.Add(a)})
		if i > 0 {
			// The bulge of an edge is at the vertex that it leaves: run backward, at its end.
			left[i].Bulge = -es[i-1].Bulge
		}
		if i == len(es)-1 {
			right = append(right, plane.Vertex{Point: e.B.Sub(b)})
			left = append(left, plane.Vertex{Point: e.B.Add(b), Bulge: -e.Bulge})
		}
	}
	slices.Reverse(left)
	return append(right, left...)
}

// within lists the stretches of the way, from one place to another, that lie in a region.
func (w tieWay) within(r plane.Region, from, to float64) []crossed {
	cuts := []float64{from, to}
	at := from
	for _, e := range w.edges(from, to) {
		n := e.Len()
		box := e.Bounds()
		for _, l := range r {
			for i := range l {
				o := l.Edge(i)
				if !box.Nearer(o.Bounds(), 2*plane.Snap) {
					continue
				}
				for _, c := range plane.Crossings(e, o) {
					cuts = append(cuts, at+c.A*n)
				}
			}
		}
		at += n
	}
	slices.Sort(cuts)
	var in []crossed
	for i := range cuts[1:] {
		a, b := cuts[i], cuts[i+1]
		switch {
		case b-a < touch || !r.Contains(w.at((a+b)/2)):
		case len(in) > 0 && a-in[len(in)-1].to < touch:
			in[len(in)-1].to = b
		default:
			in = append(in, crossed{from: a, to: b})
		}
	}
	return in
}
