package own

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"

	"fretband/unroll/plane"
)

// Outline reads path data of exactly one closed curve, in mm, and leaves it where
// it was drawn, y up: what is at (3, -2) in the data comes to be at (3, 2).
// The loop runs counter-clockwise and can be cut out ([Check]).
func Outline(d string) (plane.Loop, error) {
	cs, err := placed(d)
	if err != nil {
		return nil, err
	}
	closed, open := join(cs, plane.Snap)
	switch {
	case len(open) > 0:
		return nil, fmt.Errorf("%s is open: it ends %.3g mm from where it begins; close it", open[0].name, open[0].gap())
	case len(closed) != 1:
		return nil, fmt.Errorf("the path holds %d closed curves; it must be one", len(closed))
	}
	l, err := closed[0].loop(plane.FitTolerance)
	if err != nil {
		return nil, err
	}
	if err := Check(l); err != nil {
		return nil, err
	}
	return l.CCW(), nil
}

// Stroke is a line that is drawn, not cut: a chain of lines and arcs. If it is
// closed, the last vertex is joined to the first; else the last one's bulge does
// not count.
type Stroke struct {
	Line   plane.Loop
	Closed bool
}

// Edges returns the chain's lines and arcs in order.
func (s Stroke) Edges() plane.Chain {
	var es plane.Chain
	for i := range s.Line {
		if i == len(s.Line)-1 && !s.Closed {
			break
		}
		es = append(es, s.Line.Edge(i))
	}
	return es
}

// Followed returns the stroke as a machine can follow it, with no edge shorter than
// [plane.ShortestEdge]; nothing moves by more than twice that. It is false for one that is no
// longer itself.
func (s Stroke) Followed() (Stroke, bool) {
	var l plane.Loop
	for _, v := range s.Line {
		if n := len(l); n > 0 && (plane.Edge{A: l[n-1].Point, B: v.Point, Bulge: l[n-1].Bulge}).TooShort() {
			l[n-1].Bulge = v.Bulge // on to the vertex after it
			continue
		}
		l = append(l, v)
	}
	// It ends where it did.
	for n := len(l); n > 1; n-- {
		if l = l[:n]; !s.Closed {
			l[n-1].Point = s.Line[len(s.Line)-1].Point
			if !l.Edge(n - 2).TooShort() {
				break
			}
		} else if !l.Edge(n - 1).TooShort() {
			break
		}
	}
	f := Stroke{l, s.Closed}
	es := f.Edges()
	return f, len(es) > 0 && !slices.ContainsFunc(es, plane.Edge.TooShort)
}

// Strokes reads path data of open and closed curves, in mm, where they were drawn,
// y up. Curves may cross each other and themselves.
func Strokes(d string) ([]Stroke, error) {
	cs, err := placed(d)
	if err != nil {
		return nil, err
	}
	var out []Stroke
	for _, c := range cs {
		s := Stroke{Closed: c.closed || c.gap() <= plane.Snap && c.turns(plane.Snap)}
		for _, p := range c.pieces {
			es, err := p.edges(plane.FitTolerance)
			if err != nil {
				return nil, err
			}
			for _, e := range es {
				if e.Len() > plane.Snap && !math.IsNaN(e.Bulge) {
					s.Line = append(s.Line, plane.Vertex{Point: e.A, Bulge: e.Bulge})
				}
			}
		}
		if len(s.Line) == 0 {
			continue
		}
		if !s.Closed || c.gap() > plane.Snap { // a close draws the last line
			s.Line = append(s.Line, plane.Vertex{Point: c.pieces[len(c.pieces)-1].end()})
		}
		out = append(out, s)
	}
	if len(out) == 0 {
		return nil, errors.New("the path holds no curve")
	}
	return out, nil
}

// placed reads the curves of path data that are of a size that can be used.
func placed(d string) ([]curve, error) {
	if len(d) > MostBytes {
		return nil, fmt.Errorf("the path has %d bytes; at most %d are read", len(d), MostBytes)
	}
	cs, err := readPath(d, "curve")
	if err != nil {
		return nil, err
	}
	var drawn []curve
	n := 0
	for _, c := range upright(cs) {
		if len(c.pieces) == 0 {
			continue
		}
		for _, p := range c.pieces {
			for _, q := range p.hull() {
				if !(math.Abs(q.X) <= plane.MaxCoord && math.Abs(q.Y) <= plane.MaxCoord) {
					return nil, fmt.Errorf("%s: a coordinate lies outside %g mm", c.name, float64(plane.MaxCoord))
				}
			}
		}
		drawn = append(drawn, c)
		n += len(c.pieces)
	}
	if n == 0 {
		return nil, errors.New("the path holds no curve; path data begin with M")
	}
	if n > MostEdges {
		return nil, fmt.Errorf("the path has %d pieces; at most %d are read: draw it with fewer points", n, MostEdges)
	}
	return drawn, nil
}

// Data writes a loop as path data, y down, so that [Outline] gives it back: the
// vertices to the last digit, the bulges of arcs to within a few parts in 1e12.
func Data(l plane.Loop) string {
	if len(l) == 0 {
		return ""
	}
	b := append([]byte{}, 'M')
	pair := func(p plane.Point) {
		b = digits(b, p.X)
		b = append(b, ' ')
		b = digits(b, -p.Y)
	}
	pair(l[0].Point)
	for i := range l {
		e := l.Edge(i)
		if e.IsLine() {
			if i < len(l)-1 { // the closing line is drawn by Z
				b = append(b, 'L')
				pair(e.B)
			}
			continue
		}
		r := e.Chord() * (1 + e.Bulge*e.Bulge) / (4 * math.Abs(e.Bulge))
		b = append(b, 'A')
		b = digits(b, r)
		b = append(b, ' ')
		b = digits(b, r)
		b = append(b, " 0 "...)
		b = append(b, flag(math.Abs(e.Bulge) > 1), ' ', flag(e.Bulge < 0), ' ')
		pair(e.B)
	}
	return string(append(b, 'Z'))
}

// flag writes a flag of an arc. Since y is turned over, an arc that runs
// counter-clockwise here has its sweep flag off.
func flag(on bool) byte {
	if on {
		return '1'
	}
	return '0'
}

// digits appends a number in as few digits as say it exactly.
func digits(b []byte, v float64) []byte {
	if v == 0 {
		v = 0 // not -0
	}
	return strconv.AppendFloat(b, v, 'g', -1, 64)
}
