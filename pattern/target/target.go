// Package target finds the numbers of a design that bring its band to a weight, or that
// have less metal carry as much ([Lighten]), in several ways, for a person to choose from. It knows nothing of geometry: each
// try is laid and measured as any design is.
//
// What may come in is a design that can be laid, and a [Target]. What comes out are
// choices, each with its design and its whole report; those that do not get there
// say what stands in the way. No choice breaks a rule that the design keeps, and
// none brings a caution that the design does not have already.
package target

import (
	"context"
	"fmt"
	"math"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll"
)

// Kinds of target.
const (
	Left     = "left"     // so many grams are left
	Taken    = "taken"    // such a share of the plain band's weight is taken out
	Lightest = "lightest" // as light as the rules allow
)

// Target is what a person wants the band to come to.
type Target struct {
	Kind string
	// Value is in grams for Left, a share between 0 and 1 for Taken.
	Value float64
}

// Near is how near to its weight a target counts as reached: 0.1 %.
const Near = 0.001

// Choice is one way of changing the design and what comes of it.
type Choice struct {
	Way    string // key of the way, as "bridge"
	Title  string // "Bridge"
	Says   string // what is changed: "bridge 1.2 to 1.43 mm"
	Design pattern.Design
	Sheet  *pattern.Sheet
	Report *check.Report
	// Met says that the weight is within Near of the target. Why is what stands
	// in the way if it is not.
	Met bool
	Why string
}

// WeakestShare is the share of metal left in the weakest section.
func (c Choice) WeakestShare() float64 {
	if c.Report.Net.WeakFull <= 0 {
		return 1
	}
	return c.Report.Net.WeakNet / c.Report.Net.WeakFull
}

// Find tries all ways. The design as it is comes first of what it returns, then
// a choice for each way. It stops early, with the context's error, if that is
// done. Same design and target, same choices.
//
// Cost: some 20 to 60 layings and reports.
func Find(ctx context.Context, d pattern.Design, g Target) ([]Choice, error) {
	if len(d.Fields) == 0 {
		return nil, fmt.Errorf("the band has no field: nothing is cut out whose size could be changed; add a field first")
	}
	s := &search{ctx: ctx, from: d}
	now, err := s.try(d)
	if err != nil {
		return nil, err
	}
	s.start = now
	s.allowed = map[check.Kind]bool{}
	for _, f := range now.Findings {
		if f.Severity > check.Note {
			s.allowed[f.Kind] = true
		}
	}
	switch g.Kind {
	case Left:
		s.target = g.Value
	case Taken:
		if !(g.Value > 0 && g.Value < 1) {
			return nil, fmt.Errorf("the share to take out must be between 0 and 100 %%; it is %g %%", 100*g.Value)
		}
		s.target = now.Plain * (1 - g.Value)
	case Lightest:
		s.target = 0
	default:
		return nil, fmt.Errorf("%s is no goal; use %q, %q or %q", unroll.Quote(g.Kind), Left, Taken, Lightest)
	}
	if g.Kind != Lightest && !(s.target > 0 && s.target < now.Plain) {
		return nil, fmt.Errorf("%.4g g can't be left: the plain band weighs %.4g g, and something must be left of it", s.target, now.Plain)
	}
	out := []Choice{{Way: "now", Title: "As it is", Design: d, Sheet: now.sheet, Report: now.Report, Met: g.Kind != Lightest && s.met(now)}}
	for _, w := range ways {
		c, ok := w.find(s)
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		if ok {
			c.Way, c.Title = w.key, w.title
			out = append(out, c)
		}
	}
	return out, nil
}

// search is one run of [Find].
type search struct {
	ctx     context.Context
	from    pattern.Design
	start   tried
	target  float64 // g; 0 for as light as can be
	allowed map[check.Kind]bool
}

// tried is a design that has been laid and measured.
type tried struct {
	*check.Report
	sheet *pattern.Sheet
}

// try lays and measures a design.
func (s *search) try(d pattern.Design) (tried, error) {
	if err := s.ctx.Err(); err != nil {
		return tried{}, err
	}
	sheet, report, err := check.Lay(d)
	return tried{report, sheet}, err
}

// against returns what in the report a choice must not have, or "".
func (s *search) against(r tried) string {
	for _, f := range r.Findings {
		if f.Severity > check.Note && !s.allowed[f.Kind] {
			return f.What
		}
	}
	return ""
}

func (s *search) met(r tried) bool {
	return math.Abs(r.Left-s.target) <= Near*s.target
}

// usualLeast is the least bridge that no finding speaks against, mm: the sheet's
// thickness and never under 0.5 (common practice, as in the check of bridge and
// sheet); or the design's own, if that is less already.
func usualLeast(d pattern.Design) float64 {
	t := 0.0
	if f, err := unroll.Unroll(d.Band); err == nil {
		t = f.Thickness
	}
	return math.Min(d.Rules.BridgeMM, math.Max(0.5, t))
}
