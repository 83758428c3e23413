package strength

import (
	"math"

	"fretband/unroll/plane"
)

// grip is metal that a force takes hold of: nodes with their shares of it, which sum
// to 1, by the area of metal round each.
type grip struct {
	nodes  []int
	share  []float64
	middle vector // the mean of the nodes by their shares
}

// gripOf takes hold of the nodes for which in says so. It is empty where no metal is.
func (s *Study) gripOf(in func(node int) bool) grip {
	var g grip
	var total float64
	for i, a := range s.area {
		if in(i) {
			g.nodes = append(g.nodes, i)
			g.share = append(g.share, a)
			total += a
		}
	}
	for k, n := range g.nodes {
		g.share[k] /= total
		g.middle = g.middle.plus(vec(s.mesh.At[n]).times(g.share[k]))
	}
	return g
}

// gripAcross takes hold of the metal on the line across the band at x, evenly along it: what
// a triangle has of the line goes to its corners by their shape functions, so that the force
// is the same on any mesh. Nodes near the line would be few and far between on a coarse one,
// and dent it.
func (s *Study) gripAcross(x float64) grip {
	shares := make([]float64, len(s.mesh.At))
	var total float64
	for k, t := range s.mesh.Tri {
		at := s.corners(k)
		turn := s.home(at[0].X-x) - (at[0].X - x)
		var d [3]float64 // along the band from the line
		for j, p := range at {
			d[j] = p.X - x + turn
		}
		// The line crosses two sides, or none. A corner on it counts as beyond it.
		var ends [2]plane.Point
		var sum [3]float64
		n := 0
		for j := range 3 {
			i := (j + 1) % 3
			if (d[j] < 0) == (d[i] < 0) || n == 2 {
				continue
			}
			share := d[j] / (d[j] - d[i])
			ends[n] = at[j].Add(at[i].Sub(at[j]).Mul(share))
			sum[j] += 1 - share
			sum[i] += share
			n++
		}
		if n < 2 {
			continue
		}
		length := ends[0].Dist(ends[1])
		total += length
		for j, i := range t {
			shares[i] += length * sum[j] / 2
		}
	}
	return s.gripBy(shares, total)
}

// gripDisc takes hold of the metal within r of p: positions spread evenly over the disc,
// each held by the corners of its triangle by their shape functions, so that the force is
// nearly the same on any mesh.
func (s *Study) gripDisc(p plane.Point, r float64) grip {
	x, v := s.metal.Flat.Where(p)
	shares := make([]float64, len(s.mesh.At))
	var total float64
	hold := func(dx, dv float64) {
		q := plane.Pt(s.home(x+dx), v+dv)
		for k, t := range s.mesh.Tri {
			at := s.corners(k)
			turn := s.home(at[0].X-q.X) - (at[0].X - q.X)
			a, b, c := at[0].Sub(q), at[1].Sub(q), at[2].Sub(q)
			a.X, b.X, c.X = a.X+turn, b.X+turn, c.X+turn
			sum := [3]float64{b.Cross(c), c.Cross(a), a.Cross(b)}
			if min(sum[0], sum[1], sum[2]) < 0 {
				continue
			}
			whole := sum[0] + sum[1] + sum[2]
			for j, i := range t {
				shares[i] += sum[j] / whole
			}
			total++
			return
		}
	}
	// Rings of 6 n positions over n equal steps of the radius: each stands for as much of
	// the disc.
	const rings = 3
	hold(0, 0)
	for n := 1; n <= rings; n++ {
		for i := range 6 * n {
			d := plane.Pt(r*float64(n)/(rings+0.5), 0).Turn(2 * math.Pi * float64(i) / float64(6*n))
			hold(d.X, d.Y)
		}
	}
	return s.gripBy(shares, total)
}

// gripBy takes hold of nodes by their shares of a total.
func (s *Study) gripBy(shares []float64, total float64) grip {
	var g grip
	for i, v := range shares {
		if v > 0 {
			g.nodes, g.share = append(g.nodes, i), append(g.share, v/total)
			g.middle = g.middle.plus(vec(s.mesh.At[i]).times(v / total))
		}
	}
	return g
}

func (g grip) empty() bool { return len(g.nodes) == 0 }

// pull returns the loads of a force whose line passes through p: the force and its
// couple about the middle of the grip, both spread by the shares.
func (g grip) pull(p, force vector) []Load {
	couple := p.less(g.middle).cross(force)
	loads := make([]Load, len(g.nodes))
	for k, n := range g.nodes {
		loads[k] = Load{Node: n, Force: force.times(g.share[k]), Moment: couple.times(g.share[k])}
	}
	return loads
}

// twist returns the loads of a couple, as forces that grow with the distance from the
// middle, as those of a rigid grip do: moments on the nodes would be a twist in the metal
// itself, which no hand gives. The grip must be wide both ways.
func (s *Study) twist(g grip, couple vector) []Load {
	// The forces spin x r, by their shares, have the couple: that of the inertia times spin.
	var inertia [3]vector
	for k, n := range g.nodes {
		r := vec(s.mesh.At[n]).less(g.middle)
		for i := range 3 {
			inertia[i][i] += r.dot(r) * g.share[k]
			for j := range 3 {
				inertia[i][j] -= r[i] * r[j] * g.share[k]
			}
		}
	}
	a, b, c := inertia[1].cross(inertia[2]), inertia[2].cross(inertia[0]), inertia[0].cross(inertia[1])
	spin := a.times(couple[0]).plus(b.times(couple[1])).plus(c.times(couple[2])).times(1 / inertia[0].dot(a))
	loads := make([]Load, len(g.nodes))
	for k, n := range g.nodes {
		loads[k] = Load{Node: n, Force: spin.cross(vec(s.mesh.At[n]).less(g.middle)).times(g.share[k])}
	}
	return loads
}
