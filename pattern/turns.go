package pattern

import (
	"math"
	"slices"

	"fretband/unroll"
	"fretband/unroll/plane"
)

// motion carries things along the blank without changing their shape: on a flared
// one it turns them about the apex, on all others it moves them along.
type motion struct {
	turn float64
	by   plane.Point
}

// onward returns the motion that carries what lies at x along the band to x + dx,
// at the same distance from the middle line.
func onward(f unroll.Flat, dx float64) motion {
	d := f.Along(dx, 0, 0)
	return motion{math.Atan2(d.Y, d.X), f.Place(dx, 0)}
}

func (m motion) loop(l plane.Loop) plane.Loop {
	if m.turn != 0 {
		l = l.Turn(m.turn)
	}
	return l.Move(m.by)
}

func (m motion) edge(e plane.Edge) plane.Edge {
	return plane.Edge{A: e.A.Turn(m.turn).Add(m.by), B: e.B.Turn(m.turn).Add(m.by), Bulge: e.Bulge}
}

// overSeam returns the copies of a loop that reach onto the blank from the other end
// of a closed band, because the loop reaches over its seam. On a steep cone a whole
// turn on may come to lie over the blank, where it is not meant: so that is asked of
// the place along the band, not of the copy.
func overSeam(d Design, f unroll.Flat, l plane.Loop) []plane.Loop {
	if d.Band.Kind == unroll.Cuff {
		return nil
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	mid := l.Bounds().Centre()
	for i := range l {
		for e, k := l.Edge(i), 0; k < 8; k++ {
			x, _ := whereFrom(f, mid, e.At(float64(k)/8))
			lo, hi = math.Min(lo, x), math.Max(hi, x)
		}
	}
	var ls []plane.Loop
	if hi > f.Length/2 {
		ls = append(ls, onward(f, -f.Length).loop(l))
	}
	if lo < -f.Length/2 {
		ls = append(ls, onward(f, f.Length).loop(l))
	}
	return ls
}

// whereFrom is [unroll.Flat.Where] for a place of something about mid: where that
// reaches round the back of a flared band's apex the length along the band goes on.
func whereFrom(f unroll.Flat, mid, p plane.Point) (x, v float64) {
	x, v = f.Where(p)
	if whole := 2 * math.Pi * f.Apex(); whole != 0 {
		from, _ := f.Where(mid)
		x -= whole * math.Round((x-from)/whole)
	}
	return x, v
}

// onGround returns the loop at all places at which it takes something of the ground,
// which is that of three turns where the ends of the blank meet by moving along.
func onGround(d Design, f unroll.Flat, l plane.Loop, reach plane.Box) []plane.Loop {
	ls := []plane.Loop{l}
	if f.Period > 0 {
		ls = append(ls, l.Move(plane.Pt(-f.Period, 0)), l.Move(plane.Pt(f.Period, 0)))
	} else {
		ls = append(ls, overSeam(d, f, l)...)
	}
	return slices.DeleteFunc(ls, func(l plane.Loop) bool { return !l.Bounds().Meets(reach) })
}

// Again returns the loop where it lies, and where it comes in again at the other
// end of a closed band's blank because it reaches over the seam.
func (s *Sheet) Again(l plane.Loop) []plane.Loop {
	return append([]plane.Loop{l}, overSeam(s.Design, s.Flat, l)...)
}
