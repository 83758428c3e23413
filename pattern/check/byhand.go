package check

import (
	"fmt"
	"slices"

	"fretband/pattern"
	"fretband/unroll/plane"
)

// checkByHand says which edits made by hand no longer find what they were made
// for, edit by edit and reason by reason, and which ties are wider than was asked for.
func checkByHand(s *pattern.Sheet, _ *Report) []Finding {
	type group struct {
		edit int
		why  string
		at   []plane.Point
	}
	var groups []group
next:
	for _, d := range s.Idle {
		for i := range groups {
			if g := &groups[i]; g.edit == d.Edit && g.why == d.Why {
				g.at = append(g.at, d.At)
				continue next
			}
		}
		groups = append(groups, group{d.Edit, d.Why, []plane.Point{d.At}})
	}
	var fs []Finding
	for _, g := range groups {
		verb := "does"
		if len(g.at) > 1 {
			verb = "do"
		}
		fs = append(fs, Finding{
			Kind: KindByHand, Severity: Caution,
			What: fmt.Sprintf("Edit %d by hand, %s: %s %s nothing now: %s.", g.edit+1, editName(s.Design.Edits[g.edit].Do),
				count(len(g.at), "place", "places"), verb, g.why),
			Why:   "The edit stays in the design and works again when the numbers allow it.",
			Value: float64(len(g.at)), Unit: unit(len(g.at), "place", "places"), At: g.at,
			Mend:  "Remove the edit, or move it to an opening on the page By hand.",
			Fixes: removeIdle(s, g.edit),
		})
	}
	for i, e := range s.Design.Edits {
		if e.Do != pattern.Tie || e.WidthMM == 0 || e.WidthMM >= s.Rule {
			continue
		}
		fs = append(fs, Finding{
			Kind: KindByHand, Severity: Note,
			What:  pattern.Say("Edit %d by hand, a tie of %.2f mm, is thinner than the bridge rule; it is kept at %.2f mm.", i+1, e.WidthMM, s.Rule),
			Why:   "A tie is a bridge like any other.",
			Value: e.WidthMM, Limit: s.Rule, Unit: "mm",
			Mend: "Make it wider, or have it follow the bridge rule.",
			Fixes: mend(s.Design, "Have it follow the rule", func(d *pattern.Design) {
				d.Edits = slices.Clone(d.Edits)
				d.Edits[i].WidthMM = 0
			}),
		})
	}
	return fs
}

func editName(do string) string {
	switch do {
	case pattern.LeaveSolid:
		return "left solid"
	case pattern.Change:
		return "changed"
	case pattern.Replace:
		return "another shape"
	case pattern.Tie:
		return "a tie"
	}
	return "a single opening"
}
