package plane

import (
	"cmp"
	"math"
	"slices"
	"sync"
)

// Pair is two loops of a list, I < J, and the shortest gap between their edges,
// A on loop I and B on loop J.
type Pair struct {
	I, J int
	Gap
}

// Pairs returns all pairs of loops whose edges come nearer to each other than d,
// mm, in the order of I, then J: length 0 where they cross or touch. Loops
// without vertices, or not finite, are near nothing.
//
// Exact, see [NearestEdges]. Cost: a grid over the loops' boxes, grown by half
// of d, finds candidates; linear for loops of like size.
func Pairs(ls []Loop, d float64) []Pair {
	if !(d > 0) {
		return nil
	}
	s := newShelf(ls)
	defer s.done()
	s.build(d)
	var out []Pair
	for i := range ls {
		k := len(out)
		s.after(i, func(j int) {
			if g := s.gap(i, j, d); g.D < d {
				out = append(out, Pair{i, j, g})
			}
		})
		slices.SortFunc(out[k:], func(a, b Pair) int { return cmp.Compare(a.J, b.J) })
	}
	return out
}

// farOut is farther, mm, than any two loops that are looked at.
const farOut = 1e11

// shelf holds the edges of many loops ready for questions.
type shelf struct {
	segs  []seg
	first []int32 // loop i has segs[first[i]:first[i+1]]
	boxes []Box
	grown []Box
	grid  grid
}

// shelvesBefore spares the making of large lists. Nothing is read from them that
// was not written since.
var shelvesBefore = sync.Pool{New: func() any { return new(shelf) }}

// done gives the shelf's memory back.
func (s *shelf) done() { shelvesBefore.Put(s) }

func newShelf(ls []Loop) *shelf {
	n := 0
	for _, l := range ls {
		n += len(l)
	}
	s := shelvesBefore.Get().(*shelf)
	s.segs = room(s.segs, n)
	s.first = room(s.first, len(ls)+1)[:len(ls)+1]
	s.first[0] = 0
	s.boxes = room(s.boxes, len(ls))[:len(ls)]
	for i, l := range ls {
		s.segs = appendSegs(s.segs, l)
		s.first[i+1] = int32(len(s.segs))
		b := EmptyBox()
		for k := s.first[i]; k < s.first[i+1]; k++ {
			b.take(&s.segs[k].box)
		}
		sound := b.Grow(farOut).usable()
		for _, v := range l {
			sound = sound && !math.IsNaN(v.Bulge) && !math.IsInf(v.Bulge, 0)
		}
		if !sound {
			b = EmptyBox()
		}
		s.boxes[i] = b
	}
	return s
}

// build makes the grid in which loops nearer than d share a cell.
func (s *shelf) build(d float64) {
	d = math.Min(d, farOut) // that is everything
	s.grown = room(s.grown, len(s.boxes))[:len(s.boxes)]
	for i, b := range s.boxes {
		s.grown[i] = b.Grow(d / 2)
	}
	s.grid = newGrid(s.grown)
}

// after calls f with every later loop whose grown box meets that of loop i, each
// once.
func (s *shelf) after(i int, f func(j int)) {
	if s.boxes[i].Empty() {
		return
	}
	g, b := &s.grid, &s.grown[i]
	x0, y0, x1, y1 := g.cells(*b)
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			c := y*g.nx + x
			of := g.items[g.first[c]:g.first[c+1]]
			for k := len(of) - 1; k >= 0 && int(of[k]) > i; k-- {
				o := &s.grown[of[k]]
				if b.Min.X > o.Max.X || o.Min.X > b.Max.X || b.Min.Y > o.Max.Y || o.Min.Y > b.Max.Y {
					continue
				}
				// Two boxes may share several cells: the one counts that holds the lower
				// left corner of what they have in common.
				if cx, cy := g.cell(Point{max(b.Min.X, o.Min.X), max(b.Min.Y, o.Min.Y)}); cx == x && cy == y {
					f(int(of[k]))
				}
			}
		}
	}
}

// gap returns the gap under limit between loops i and j.
func (s *shelf) gap(i, j int, limit float64) Gap {
	return nearestSegLists(s.segs[s.first[i]:s.first[i+1]], s.segs[s.first[j]:s.first[j+1]], &s.boxes[i], &s.boxes[j], limit)
}
