package unroll

import (
	"fmt"
	"math"
	"sort"

	"fretband/unroll/plane"
)

// edges are the two long edges of a blank before its ends are shaped, as
// distances from the middle line: along the band x, across it the blank's own
// measure.
type edges struct {
	taper       taper
	top, bottom *trend // added outwards; nil for none
	dome        *dome  // flattens the width; nil for a section that is flat
}

// at returns the edges at x and their slopes.
func (e *edges) at(x float64) (bottom, top, bottomSlope, topSlope float64) {
	h, s := e.taper.at(x)/2, e.taper.slope(x)/2
	bottom, top, bottomSlope, topSlope = -h, h, -s, s
	if e.top != nil {
		y, m := e.top.at(x)
		top, topSlope = top+y, topSlope+m
	}
	if e.bottom != nil {
		y, m := e.bottom.at(x)
		bottom, bottomSlope = bottom-y, bottomSlope-m
	}
	if e.dome != nil {
		var m float64
		bottom, m = e.dome.flatten(bottom)
		bottomSlope *= m
		top, m = e.dome.flatten(top)
		topSlope *= m
	}
	return bottom, top, bottomSlope, topSlope
}

// constant reports whether both edges run level all along.
func (e *edges) constant() bool {
	return e.taper.mid == e.taper.end && e.top == nil && e.bottom == nil
}

// likeThemselves reports whether the blank is the same left and right, and above
// and below.
func (e *edges) likeThemselves() (leftRight, aboveBelow bool) {
	return e.top == nil && e.bottom == nil, e.top == nil && e.bottom == nil
}

// knots returns the positions between from and to where an edge changes its law.
func (e *edges) knots(from, to float64) []float64 {
	xs := []float64{from, to, 0}
	if e.taper.mid != e.taper.end {
		xs = append(xs, -e.taper.length/2, -e.taper.length/4, e.taper.length/4, e.taper.length/2)
	}
	for _, t := range []*trend{e.top, e.bottom} {
		if t != nil {
			xs = append(xs, t.x...)
		}
	}
	sort.Float64s(xs)
	out := []float64{from}
	for _, x := range xs {
		if x > out[len(out)-1]+1e-3 && x < to-1e-3 {
			out = append(out, x)
		}
	}
	return append(out, to)
}

// taper is the width of a blank along it: a raised cosine, smooth everywhere and,
// on a closed band, smooth over the joint too.
type taper struct {
	mid, end float64
	length   float64 // within which the width changes, about the middle
	whole    float64 // of the blank
	open     bool
}

func (t *taper) at(x float64) float64 {
	if t.mid == t.end {
		return t.mid
	}
	if x = t.within(x); math.Abs(x) >= t.length/2 {
		return t.end
	}
	return t.end + (t.mid-t.end)*(1+math.Cos(2*math.Pi*x/t.length))/2
}

// slope returns d(width)/dx.
func (t *taper) slope(x float64) float64 {
	if t.mid == t.end {
		return 0
	}
	if x = t.within(x); math.Abs(x) > t.length/2 {
		return 0
	}
	return -(t.mid - t.end) * math.Pi / t.length * math.Sin(2*math.Pi*x/t.length)
}

// within brings x to the blank: round a closed band, to the end of an open one.
func (t *taper) within(x float64) float64 {
	if half := t.whole / 2; math.Abs(x) > half {
		if t.open {
			return math.Copysign(half, x)
		}
		return x - t.whole*math.Round(x/t.whole)
	}
	return x
}

// trend is a smooth curve through points that goes no further than they do: a
// piecewise cubic Hermite with the slopes of F. N. Fritsch and J. Butland, "A
// method for constructing local monotone piecewise cubic interpolants", SIAM J.
// Sci. Stat. Comput. 5 (1984). Between two points it runs from one to the other
// without turning back; a highest or lowest point stays the highest or lowest.
type trend struct {
	x, y, m []float64
	whole   float64
	open    bool
}

// newTrend returns the trend through the points on a blank of the given length.
// Open, it stays level beyond its outer points; closed, it goes on round.
func newTrend(ps []EdgePoint, length float64, open bool) *trend {
	t := &trend{whole: length, open: open}
	for _, p := range ps {
		t.x = append(t.x, p.At*length/2)
		t.y = append(t.y, p.OutMM)
	}
	n := len(ps)
	if !open {
		// One period more on either side, so that the slopes know their neighbours.
		if n > 1 && ps[0].At == -1 && ps[n-1].At == 1 {
			n--
		}
		var x, y []float64
		for periods := -1.0; periods <= 1; periods++ {
			for i := range n {
				x, y = append(x, t.x[i]+periods*length), append(y, t.y[i])
			}
		}
		t.x, t.y = x, y
	}
	k := len(t.x)
	t.m = make([]float64, k)
	for i := 1; i+1 < k; i++ {
		h0, h1 := t.x[i]-t.x[i-1], t.x[i+1]-t.x[i]
		d0, d1 := (t.y[i]-t.y[i-1])/h0, (t.y[i+1]-t.y[i])/h1
		if d0*d1 > 0 {
			w0, w1 := 2*h1+h0, h1+2*h0
			t.m[i] = (w0 + w1) / (w0/d0 + w1/d1)
		}
	}
	if open && k > 1 {
		// An outer point short of the end must run level; one on the end leaves
		// as its neighbours suggest.
		if ps[0].At == -1 {
			t.m[0] = t.outer(0, 1, 2)
		}
		if ps[len(ps)-1].At == 1 {
			t.m[k-1] = t.outer(k-1, k-2, k-3)
		}
	}
	return t
}

