package check

import (
	"cmp"
	"slices"
	"strings"

	"fretband/pattern"
	"fretband/unroll/plane"
)

// sawn reports whether the saw is, or may be, what cuts the openings.
func sawn(s *pattern.Sheet) bool { return s.Process == "" || s.Process == "saw" }

// Usual are the usual least measures of a process for one thickness, mm, rounded up to
// the hundredth that is shown.
type Usual struct{ Bridge, Opening, Corner float64 }

// UsualOf returns them for sheet of that thickness, mm.
func UsualOf(p pattern.Process, thickness float64) Usual {
	return Usual{up(p.Bridge(thickness)), up(p.Opening(thickness)), up(p.Corner(thickness))}
}

// checkProcess says which of the design's rules are under the usual limits of its
// process for sheet of that thickness. The rules stay the maker's own.
func checkProcess(s *pattern.Sheet, r *Report) []Finding {
	rules := s.Design.Rules
	p, ok := pattern.ProcessByKey(s.Process)
	if !ok || r.Openings == 0 {
		return nil
	}
	var fs []Finding
	tell := func(kind Kind, what, why string, is, usual float64, fixes []Fix) {
		if is >= usual-slack {
			return
		}
		fs = append(fs, Finding{
			Kind: kind, Severity: Caution,
			What:  pattern.Say("%s of %.2f mm is under %.2f mm, the usual least (%s, sheet of %.2f mm).", what, is, usual, strings.ToLower(p.Title), r.Thickness),
			Why:   why + " Usual limit: " + p.Source + ".",
			Value: is, Limit: usual, Unit: "mm",
			Mend:  "Go to the usual limit, or keep your own if whoever cuts it agrees.",
			Fixes: fixes,
		})
	}
	u := UsualOf(p, r.Thickness)
	bridge, least, corner := u.Bridge, u.Opening, u.Corner
	tell(KindBridgeAndProcess, "The bridge rule", narrowMetal(p.Key), r.Rule, bridge, bridgeTo(s.Design, bridge))
	tell(KindOpeningAndProcess, "The smallest opening", "Smaller openings do not come clean.", rules.SmallestMM, least, smallestTo(s.Design, least))
	tell(KindCornerAndProcess, "The corner radius", "Sharper inner corners do not come out, or are where cracks begin.", rules.CornerMM, corner, cornerTo(s.Design, corner))
	return fs
}

// narrowMetal says what becomes of metal narrower than a process can leave.
func narrowMetal(process string) string {
	switch process {
	case "saw":
		return "Narrower metal twists and breaks under saw and file."
	case "laser":
		return "Narrower metal overheats between two cuts, warps or burns away."
	case "etch":
		return "Narrower metal is undercut from both sides and eaten away."
	case "cast":
		return "Narrower metal may not fill, or breaks when the investment is taken off."
	}
	return "Narrower metal bends, burns or does not come out."
}

// Heat of a beam: a bridge of fewer kerfs than this glows through or burns away
// between two cuts (common practice: two to three; no published figure for silver or
// gold was found).
const heatKerfs = 3

// checkHeat finds the bridges that a laser would burn.
func checkHeat(s *pattern.Sheet, r *Report) []Finding {
	kerf := r.Making.KerfMM
	limit := heatKerfs * kerf
	if s.Process != "laser" || kerf <= 0 || r.Thinnest.None() || r.Thinnest.Width >= limit-slack {
		return nil
	}
	at := thinner(s, limit)
	what := pattern.Say("The thinnest bridge, %.2f mm, is only %.1f kerfs wide.", r.Thinnest.Width, r.Thinnest.Width/kerf)
	if n := len(at) / 2; n > 1 {
		what = pattern.Say("%d bridges are under %d kerfs wide; the thinnest, %.2f mm, is %.1f.", n, heatKerfs, r.Thinnest.Width, r.Thinnest.Width/kerf)
	}
	return []Finding{{
		Kind: KindHeat, Severity: Caution,
		What:  what,
		Why:   pattern.Say("Between two cuts of a beam so thin a bridge overheats: %d kerfs are common practice, the kerf is %.2f mm (%s).", heatKerfs, kerf, r.Making.KerfFrom),
		Value: r.Thinnest.Width, Limit: limit, Unit: "mm", At: at,
		Mend:  "Widen the bridge, or ask the shop for a finer or pulsed beam and a trial.",
		Fixes: bridgeTo(s.Design, up(limit)),
	}}
}

// thinner returns both ends of every bridge, between openings and to the edge, that is
// narrower than a limit, mm: the thinnest first.
func thinner(s *pattern.Sheet, limit float64) []plane.Point {
	type pair struct {
		d    float64
		a, b plane.Point
	}
	var found []pair
	for _, p := range s.Pairs(limit - slack) {
		found = append(found, pair{p.D, p.A, p.Home(p.B)})
	}
	m := newMeasure(s)
	for i := range s.Openings {
		b := none(s.EdgeRule)
		if m.toEdge(i, &b); b.Width < limit-slack {
			found = append(found, pair{b.Width, b.A, b.B})
		}
	}
	slices.SortStableFunc(found, func(x, y pair) int { return cmp.Compare(x.d, y.d) })
	var at []plane.Point
	for _, p := range found {
		at = append(at, p.a, p.b)
	}
	return at
}
