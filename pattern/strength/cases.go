package strength

import (
	"fmt"
	"math"

	"fretband/unroll/plane"
)

// Lengths, mm, of the metal that hands and tools take hold of: ours. A force is
// spread over it, since a force on one node has no end of stress under it.
const (
	endHold  = 3.0 // of a cuff, from its end
	sideHold = 3.0 // along the band, where it is held
)

// endLeft is the length at a cuff's ends, mm, where no stress is read: the force is
// applied there.
const endLeft = 4.0

// Case is one way of loading a band. Its loads balance each other.
type Case struct {
	// Where the loads take hold.
	At []plane.Point
	// counts says at which nodes stress is read; nil means at all.
	counts func(node int) bool
	// roots, of a tip, are the sections that it hangs on.
	roots [][2]plane.Point

	loads []Load
	// balanced says that loads take hold at both ends of a cuff only, so that the moment
	// of each section between is known.
	balanced bool
}

// ends returns the middles of a cuff's two ends on its middle surface, left and right,
// and the direction in which the right one is pulled from the left one.
func (s *Study) ends() (a, z, apart vector) {
	f := s.metal.Flat
	a = s.bend(f.Place(-f.Length/2, 0))
	z = s.bend(f.Place(f.Length/2, 0))
	apart = z.less(a)
	apart[2] = 0
	if d := apart.length(); d > 1e-6 {
		return a, z, apart.times(1 / d)
	}
	// The ends stand face to face: apart is along the band there.
	_, n, _ := f.Station(f.Length / 2)
	u := n.Left().Mul(-1)
	return a, z, vector{u.X, u.Y, 0}
}

func (s *Study) bend(p plane.Point) vector {
	return vec(s.metal.Flat.Bend(p, s.metal.Flat.Thickness/2))
}

// endGrips take hold of both ends of a cuff.
func (s *Study) endGrips() (left, right grip) {
	l := s.metal.Flat.Length / 2
	left = s.gripOf(func(i int) bool { return s.x[i] < -l+endHold })
	right = s.gripOf(func(i int) bool { return s.x[i] > l-endHold })
	return left, right
}

// awayFromEnds reads the stress of a cuff.
func (s *Study) awayFromEnds(i int) bool { return math.Abs(s.x[i]) < s.metal.Flat.Length/2-endLeft }

// Opened pulls the middles of a cuff's ends straight apart by 1 N.
func (s *Study) Opened() (Case, error) {
	left, right := s.endGrips()
	if left.empty() || right.empty() {
		return Case{}, ErrNoEnds
	}
	a, z, u := s.ends()
	f := s.metal.Flat
	return Case{
		At:       []plane.Point{f.Place(-f.Length/2, 0), f.Place(f.Length/2, 0)},
		counts:   s.awayFromEnds,
		loads:    append(left.pull(a, u.times(-1)), right.pull(z, u)...),
		balanced: true,
	}, nil
}

// Rolled pushes the ends of a cuff past each other along its axis by 1 N, as when it
// is rolled on over its side; the front, as long as the gap is wide, is held against
// the couple of the two.
func (s *Study) Rolled() (Case, error) {
	left, right := s.endGrips()
	f := s.metal.Flat
	a, z, _ := s.ends()
	apart := z.less(a)
	half := math.Max(apart.length(), 2*sideHold) / 2
	front := s.gripOf(func(i int) bool { return math.Abs(s.x[i]) < half })
	if left.empty() || right.empty() || front.empty() {
		return Case{}, ErrNoEnds
	}
	axis := vector{0, 0, 1}
	couple := apart.cross(axis)
	loads := append(left.pull(a, vector{0, 0, -1}), right.pull(z, axis)...)
	return Case{
		At:     []plane.Point{f.Place(-f.Length/2, 0), f.Place(f.Length/2, 0)},
		counts: s.awayFromEnds,
		loads:  append(loads, s.twist(front, couple.times(-1))...),
	}, nil
}

// Squeezed presses the place x along the middle line of a closed band and the one
// opposite towards each other by 1 N, over the whole width.
func (s *Study) Squeezed(x float64) (Case, error) {
	f := s.metal.Flat
	y := s.home(x + f.Length/2)
	grips := [2]grip{s.gripAcross(x), s.gripAcross(y)}
	if grips[0].empty() || grips[1].empty() {
		return Case{}, ErrNoMetal
	}
	a, b := s.bend(f.Place(x, 0)), s.bend(f.Place(y, 0))
	u := b.less(a)
	u[2] = 0
	d := u.length()
	if d == 0 {
		return Case{}, ErrNoMetal
	}
	u = u.times(1 / d)
	return Case{
		At:    []plane.Point{f.Place(x, 0), f.Place(y, 0)},
		loads: append(grips[0].pull(a, u), grips[1].pull(b, u.times(-1))...),
	}, nil
}

