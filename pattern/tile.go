package pattern

import (
	"math"

	"fretband/unroll/plane"
)

// ground is the ground cut into strips across the band, so that a cell is cut
// by the few edges near it and not by all: the strip for a cell holds all of the
// ground that the cell can reach.
type ground struct {
	from, step float64 // strip i serves cells whose left end is at from + i step or right of it
	tiles      []tile
}

// tile is one strip, with the boxes of its edges.
type tile struct {
	plane.Region
	edges []plane.Box
}

// mostTiles is as many strips as pay for their own making.
const mostTiles = 32

// newGround cuts the region for cells of at most the given width.
func newGround(r plane.Region, widest float64) (ground, error) {
	b := r.Bounds()
	if b.Empty() || widest <= 0 {
		return ground1(r), nil
	}
	n := int(math.Min(mostTiles, math.Max(1, b.W()/(2*widest))))
	g := ground{from: b.Min.X, step: b.W() / float64(n)}
	var err error
	// Halved again and again, so that each cut meets half the edges of the last.
	var halve func(part plane.Region, first, last int)
	halve = func(part plane.Region, first, last int) {
		// A little more than the cells reach, so that the strip's own ends never
		// touch one. The outer strips also serve what sticks out.
		strip := plane.Box{
			Min: plane.Pt(g.from+float64(first)*g.step-widest, b.Min.Y-1),
			Max: plane.Pt(g.from+float64(last)*g.step+2*widest, b.Max.Y+1),
		}
		cut, e := plane.And(part, plane.Region{plane.Rect(strip)})
		if e != nil {
			err = e
			return
		}
		if last-first == 1 {
			g.tiles = append(g.tiles, newTile(cut))
			return
		}
		mid := (first + last) / 2
		halve(cut, first, mid)
		halve(cut, mid, last)
	}
	halve(r, 0, n)
	return g, err
}

// ground1 is a ground in one piece.
func ground1(r plane.Region) ground { return ground{step: math.Inf(1), tiles: []tile{newTile(r)}} }

func newTile(r plane.Region) tile {
	t := tile{Region: r}
	for _, l := range r {
		for i := range l {
			t.edges = append(t.edges, l.Edge(i).Bounds())
		}
	}
	return t
}

// at returns the strip for a cell whose left end is at x.
func (g ground) at(x float64) *tile {
	i := int(math.Floor((x - g.from) / g.step))
	return &g.tiles[min(max(i, 0), len(g.tiles)-1)]
}

// untouched reports whether rest, what the ground leaves of a region, is the region
// whole, but for less than touch at its edge. Areas alone do not tell: a tip that
// reaches out, or a corner that reaches in, has next to none.
func untouched(r, rest plane.Region) bool {
	return rest.Area() >= r.Area()-touch*r.Len() && along(r, rest) && along(rest, r)
}

// along reports whether the vertices of a and the middles of its edges lie on the
// edge of b.
func along(a, b plane.Region) bool {
	for _, l := range a {
		for i := range l {
			e := l.Edge(i)
			if b.Nearest(e.A).D >= touch || b.Nearest(e.At(0.5)).D >= touch {
				return false
			}
		}
	}
	return true
}

// stands reports whether an edge of the ground runs through the box, and if not,
// whether the box is on the ground.
func (t *tile) stands(box plane.Box) (near, inside bool) {
	in := box.Grow(-touch)
	for _, e := range t.edges {
		if e.Meets(in) {
			return true, false
		}
	}
	return false, t.Contains(box.Centre())
}
