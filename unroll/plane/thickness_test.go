package plane

import (
	"math"
	"testing"
)

// thickness is the slow obvious local width: for each place of a grid in the metal,
// the diameter of the largest disc about a place of the grid that lies in the metal
// and holds it. Discs are not looked for beyond most. Where the grid's step is s, it
// is less than the true width by 2s or less. Places within 2s of the edge are left out.
type thickness struct {
	from Point
	step float64
	n    int
	w    []float64 // -1 outside of the metal and next to its edge
}

func newThickness(r Region, step, most float64) *thickness {
	b := r.Bounds()
	t := &thickness{from: b.Min, step: step, n: int(math.Max(b.W(), b.H())/step) + 2}
	t.w = make([]float64, t.n*t.n)
	radius := make([]float64, len(t.w))
	for i := range t.w {
		p := t.at(i)
		if t.w[i] = -1; r.Contains(p) {
			d := r.Nearest(p).D
			radius[i] = math.Min(d, most/2)
			if d > 2*step {
				t.w[i] = 0 // nearer to the edge the grid is too coarse
			}
		}
	}
	for i, d := range radius {
		k := int(d / step)
		for y := -k; y <= k; y++ {
			for x := -k; x <= k; x++ {
				if j := i + y*t.n + x; math.Hypot(float64(x), float64(y))*step <= d && t.w[j] >= 0 {
					t.w[j] = math.Max(t.w[j], 2*d)
				}
			}
		}
	}
	return t
}

func (t *thickness) at(i int) Point {
	return t.from.Add(Pt(float64(i%t.n)*t.step, float64(i/t.n)*t.step))
}

// narrow returns the connected stretches of metal narrower than limit.
func (t *thickness) narrow(limit float64) (stretches [][]int) {
	seen := make([]bool, len(t.w))
	for i := range t.w {
		if seen[i] || t.w[i] < 0 || t.w[i] >= limit {
			continue
		}
		seen[i] = true
		todo, all := []int{i}, []int(nil)
		for len(todo) > 0 {
			k := todo[len(todo)-1]
			todo = todo[:len(todo)-1]
			all = append(all, k)
			for _, j := range []int{k - 1, k + 1, k - t.n, k + t.n} {
				if j >= 0 && j < len(t.w) && !seen[j] && t.w[j] >= 0 && t.w[j] < limit {
					seen[j] = true
					todo = append(todo, j)
				}
			}
		}
		stretches = append(stretches, all)
	}
	return stretches
}

// TestNecksAreWhereThicknessIsLeast compares the necks of plates that are pierced
// by convex openings, one of them bent round a tongue, with a map of local
// thickness (Hildebrand and Rueegsegger's definition, by painting discs on a grid).
// The plates have no corners of metal, at which the thickness would go to 0
// without a neck.
func TestNecksAreWhereThicknessIsLeast(t *testing.T) {
	r := seeded(t)
	const step, limit = 0.025, 0.7
	necks, stretches := 0, 0
	for range 2 {
		// A bay of an opening with two arms: metal between the arms and about them.
		horseshoe := Loop{{Pt(-0.5, 0), 0}, {Pt(-0.5, -0.8), 1}, {Pt(0.5, -0.8), 0}, {Pt(0.5, 0), 1}, {Pt(0.18-0.1*r.Float64(), 0), 0}, {Pt(0.2, -0.8), -1}, {Pt(-0.2, -0.8), 0}, {Pt(-0.18, 0), 1}}
		plate := Region{Circle(Pt(0, 0), 3)}
		open := []Loop{horseshoe.CCW().Turn(6 * r.Float64())}
		for len(open) < 8 {
			l := convex(r, 2+r.IntN(5), true).Scale(0.1 + 0.12*r.Float64()).Move(Pt(5*r.Float64()-2.5, 5*r.Float64()-2.5))
			ok := Region{Circle(Pt(0, 0), 2.9)}.Contains(l[0].Point) && Nearest(l, plate[0]).D > 0.2
			for _, o := range open {
				ok = ok && Nearest(l, o).D > 0.2 && !o.Contains(l[0].Point) && !l.Contains(o[0].Point)
			}
			if ok {
				open = append(open, l)
			}
		}
		for _, l := range open {
			plate = append(plate, l.Reverse())
		}
		found := plate.Necks(limit)
		m := newThickness(plate, step, 1.2*limit)
		for _, g := range found {
			d, err := plate.WidthAt(g.Mid(), 1)
			if err != nil {
				t.Fatal(err)
			}
			// At a neck's middle the largest disc may be one beside it, wider; but none
			// narrower than the neck.
			if 2*d.R < g.D-1e-5 {
				t.Errorf("the disc at the neck %v is only %.6f wide", g, 2*d.R)
			}
		}
		for _, s := range m.narrow(limit - 4*step) {
			least := math.Inf(1)
			in := EmptyBox()
			for _, i := range s {
				least = math.Min(least, m.w[i])
				in = in.Add(m.at(i))
			}
			if len(s) < 12 {
				continue // of the grid's own making
			}
			stretches++
			// A neck touches it that is no wider. It may be narrower: the thickness is
			// the diameter of the largest disc that holds a place, which next to a short
			// neck is one beside it.
			ok := false
			for _, g := range found {
				for _, i := range s {
					ok = ok || g.D <= least+3*step && m.at(i).Dist(g.Mid()) <= g.D/2+2*step
				}
			}
			if !ok {
				t.Errorf("a stretch of %d places about %v is %.4f wide at least, and no neck is", len(s), in.Centre(), least)
			}
		}
		necks += len(found)
	}
	t.Logf("%d necks, %d narrow stretches", necks, stretches)
	if necks < 10 || stretches < 6 {
		t.Errorf("only %d necks and %d narrow stretches", necks, stretches)
	}
}
