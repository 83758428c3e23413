package pattern

import (
	"math"

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

// turnsOf returns the motions at which the blank meets itself again: none but
// staying where it is for a cuff, one turn on and one back for a closed band.
func turnsOf(d Design, f unroll.Flat) []motion {
	if d.Band.Kind == unroll.Cuff {
		return []motion{{}}
	}
	return []motion{{}, onward(f, -f.Length), onward(f, f.Length)}
}

// Again returns the loop where it lies, and where it comes in again at the other
// end of a closed band's blank because it reaches over the seam.
func (s *Sheet) Again(l plane.Loop) []plane.Loop {
	ls := []plane.Loop{l}
	for _, m := range turnsOf(s.Design, s.Flat)[1:] {
		a := m.loop(l)
		if s.reaches(a) {
			ls = append(ls, a)
		}
	}
	return ls
}

// reaches reports whether the loop comes between the ends of the blank.
func (s *Sheet) reaches(l plane.Loop) bool {
	for i := range l {
		for e, k := l.Edge(i), 0; k < 8; k++ {
			if x, _ := s.Flat.Where(e.At(float64(k) / 8)); math.Abs(x) < s.Flat.Length/2 {
				return true
			}
		}
	}
	return false
}
