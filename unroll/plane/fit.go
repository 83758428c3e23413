package plane

import "math"

// Curve is a smooth curve: its point at the parameter t, and its tangent there,
// of any length but zero, in the direction of growing t.
type Curve func(t float64) (p, tangent Point)

// Inward returns the parallel of the curve at the distance d, mm, to its left; d may be
// negative. It has a tangent only where the curve's radius to the left is more than d.
func (c Curve) Inward(d float64) Curve {
	return func(t float64) (Point, Point) {
		p, v := c(t)
		n := math.Hypot(v.X, v.Y)
		return p.Add(v.Left().Mul(d / n)), v
	}
}

// FitArcs returns lines and arcs that follow the curve from t0 to t1 within tol,
// mm, start and end on it in its direction, and run into each other without
// corners. A line comes back as one line, an arc of a circle as arcs of at most
// half a turn, a curve that is its own mirror image as one that is, up to
// rounding. The curve must have no corners between t0 and t1, t0 < t1.
//
// The chain is a row of biarcs, pairs of arcs that share a tangent where they meet,
// between places on the curve (K. M. Bolton, "Biarc curves", Computer-Aided Design
// 7, 1975). They are few, for two reasons.
//
// The places are chosen so that all pairs stray alike. A pair of the length h strays
// from a curve whose curvature changes by k' per mm by c |k'| h^3 (D. S. Meek and
// D. J. Walton, "Approximating smooth planar curves by arc splines", Journal of
// Computational and Applied Mathematics 59, 1995), so they are chosen by equal shares of
// the integral of |k'|^(1/3); then, as C. de Boor spreads knots ("Good approximation
// by splines with variable knots", 1973), the strays measured move them on.
//
// The pairs do not run in the curve's own direction where they join, but turned
// by -k' h^2 / 48. With the curve's direction c is 1/324, see [biarcStray], with the
// turned one 1/998: seen from a curve of steadily changing curvature, a chain of
// arcs h/2 long is a cubic less a quadratic spline, a monospline, and of those with
// even knots the Bernoulli polynomial B3, repeated, has the least greatest value. The
// turn is its slope at the knots. So the chain has about 0.69 times the arcs of one
// in the curve's directions; to first order in h no smooth chain of arcs has fewer.
//
// How far the curve is from a pair is measured at more places than its deviation
// can have extremes, and refined to the maximum in between, along the normal to the
// arcs.
func FitArcs(c Curve, t0, t1, tol float64) Chain {
	if !(t0 < t1) || !(tol > 0) {
		return nil
	}
	f := fitter{c: c, tol: tol}
	if es := f.evenly(t0, t1); es != nil {
		return mergeChain(es)
	}
	return mergeChain(f.stepping(t0, t1))
}

// How far a biarc of length h strays from a curve whose curvature changes by k' per
// mm, over k' h^3, for small h. In the curve's own directions the difference e has
// e(0) = e'(0) = e(h) = e'(h) = 0 and e” = k'(u - h/6) up to the middle: e =
// k' u^2 (2u - h)/12, greatest at h/3. In the directions of a chain that never ends,
// it is k' (h/2)^3 / 6 times the Bernoulli polynomial B3, whose maximum is
// sqrt(3)/36.
const (
	biarcStray = 1.0 / 324
	chainStray = 1.7320508075688772 / 36 / 6 / 8
)

// fitter fits arcs to a curve.
type fitter struct {
	c   Curve
	tol float64
	// Places between two joints, and what was fitted between them.
	at    []sample
	pairs [][2]Edge
	count []int
	stray []float64
}

// Bounds of a search: more pairs than any curve of use needs, so many rounds
// that the joints have long come to rest, and so many with one number of pairs.
const (
	mostPairs  = 1 << 12
	mostRounds = 24
	moveRounds = 6
)

// evenly fits pairs that all stray alike, or returns nil if the curve is not as
// smooth as that needs.
func (f *fitter) evenly(t0, t1 float64) []Edge {
	a, b := newSample(f.c, t0), newSample(f.c, t1)
	if e, n, stray := fitPair(f.c, a, b); stray <= f.tol {
		return append([]Edge(nil), e[:n]...)
	}
	// A curve that closes smoothly may be its own mirror image in two ways: an even
	// number of pairs can be so too, if no end is seen.
	closed := a.p.Dist(b.p) <= Snap && math.Abs(a.d.angle(b.d)) < 1e-6
	by := 1
	if closed {
		by = 2
	}
	need := f.needs(t0, t1, closed)
	if need == nil {
		return nil
	}
	whole := func(x float64) int { return by * max(1, int(math.Ceil((x-0.01)/float64(by)))) }
	// What joints out of position and a change that passes through 0 cost at first.
	n := max(2, whole(1.05*need.total()))
	least := 2
	var best []Edge
	last := math.Inf(1)
	for round, moves := 0, 0; round < mostRounds && n <= mostPairs; round++ {
		worst := f.fit(need.shares(n))
		need.weigh(f.stray, f.tol, closed)
		sum := need.total()
		moves++
		// Where moving on brings little more, the joints are as good as they get.
		stuck := moves >= moveRounds || moves > 2 && worst-f.tol > 0.7*(last-f.tol)
		last = worst
		switch {
		case worst <= f.tol:
			best = f.edges(best[:0])
			least = max(least, min(n, whole(sum)))
			if n == least {
				return best
			}
			n, moves = least, 0
		case whole(sum) > n || stuck:
			if best != nil {
				return best // of the next number
			}
			least = n + by
			n, moves = max(n+by, min(whole(sum), 2*n)), 0
		}
	}
	return best
}

