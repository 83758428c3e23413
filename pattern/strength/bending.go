package strength

import (
	"math"

	"fretband/unroll"
	"fretband/unroll/plane"
)

// Bending is how the metal moves under a case: what is left of its motion once the whole
// band has been brought back, as a rigid body, to where it was. The supports of a solve
// stand anywhere, so its displacements by themselves say little.
type Bending struct {
	// Most is the farthest that any metal moves, mm for each newton, and MostTurn the
	// most that it turns, radians.
	Most, MostTurn float64
	Size           float64 // of the band: the longest side of the box round it, mm

	spread     *Spread
	move, turn []vector // of each corner of the spread, for each newton
}

// Bending returns how the metal moves under a result. spread is that of the same study.
func (s *Study) Bending(r *Result, spread *Spread) *Bending {
	middle, along, about := s.rigid(r)
	b := &Bending{spread: spread, move: make([]vector, len(spread.At)), turn: make([]vector, len(spread.At))}
	lo, hi := vec(s.mesh.At[0]), vec(s.mesh.At[0])
	for i, n := range spread.node {
		at, m := vec(s.mesh.At[n]), r.Move[n]
		b.move[i] = vector(m[:3]).less(along).less(about.cross(at.less(middle)))
		b.turn[i] = vector(m[3:]).less(about)
		b.Most = math.Max(b.Most, b.move[i].length())
		b.MostTurn = math.Max(b.MostTurn, b.turn[i].length())
		for k := range at {
			lo[k], hi[k] = math.Min(lo[k], at[k]), math.Max(hi[k], at[k])
		}
	}
	for k := range lo {
		b.Size = math.Max(b.Size, hi[k]-lo[k])
	}
	return b
}

// rigid is the motion as a rigid body that comes nearest to a result's: with it taken out,
// the sum of the squares of what is left, by the area of metal, is the least.
func (s *Study) rigid(r *Result) (middle, along, about vector) {
	total := 0.0
	for i, p := range s.mesh.At {
		middle = middle.plus(vec(p).times(s.area[i]))
		along = along.plus(vector(r.Move[i][:3]).times(s.area[i]))
		total += s.area[i]
	}
	middle, along = middle.times(1/total), along.times(1/total)
	// The rows of the moments of inertia of the metal's area, and its moment of motion.
	var inertia [3]vector
	var moment vector
	for i, p := range s.mesh.At {
		at := vec(p).less(middle)
		moment = moment.plus(at.cross(vector(r.Move[i][:3]).less(along)).times(s.area[i]))
		for k := range inertia {
			var axis vector
			axis[k] = at.dot(at)
			inertia[k] = inertia[k].plus(axis.less(at.times(at[k])).times(s.area[i]))
		}
	}
	a, b, c := inertia[0], inertia[1], inertia[2] // it is symmetric, so rows are columns
	det := a.dot(b.cross(c))
	return middle, along, vector{moment.dot(b.cross(c)), a.dot(moment.cross(c)), a.dot(b.cross(moment))}.times(1 / det)
}

// At says how the metal at a position of the blank moves, mm, and turns, radians, for each
// newton; beside the metal, as the nearest does.
func (b *Bending) At(p plane.Point) (move, turn unroll.Point3) {
	k, w, ok := int32(0), [3]float64{1}, false
	for near := 0.05; !ok && near < 10*b.Size; near *= 4 {
		k, w, ok = b.spread.find(p, near)
	}
	mix := func(of []vector) unroll.Point3 {
		var sum vector
		for j, i := range b.spread.Tri[k] {
			sum = sum.plus(of[i].times(w[j]))
		}
		return unroll.Point3{X: sum[0], Y: sum[1], Z: sum[2]}
	}
	return mix(b.move), mix(b.turn)
}