// outer returns the slope at point a, an end, from its next two neighbours: that
// of their parabola, held so that the curve does not turn back.
func (t *trend) outer(a, b, c int) float64 {
	d0 := (t.y[b] - t.y[a]) / (t.x[b] - t.x[a])
	if c < 0 || c >= len(t.x) {
		return d0
	}
	d1 := (t.y[c] - t.y[b]) / (t.x[c] - t.x[b])
	h0, h1 := math.Abs(t.x[b]-t.x[a]), math.Abs(t.x[c]-t.x[b])
	m := ((2*h0+h1)*d0 - h0*d1) / (h0 + h1)
	switch {
	case m*d0 <= 0:
		return 0
	case d0*d1 <= 0 && math.Abs(m) > 3*math.Abs(d0):
		return 3 * d0
	}
	return m
}

// at returns the trend and its slope.
func (t *trend) at(x float64) (y, slope float64) {
	if half := t.whole / 2; math.Abs(x) > half {
		if t.open {
			y, _ = t.at(math.Copysign(half, x))
			return y, 0
		}
		x -= t.whole * math.Round(x/t.whole)
	}
	n := len(t.x)
	if x <= t.x[0] {
		if x == t.x[0] {
			return t.y[0], t.m[0]
		}
		return t.y[0], 0
	}
	if x >= t.x[n-1] {
		if x == t.x[n-1] {
			return t.y[n-1], t.m[n-1]
		}
		return t.y[n-1], 0
	}
	i := sort.SearchFloat64s(t.x, x) - 1
	h := t.x[i+1] - t.x[i]
	u := (x - t.x[i]) / h
	d := (t.y[i+1] - t.y[i]) / h
	a, b := t.m[i], t.m[i+1]
	// y0 + h u (a + u (3d - 2a - b + u (a + b - 2d)))
	c2, c3 := 3*d-2*a-b, a+b-2*d
	return t.y[i] + h*u*(a+u*(c2+u*c3)), a + u*(2*c2+3*u*c3)
}

// edgesOf returns the edges of the band on a blank of the given length.
func (m *measures) edgesOf(length float64, d *dome) (*edges, error) {
	b := m.band
	open := b.Kind == Cuff
	e := &edges{dome: d, taper: taper{mid: b.WidthMM, end: b.EndWidthMM, length: length, whole: length, open: open}}
	if b.SwellLengthMM != 0 {
		if !(b.SwellLengthMM >= 1 && b.SwellLengthMM <= length) {
			return nil, &FieldError{"band.swell_length_mm", fmt.Sprintf("must be from 1 mm to the blank's length, %.1f mm here (left out, the whole length); it is %s", length, short(b.SwellLengthMM))}
		}
		if b.WidthMM == b.EndWidthMM {
			return nil, &FieldError{"band.swell_length_mm", "is given but width_mm and end_width_mm are equal, so there is nothing that swells; change one of the widths or leave it out"}
		}
		e.taper.length = b.SwellLengthMM
	}
	for _, side := range []struct {
		path string
		ps   []EdgePoint
		to   **trend
	}{{"band.top_edge", b.TopEdge, &e.top}, {"band.bottom_edge", b.BottomEdge, &e.bottom}} {
		if len(side.ps) == 0 {
			continue
		}
		if len(side.ps) > MaxEdgePoints {
			return nil, &FieldError{side.path, fmt.Sprintf("at most %d points; there are %d", MaxEdgePoints, len(side.ps))}
		}
		for i, p := range side.ps {
			path := fmt.Sprintf("%s[%d]", side.path, i)
			if err := within(path+".at", p.At, -1, 1, ""); err != nil {
				return nil, err
			}
			if i > 0 && !(p.At >= side.ps[i-1].At+0.01) {
				return nil, &FieldError{path + ".at", fmt.Sprintf("must be at least 0.01 beyond the point before it (the points run from left to right); it is %s after %s", short(p.At), short(side.ps[i-1].At))}
			}
			if err := within(path+".out_mm", p.OutMM, -MaxEdgeOut, MaxEdgeOut, "mm"); err != nil {
				return nil, err
			}
		}
		if first, last := side.ps[0], side.ps[len(side.ps)-1]; !open && last.At-first.At > 1.99 && (first.At != -1 || last.At != 1 || first.OutMM != last.OutMM) {
			return nil, &FieldError{fmt.Sprintf("%s[%d].out_mm", side.path, len(side.ps)-1),
				fmt.Sprintf("must be that of the first point, %s: on a closed band -1 and 1 are one place", short(first.OutMM))}
		}
		*side.to = newTrend(side.ps, length, open)
	}
	return e, m.checkEdges(e, length)
}