// fit fits a pair between each two neighbours of the knots and returns the
// greatest stray.
func (f *fitter) fit(knots []float64) (worst float64) {
	n := len(knots) - 1
	f.at, f.pairs, f.count, f.stray = f.at[:0], f.pairs[:0], f.count[:0], f.stray[:0]
	for _, t := range knots {
		f.at = append(f.at, newSample(f.c, t))
	}
	// Turn the inner joints. The change of curvature is told from the directions a
	// quarter of a pair to either side.
	turns := make([]float64, n+1)
	for i := 1; i < n; i++ {
		l, m, r := &f.at[i-1], &f.at[i], &f.at[i+1]
		a, b := newSample(f.c, m.t-(m.t-l.t)/4), newSample(f.c, m.t+(r.t-m.t)/4)
		sa, sb := a.p.Dist(m.p), b.p.Dist(m.p)
		change := 2 * (m.d.angle(b.d)/sb - a.d.angle(m.d)/sa) / (sa + sb)
		turn := -change * m.p.Dist(l.p) * m.p.Dist(r.p) / 48
		turns[i] = math.Max(-mostTilt, math.Min(turn, mostTilt))
	}
	for i := 1; i < n; i++ {
		if turns[i] != 0 {
			f.at[i].d = f.at[i].d.Turn(turns[i])
		}
	}
	for i := range n {
		e, k, d := fitPair(f.c, f.at[i], f.at[i+1])
		f.pairs, f.count, f.stray = append(f.pairs, e), append(f.count, k), append(f.stray, d)
		worst = math.Max(worst, d)
	}
	return worst
}

// mostTilt bounds the turn of a joint, in radians, where a curve is not yet seen
// well enough.
const mostTilt = 0.1

// edges appends what was fitted.
func (f *fitter) edges(es []Edge) []Edge {
	for i := range f.pairs {
		es = append(es, f.pairs[i][:f.count[i]]...)
	}
	return es
}

// profile says how many pairs a curve needs along its parameter: so many between
// each two positions.
type profile struct {
	t   []float64
	sum []float64 // from the start
}

func newProfile(n int) *profile {
	return &profile{make([]float64, 0, n+1), make([]float64, 0, n+1)}
}

func (p *profile) add(from, to, need float64) {
	if len(p.t) == 0 {
		p.t, p.sum = append(p.t, from), append(p.sum, 0)
	}
	p.t, p.sum = append(p.t, to), append(p.sum, p.total()+need)
}

func (p *profile) total() float64 { return p.sum[len(p.sum)-1] }

// shares returns the ends of n parts that need the same. Between the positions of the
// profile the parameter runs as a cubic of the need, whose slopes are the harmonic
// means of the differences to either side: that keeps it rising (F. N. Fritsch and
// J. Butland, "A method for constructing local monotone piecewise cubic
// interpolants", 1984), and the lengths of neighbouring parts alike.
func (p *profile) shares(n int) []float64 {
	knots := make([]float64, 0, n+1)
	last := len(p.t) - 2
	slope := func(j int) float64 { // between places j and j+1
		j = min(max(j, 0), last)
		return (p.t[j+1] - p.t[j]) / (p.sum[j+1] - p.sum[j])
	}
	j := 0
	for i := range n {
		x := p.total() * float64(i) / float64(n)
		for j < last && p.sum[j+1] < x {
			j++
		}
		d := slope(j)
		m0, m1 := harmonic(slope(j-1), d), harmonic(d, slope(j+1))
		h := p.sum[j+1] - p.sum[j]
		u := (x - p.sum[j]) / h
		t := p.t[j] + h*u*(m0+u*(3*d-2*m0-m1+u*(m0+m1-2*d)))
		knots = append(knots, t)
	}
	return append(knots, p.t[last+1])
}

func harmonic(a, b float64) float64 { return 2 * a * b / (a + b) }

