package export

import (
	"math"

	"fretband/unroll/plane"
)

// tinyEdge is the length, mm, under which a cut file holds no edge: programs that offset
// or order lines stumble over shorter ones, and no machine here resolves it. Ours.
const tinyEdge = 0.002

// withoutTiny returns the loop without edges shorter than tinyEdge, such as the rounding
// of a corner may leave of an arc. Such an edge and the longer arc beside it become one arc
// that encloses the same area; between lines it goes, with its vertex.
func withoutTiny(l plane.Loop) plane.Loop {
	for i := 0; i < len(l) && len(l) > 3; {
		if l.Edge(i).Len() >= tinyEdge {
			i++
			continue
		}
		n := len(l)
		last := (i + n - 1) % n
		before, after := l.Edge(last), l.Edge((i+1)%n)
		if before.IsLine() == after.IsLine() && before.Len() >= after.Len() || !before.IsLine() && after.IsLine() {
			l = joined(l, last)
		} else {
			l = joined(l, i)
		}
		i = 0
	}
	return l
}

// joined returns the loop with edge i and the next one made one edge of the same area.
func joined(l plane.Loop, i int) plane.Loop {
	n := len(l)
	j := (i + 1) % n
	a, m, b := l[i], l[j], l[(i+2)%n]
	out := make(plane.Loop, 0, n-1)
	for k, v := range l {
		if k == i {
			v.Bulge = 0
			if a.Bulge != 0 || m.Bulge != 0 {
				v.Bulge = bulgeOver(a.Point, b.Point, plane.Loop{a, m, {Point: b.Point}}.Area())
			}
		}
		if k != j {
			out = append(out, v)
		}
	}
	return out
}

// bulgeOver returns the bulge of the arc from a to b that has the signed area between its
// chord and itself. By secants from the flat segment's area, chord^2 bulge / 3.
func bulgeOver(a, b plane.Point, area float64) float64 {
	over := func(bulge float64) float64 {
		return plane.Loop{{Point: a, Bulge: bulge}, {Point: b}}.Area() - area
	}
	c := a.Dist(b)
	x0, f0 := 0.0, -area
	x := 3 * area / (c * c)
	for range 30 {
		f := over(x)
		if f == 0 || f == f0 || math.Abs(f) <= 1e-16*math.Abs(area) {
			break
		}
		x, x0, f0 = x-f*(x-x0)/(f-f0), x, f
	}
	return x
}
