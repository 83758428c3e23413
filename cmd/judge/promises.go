package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"fretband/export"
	"fretband/export/handover"
	"fretband/export/report"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/strength"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// outcome is what came of one design.
type outcome int

const (
	kept    outcome = iota
	refused         // a number of it, or of what was asked for, can't be had
)

// promise tries one odd design. Its error is a promise that the program breaks.
type promise func(seed uint64, i int) (outcome, error)

// allowed is how far, mm, metal may be under the rule: what the checks allow for rounding.
const allowed = 1e-5

// laid lays and checks a design, some thoroughly, plans its cut files and reads them back.
func laid(seed uint64, i int) (outcome, error) {
	s, r, err := sheetOf(seed, i, i%20 == 0)
	if s == nil || err != nil {
		return refused, err
	}
	for _, f := range []func(*pattern.Sheet) error{apart, onBlank} {
		if err := f(s); err != nil {
			return kept, err
		}
	}
	if err := sound(s, r); err != nil {
		return kept, err
	}
	if i%20 == 0 {
		if err := carried(s, r); err != nil {
			return kept, err
		}
	}
	o := optionsOf(seed, i, false)
	err = handover.Rehearse(s, r, o, formats("dxf", "svg"))
	var ours *unroll.ProgramError
	switch {
	case errors.As(err, &ours):
		return kept, fmt.Errorf("%w; asked for %+v", err, o)
	case err != nil:
		return refused, nil // by a kerf, a tab or a sheet without room
	}
	return kept, nil
}

// carried solves how a design carries load. What can't be solved is named; figures are
// numbers, piercing does not make a band stiffer, and it yields at a corner before it does
// across a bridge. A coarse mesh is up to 5 % too stiff.
func carried(s *pattern.Sheet, r *check.Report) error {
	f, err := check.StrengthOf(context.Background(), s, r, check.Unasked())
	var metal *strength.MetalError
	var mesh *strength.MeshError
	var loose *strength.LooseError
	var memory *strength.MemoryError
	switch {
	case r.Pieces > 1, errors.Is(err, check.ErrNoModulus), errors.Is(err, strength.ErrNoEnds), errors.Is(err, strength.ErrNoMetal),
		errors.As(err, &metal), errors.As(err, &mesh), errors.As(err, &loose), errors.As(err, &memory):
		return nil
	case err != nil:
		return fmt.Errorf("strength: %w", err)
	}
	for _, c := range f.Cases {
		for _, v := range []float64{c.PerN, c.AtMM, c.ForceN, c.Peak, c.P99, c.FirstYield, c.BridgeYield} {
			if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 {
				return fmt.Errorf("strength: %s: %+v", c.What, []float64{c.PerN, c.AtMM, c.ForceN, c.Peak, c.P99, c.FirstYield, c.BridgeYield})
			}
		}
		if c.PerN < 0.9*c.PlainPerN {
			return fmt.Errorf("strength: %s: %g mm a newton, unpierced %g", c.What, c.PerN, c.PlainPerN)
		}
	}
	if !(f.Rims >= 0 && f.Rims <= 1) || f.IdleArea < 0 {
		return fmt.Errorf("strength: the rims carry %g, %g mm² idle", f.Rims, f.IdleArea)
	}
	return nil
}

// handed makes a design for every receiver, and all files of it. Any that is in one piece
// can be made, whatever else its report says of it. Pictures of the bent band, which take
// seconds, are made of some.
func handed(seed uint64, i int) (outcome, error) {
	s, r, err := sheetOf(seed, i, false)
	if s == nil || err != nil || r.Pieces > 1 {
		return refused, err
	}
	o := optionsOf(seed, i, true)
	for _, v := range append(export.Receivers(), export.Anyone()) {
		makes := handover.Gets(v, o)
		if i%20 != 0 {
			makes = slices.DeleteFunc(makes, func(f handover.Format) bool { return f.Key == "picture-png" || strings.HasPrefix(f.Key, "job-") })
		}
		if err := handover.Rehearse(s, r, o, makes); err != nil {
			return kept, fmt.Errorf("for %s: %w; asked for %+v", v.Title, err, o)
		}
	}
	return kept, nil
}

