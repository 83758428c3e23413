package check

import (
	"math"

	"fretband/pattern"
	"fretband/unroll"
)

// Lay lays a design out and measures it. It is what every result comes from, on the
// screen and in files.
//
// The error is that of [pattern.Lay], or a [FaultError]: the rules that openings keep
// by the way in which they are made are measured anew, and a sheet that breaks one is
// not handed on.
func Lay(d pattern.Design) (*pattern.Sheet, *Report, error) {
	s, err := pattern.Lay(d)
	if err != nil {
		return nil, nil, err
	}
	if err := finite(s); err != nil {
		return nil, nil, err
	}
	r := Run(s)
	if err := vouch(s, r); err != nil {
		return nil, nil, err
	}
	return s, r, nil
}

// FaultError says that openings were laid where no opening may be. It unwraps to an
// [unroll.ProgramError]: no design may bring that about.
type FaultError struct {
	Openings []int // the numbers of one or two of them; none if it concerns all
	What     string
}

func (e *FaultError) Error() string { return e.Unwrap().Error() }

// Unwrap returns the error as the program's own.
func (e *FaultError) Unwrap() error { return &unroll.ProgramError{What: e.What} }

// finite returns a [FaultError] if a corner of an opening is no number: nothing can be
// measured then, and some measurements would never end.
func finite(s *pattern.Sheet) error {
	for i := range s.Openings {
		for k, v := range s.Openings[i].Loop {
			if !v.Finite() || math.IsNaN(v.Bulge) || math.IsInf(v.Bulge, 0) {
				n := s.Openings[i].Number
				return &FaultError{[]int{n}, pattern.Say("corner %d of opening %d is no number: (%g, %g), bulge %g", k+1, n, v.X, v.Y, v.Bulge)}
			}
		}
	}
	return nil
}

// vouch returns a [FaultError] if an opening is nearer to another one, to the edge or
// to itself than the bridge rule lets it be or lies past the blank, or if more is taken
// out of the band than there is.
func vouch(s *pattern.Sheet, r *Report) error {
	// A width that is no number keeps no rule.
	if b := r.Thinnest; !b.None() && !(b.Width >= b.Rule-slack) {
		names := []int{b.From}
		if b.To != 0 && b.To != b.From {
			names = append(names, b.To)
		}
		return &FaultError{names, pattern.Say("the metal %s is %.6f mm wide at (%.2f, %.2f), under the bridge rule of %.6f mm", b.sides(), b.Width, b.A.X, b.A.Y, b.Rule)}
	}
	// To ask the outline itself about every opening takes a tenth as long as laying them,
	// so the box round the blank has to do.
	blank := s.Flat.Outline.Bounds()
	if s.Seamless() { // openings may run over the seam
		blank.Min.X, blank.Max.X = 2*blank.Min.X, 2*blank.Max.X
	}
	for i := range s.Openings {
		o := &s.Openings[i]
		if !blank.Contains(o.Box.Min) || !blank.Contains(o.Box.Max) {
			p := o.Box.Centre()
			return &FaultError{[]int{o.Number}, pattern.Say("opening %d lies off the blank, about (%.2f, %.2f)", o.Number, p.X, p.Y)}
		}
	}
	if !(r.Removed >= 0 && r.Removed <= r.Plain) {
		return &FaultError{nil, pattern.Say("%.2f g are taken out of a band of %.2f g", r.Removed, r.Plain)}
	}
	return nil
}
