package plane

import "math"

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
// between the positions at which it is measured.
var mostTurnCos = math.Cos(75 * math.Pi / 180)

// fitPair returns the one or two edges from a to b and how far the curve strays
// from them.
func fitPair(c Curve, a, b sample) (e [2]Edge, n int, dev float64) {
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
	return e, n, deviation(c, a.t, b.t, e[:n])
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
const places = 12

// deviation returns the greatest distance of the curve between t0 and t1 from
// the edges.
func deviation(c Curve, t0, t1 float64, es []Edge) float64 {
	var ss [2]seg
	for i, e := range es {
		ss[i] = newSeg(e)
	}
	at := func(t float64) float64 {
		p, _ := c(t)
		d := ss[0].dist(p)
		if len(es) > 1 {
			d = math.Min(d, ss[1].dist(p))
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
		most = math.Max(most, v[i])
	}
	if math.IsInf(most, 1) {
		return most
	}
	// Refine every maximum in between that could come out as the greatest, at the
	// crest of the parabola through three positions. It misses the height by a
	// thousandth or less, since at the crest the slope is nothing.
	top := most
	for i := 1; i < places; i++ {
		bend := 2*v[i] - v[i-1] - v[i+1]
		if v[i] < v[i-1] || v[i] < v[i+1] || v[i] < 0.8*top || bend <= 0 {
			continue
		}
		most = math.Max(most, at(t0+h*(float64(i)+(v[i+1]-v[i-1])/(2*bend))))
	}
	return most * (1 + 2e-3)
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
