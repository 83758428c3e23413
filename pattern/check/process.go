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

// far is the share of a usual least under which it is a caution to go: shops that cut by
// laser hold 0.7 of the thickness (acutelaser.com.au, design rules); for the others ours.
const far = 0.7

// usualLimits are the usual least measures of how the sheet is cut, mm, and the process they
// are of: the saw while it is not settled; none if it is in the shop's own words.
func usualLimits(s *pattern.Sheet) (bridge, opening float64, p pattern.Process) {
	p, ok := pattern.ProcessByKey(s.Process)
	if !ok && s.Process != "" {
		return 0, 0, p
	}
	p = processOf(s.Process)
	return p.Bridge(s.Flat.Thickness), p.Opening(s.Flat.Thickness), p
}

// processWords names it in a sentence.
func processWords(s *pattern.Sheet, p pattern.Process) string {
	if s.Process == "" {
		return "if it is " + strings.ToLower(p.Title)
	}
	return strings.ToLower(p.Title)
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

// burns reports whether the thinnest bridge is too few kerfs wide for a laser.
func burns(s *pattern.Sheet, r *Report) bool {
	limit := heatKerfs * r.Making.KerfMM
	return s.Process == "laser" && limit > 0 && !r.Thinnest.None() && r.Thinnest.Width < limit-slack
}

// checkHeat finds the bridges that a laser would burn.
func checkHeat(s *pattern.Sheet, r *Report) []Finding {
	kerf := r.Making.KerfMM
	limit := heatKerfs * kerf
	usual, _, _ := usualLimits(s)
	if !burns(s, r) || usual >= limit { // then all of them are told as bridges under the usual least
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
