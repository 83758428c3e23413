package plane

import (
	"math"
	"math/rand/v2"
	"testing"
)

// hair returns a length between nothing much and a hundredth of a mm, of any
// order, or exactly none.
func hair(r *rand.Rand) float64 {
	if r.IntN(4) == 0 {
		return 0
	}
	return math.Pow(10, -2-8*r.Float64())
}

// rough returns a simple loop with what makes offsets hard: edges shorter than
// anything cut, corners rounded by arcs of a thousandth, slits and spikes no wider
// than a hair, edges that run along each other, lines split in two by a hair.
func rough(r *rand.Rand) Loop {
	for {
		var l Loop
		switch r.IntN(4) {
		case 0:
			l = star(r, 3+r.IntN(7), true)
		case 1:
			l = convex(r, 2+r.IntN(6), true)
		case 2: // a comb on a lattice
			l = Polygon(Pt(0, 0), Pt(6, 0))
			for x := 6.0; x > 0; x -= 2 {
				top := float64(1 + r.IntN(3))
				l = append(l, Polygon(Pt(x, top), Pt(x-1, top+hair(r)), Pt(x-1, 0.5), Pt(x-2, 0.5+hair(r)))...)
			}
			for i := range l {
				if r.IntN(5) == 0 {
					l[i].Bulge = []float64{1, -1, math.Sqrt2 - 1, 1 - math.Sqrt2, 1e-7}[r.IntN(5)]
				}
			}
		case 3: // one shape's own offset: edges tangent, radii alike
			if o := star(r, 3+r.IntN(5), true).Outset(0.1 + r.Float64()); len(o) > 0 {
				l = o[0]
			}
		}
		for range r.IntN(4) {
			l = roughen(r, l)
		}
		if l.Check() == nil {
			return l.CCW()
		}
	}
}

// roughen changes one edge or corner.
func roughen(r *rand.Rand, l Loop) Loop {
	i := r.IntN(len(l))
	e := l.Edge(i)
	if e.Len() < 1e-4 {
		return l
	}
	with := func(es ...Edge) Loop { // in the place of edge i
		out := append(Loop{}, l[:i]...)
		for _, f := range es {
			out = append(out, Vertex{f.A, f.Bulge})
		}
		return append(out, l[i+1:]...)
	}
	t := 0.2 + 0.6*r.Float64()
	w := hair(r) + 3*Snap
	side := e.Tangent(t).Left()
	if r.IntN(2) == 0 {
		side = side.Mul(-1)
	}
	switch r.IntN(5) {
	case 0: // split, and pulled off the line by a hair
		p := e.At(t).Add(side.Mul(hair(r)))
		a, b := e.Part(0, t), e.Part(t, 1)
		a.B, b.A = p, p
		return with(a, b)
	case 1: // a slit or a spike
		if w > e.Len()/4 {
			return l
		}
		f := w / e.Len()
		a, b := e.Part(0, t), e.Part(t+f, 1)
		deep := side.Mul(math.Pow(10, -3*r.Float64()))
		p, q := a.B.Add(deep), b.A.Add(deep)
		return with(a, Edge{a.B, p, 0}, Edge{p, q, []float64{0, 1, -1}[r.IntN(3)]}, Edge{q, b.A, 0}, b)
	case 2: // a step
		a, b := e.Part(0, t), e.Part(t, 1)
		p := b.A.Add(side.Mul(w))
		b.A = p
		return with(a, Edge{a.B, p, 0}, b)
	case 3: // a bump
		f := math.Min(0.1, 10*w/e.Len())
		a, b := e.Part(0, t), e.Part(t+f, 1)
		return with(a, Edge{a.B, b.A, r.NormFloat64()}, b)
	}
	// All corners rounded, by hairs.
	if o := (Region{l.CCW()}).Open(w); len(o) == 1 {
		return o[0]
	}
	return l
}

