package check

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sort"

	"fretband/pattern"
	"fretband/pattern/motif"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// checks are all checks in the order in which they are reported. Each returns what
// it finds; most find nothing.
var checks = []func(*pattern.Sheet, *Report) []Finding{
	checkPieces,
	checkBridge,
	checkRim,
	checkReserves,
	checkAdded,
	checkEngravings,
	checkNothingCut,
	checkDropped,
	checkCutOff,
	checkByHand,
	checkKeepsShape,
	checkCastWall,
	checkBeam,
	checkMarkRoom,
	checkHand,
	checkBending,
	checkSpringback,
	checkMaking,
	checkDome,
	checkGap,
	checkEnds,
	checkStagger,
}

// slack is how far a measured width may fall short of its rule and still keep
// it, mm: rounding, a hundred times under the 0.001 mm to which curves are
// fitted.
const slack = 1e-5

// findings runs all checks.
func findings(s *pattern.Sheet, r *Report) []Finding {
	fs := []Finding{}
	for _, c := range checks {
		fs = append(fs, c(s, r)...)
	}
	accept(s.Design, fs)
	inOrder(fs)
	return fs
}

// inOrder puts findings in the order in which they are read: breaches, cautions, what
// has been accepted of both, notes.
func inOrder(fs []Finding) {
	sort.SliceStable(fs, func(i, j int) bool { return fs[i].rank() > fs[j].rank() })
}

func (f Finding) rank() int {
	switch {
	case f.Open():
		return 1 + int(f.Severity)
	case f.Severity > Note:
		return 1
	}
	return 0
}

// InOrder returns the findings of both lists in the order in which they are read.
func InOrder(a, b []Finding) []Finding {
	all := append(append([]Finding{}, a...), b...)
	inOrder(all)
	return all
}

// Breached reports whether a rule of the design is broken and the maker does not
// accept it.
func (r *Report) Breached() bool { return slices.ContainsFunc(r.Findings, Finding.Broken) }

func checkPieces(_ *pattern.Sheet, r *Report) []Finding {
	if r.Pieces == 1 {
		return nil
	}
	return []Finding{{
		Kind: KindPieces, Severity: Breach,
		What:  fmt.Sprintf("The metal falls into %d pieces.", r.Pieces),
		Why:   "Metal that is cut free falls out at the saw or under the beam.",
		Value: float64(r.Pieces), Limit: 1, Unit: "pieces",
		Mend: "Make an opening beside the loose piece smaller, or leave it solid. No cut file is written until the metal holds together.",
	}}
}

// checkBridge warns of a thinnest bridge that the finish leaves thinner than metal should be
// that is worn. One that does not keep the rule is no finding: [Lay] refuses it.
func checkBridge(s *pattern.Sheet, r *Report) []Finding {
	b := r.Thinnest
	a, least := Finish(s.Process)
	if b.None() || r.Finished >= least-slack {
		return nil
	}
	return []Finding{{
		Kind: KindThinnestBridge, Severity: Note,
		What:  pattern.Say("The thinnest bridge, %.2f mm %s, is about %.2f mm once it is finished.", b.Width, b.sides(), r.Finished),
		Why:   pattern.Say("Filing and polishing take about %.2f mm a side; under %.1f mm metal bends and wears through (common practice).", a, least),
		Value: b.Width, Limit: least + 2*a, Unit: "mm", At: []plane.Point{b.A, b.B},
		Mend:  "Draw the bridges wider by what your finish takes off.",
		Fixes: bridgeTo(s.Design, up(least+2*a)),
	}}
}

// Finish returns about what filing and polishing take off each edge after a process, mm,
// and the least width, mm, that should be left of a bridge: the process's own least, and
// half a millimetre where that is more. Common practice, 0.08 to 0.15 sawn, 0.03 to 0.06
// cut by laser, 0.01 to 0.03 etched, 0.10 to 0.15 of a cast skin.
func Finish(process string) (aSide, least float64) {
	const worn = 0.5
	p := processOf(process)
	switch p.Key {
	case "laser":
		aSide = 0.05
	case "etch":
		aSide = 0.02
	case "cast":
		aSide = 0.12
	default:
		aSide = 0.1
	}
	return aSide, math.Min(p.Bridge(0), worn)
}

