package app

import (
	"math"
	"slices"

	"fretband/pattern"
	"fretband/unroll"
)

// Edge is one of the two long edges of a band.
type Edge int

// The edges.
const (
	TopEdge Edge = iota
	BottomEdge
)

// Edges lists them as they lie on the drawing.
func Edges() []Edge { return []Edge{TopEdge, BottomEdge} }

// Path returns the edge's path in the design file.
func (e Edge) Path() string { return [...]string{"band.top_edge", "band.bottom_edge"}[e] }

// Title returns what a person calls the edge.
func (e Edge) Title() string { return pattern.ByPath(e.Path())[0].Title }

// Tip says what the points of the edge do.
func (e Edge) Tip() string { return pattern.ByPath(e.Path())[0].Tip }

// Points returns the points that the edge runs through.
func (e Edge) Points(d pattern.Design) []unroll.EdgePoint { return *e.of(&d) }

func (e Edge) of(d *pattern.Design) *[]unroll.EdgePoint {
	if e == BottomEdge {
		return &d.Band.BottomEdge
	}
	return &d.Band.TopEdge
}

// edgeStep is the least distance of two points along the edge, of half the
// blank: what the core asks for.
const edgeStep = 0.01

// Numbers returns the two numbers of point i of the edge: along and out.
func (e Edge) Numbers(i int) []Number {
	return Numbers([...]pattern.Group{pattern.TopGroup, pattern.BottomGroup}[e], i)
}

// place and stand write how far along a point lies and how far out.
func (e Edge) place(d *pattern.Design, at pattern.At, v float64) {
	(*e.of(d))[at[0]].At = v
	joinSeam(d, e, at[0])
}

func (e Edge) stand(d *pattern.Design, at pattern.At, v float64) {
	(*e.of(d))[at[0]].OutMM = v
	joinSeam(d, e, at[0])
}

// joinSeam keeps the two ends of an edge at one height where they meet:
// on a closed band. Point i has been changed.
func joinSeam(d *pattern.Design, e Edge, i int) {
	ps := *e.of(d)
	last := len(ps) - 1
	if d.Band.Open() || last < 1 || ps[0].At != -1 || ps[last].At != 1 {
		return
	}
	switch i {
	case 0:
		ps[last].OutMM = ps[0].OutMM
	case last:
		ps[0].OutMM = ps[last].OutMM
	}
}

// closeEdges makes drawn edges meet where the ends of the band do.
func closeEdges(d *pattern.Design) {
	*d = Clone(*d)
	for _, e := range Edges() {
		if ps := *e.of(d); len(ps) > 1 && ps[len(ps)-1].At-ps[0].At > 2-edgeStep {
			ps[0].At, ps[len(ps)-1].At = -1, 1
			ps[len(ps)-1].OutMM = ps[0].OutMM
		}
	}
}

// AddEdgePoint puts a point where the edge has most room for one and returns its
// index, -1 where there is none. The edge begins as it is drawn: a new first
// point is in the middle, others half way between their neighbours.
func AddEdgePoint(d *pattern.Design, e Edge) int {
	*d = Clone(*d)
	ps := e.of(d)
	n := len(*ps)
	if n >= unroll.MaxEdgePoints {
		return -1
	}
	switch {
	case n == 0:
		// One alone would only move the edge: give it the ends as well.
		*ps = []unroll.EdgePoint{{At: -1}, {At: 0, OutMM: 1}, {At: 1}}
		return 1
	case n == 1 && (*ps)[0].At > -0.5:
		*ps = append([]unroll.EdgePoint{{At: -1}}, *ps...)
		return 0
	case n == 1:
		*ps = append(*ps, unroll.EdgePoint{At: 1})
		joinSeam(d, e, 0)
		return 1
	}
	at, room := 0, 0.0
	for i := 1; i < n; i++ {
		if w := (*ps)[i].At - (*ps)[i-1].At; w > room+1e-9 {
			at, room = i, w
		}
	}
	if room < 2*edgeStep {
		return -1
	}
	a, b := (*ps)[at-1], (*ps)[at]
	p := unroll.EdgePoint{At: math.Round((a.At+b.At)*5000) / 10000, OutMM: hundredths((a.OutMM + b.OutMM) / 2)}
	*ps = slices.Insert(*ps, at, p)
	return at
}

// RemoveEdgePoint takes point i of an edge away.
func RemoveEdgePoint(d *pattern.Design, e Edge, i int) {
	*d = Clone(*d)
	ps := e.of(d)
	if i >= 0 && i < len(*ps) {
		*ps = slices.Delete(*ps, i, i+1)
	}
}

// MoveEdgePoint puts point i of an edge at a position, kept between its neighbours
// and in its limits. A point on an end of the band stays there.
func MoveEdgePoint(d *pattern.Design, e Edge, i int, at, out float64) {
	*d = Clone(*d)
	ps := *e.of(d)
	if i < 0 || i >= len(ps) || math.IsNaN(at) || math.IsNaN(out) {
		return
	}
	lo, hi := -1.0, 1.0
	if i > 0 {
		lo = ps[i-1].At + edgeStep
	}
	if i+1 < len(ps) {
		hi = ps[i+1].At - edgeStep
	}
	if was := ps[i].At; was != -1 && was != 1 && lo <= hi {
		ps[i].At = math.Max(lo, math.Min(hi, math.Round(at*1000)/1000))
	}
	ps[i].OutMM = math.Max(-unroll.MaxEdgeOut, math.Min(unroll.MaxEdgeOut, math.Round(out*20)/20))
	joinSeam(d, e, i)
}
