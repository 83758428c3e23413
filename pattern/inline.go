package pattern

import "math"

// inLine returns how far the cells of a run of an exact pitch, of which so many
// stand about its middle, are moved along so that they go on from run to run where
// several of that pitch adjoin: these are centred as one.
func (s *Sheet) inLine(f Field, middle float64, repeats int) float64 {
	if !inLine(f) {
		return 0
	}
	lo, hi := f.Area.FromMM, f.Area.ToMM
	for range s.Design.Fields { // as often as a chain may be long
		for _, g := range s.Design.Fields {
			if !inLine(g) || g.PitchMM != f.PitchMM {
				continue
			}
			if g.Area.ToMM == lo {
				lo = g.Area.FromMM
			}
			if g.Area.FromMM == hi {
				hi = g.Area.ToMM
			}
		}
	}
	if lo == f.Area.FromMM && hi == f.Area.ToMM {
		return 0
	}
	if !s.Flat.Wraps() {
		end := s.Flat.Length/2 - s.Keep
		lo, hi = math.Max(lo, -end), math.Min(hi, end)
	} else {
		middle = (f.Area.FromMM + f.Area.ToMM) / 2 // in the same turn as the others
	}
	move := (lo+hi)/2 - middle
	if (int((hi-lo)/f.PitchMM+1e-9)-repeats)%2 != 0 {
		move += f.PitchMM / 2 // a cell stands on the one middle, a bridge on the other
	}
	return math.Remainder(move, f.PitchMM)
}

// inLine reports whether a field is a run whose cells may go on in the next.
func inLine(f Field) bool {
	return f.Area.Shape == RunShape && f.PitchMM > 0 && (f.Edge == "" || f.Edge == EdgeClip) &&
		f.TurnDeg == 0 && (f.Mirror == "" || f.Mirror == MirrorAcross) && len(f.GradeAlong) == 0
}