// Tip is metal held on one side only.
type Tip struct {
	At     plane.Point    // where it is caught
	Root   [2]plane.Point // the ends of the section that it hangs on
	Length float64        // mm, from the root to the tip
	// Far is a second section on the other side of the tip, if it is held there too.
	Far *[2]plane.Point
}

// Caught pulls a tip by 1 N, across the surface (outwards) or in it, sideways; the metal
// about its root is held. What is measured is the tip's own bending.
func (s *Study) Caught(t Tip, across bool) (Case, error) {
	root := t.Root[0].Mid(t.Root[1])
	wide := t.Root[0].Dist(t.Root[1])
	way := t.At.Sub(root)
	if way.Len() < 1e-6 {
		return Case{}, ErrNoMetal
	}
	way = way.Unit()
	// The tip is the metal nearest to it, a third of the sheet's thickness round.
	var tip grip
	for r := math.Max(s.metal.Flat.Thickness/3, 0.2); tip.empty() && r < t.Length; r *= 1.5 {
		tip = s.gripOf(func(i int) bool { return s.mesh.Flat[i].Dist(t.At) < r })
	}
	// Behind each root metal holds, about as far as the root is wide.
	behind := func(root [2]plane.Point, way plane.Point) func(q plane.Point) bool {
		m := root[0].Mid(root[1])
		return func(q plane.Point) bool { return q.Sub(m).Dot(way) < -s.metal.Flat.Thickness/2 }
	}
	var hold grip
	for r := wide + 2*s.metal.Flat.Thickness; hold.empty() && r < s.metal.Flat.Length; r *= 1.5 {
		back, far := behind(t.Root, way), func(plane.Point) bool { return false }
		middle := root
		if t.Far != nil {
			far, middle = behind(*t.Far, way.Mul(-1)), t.Far[0].Mid(t.Far[1])
		}
		hold = s.gripOf(func(i int) bool {
			q := s.mesh.Flat[i]
			return q.Dist(root) < r && back(q) || q.Dist(middle) < r && far(q)
		})
	}
	if tip.empty() || hold.empty() {
		return Case{}, ErrNoMetal
	}
	at := s.bend(t.At)
	side := t.At.Add(way.Left().Mul(0.01))
	in := s.bend(side).less(at).unit()
	force := in
	if across {
		ahead := s.bend(t.At.Add(way.Mul(0.01))).less(at)
		force = ahead.cross(in).unit()
	}
	reach := t.Length + wide
	counts := func(i int) bool {
		q := s.mesh.Flat[i]
		return q.Dist(root) < reach && q.Dist(t.At) > t.Length/3 && q.Sub(root).Dot(way) > -wide
	}
	roots := [][2]plane.Point{t.Root}
	if t.Far != nil {
		roots = append(roots, *t.Far)
	}
	return Case{
		At: []plane.Point{t.At}, counts: counts, roots: roots,
		loads: append(tip.pull(at, force), hold.pull(at, force.times(-1))...),
	}, nil
}

// Pushed pushes the metal at p outwards by 1 N (inwards is the same with the other
// sign). A closed band is held opposite; a cuff at the front or, for a push at the front,
// at its ends.
func (s *Study) Pushed(p plane.Point) (Case, error) {
	r := math.Max(s.metal.Flat.Thickness, 1)
	push := s.gripDisc(p, r)
	if push.empty() {
		return Case{}, fmt.Errorf("pushed at (%.1f, %.1f): %w", p.X, p.Y, ErrNoMetal)
	}
	x, _ := s.metal.Flat.Where(p)
	l := s.metal.Flat.Length
	var hold grip
	switch {
	case s.closed:
		hold = s.gripAcross(s.home(x + l/2))
	case math.Abs(x) > l/8:
		hold = s.gripOf(func(i int) bool { return math.Abs(s.x[i]) < sideHold })
	default:
		hold = s.gripOf(func(i int) bool { return math.Abs(s.x[i]) > l/2-sideHold })
	}
	if hold.empty() {
		return Case{}, ErrNoMetal
	}
	at := s.bend(p)
	_, n, _ := s.metal.Flat.Station(x)
	out := vector{n.X, n.Y, 0}
	return Case{
		At:     []plane.Point{p},
		counts: func(i int) bool { return s.mesh.Flat[i].Dist(p) > 2*r },
		loads:  append(push.pull(at, out), hold.pull(at, out.times(-1))...),
	}, nil
}