// processOf is the process of that key; where none is settled, or in the shop's own words,
// the saw.
func processOf(key string) pattern.Process {
	p, ok := pattern.ProcessByKey(key)
	if !ok {
		p, _ = pattern.ProcessByKey("saw")
	}
	return p
}

func (b Bridge) sides() string {
	switch b.To {
	case 0:
		return fmt.Sprintf("between opening %d and the edge", b.From)
	case b.From:
		return fmt.Sprintf("within the edge of opening %d", b.From)
	}
	return fmt.Sprintf("between openings %d and %d", min(b.From, b.To), max(b.From, b.To))
}

func checkRim(s *pattern.Sheet, r *Report) []Finding {
	var fs []Finding
	rim, along := s.Design.Rules.RimMM, 1.0
	for i, p := range s.Design.Rules.RimAlong {
		if i == 0 || p.Size < along {
			along = p.Size
		}
	}
	if rim *= along; rim < r.Rule {
		set := func(least float64) []Fix {
			to := least
			if along != 1 {
				to = up(least / along)
			}
			return mend(s.Design, fmt.Sprintf("Set the rim to %s mm", short(to)), func(d *pattern.Design) { d.Rules.RimMM = to })
		}
		fs = append(fs, Finding{
			Kind: KindRim, Severity: Note,
			What:  pattern.Say("The rim of %.2f mm is thinner than the bridge rule; it is kept at %.2f mm.", rim, r.EdgeRule),
			Why:   "Metal between an opening and the edge is a bridge too, and the edge takes the knocks.",
			Value: rim, Limit: r.Rule, Unit: "mm",
			Mend: "Set the rim to at least the bridge; 1.5 times the bridge is common practice.",
			Fixes: join(
				set(r.Rule), set(up(1.5*r.Rule))),
		})
	}
	return fs
}

// checkReserves finds reserves that are partly or wholly off the blank.
func checkReserves(s *pattern.Sheet, _ *Report) []Finding {
	var fs []Finding
	for _, k := range s.Reserves {
		i, l := k.Reserve, k.Loop
		on := onBlank(s, l)
		if on > l.Area()-1e-6 {
			continue
		}
		name := s.Design.Reserves[i].Note
		if name == "" {
			name = s.Design.Reserves[i].Shape
		}
		fs = append(fs, Finding{
			Kind: KindReserve, Severity: Breach,
			What:  pattern.Say("Reserve %d (%s) stands partly off the blank: %.0f %% of it is on metal.", i+1, name, 100*on/l.Area()),
			Why:   "A stone or a stamp there would have no metal under it.",
			Value: on, Limit: l.Area(), Unit: "mm²", At: []plane.Point{l.Centroid()},
			Mend:  "Move it towards the middle or make it smaller.",
			Fixes: reserveInside(s, i, l),
		})
	}
	return fs
}

func checkNothingCut(s *pattern.Sheet, r *Report) []Finding {
	if r.Openings > 0 {
		return nil
	}
	if len(s.Design.Fields) == 0 && len(s.Design.Edits) == 0 {
		return []Finding{{
			Kind: KindNothingCut, Severity: Note, What: "The band is plain: it has no field.",
			Mend: "Add a field to pierce it.",
		}}
	}
	what := "No opening can be cut: with this rim and bridge no cell has room."
	if len(s.Ground) == 0 {
		what = "No opening can be cut: the rims leave no ground between them."
	}
	return []Finding{{
		Kind: KindNothingCut, Severity: Breach, What: what,
		Why:  "The band stays plain.",
		Mend: "Make the bridge, the rim, the corners or the smallest opening smaller, or use fewer rows and repeats.",
	}}
}

// LeftSolid is what was left solid for one reason.
type LeftSolid struct {
	Why  string
	Area float64 // mm^2, of the openings that would be there
	At   []plane.Point
}

// leftSolid groups what was left solid by reason, in the order of their words: that of the
// places would change with the seam.
func leftSolid(s *pattern.Sheet) []LeftSolid {
	var groups []LeftSolid
next:
	for _, d := range s.Dropped {
		for i := range groups {
			if g := &groups[i]; g.Why == d.Why {
				g.At, g.Area = append(g.At, d.At), g.Area+d.Area
				continue next
			}
		}
		groups = append(groups, LeftSolid{d.Why, d.Area, []plane.Point{d.At}})
	}
	slices.SortFunc(groups, func(a, b LeftSolid) int { return cmp.Compare(a.Why, b.Why) })
	return groups
}

