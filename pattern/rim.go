package pattern

import (
	"fmt"
	"math"
	"slices"

	"fretband/unroll"
	"fretband/unroll/plane"
)

// rimCurve is the width of a rim that changes along the blank. It is nowhere less than
// [Sheet.EdgeRule], and nowhere less than the bridge rule.
type rimCurve struct {
	half  float64 // of the blank's length
	wraps bool
	width func(at float64) float64
	even  bool // left and right are mirror images
	// low and high are how far the inner edges reach across the blank.
	low, high float64
}

// newRim returns the least width of the rim, and its curve, nil if it is the same
// everywhere.
func newRim(r DesignRules, f unroll.Flat) (float64, *rimCurve) {
	points := slices.Clone(r.RimAlong)
	alike := true
	for i := range points {
		points[i].Size = math.Max(r.BridgeMM, r.RimMM*points[i].Size)
		alike = alike && points[i].Size == points[0].Size
	}
	if len(points) == 0 {
		return math.Max(r.RimMM, r.BridgeMM), nil
	}
	if alike {
		return points[0].Size, nil
	}
	c := &rimCurve{half: f.Length / 2, wraps: f.Closed(), even: evenPoints(points)}
	if c.wraps {
		points = roundAbout(oneSeam(points))
	}
	c.width = GradeCurve(points)
	least := points[0].Size
	for _, p := range points {
		least = math.Min(least, p.Size)
	}
	c.low, c.high = math.Inf(1), math.Inf(-1)
	for i := range rimSamples + 1 {
		low, high := c.inner(f, f.Length*(float64(i)/rimSamples-0.5))
		c.low, c.high = math.Min(c.low, low), math.Max(c.high, high)
	}
	return least, c
}

// rimSamples is at how many positions the inner edges are looked at, as those of the
// blank are.
const rimSamples = 1024

// at returns the width of the rim at x along the blank.
func (c *rimCurve) at(x float64) float64 {
	u := x / c.half
	if c.wraps {
		u = math.Remainder(u, 2)
	}
	return c.width(u)
}

// RimAt returns how wide the rim is asked to be at x along the blank, mm.
func (s *Sheet) RimAt(x float64) float64 {
	if s.rim == nil {
		return s.EdgeRule
	}
	return s.rim.at(x)
}

// RimShare returns how wide the rim is to be at x along the blank, in proportion to the
// design's rim.
func (s *Sheet) RimShare(x float64) float64 {
	if s.rim == nil || s.Design.Rules.RimMM <= 0 {
		return 1
	}
	return s.rim.at(x) / s.Design.Rules.RimMM
}

// rimNear is the rim's width beside a position on the blank.
func (s *Sheet) rimNear(p plane.Point) float64 {
	x, _ := s.Flat.Where(p)
	return s.RimAt(x)
}

// inner returns the inner edges of the rims at x across the blank: the rim's width at
// right angles to the edge, taken along the upright.
func (c *rimCurve) inner(f unroll.Flat, x float64) (bottom, top float64) {
	b, t, bs, ts := f.EdgeSlopes(x)
	w := c.at(x)
	return b + w*math.Hypot(1, bs), t - w*math.Hypot(1, ts)
}

// rimFits is into how many pieces the inner edge of a rim is divided at least, each
// fitted by arcs: what is smooth within one fits in few.
const rimFits = 32

// solid returns what the rims take beyond their least width: a strip along each edge
// that reaches out past the blank, and the ends of an open band, whose solid strip is as
// wide as the rim comes to them. Strips run to the distance to along the blank.
func (c *rimCurve) solid(d Design, f unroll.Flat, blank plane.Region, least, to float64) ([]plane.Loop, error) {
	bottom, top := f.Extent()
	var xs []float64
	n := math.Ceil(to / c.half * rimFits)
	for i := -n; i <= n; i++ {
		xs = append(xs, to*i/n)
	}
	// Beyond the edge by less than the distance to the apex of a flared band.
	inner := func(x float64) (float64, float64) { return c.inner(f, x) }
	edge := func(law func(x float64) float64) plane.Chain {
		run := func(x float64) (p, way plane.Point) {
			const h = 1e-4 // mm: the curve's own slope jumps nowhere
			return f.PlaceWay(x, law(x), 1, (law(x+h)-law(x-h))/(2*h))
		}
		var es plane.Chain
		for i := range xs[1:] {
			es = append(es, plane.FitArcs(run, xs[i], xs[i+1], plane.FitTolerance)...)
		}
		return es
	}
	strip := func(in, out func(x float64) float64) plane.Loop {
		l := append(edge(in).Loop(), plane.Vertex{Point: f.Place(to, in(to))})
		l = append(l, edge(out).Reverse().Loop()...)
		return append(l, plane.Vertex{Point: f.Place(-to, out(-to))}).CCW()
	}
	const past = 1 // mm past the blank
	all := []plane.Loop{
		strip(func(x float64) float64 { b, _ := inner(x); return b }, func(float64) float64 { return bottom - past }),
		strip(func(x float64) float64 { _, t := inner(x); return t }, func(float64) float64 { return top + past }),
	}
	if c.wraps {
		return all, nil
	}
	for _, side := range []float64{-1, 1} {
		w := c.at(side * c.half)
		if w <= least {
			continue
		}
		b, t := f.EdgesAt(side * c.half)
		deep := math.Max(w, d.Band.EndCornerMM)
		switch d.Band.EndShape {
		case unroll.RoundEnd:
			deep = math.Max(deep, (t-b)/2)
		case unroll.PointEnd:
			deep = math.Max(deep, d.Band.EndLengthMM)
		}
		end, err := plane.Not(plane.Region{endStrip(f, side*c.half, deep)}, blank.Offset(-w))
		if err != nil {
			return nil, fmt.Errorf("keeping the ends solid: %w", err)
		}
		all = append(all, end...)
	}
	return all, nil
}
