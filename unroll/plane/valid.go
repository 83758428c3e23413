package plane

import (
	"errors"
	"fmt"
	"math"
)

// Check returns nil if the loop can be the edge of an opening or a blank:
// finite coordinates up to [MaxCoord], two vertices or more, some area, no edge
// crossing or touching another one except neighbours at their common vertex.
// Otherwise the error says which edge or vertex is wrong, and where.
//
// Cost: all pairs of edges whose boxes meet.
func (l Loop) Check() error {
	if len(l) < 2 {
		return fmt.Errorf("a loop of %d vertices: must be 2 or more", len(l))
	}
	for i, v := range l {
		if !v.Finite() || math.Abs(v.X) > MaxCoord || math.Abs(v.Y) > MaxCoord {
			return fmt.Errorf("vertex %d at (%g, %g): coordinates must be -%g to %g mm", i, v.X, v.Y, MaxCoord, MaxCoord)
		}
		if math.IsNaN(v.Bulge) || math.IsInf(v.Bulge, 0) {
			return fmt.Errorf("vertex %d at (%g, %g): bulge %g must be a finite number", i, v.X, v.Y, v.Bulge)
		}
	}
	for i, v := range l {
		if b := l.Edge(i).Bounds(); !within(b) {
			return fmt.Errorf("edge %d from (%g, %g) with bulge %g reaches out to %v: coordinates must be -%g to %g mm", i, v.X, v.Y, v.Bulge, b, MaxCoord, MaxCoord)
		}
		if l.Edge(i).Len() <= Snap {
			return fmt.Errorf("edge %d at (%g, %g): has no length (must be over %g mm)", i, v.X, v.Y, Snap)
		}
	}
	if a := math.Abs(l.Area()); a <= Snap*l.Len()/2 {
		return errors.New("the loop encloses no area")
	}
	return l.checkSimple()
}

// within reports whether a box lies within MaxCoord.
func within(b Box) bool {
	return b.Min.X >= -MaxCoord && b.Min.Y >= -MaxCoord && b.Max.X <= MaxCoord && b.Max.Y <= MaxCoord
}

// checkSimple looks for edges that meet where they must not.
func (l Loop) checkSimple() error {
	n := len(l)
	var buf [smallLoop]seg
	ss := appendSegs(buf[:0], l)
	for i := range n {
		for j := i + 1; j < n; j++ {
			if !ss[i].box.Grow(Snap).Meets(ss[j].box) {
				continue
			}
			if n > 2 && (j == i+1 || i == 0 && j == n-1) && ss[i].k == 0 && ss[j].k == 0 && math.Abs(ss[i].t.Cross(ss[j].t)) > 0.5 {
				continue // lines at an angle meet at their corner alone
			}
			for _, c := range Crossings(l.Edge(i), l.Edge(j)) {
				p := l.Edge(i).At(c.A)
				if j == i+1 && p.Dist(l[j].Point) <= 2*Snap {
					continue
				}
				if i == 0 && j == n-1 && p.Dist(l[0].Point) <= 2*Snap {
					continue
				}
				return fmt.Errorf("edges %d and %d meet at (%.6g, %.6g): a loop must not cross or touch itself", i, j, p.X, p.Y)
			}
		}
	}
	return nil
}