// muchSolid is the share of a pattern from which on it counts as lost when it is left
// solid: a quarter (ours). Less are the scraps of cells along rims and round reserves.
const muchSolid = 0.25

// checkDropped tells of a pattern of which much can't be cut.
func checkDropped(s *pattern.Sheet, r *Report) []Finding {
	var lost float64
	for _, g := range r.LeftSolid {
		lost += g.Area
	}
	share := lost / (lost + r.CutArea)
	if r.Openings == 0 || share < muchSolid {
		return nil
	}
	worst := slices.MaxFunc(r.LeftSolid, func(a, b LeftSolid) int { return cmp.Compare(a.Area, b.Area) })
	mend := "Lower the bridge, the corner radius or the smallest opening, or use fewer rows and repeats, so that the openings become larger."
	if worst.Why == pattern.IslandFalls {
		mend = "Tie what stands inside to the metal about it."
	}
	var at []plane.Point
	for _, g := range r.LeftSolid {
		at = append(at, g.At...)
	}
	return []Finding{{
		Kind: KindLeftSolid, Severity: Note,
		What:  pattern.Say("%.0f %% of the pattern is left solid, %s; most of it is %s.", 100*share, count(r.Dropped, "place", "places"), worst.Why),
		Why:   "An opening that breaks a rule is not cut.",
		Value: 100 * share, Limit: 100 * muchSolid, Unit: "%", At: at,
		Mend: mend,
	}}
}

// unit is the word beside a number that counts.
func unit(n int, one, more string) string {
	if n == 1 {
		return one
	}
	return more
}

func count(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}

// checkBending reports the strain of the outer face where the band bends most:
// e = 1/(2R/T + 1), R the inner radius (Kalpakjian, Manufacturing Engineering
// and Technology, 3rd ed., as quoted at robsiegwart.com).
func checkBending(s *pattern.Sheet, r *Report) []Finding {
	radius := s.Flat.LeastRadius()
	strain := 1 / (2*radius/r.Thickness + 1)
	if radius >= 3*r.Thickness || s.Design.Band.Making == unroll.Formed {
		return nil
	}
	return []Finding{{
		Kind: KindBending, Severity: Caution,
		What:  pattern.Say("The inside bends to a radius of %.1f mm, %.1f times the sheet: the outer face stretches by about %.0f %%.", radius, radius/r.Thickness, 100*strain),
		Why:   "Metal that stretches so far hardens and cracks, first where a bridge stands across the bend. An estimate, not a promise.",
		Value: radius, Limit: 3 * r.Thickness, Unit: "mm",
		Mend: "Use thinner sheet or a rounder inside, anneal before and while bending, and try a piece first.",
	}}
}

// LeastGap is the gap, mm, under which the ends of a cuff count as touching: in a solid
// each may lie off by 0.004 mm, and a file rounds.
const LeastGap = 0.01

// checkGap: a gap of 1.0 to 1.25 in fits most people (hillcountrylapidary.com);
// a finding begins well outside that.
func checkGap(s *pattern.Sheet, _ *Report) []Finding {
	gap := s.Flat.GapInner
	if !s.Design.Band.Open() || gap >= 20 && gap <= 45 {
		return nil
	}
	usual, limit := 25.0, 20.0
	why := "A small gap must be forced open each time, and the band tires where least metal stands."
	if gap > 45 {
		usual, limit = 32, 45
		why = "Through a wide gap the cuff falls off."
	}
	f := Finding{
		Kind: KindGap, Severity: Caution,
		What:  pattern.Say("The gap of %.1f mm is unusual: 25 to 32 mm fits most wrists.", gap),
		Why:   why,
		Value: gap, Limit: limit, Unit: "mm",
		Mend: "Try the cuff on before it is finished.",
	}
	if gap < LeastGap {
		f.Severity, f.Limit = Breach, LeastGap
		f.What = pattern.Say("The ends of the cuff touch: the gap is %.3f mm.", gap)
		f.Why = "A cuff whose ends touch can't be opened, and a solid of it would run into itself."
		f.Mend = "Give it a gap, or make it a bangle."
	}
	if s.Design.Band.GapShare == 0 {
		f.Fixes = bandFix(s.Design, pattern.Say("Set the gap to %g mm", usual), func(b *unroll.Band) { b.GapMM = usual })
	}
	return []Finding{f}
}