// edgeSamples is at how many positions the edges are looked at: more than three to
// a millimetre of the longest blank would show on none of the least swells.
const edgeSamples = 1024

// checkEdges reports edges that are too steep or leave too little width.
func (m *measures) checkEdges(e *edges, length float64) error {
	b := m.band
	path := "band.end_width_mm"
	if b.SwellLengthMM != 0 {
		path = "band.swell_length_mm"
	}
	if t := &e.taper; math.Abs(t.mid-t.end)/2*math.Pi/t.length > MaxEdgeSlope {
		if path == "band.swell_length_mm" {
			return &FieldError{path, fmt.Sprintf("must be at least %.1f mm for these widths (edges no steeper than 45 degrees); it is %s", math.Abs(t.mid-t.end)/2*math.Pi/MaxEdgeSlope, short(t.length))}
		}
		return &FieldError{path, fmt.Sprintf("may differ from the width by at most %.1f mm on a blank of this length (edges no steeper than 45 degrees); it is %s against %s",
			2*t.length*MaxEdgeSlope/math.Pi, short(t.end), short(t.mid))}
	}
	if e.top == nil && e.bottom == nil {
		return nil
	}
	path = "band.top_edge"
	if e.top == nil {
		path = "band.bottom_edge"
	}
	flat := *e
	flat.dome = nil
	for i := range edgeSamples + 1 {
		x := length * (float64(i)/edgeSamples - 0.5)
		bottom, top, bs, ts := flat.at(x)
		if top-bottom < MinWidth {
			return &FieldError{path, fmt.Sprintf("leaves a width of %.2f mm at %.2f of the way to the end; at least %v mm must be left", top-bottom, 2*x/length, MinWidth)}
		}
		if s := math.Max(math.Abs(bs), math.Abs(ts)); s > MaxEdgeSlope {
			return &FieldError{path, fmt.Sprintf("runs steeper than 45 degrees at %.2f of the way to the end; move its points further apart or nearer to the plain edge", 2*x/length)}
		}
	}
	return nil
}

// widest returns how far the edges reach below and above the middle line.
func (e *edges) widest() (bottom, top float64) {
	bottom, top, _, _ = e.at(0)
	if e.top == nil && e.bottom == nil {
		b, t, _, _ := e.at(e.taper.whole / 2)
		return math.Min(bottom, b), math.Max(top, t)
	}
	for i := range edgeSamples + 1 {
		b, t, _, _ := e.at(e.taper.whole * (float64(i)/edgeSamples - 0.5))
		bottom, top = math.Min(bottom, b), math.Max(top, t)
	}
	return bottom, top
}

// chain returns one edge on the blank, from the left end to the right: exact
// lines and arcs where it runs level, else fitted within [plane.FitTolerance].
func (f Flat) chain(top bool) []plane.Edge {
	l := f.Length / 2
	e := f.edge
	pick := func(x float64) (v, slope float64) {
		b, t, bs, ts := e.at(x)
		if top {
			return t, ts
		}
		return b, bs
	}
	if e.constant() {
		v, _ := pick(0)
		n, sweep := 1, 0.0
		if f.cone != nil {
			sweep = f.Length / f.cone.apex
			n = max(1, int(math.Ceil(math.Abs(sweep)/(0.9*math.Pi))))
		}
		es := make([]plane.Edge, n)
		for i := range es {
			at := func(i int) plane.Point { return f.Place(l*(2*float64(i)/float64(n)-1), v) }
			es[i] = plane.Edge{A: at(i), B: at(i + 1), Bulge: -math.Tan(sweep / float64(n) / 4)}
		}
		if f.cone == nil {
			es[0].Bulge = 0
		}
		return es
	}
	c := func(x float64) (p, tangent plane.Point) {
		v, s := pick(x)
		return f.Place(x, v), f.along(x, v, s)
	}
	var es []plane.Edge
	knots := e.knots(-l, l)
	for i := range knots[1:] {
		es = append(es, plane.FitArcs(c, knots[i], knots[i+1], plane.FitTolerance)...)
	}
	return es
}
