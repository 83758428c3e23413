package plane

import "math"

// Curve is a smooth curve: its point at the parameter t, and its tangent there,
// of any length but zero, in the direction of growing t.
type Curve func(t float64) (p, tangent Point)

// FitArcs returns lines and arcs that follow the curve from t0 to t1 within tol,
// mm, start and end on it in its direction, and run into each other without
// corners. They are few: each pair of arcs reaches as far as the tolerance
// lets it. A line comes back as one line, an arc of a circle as arcs of at most
// half a turn. The curve must have no corners between t0 and t1, t0 < t1.
//
// Each pair is a biarc: two arcs that share a tangent where they meet, through
// both ends in their directions, with equal distances from the ends to the
// corners of their common hull (K. M. Bolton, "Biarc curves", Computer-Aided
// Design 7, 1975). How far the curve is from a pair is measured at twice as many
// places as its deviation can have extremes, and refined to the maximum in
// between, in both directions along the curve's normal to the arcs.
func FitArcs(c Curve, t0, t1, tol float64) []Edge {
	if !(t0 < t1) || !(tol > 0) {
		return nil
	}
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
			e, k, dev := fitPair(c, from, newSample(c, to), tol)
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
	return mergeChain(out)
}

// FitLoop is FitArcs for a closed curve, whose end is its start: the result is a
// closed loop.
func FitLoop(c Curve, t0, t1, tol float64) Loop {
	es := FitArcs(c, t0, t1, tol)
	l := make(Loop, len(es))
	for i, e := range es {
		l[i] = Vertex{e.A, e.Bulge}
	}
	return l.merge(sameCurve)
}

// sample is a curve's point and unit tangent.
type sample struct {
	t    float64
	p, d Point
}

func newSample(c Curve, t float64) sample {
	p, d := c(t)
	return sample{t, p, d.Unit()}
}

// mostTurn is how far a pair of arcs may turn from its chord at either end: the
// sine and cosine of 75 degrees. More would let the pair stray from the curve
// between the places at which it is measured.
var mostTurnCos = math.Cos(75 * math.Pi / 180)

// fitPair returns the one or two edges from a to b and how far the curve strays
// from them, at least whether more than tol.
func fitPair(c Curve, a, b sample, tol float64) (e [2]Edge, n int, dev float64) {
	chord := b.p.Sub(a.p)
	l := chord.Len()
	if l == 0 || !b.p.Finite() {
		return e, 0, math.Inf(1)
	}
	u := chord.Mul(1 / l)
	if a.d.Dot(u) < mostTurnCos || b.d.Dot(u) < mostTurnCos {
		return e, 0, math.Inf(1)
	}
	sa, sb := a.d.Cross(u), u.Cross(b.d)
	if math.Abs(sa-sb) <= 1e-9 {
		// One arc, or a line, has both tangents.
		e[0] = Edge{a.p, b.p, bulgeOf(math.Asin(math.Max(-1, math.Min(1, (sa+sb)/2))), l)}
		n = 1
	} else {
		// Equal tangent lengths d: |v|^2 - 2 d v.(ta+tb) + 2 d^2 (ta.tb - 1) = 0.
		s := chord.Dot(a.d.Add(b.d))
		den := 2 * (1 - a.d.Dot(b.d))
		d := l * l / (s + math.Sqrt(s*s+den*l*l))
		j := a.p.Add(a.d.Mul(d)).Mid(b.p.Sub(b.d.Mul(d)))
		e[0] = arcFrom(a.p, a.d, j)
		e[1] = arcFrom(b.p, b.d.Mul(-1), j).Reverse()
		n = 2
	}
	return e, n, deviation(c, a.t, b.t, e[:n], tol)
}

// bulgeOf returns the bulge of an arc over half the sweep half, 0 if its
// sagitta over the chord l is nothing.
func bulgeOf(half, l float64) float64 {
	b := math.Tan(half / 2)
	if math.Abs(b)*l/2 < 1e-12 {
		return 0
	}
	return b
}

// arcFrom returns the arc from p in the unit direction d to q.
func arcFrom(p, d, q Point) Edge {
	v := q.Sub(p)
	return Edge{p, q, bulgeOf(math.Atan2(d.Cross(v), d.Dot(v)), v.Len())}
}

// places is the number of intervals in which the deviation from a pair of arcs
// is looked at; between two arcs and a curve that turns less than 150 degrees
// it has a handful of extremes.
const places = 16

// deviation returns the greatest distance of the curve between t0 and t1 from
// the edges, or something over tol as soon as it is over tol.
func deviation(c Curve, t0, t1 float64, es []Edge, tol float64) float64 {
	var ss [2]seg
	for i, e := range es {
		ss[i] = newSeg(e)
	}
	at := func(t float64) float64 {
		p, _ := c(t)
		d := math.Inf(1)
		for i := range es {
			d = math.Min(d, ss[i].dist(p))
		}
		if math.IsNaN(d) {
			return math.Inf(1)
		}
		return d
	}
	var v [places + 1]float64
	h := (t1 - t0) / places
	most := 0.0
	for i := 1; i < places; i++ {
		v[i] = at(t0 + float64(i)*h)
		if most = math.Max(most, v[i]); most > tol {
			return most
		}
	}
	// Refine every local maximum that could come out over the tolerance.
	for i := 1; i < places; i++ {
		if v[i] < v[i-1] || v[i] < v[i+1] || v[i] < most/2 {
			continue
		}
		// Golden section (J. Kiefer, "Sequential minimax search", 1953).
		const g = 0.6180339887498949
		lo, hi := t0+float64(i-1)*h, t0+float64(i+1)*h
		x, y := hi-g*(hi-lo), lo+g*(hi-lo)
		fx, fy := at(x), at(y)
		for range 12 {
			if fx > fy {
				hi, y, fy = y, x, fx
				x = hi - g*(hi-lo)
				fx = at(x)
			} else {
				lo, x, fx = x, y, fy
				y = lo + g*(hi-lo)
				fy = at(y)
			}
		}
		if most = math.Max(most, math.Max(fx, fy)); most > tol {
			return most
		}
	}
	return most
}

// sameCurve is how far, mm, fitted edges may be from one circle to be merged:
// so little that no corner is felt.
const sameCurve = 1e-11

// mergeChain joins neighbouring edges of one line or circle in an open chain.
func mergeChain(es []Edge) []Edge {
	if len(es) == 0 {
		return nil
	}
	out := es[:1]
	for _, e := range es[1:] {
		if m, ok := merged(out[len(out)-1], e, sameCurve); ok {
			out[len(out)-1] = m
			continue
		}
		out = append(out, e)
	}
	return out
}