// critical returns an offset at which something happens to l, or a hair off it: two
// parts of the edge meet, or an arc shrinks to nothing.
func critical(r *rand.Rand, l Loop) float64 {
	d := 1.2 * r.Float64()
	switch r.IntN(3) {
	case 0:
		e, f := l.Edge(r.IntN(len(l))), l.Edge(r.IntN(len(l)))
		d = e.At(float64(r.IntN(3))/2).Dist(f.At(float64(r.IntN(3))/2)) / 2
	case 1:
		if e := l.Edge(r.IntN(len(l))); e.Bulge != 0 {
			d = math.Min(e.Radius(), 3)
		}
	}
	if r.IntN(2) == 0 {
		d += hair(r) * float64(r.IntN(3)-1)
	}
	if d < 1e-5 {
		d = 0.1
	}
	if r.IntN(2) == 0 {
		return -d
	}
	return d
}

func TestOffsetsOfRoughShapesHoldThePointsOfTheirDistance(t *testing.T) {
	r := seeded(t)
	for range roughCases {
		l := rough(r)
		reg := Region{l}
		if in := l.Inset(0.1 + 0.5*r.Float64()); len(in) > 0 && r.IntN(4) == 0 {
			reg = append(reg, in[0].Reverse()) // a frame of even width
		}
		d := critical(r, l)
		checkOffset(t, "rough", reg, d, reg.Offset(d), r.Float64)
		checkEdgewise(t, reg, d, reg.Offset(d), r)
	}
}

func TestTheSlowWayOfOffsettingIsTheSame(t *testing.T) {
	r := seeded(t)
	for range 150 {
		l := star(r, 3+r.IntN(6), true)
		reg := Region{l}
		if in := l.Inset(0.4); len(in) > 0 && r.IntN(2) == 0 {
			reg = append(reg, in[0].Reverse())
		}
		d := r.NormFloat64() * 0.6
		slow, err := offsetBySweep(reg, d)
		if err != nil {
			t.Fatalf("%#v by %g: %v", reg, d, err)
		}
		checkOffset(t, "slow", reg, d, slow, r.Float64)
		nearly(t, "area", slow.Area(), reg.Offset(d).Area(), 1e-5)
		if t.Failed() {
			t.Fatalf("%#v by %g", reg, d)
		}
	}
}

// checkEdgewise asks right beside the edges of the source and of the result,
// where an error would show first.
func checkEdgewise(t testing.TB, r Region, d float64, o Region, rnd *rand.Rand) {
	t.Helper()
	ask := func(p Point) {
		if want, sure := insideBy(r, p, d); sure && o.Contains(p) != want {
			t.Fatalf("offset of %#v by %g: %v is inside: %v, want %v; result %v", r, d, p, !want, want, o)
		}
	}
	for _, l := range r {
		for i := range l {
			e := l.Edge(i)
			f := rnd.Float64()
			n := e.Tangent(f).Left().Mul(-d)
			for _, k := range []float64{0.99, 0.9999, 1.0001, 1.01} {
				ask(e.At(f).Sub(n.Mul(k)))
				ask(e.A.Sub(e.Tangent(0).Left().Mul(-d * k)))
			}
		}
	}
	for _, l := range o {
		for i := range l {
			e := l.Edge(i)
			f := rnd.Float64()
			for _, k := range []float64{-1e-2, -1e-4, 1e-4, 1e-2} {
				ask(e.At(f).Add(e.Tangent(f).Left().Mul(k)))
			}
		}
	}
}

// roughCases is how many shapes are tried by a plain go test.
const roughCases = 1000

func BenchmarkInsetRough(b *testing.B) {
	r := rand.New(rand.NewPCG(1, 1))
	var ls []Loop
	for range 200 {
		ls = append(ls, rough(r))
	}
	b.ResetTimer()
	for i := range b.N {
		ls[i%len(ls)].Inset(0.2)
	}
}
