package check

import (
	"slices"

	"fretband/pattern"
	"fretband/unroll/plane"
)

// linework is what an engraving consists of, ready to be compared with areas of the blank.
type linework struct {
	pattern.EngravedLines
	*edgeIndex
	box     plane.Box
	length  float64
	strokes []lineworkStroke
}

// lineworkStroke is a stroke's share of the edges.
type lineworkStroke struct {
	box         plane.Box
	first, past int
}

func newLinework(m pattern.EngravedLines) *linework {
	l := &linework{EngravedLines: m, box: plane.EmptyBox(), length: m.Len()}
	var edges []plane.Edge
	for _, s := range m.Strokes {
		es := s.Edges()
		t := lineworkStroke{box: es.Bounds(), first: len(edges), past: len(edges) + len(es)}
		edges = append(edges, es...)
		l.strokes = append(l.strokes, t)
		l.box = l.box.Union(t.box)
	}
	l.edgeIndex = newEdgeIndex(edges)
	return l
}

// area is a region with its edges ready to be found.
type area struct {
	plane.Region
	*edgeIndex
	box plane.Box
	ts  []float64
}

func newArea(r plane.Region) *area {
	var edges []plane.Edge
	for _, l := range r {
		edges = append(edges, l.Edges()...)
	}
	return &area{Region: r, edgeIndex: newEdgeIndex(edges), box: r.Bounds()}
}

// cut cuts an edge where it meets the area's edge: to each piece belong its length, its
// middle, and whether that lies in the area. It returns false once yield has.
func (a *area) cut(e plane.Edge, yield func(length float64, mid plane.Point, in bool) bool) bool {
	a.ts = append(a.ts[:0], 0, 1)
	for _, i := range a.near(e.Bounds().Grow(plane.Snap)) {
		for _, c := range plane.Crossings(e, a.edges[i]) {
			a.ts = append(a.ts, c.A)
		}
	}
	slices.Sort(a.ts)
	for i := 1; i < len(a.ts); i++ {
		if a.ts[i] <= a.ts[i-1] {
			continue
		}
		mid := e.At((a.ts[i-1] + a.ts[i]) / 2)
		if !yield((a.ts[i]-a.ts[i-1])*e.Len(), mid, a.Contains(mid)) {
			return false
		}
	}
	return true
}

// within returns how much of the linework lies in the area, mm, and a position of it that
// does not.
func (l *linework) within(a *area) (length float64, out plane.Point) {
	l.walk(a, plane.Point{}, func(n float64, mid plane.Point, in bool) bool {
		if in {
			length += n
		} else {
			out = mid
		}
		return true
	})
	return length, out
}

// holds reports whether all of the linework, moved by v, lies in the area.
func (l *linework) holds(a *area, v plane.Point) bool {
	lost := 0.0
	return l.walk(a, v, func(n float64, _ plane.Point, in bool) bool {
		if !in {
			lost += n
		}
		return lost <= 1e-6
	})
}

// walk yields all of the linework, moved by v, in pieces that lie either in the area or
// outside it. A stroke that the area's edge is not near lies where any one position of it does.
// It returns false once yield has.
func (l *linework) walk(a *area, v plane.Point, yield func(length float64, mid plane.Point, in bool) bool) bool {
	for _, s := range l.strokes {
		edges := l.edges[s.first:s.past]
		clear := len(edges) > 0 && len(a.near(s.box.Move(v).Grow(plane.Snap))) == 0
		in := clear && a.Contains(edges[0].Mid().Add(v))
		for _, e := range edges {
			e.A, e.B = e.A.Add(v), e.B.Add(v)
			if clear {
				if n := e.Len(); n > 0 && !yield(n, e.At(0.5), in) {
					return false
				}
			} else if !a.cut(e, yield) {
				return false
			}
		}
	}
	return true
}

// inside returns how much of the linework lies in an area, mm. Only what is near the
// area is looked at.
func (l *linework) inside(a *area) (length float64) {
	if !l.box.Meets(a.box) {
		return 0
	}
	for _, i := range l.near(a.box) {
		a.cut(l.edges[i], func(n float64, _ plane.Point, in bool) bool {
			if in {
				length += n
			}
			return true
		})
	}
	return length
}

// standing is a loop where it is on the blank, as an area once it is asked for.
type standing struct {
	of    int // index of what it belongs to
	loop  plane.Loop
	box   plane.Box
	area  *area
	round *area // with its margin
}

// stand lists loops where they are on the blank, over the seam too.
func stand(s *pattern.Sheet, n int, loop func(i int) plane.Loop) []*standing {
	var all []*standing
	for i := range n {
		for _, l := range s.Again(loop(i)) {
			all = append(all, &standing{of: i, loop: l, box: l.Bounds()})
		}
	}
	return all
}

func (x *standing) within() *area {
	if x.area == nil {
		x.area = newArea(plane.Region{x.loop})
	}
	return x.area
}

func (x *standing) grown(margin float64) *area {
	if margin <= 0 {
		return x.within()
	}
	if x.round == nil {
		x.round = newArea(x.loop.Outset(margin))
	}
	return x.round
}
