package strength

import (
	"cmp"
	"math"
	"slices"

	"fretband/unroll/plane"
)

// Result is what a case does, for each newton.
type Result struct {
	// PerN is how far the loads move along themselves, both ends together, mm.
	PerN float64
	// Peak is the greatest von Mises stress on a face, MPa, at PeakAt; 99 % of the area
	// stay under P99. Neither is read where the loads take hold.
	Peak, P99 float64
	PeakAt    plane.Point
	// Bridge is the greatest mean von Mises stress over the width of a bridge or a rim,
	// on its worse face, MPa, at BridgeAt; of a tongue, over its root.
	Bridge   float64
	BridgeAt plane.Point
	// Rims is the share of the bending moment that the two rims carry where the band is
	// pierced; 0 of a tongue and of a band without openings.
	Rims float64
	// Faces are the von Mises stresses of each triangle, MPa, on its inner and its outer
	// face.
	Faces [][2]float64
	// Off is by how much the moments of the sections, from the stress in them, differ from
	// the loads', on the mean and as a share of it: a check of the stress. 0 where it is
	// not made.
	Off float64
	// Move is what each node does, as of [Answer.Move].
	Move [][6]float64
}

// Worse is the greater stress of the two faces of a triangle.
func (r *Result) Worse(k int) float64 { return math.Max(r.Faces[k][0], r.Faces[k][1]) }

// read measures the answer to a case.
func (s *Study) read(c Case, a *Answer) *Result {
	r := &Result{Move: a.Move, Faces: make([][2]float64, len(s.mesh.Tri))}
	for _, l := range c.loads {
		for k, v := range a.Move[l.Node] {
			if k < 3 {
				r.PerN += l.Force[k] * v
			} else {
				r.PerN += l.Moment[k-3] * v
			}
		}
	}
	stress := a.Stresses()
	var seen []int
	for k, t := range s.mesh.Tri {
		r.Faces[k] = [2]float64{stress[k].Inner() * (1 + s.rise[k]), stress[k].Outer() * (1 - s.rise[k])}
		if c.counts == nil || c.counts(int(t[0])) && c.counts(int(t[1])) && c.counts(int(t[2])) {
			seen = append(seen, k)
			if w := r.Worse(k); w > r.Peak*(1+1e-9) {
				r.Peak, r.PeakAt = w, s.middle(k)
			}
		}
	}
	r.P99 = s.percentile(r, seen, 0.99)
	for _, root := range c.roots {
		if m := s.mean(r, s.chord(root[0], root[1])); m > r.Bridge {
			r.Bridge, r.BridgeAt = m, root[0].Mid(root[1])
		}
	}
	if c.roots != nil {
		return r
	}
	s.readSections(c, r, stress)
	return r
}

// middle is the middle of a triangle on the blank.
func (s *Study) middle(k int) plane.Point {
	c := s.corners(k)
	m := c[0].Add(c[1]).Add(c[2]).Mul(1.0 / 3)
	return s.metal.Flat.Place(s.home(m.X), m.Y)
}

// percentile is the stress that the share of the area of the triangles stays under.
func (s *Study) percentile(r *Result, seen []int, share float64) float64 {
	if len(seen) == 0 {
		return 0
	}
	order := slices.Clone(seen)
	slices.SortFunc(order, func(a, b int) int { return cmp.Or(cmp.Compare(r.Worse(a), r.Worse(b)), cmp.Compare(a, b)) })
	var total, sum float64
	for _, k := range order {
		total += s.tri[k]
	}
	for _, k := range order {
		if sum += s.tri[k]; sum >= share*total {
			return r.Worse(k)
		}
	}
	return r.Worse(order[len(order)-1])
}

// mean is the mean stress over pieces of a section, on the worse face.
func (s *Study) mean(r *Result, ps []piece) float64 {
	var in, out, length float64
	for _, p := range ps {
		in += r.Faces[p.tri][0] * p.length
		out += r.Faces[p.tri][1] * p.length
		length += p.length
	}
	if length == 0 {
		return 0
	}
	return math.Max(in, out) / length
}

// readSections measures bridges, rims and the balance of moments across the band.
func (s *Study) readSections(c Case, r *Result, stress []Stress) {
	var rims, all, most float64
	var off vector
	for _, sec := range s.sections {
		x, pieces := sec.x, sec.runs
		if len(pieces) == 0 || !s.closed && math.Abs(x) > s.metal.Flat.Length/2-endLeft {
			continue
		}
		for _, run := range pieces {
			if m := s.mean(r, run); m > r.Bridge*(1+1e-9) {
				first, last := run[0], run[len(run)-1]
				r.Bridge, r.BridgeAt = m, s.metal.Flat.Place(x, (first.from+last.to)/2)
			}
		}
		// The middle of the section, about which its moments are taken.
		var middle vector
		var length float64
		for _, run := range pieces {
			for _, p := range run {
				middle = middle.plus(s.pieceMiddle(p).times(p.length))
				length += p.length
			}
		}
		middle = middle.times(1 / length)
		var total vector
		parts := make([]vector, len(pieces))
		for j, run := range pieces {
			for _, p := range run {
				parts[j] = parts[j].plus(s.moment(p, stress[p.tri], middle))
			}
			total = total.plus(parts[j])
		}
		if len(pieces) > 1 {
			sign := math.Copysign(1, total[2])
			rims += sign * (parts[0][2] + parts[len(parts)-1][2])
			all += sign * total[2]
		}
		if !s.closed && c.balanced {
			want := s.loadLeftOf(c, x, middle)
			most += want.length()
			off = off.plus(total.plus(want))
		}
	}
	if all > 0 {
		r.Rims = math.Min(math.Max(rims/all, 0), 1)
	}
	if most > 0 {
		r.Off = off.length() / most
	}
}

func (s *Study) pieceMiddle(p piece) vector {
	return s.spot(p.tri, p.ends[0]).plus(s.spot(p.tri, p.ends[1])).times(0.5)
}

// moment is that about a point of what the metal to the right of a section does to the
// metal on its left, N mm, in one piece of it.
func (s *Study) moment(p piece, stress Stress, about vector) vector {
	t := s.mesh.Tri[p.tri]
	corner := vec(s.mesh.At[t[0]])
	first, second := vec(s.mesh.At[t[1]]).less(corner), vec(s.mesh.At[t[2]]).less(corner)
	e1, normal := first.unit(), first.cross(second).unit()
	e2 := normal.cross(e1)
	a, b := s.spot(p.tri, p.ends[0]), s.spot(p.tri, p.ends[1])
	right := b.less(a).times(1 / p.length).cross(normal) // in the triangle, square to the section
	n1, n2 := right.dot(e1), right.dot(e2)
	act := func(t [3]float64) vector { return e1.times(t[0]*n1 + t[2]*n2).plus(e2.times(t[2]*n1 + t[1]*n2)) }
	th := s.mesh.Thick[p.tri]
	force := act(stress.Membrane).times(th * p.length)
	bend := normal.cross(act(stress.Bending)).times(th * th / 6 * p.length)
	return bend.plus(a.plus(b).times(0.5).less(about).cross(force))
}

// loadLeftOf is the moment about a point of the loads to the left of x, N mm.
func (s *Study) loadLeftOf(c Case, x float64, about vector) (m vector) {
	for _, l := range c.loads {
		if s.x[l.Node] < x {
			m = m.plus(vec(s.mesh.At[l.Node]).less(about).cross(l.Force)).plus(l.Moment)
		}
	}
	return m
}