// weigh changes the needs by what the pairs, one for each equal share, were found
// to stray: a stray of tol is a need of one. Between the middles of shares weights
// change evenly, so that neighbours stay alike, as the turns of their joint assume.
func (p *profile) weigh(stray []float64, tol float64, closed bool) {
	n := len(stray)
	// None so small, or so large, that the next shares overshoot.
	own := make([]float64, n+4)
	for i := range own {
		d := stray[at(i-2, n, closed)]
		own[i] = math.Cbrt(math.Min(math.Max(d/tol, 1e-2), 30))
	}
	weight := func(i int) float64 { return own[i+1]/4 + own[i+2]/2 + own[i+3]/4 }
	k := float64(n) / p.total()
	from, sum := 0.0, 0.0
	for j := 1; j < len(p.sum); j++ {
		to := p.sum[j]
		x := (from+to)/2*k - 0.5
		i := min(max(int(math.Floor(x)), -1), n-1)
		a, b := weight(i), weight(i+1)
		sum += (to - from) * k * (a + (b-a)*(x-float64(i)))
		p.sum[j], from = sum, to
	}
}

// at returns i if it is a position in a list of n; beyond its ends, of one that closes
// the position one turn on, else the end.
func at(i, n int, closed bool) int {
	if closed {
		return ((i % n) + n) % n
	}
	return min(max(i, 0), n-1)
}

// widestPair is the angle, in radians, that a pair turns through at most to begin
// with, well under [mostTurnCos].
const widestPair = 2.0

// needs returns how many pairs the curve needs, from how its curvature changes, or
// nil if it is not smooth.
func (f *fitter) needs(t0, t1 float64, closed bool) *profile {
	for m := 32; m <= 4*mostPairs; m *= 4 {
		ps := make([]sample, m+1)
		for i := range ps {
			ps[i] = newSample(f.c, t0+(t1-t0)*float64(i)/float64(m))
		}
		bends, ways := make([]float64, m), make([]float64, m) // curvature and length
		most := 0.0
		for i := range m {
			turn := ps[i].d.angle(ps[i+1].d)
			ways[i] = ps[i].p.Dist(ps[i+1].p)
			bends[i] = turn / ways[i]
			most = math.Max(most, math.Abs(turn))
		}
		// How fast the curvature changes where an interval begins.
		change := make([]float64, m+1)
		for i := range change {
			k, l := at(i-1, m, closed), at(i, m, closed)
			if !closed {
				k, l = max(min(i-1, m-2), 0), min(max(i, 1), m-1)
			}
			change[i] = 2 * math.Abs(bends[l]-bends[k]) / (ways[l] + ways[k])
		}
		// Twice: for a first count, then with the change averaged over a pair, since
		// where it passes through 0 a pair still has some of it.
		var p *profile
		all := float64(m)
		for range 2 {
			half := min(m/2, int(float64(m)/all/2))
			ahead := make([]float64, m+2*half+2) // sums of change from -half on
			for i := range m + 2*half + 1 {
				k := at(i-half, m+1, false)
				if closed {
					k = at(i-half, m, true)
				}
				ahead[i+1] = ahead[i] + change[k]
			}
			p = newProfile(m)
			for i := range m {
				k := (ahead[i+2*half+2] - ahead[i]) / float64(2*half+2)
				// A little everywhere, so that no stretch is without a share.
				p.add(ps[i].t, ps[i+1].t, ways[i]*math.Max(math.Cbrt(k*chainStray/f.tol), math.Abs(bends[i])/widestPair)+1e-3/float64(m))
			}
			all = p.total()
		}
		switch {
		case math.IsNaN(all) || math.IsInf(all, 0):
			return nil
		case all < float64(m)/4 && most < 0.5:
			return p
		case m > 1000 && most > 0.5:
			return nil // a corner, or next to one
		}
	}
	return nil
}

// stepping fits pairs one after the other, each as far as the tolerance lets it:
// the way for curves that are not smooth enough for [fitter.evenly]. A chord
// steps over what nothing fits.
func (f *fitter) stepping(t0, t1 float64) []Edge {
	c, tol := f.c, f.tol
	var out []Edge
	step := t1 - t0
	for t := t0; t < t1; {
		from := newSample(c, t)
		// The farthest end that holds the tolerance. The deviation grows with the
		// third power of the step, which gives the next guess; good and bad bound it.
		good, bad := t, math.Inf(1)
		var best [2]Edge
		n := 0
		for range 60 {
			to := math.Min(t+step, t1)
			e, k, dev := fitPair(c, from, newSample(c, to))
			grow := math.Cbrt(0.97 * tol / math.Max(dev, tol/1000))
			if dev <= tol {
				good, best, n = to, e, k
				if to == t1 || grow < 1.02 {
					break
				}
			} else {
				bad = to
			}
			step *= math.Max(grow, 0.1)
			if t+step >= bad || t+step <= good {
				step = (good+bad)/2 - t
				if good == t {
					step = (bad - t) / 2
				}
			}
			if good > t && bad-good <= 0.01*(good-t) {
				break
			}
		}
		if n == 0 {
			// Not even the least step holds: the curve has a corner or is not finite.
			// A chord over it keeps the chain closed.
			to := math.Min(t+math.Max(step, (t1-t0)/(1<<12)), t1)
			p, _ := c(to)
			out = append(out, Edge{A: from.p, B: p})
			t, step = to, t1-to
			continue
		}
		out = append(out, best[:n]...)
		step = good - t
		t = good
	}
	return out
}
