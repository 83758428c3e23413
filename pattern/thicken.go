package pattern

import (
	"math"

	"fretband/unroll/plane"
)

// thickened trims an opening whose own edge comes so near to itself that it leaves a
// neck of metal under the rule, by as little as widens the neck to the rule and by
// the same on both of its sides. It returns nil if nothing of the kind helps.
//
// The metal that a disc of the rule's diameter can't reach without touching the
// opening on both sides is what closing the opening by that disc fills (J. Serra,
// Image Analysis and Mathematical Morphology, 1982, ch. II). Of it, the part that
// holds the neck is grown all round by half of what the neck lacks. Where that part
// was wider than at the neck it comes out wider than the rule by the difference, and
// nowhere narrower than the rule.
func (c *cutter) thickened(l plane.Loop, necks []plane.Gap) plane.Region {
	r := c.rule / 2
	closed := l.Outset(r).Offset(-r)
	thin, err := plane.Not(closed, plane.Region{l})
	if err != nil {
		return nil
	}
	left := plane.Region{l}
	for _, part := range parts(thin) {
		least := math.Inf(1)
		for _, n := range necks {
			if part.Contains(n.A.Mid(n.B)) {
				least = math.Min(least, n.D)
			}
		}
		if math.IsInf(least, 1) {
			continue // a corner, or a tongue that stands clear
		}
		if left, err = plane.Not(left, part.Offset((c.rule-least)/2+touch)); err != nil {
			return nil
		}
	}
	return left
}