// sheetOf lays and checks an odd design. There is no sheet if its numbers contradict one
// another.
func sheetOf(seed uint64, i int, deep bool) (*pattern.Sheet, *check.Report, error) {
	d, ok := odd(seed, i)
	if !ok {
		return nil, nil, nil
	}
	s, err := pattern.Lay(d)
	var number *unroll.FieldError
	switch {
	case errors.As(err, &number):
		return nil, nil, nil
	case err != nil:
		return nil, nil, err
	case deep:
		return s, check.All(s), nil
	}
	return s, check.Run(s), nil
}

func formats(keys ...string) []handover.Format {
	return handover.Gets(export.Receiver{Formats: keys}, export.Options{})
}

// apart measures, each against each, whether openings keep the bridge from one another
// and from the copies over the seam.
func apart(s *pattern.Sheet) error {
	for i, a := range s.Openings {
		for j, b := range s.Openings[:i+1] {
			for _, by := range s.Flat.Copies() {
				if i == j && by.X <= 0 {
					continue
				}
				l := b.Loop.Move(by)
				if !l.Bounds().Nearer(a.Loop.Bounds(), s.Rule) {
					continue
				}
				d := plane.Nearest(a.Loop, l).D
				if a.Loop.Contains(l[0].Point) || l.Contains(a.Loop[0].Point) {
					d = -d
				}
				if d < s.Rule-allowed {
					return fmt.Errorf("openings %d and %d: %.6f mm of metal, the rule is %g mm", a.Number, b.Number, d, s.Rule)
				}
			}
		}
	}
	return nil
}

// onBlank measures whether openings lie on the blank and keep the rim. Where two ends are
// one place there is no rim.
func onBlank(s *pattern.Sheet) error {
	var edge []plane.Edge
	for _, e := range s.Flat.Outline.Edges() {
		if half := s.Flat.Length/2 - plane.Snap; s.Flat.Wraps() && math.Abs(e.A.X) > half && math.Abs(e.B.X) > half {
			continue
		}
		edge = append(edge, e)
	}
	for _, o := range s.Openings {
		for _, v := range o.Loop {
			c := plane.Pt(s.Flat.Home(v.X), v.Y)
			if !s.Flat.Outline.Contains(c) && s.Flat.Outline.Nearest(c).D > allowed { // on the seam
				return fmt.Errorf("opening %d lies beside the blank", o.Number)
			}
		}
		for _, e := range edge {
			if !e.Bounds().Nearer(o.Loop.Bounds(), s.EdgeRule) {
				continue
			}
			there := plane.Loop{{Point: e.A, Bulge: e.Bulge}, {Point: e.B, Bulge: -e.Bulge}} // and back
			if d := plane.Nearest(o.Loop, there).D; d < s.EdgeRule-allowed {
				return fmt.Errorf("opening %d: %.6f mm from the edge, must be %g mm", o.Number, d, s.EdgeRule)
			}
		}
	}
	return nil
}

// odd numbers in a text: what is no number, what has no end, and a zero with a sign.
var oddNumbers = regexp.MustCompile(`NaN|Inf|-0(\.0+)?[^.0-9]`)

// sound checks the figures of a report.
func sound(s *pattern.Sheet, r *check.Report) error {
	if !(0 <= r.Removed && r.Removed < r.Plain && r.Left > 0) {
		return fmt.Errorf("%g g of %g g removed, %g g left", r.Removed, r.Plain, r.Left)
	}
	if r.Thinnest.Shortfall() > 0 {
		return fmt.Errorf("the thinnest bridge is %g mm, the rule %g mm", r.Thinnest.Width, r.Thinnest.Rule)
	}
	var text bytes.Buffer
	for _, write := range []func() error{
		func() error { return report.JSON(&text, s, r) },
		func() error { return report.TextInFull(&text, s, r) },
	} {
		text.Reset()
		if err := write(); err != nil {
			return err
		}
		if at := oddNumbers.FindIndex(text.Bytes()); at != nil {
			return fmt.Errorf("the report says %q", text.Bytes()[max(0, at[0]-40):min(text.Len(), at[1]+20)])
		}
	}
	return nil
}
