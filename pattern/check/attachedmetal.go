package check

import (
	"cmp"
	"math"
	"slices"

	"fretband/pattern"
	"fretband/unroll/plane"
)

// metalUnder is how much metal lies between a way and the base: what the way has under
// it less the openings under it. An opening counts whole where the way runs over one position
// of it, its anchor: ways run through metal and along openings, so a closed one runs round
// all of an opening or round nothing of it, and encloses just so much metal as it has under
// it. On a band that wraps the anchors repeat.
type metalUnder struct {
	anchors []anchor // by x
	from    float64  // where the blank begins
	period  float64  // of a band that wraps; else 0
	base    float64  // height: of a band that wraps its lower edge on average, so that under that lies nothing
	edge    *walk    // along the blank's edge
	all     float64  // metal, mm^2
}

// anchor is a position in an opening.
type anchor struct {
	plane.Point
	area float64 // of the opening, mm^2
}

// chordError is how far chords of edges may lie from their arcs where metal is
// weighed, mm.
const chordError = 1e-3

func newMetalUnder(s *pattern.Sheet) *metalUnder {
	box := s.Flat.Outline.Bounds()
	m := &metalUnder{from: box.Min.X, edge: newWalk(s.Flat.Outline, s.Flat.Outline.Ready())}
	if s.Flat.Wraps() {
		m.period = box.W()
		below := 0.0
		for _, e := range edgesByKind(s)[bottomEdge] {
			below += m.beneath(e.Flatten(chordError))
		}
		m.base = below / m.period
	}
	m.all = s.Flat.Outline.Area()
	for i := range s.Openings {
		a := anchorOf(s.Openings[i].Loop)
		a.X -= m.rounds(a.X) * m.period
		m.anchors = append(m.anchors, a)
		m.all -= a.area
	}
	slices.SortFunc(m.anchors, func(a, b anchor) int { return cmp.Compare(a.X, b.X) })
	return m
}

// anchorOf returns a position well within a loop, and at no corner, end or middle of it, where
// ways turn.
func anchorOf(l plane.Loop) anchor {
	box := l.Bounds()
	x := box.Min.X + (math.Sqrt(5)-1)/2*box.W()
	pts := closed(l)
	var at []float64
	for i := 1; i < len(pts); i++ {
		if p, q := pts[i-1], pts[i]; (p.X <= x) != (q.X <= x) {
			at = append(at, heightAt(p, q, x))
		}
	}
	slices.Sort(at)
	a := anchor{area: math.Abs(l.Area())}
	for i := 1; i < len(at); i += 2 { // the middle of the widest
		if y := (at[i-1] + at[i]) / 2; i == 1 || at[i]-at[i-1] > 2*math.Abs(at[i]-a.Y) {
			a.Point = plane.Pt(x, y)
		}
	}
	return a
}

// closed returns the corners of chords of a loop, the first once more at the end.
func closed(l plane.Loop) []plane.Point {
	pts := l.Flatten(chordError)
	return append(pts, pts[0])
}

// heightAt returns the height of the line through p and q at x.
func heightAt(p, q plane.Point, x float64) float64 {
	return p.Y + (q.Y-p.Y)*(x-p.X)/(q.X-p.X)
}

// rounds returns how many periods on x lies.
func (m *metalUnder) rounds(x float64) float64 {
	if m.period == 0 {
		return 0
	}
	return math.Floor((x - m.from) / m.period)
}

// beneath returns the metal under a chain of chords, mm^2, counted positive where it
// runs to the right. Round a closed way it is the metal inside.
func (m *metalUnder) beneath(pts []plane.Point) float64 {
	sum := 0.0
	for i := 1; i < len(pts); i++ {
		p, q := pts[i-1], pts[i]
		sum += (q.X - p.X) * ((p.Y+q.Y)/2 - m.base)
		way := 1.0
		if p.X > q.X {
			p, q, way = q, p, -1
		}
		for n := m.rounds(p.X); n <= m.rounds(q.X); n++ {
			by := plane.Pt(n*m.period, 0)
			sum -= way * m.openings(p.Sub(by), q.Sub(by))
		}
	}
	return sum
}

// openings returns the area of those with their anchor under the chord from p to q on its
// right, mm^2. A position at an end of chords counts to the one on its right, so that ways
// that go on pass each anchor once.
func (m *metalUnder) openings(p, q plane.Point) float64 {
	first, _ := slices.BinarySearchFunc(m.anchors, p.X, func(a anchor, x float64) int { return cmp.Compare(a.X, x) })
	sum := 0.0
	for _, a := range m.anchors[first:] {
		if a.X >= q.X {
			break
		}
		if a.Y < heightAt(p, q, a.X) {
			sum += a.area
		}
	}
	return sum
}

// toEdge returns the metal under the way along the blank's edge to p, which lies on it, from
// where the edge begins: known up to all metal, since there are two such ways.
func (m *metalUnder) toEdge(p plane.Point) float64 { return m.edge.under(m, p) }
