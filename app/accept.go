package app

import (
	"fmt"
	"slices"
	"strings"

	"fretband/pattern"
	"fretband/pattern/check"
)

// MaxReason is the most letters that a reason for accepting a finding has.
const MaxReason = 400

// Accept accepts a finding, for a reason.
func Accept(d *pattern.Design, f check.Finding, reason string) error {
	reason = strings.Join(strings.Fields(reason), " ")
	if n := len([]rune(reason)); n == 0 || len(reason) > MaxReason {
		return fmt.Errorf("a reason has 1 to %d letters; the maker of the band reads it", MaxReason)
	}
	TakeUp(d, f)
	if len(d.Accepted) >= pattern.MaxAccepted {
		return fmt.Errorf("%d findings are accepted already, the most that a design holds", pattern.MaxAccepted)
	}
	a := pattern.Accepted{Finding: f.Kind.Key, Reason: reason}
	if len(f.At) > 0 {
		a.At = pattern.Spot{XMM: f.At[0].X, YMM: f.At[0].Y}
	}
	d.Accepted = append(d.Accepted, a)
	return nil
}

// TakeUp takes back that a finding is accepted.
func TakeUp(d *pattern.Design, f check.Finding) {
	d.Accepted = slices.DeleteFunc(slices.Clone(d.Accepted), func(a pattern.Accepted) bool { return check.Accepts(a, f) })
}
