package check

import (
	"context"
	"math"
	"slices"

	"fretband/pattern"
	"fretband/pattern/strength"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// Strengthen returns the deep report with what the solve says of the band's strength, and
// the findings that come of it. What can't be solved is told in Unsolved, and the rest of
// the report is as it was; the same where ctx has ended. The report given stays as it is.
func Strengthen(ctx context.Context, s *pattern.Sheet, r *Report, ask StrengthAsk) *Report {
	d := *r
	d.Strength, d.Unsolved = StrengthOf(ctx, s, r, ask)
	if d.Strength == nil {
		return &d
	}
	d.Findings = slices.Clone(r.Findings)
	sayTips(ctx, s, &d)
	tiePaths(ctx, s, &d)
	tieAttached(ctx, s, &d)
	for _, f := range append(checkOpening(ctx, s, &d), checkSqueezing(s, &d)...) {
		f.Deep = true
		d.Findings = append(d.Findings, f)
	}
	accept(s.Design, d.Findings)
	inOrder(d.Findings)
	return &d
}

// gentle is the least that handling does to a free tip, N: 20 to 50 (common practice).
const gentle = 20

// mostTied is how many findings of tongues get a tie offered, each of which is solved.
const mostTied = 2

// sayTips adds findings of tongues that handling bends, says of all told what bends them,
// and offers to tie those that catch or bend.
func sayTips(ctx context.Context, s *pattern.Sheet, r *Report) {
	for _, g := range tongueGroups(s, r) {
		if g[0].Catches() {
			continue
		}
		f := tongueFinding(g)
		if across, _ := tipYield(r.Strength, f.At); across > 0 && across < gentle {
			f.Deep = true
			r.Findings = append(r.Findings, f)
		}
	}
	tied := 0
	for i := range r.Findings {
		f := &r.Findings[i]
		if f.Kind != KindTongue {
			continue
		}
		across, sideways := tipYield(r.Strength, f.At)
		if across == 0 || sideways == 0 {
			continue
		}
		f.Why += pattern.Say(" It bends for good when pulled out of the surface by %.0f N or sideways by %.0f N; handling does %d to %d (common practice).", across, sideways, gentle, HandForce)
		if (f.Severity > Note || across < gentle) && tied < mostTied {
			tied++
			if fix, ok := tieTips(ctx, s, r, f.At, across); ok {
				f.Fixes = append(slices.Clone(f.Fixes), fix)
			}
		}
	}
}

// tipYield is the least pull, N, that bends a tip at one of the places for good: out of
// the surface and in it; 0 where none was pulled.
func tipYield(f *strength.Figures, at []plane.Point) (across, sideways float64) {
	least := func(v *float64, n float64) {
		if n > 0 && (*v == 0 || n < *v) {
			*v = n
		}
	}
	for _, c := range f.Cases {
		if c.Case != strength.CatchOn || !slices.Contains(at, c.At[0]) {
			continue
		}
		if c.Across {
			least(&across, c.BridgeYield)
		} else {
			least(&sideways, c.BridgeYield)
		}
	}
	return across, sideways
}

// checkOpening tells of a cuff that takes a set when it is opened as far as the maker
// says. Until he says so nothing is judged: what the piercing costs is a figure.
func checkOpening(ctx context.Context, s *pattern.Sheet, r *Report) []Finding {
	open := s.Design.Wear.OpenMM
	c := r.Strength.Cases[0]
	if c.Case != strength.Open || open == 0 || c.BridgeYield == 0 || c.BridgeYield >= open {
		return nil
	}
	t := s.Design.Temper()
	return []Finding{{
		Kind: KindSpringingOn, Severity: Caution,
		What: pattern.Say("Opened by %.1f mm as you say, the cuff takes a set: whole bridges yield from %.1f mm on, first at x = %.1f mm.", open, c.BridgeYield, c.BridgeAt.X),
		Why:  pattern.Say("Metal that yields each time it is put on hardens and cracks. Proof stress of %s %s: %.0f MPa.", t.Title, r.Alloy.Name, t.ProofMPa),
		Mend: "Thinner sheet, a harder temper or a wider gap lets it open further; wider bridges make it stiffer and hardly help. " +
			"An estimate for comparing designs, not a promise: bend a trial piece of the same sheet, and let a trained goldsmith judge.",
		Value: c.BridgeYield, Limit: open, Unit: "mm", At: []plane.Point{c.BridgeAt},
		Fixes: springier(ctx, s, open, c),
	}}
}

// checkSqueezing tells of a closed band that gentle handling squeezes out of shape.
func checkSqueezing(s *pattern.Sheet, r *Report) []Finding {
	c := r.Strength.Cases[0]
	n := c.BridgeYield / c.PerN
	if c.Case != strength.Squeeze || n == 0 || n >= gentle {
		return nil
	}
	t := s.Design.Temper()
	f := Finding{
		Kind: KindSqueezing, Severity: Note,
		What: pattern.Say("Squeezed by %.0f N the band bends for good, first at x = %.1f mm.", n, c.BridgeAt.X),
		Why: pattern.Say("Gentle handling does %d N, rough %d (common practice). Whole bridges yield there, of %s %s with a proof stress of %.0f MPa; unpierced the band gives way %.1f times as little.",
			gentle, HandForce, t.Title, r.Alloy.Name, t.ProofMPa, c.PerN/c.PlainPerN),
		Mend:  "Take a harder temper, thicker sheet, or wider rims and bridges. An estimate for comparing designs, not a promise: a trial piece decides.",
		Value: n, Limit: gentle, Unit: "N", At: []plane.Point{c.BridgeAt},
	}
	if x, ok := harder(s.Design, gentle/n); ok {
		f.Fixes = append(f.Fixes, x)
	}
	return []Finding{f}
}

// harder takes the softest temper of the alloy that carries so many times as much: yield
// grows with the proof stress.
func harder(d pattern.Design, times float64) (Fix, bool) {
	if d.Wear.ProofMPa > 0 { // the user's own figure holds for every temper
		return Fix{}, false
	}
	now := d.Temper()
	for _, t := range pattern.Tempers(d.Metal.Alloy) {
		if t.ProofMPa > now.ProofMPa && t.ProofMPa >= times*now.ProofMPa {
			d.Wear.Temper = t.Key
			return Fix{Title: "Take it " + t.Title, Design: d}, true
		}
	}
	return Fix{}, false
}

// springier lists changes after which the cuff springs back from the opening, each tried:
// the softest temper of the alloy that does (yield grows with the proof stress), and
// thinner sheet, solved anew.
func springier(ctx context.Context, s *pattern.Sheet, open float64, c strength.CaseFigures) (fixes []Fix) {
	d := s.Design
	if x, ok := harder(d, open/c.BridgeYield); ok {
		fixes = append(fixes, x)
	}
	// The opening at yield is about as 1 over the thickness; a tenth of a mm is a step of
	// sheet.
	thin := d
	thin.Band.Thickness = unroll.Thickness{MM: math.Floor(10*s.Flat.Thickness*c.BridgeYield/open+1e-9) / 10}
	if thin.Band.Thickness.MM < leastSprung {
		return fixes
	}
	sheet, r, err := Lay(thin)
	if err != nil {
		return fixes
	}
	f, err := StrengthOf(ctx, sheet, r, StrengthAsk{Coarse: true, Alone: true})
	if err == nil && f.Cases[0].BridgeYield >= open {
		fixes = append(fixes, Fix{Title: pattern.Say("Take sheet of %.1f mm, which opens with %.1f N instead of %.1f", thin.Band.Thickness.MM, f.Cases[0].ForceN, c.ForceN), Design: thin})
	}
	return fixes
}

// leastSprung is the thinnest sheet that is offered for a cuff, mm: thinner ones lose
// their form in use (common practice, 0.8 to 1.3 mm are usual).
const leastSprung = 0.6