func checkEnds(s *pattern.Sheet, _ *Report) []Finding {
	b := s.Design.Band
	if !b.Open() || b.EndCornerMM >= 1 || b.EndShape == unroll.RoundEnd || b.EndRadiusMM >= 1 {
		return nil
	}
	if b.EndShape == unroll.PointEnd {
		return []Finding{{
			Kind: KindEnds, Severity: Caution,
			What:  pattern.Say("The tips of the cuff's pointed ends have a radius of %.2f mm.", b.EndRadiusMM),
			Why:   "A sharp tip catches skin and cloth.",
			Value: b.EndRadiusMM, Limit: 1, Unit: "mm", At: ends(s),
			Mend:  "Round the tips by 1 mm or more (common practice) and break all edges.",
			Fixes: bandFix(s.Design, "Round the tips by 1.5 mm", func(b *unroll.Band) { b.EndRadiusMM = 1.5 }),
		}}
	}
	what := "The corners of the cuff's ends are not rounded."
	if b.EndCornerMM > 0 {
		what = pattern.Say("The corners of the cuff's ends are sharp: a radius of %.2f mm.", b.EndCornerMM)
	}
	return []Finding{{
		Kind: KindEnds, Severity: Caution,
		What:  what,
		Why:   "Sharp corners cut skin and catch cloth.",
		Value: b.EndCornerMM, Limit: 1, Unit: "mm", At: ends(s),
		Mend: "Round the ends by 1 to 2 mm or more (common practice) and break all edges.",
		Fixes: join(
			bandFix(s.Design, "Round the corners by 1.5 mm", func(b *unroll.Band) { b.EndCornerMM = 1.5 }),
			bandFix(s.Design, "Round the corners by 2 mm", func(b *unroll.Band) { b.EndCornerMM = 2 })),
	}}
}

// ends are the positions of a cuff's two ends, in the middle of their width.
func ends(s *pattern.Sheet) []plane.Point {
	half := s.Flat.Length / 2
	return []plane.Point{s.Flat.Place(-half, 0), s.Flat.Place(half, 0)}
}

func checkStagger(s *pattern.Sheet, _ *Report) []Finding {
	var fs []Finding
	for i, f := range s.Design.Fields {
		m, _ := motif.ByKey(f.Motif)
		which := ""
		if len(s.Design.Fields) > 1 {
			which = fmt.Sprintf("Field %d: ", i+1)
		}
		switch {
		case m.Interlock && f.Stagger != 0 && f.Stagger != 0.5:
			fs = append(fs, Finding{
				Kind: KindStagger, Severity: Note,
				What:  pattern.Say("%s%s fit together only half a pitch apart: the stagger of %g is not used.", which, m.Title, f.Stagger),
				Mend:  "Stagger by 0.5, which is what is cut.",
				Fixes: staggerTo(s.Design, i, 0.5),
			})
		case !m.Interlock && s.Design.Band.Open() && f.Mirror == "" && f.Rows > 1 && f.Stagger != 0 && f.Stagger != 0.5:
			fs = append(fs, Finding{
				Kind: KindStagger, Severity: Note,
				What:  pattern.Say("%sWith a stagger of %g the two halves of the cuff are not mirror images.", which, f.Stagger),
				Mend:  "Use a stagger of 0 or 0.5 for a pattern that is the same on both sides.",
				Fixes: join(staggerTo(s.Design, i, 0.5), staggerTo(s.Design, i, 0)),
			})
		}
	}
	return fs
}

// Accepts reports whether what the maker accepts is that finding: one of the same
// kind, near the same position if it has any.
func Accepts(a pattern.Accepted, f Finding) bool {
	if a.Finding != f.Kind.Key {
		return false
	}
	near := len(f.At) == 0
	for _, p := range f.At {
		near = near || p.Dist(plane.Pt(a.At.XMM, a.At.YMM)) <= acceptedNear
	}
	return near
}
