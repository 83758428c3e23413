package check

import (
	"math"

	"fretband/pattern"
	"fretband/pattern/motif"
	"fretband/unroll/plane"
)

// muchCutOff is the share of a shape from which on a part of it that can't be cut counts as
// lost, not as a rounded corner: ours. Each corner of an even triangle twelve bridges high
// loses a hundredth.
const muchCutOff = 0.03

// checkCutOff tells of the user's own shapes that lose a part: the tail of a fish. What every
// motif of ours loses at its corners is known and meant.
func checkCutOff(s *pattern.Sheet, _ *Report) []Finding {
	var fs []Finding
	for i, f := range s.Design.Fields {
		if f.Motif != motif.OwnKey {
			continue
		}
		cell, off, err := s.CutOff(i)
		if err != nil {
			continue // it is told only where it can be worked out
		}
		var lost plane.Region // what is small is rounded, not lost
		for _, l := range off {
			if l.Area() >= muchCutOff*cell.Area() {
				lost = append(lost, l)
			}
		}
		if len(lost) == 0 {
			continue
		}
		share := 100 * math.Min(lost.Area()/cell.Area(), 1)
		what := pattern.Say("Your own shape of field %d can't be cut whole: %.0f %% of it is left solid, in %s.", i+1, share, count(len(lost), "part", "parts"))
		if share > 99.9 {
			what = pattern.Say("Your own shape of field %d can't be cut: no opening is left of it.", i+1)
		}
		fs = append(fs, Finding{
			Kind: KindCutOff, Severity: Note, What: what,
			Why:   pattern.Say("Half a bridge is kept round the shape on all sides, corners are rounded to %g mm, and a circle of %g mm must fit into each opening. Narrower parts are cut off.", s.Design.Rules.CornerMM, s.Design.Rules.SmallestMM),
			Value: share, Limit: 100 * muchCutOff, Unit: "%", At: firstOf(s, i),
			Mend: "Draw the narrow part wider, use fewer rows and repeats so that the shape is larger, or lower the bridge, the corner radius or the smallest opening.",
		})
	}
	return fs
}

// firstOf is the middle of the first opening of a field.
func firstOf(s *pattern.Sheet, field int) []plane.Point {
	for i := range s.Openings {
		if o := &s.Openings[i]; o.Field == field {
			return []plane.Point{o.Box.Centre()}
		}
	}
	return nil
}
