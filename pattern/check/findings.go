package check

import (
	"fmt"
	"math"
	"sort"

	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// checks are all checks in the order in which they are told. Each returns what
// it finds; most find nothing.
var checks = []func(*pattern.Sheet, *Report) []Finding{
	checkPieces,
	checkBridge,
	checkRim,
	checkReserves,
	checkMarks,
	checkNothingCut,
	checkDropped,
	checkByHand,
	checkThinSheet,
	checkBlade,
	checkBending,
	checkSpringback,
	checkMaking,
	checkDome,
	checkHang,
	checkGap,
	checkEnds,
	checkStagger,
	checkBand,
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
// let it stand.
func (r *Report) Breached() bool {
	for _, f := range r.Findings {
		if f.Severity == Breach && f.Accepted == "" {
			return true
		}
	}
	return false
}

func checkPieces(_ *pattern.Sheet, r *Report) []Finding {
	if r.Pieces == 1 {
		return nil
	}
	return []Finding{{
		Check: "pieces", Severity: Breach,
		What:  fmt.Sprintf("The metal falls into %d pieces.", r.Pieces),
		Value: float64(r.Pieces), Limit: 1, Unit: "pieces",
		Mend: "Widen the bridge or use fewer repeats. No cut file is written until it holds together.",
	}}
}

// checkBridge tells the thinnest bridge, whether it keeps the rule or not.
func checkBridge(_ *pattern.Sheet, r *Report) []Finding {
	b := r.Thinnest
	if math.IsInf(b.Width, 0) {
		return nil
	}
	f := Finding{
		Check: "thinnest bridge", Severity: Note,
		What:  fmt.Sprintf("The thinnest bridge is %.3f mm, %s; the rule is %.3f mm.", b.Width, b.sides(), b.Rule),
		Value: b.Width, Limit: b.Rule, Unit: "mm", At: []plane.Point{b.A, b.B},
		Mend: "Nothing to mend. Filing and polishing take off about 0.05 to 0.15 mm a side (common practice): draw the bridge that much wider.",
	}
	if b.Shortfall() > 0 {
		f.Severity = Breach
		f.What = fmt.Sprintf("The thinnest bridge is %.3f mm, %s: %.3f mm under the rule of %.3f mm.", b.Width, b.sides(), b.Shortfall(), b.Rule)
		f.Mend = "Widen the bridge, use fewer repeats, or move the reserve near it."
	}
	return []Finding{f}
}

func (b Bridge) sides() string {
	switch b.To {
	case 0:
		return fmt.Sprintf("between opening %d and the edge", b.From)
	case b.From:
		return fmt.Sprintf("within the edge of opening %d", b.From)
	}
	return fmt.Sprintf("between openings %d and %d", b.From, b.To)
}

func checkRim(s *pattern.Sheet, r *Report) []Finding {
	var fs []Finding
	if b := r.Bridges.ToEdge; b.Shortfall() > 0 && b != r.Thinnest {
		fs = append(fs, Finding{
			Check: "rim", Severity: Breach,
			What:  fmt.Sprintf("Opening %d is %.3f mm from the edge of the blank, %.3f mm under the rule.", b.From, b.Width, b.Shortfall()),
			Value: b.Width, Limit: r.Rule, Unit: "mm", At: []plane.Point{b.A, b.B},
			Mend: "Widen the rim.",
		})
	}
	if rim := s.Design.Rules.RimMM; rim < r.Rule {
		fs = append(fs, Finding{
			Check: "rim", Severity: Note,
			What:  fmt.Sprintf("The rim of %.2f mm is thinner than the bridge rule; it is kept at %.2f mm.", rim, r.Keep),
			Value: rim, Limit: r.Rule, Unit: "mm",
			Mend: "Set the rim to at least the bridge; 1.5 times the bridge is common practice.",
		})
	}
	return fs
}

// checkReserves finds reserves that stand partly or wholly off the blank.
func checkReserves(s *pattern.Sheet, _ *Report) []Finding {
	var fs []Finding
	blank := plane.Region{s.Flat.Outline}
	for _, k := range s.Reserves {
		i, l := k.Reserve, k.Loop
		on, err := plane.And(plane.Region{l}, blank)
		for _, over := range s.Again(l)[1:] { // it may stand over the joint
			more, e := plane.And(plane.Region{over}, blank)
			if e != nil {
				err = e
			}
			on = append(on, more...)
		}
		if err != nil || on.Area() > l.Area()-1e-6 {
			continue
		}
		name := s.Design.Reserves[i].Note
		if name == "" {
			name = s.Design.Reserves[i].Shape
		}
		fs = append(fs, Finding{
			Check: "reserve", Severity: Breach,
			What:  fmt.Sprintf("Reserve %d (%s) stands partly off the blank: %.0f %% of it is on metal.", i+1, name, 100*on.Area()/l.Area()),
			Value: on.Area(), Limit: l.Area(), Unit: "mm²", At: []plane.Point{l.Centroid()},
			Mend: "Move it towards the middle or make it smaller.",
		})
	}
	return fs
}

func checkNothingCut(s *pattern.Sheet, r *Report) []Finding {
	if r.Openings > 0 {
		return nil
	}
	what := "No opening can be cut: " + "with this rim and bridge no cell has room."
	if len(s.Ground) == 0 {
		what = "No opening can be cut: the rims leave no ground between them."
	}
	return []Finding{{
		Check: "nothing cut", Severity: Breach, What: what,
		Mend: "Make the bridge, the rim, the corners or the smallest opening smaller, or use fewer rows and repeats.",
	}}
}

// checkDropped counts what was left solid, by reason.
func checkDropped(s *pattern.Sheet, _ *Report) []Finding {
	type group struct {
		why string
		at  []plane.Point
	}
	var groups []group
next:
	for _, d := range s.Dropped {
		for i := range groups {
			if groups[i].why == d.Why {
				groups[i].at = append(groups[i].at, d.At)
				continue next
			}
		}
		groups = append(groups, group{d.Why, []plane.Point{d.At}})
	}
	var fs []Finding
	for _, g := range groups {
		fs = append(fs, Finding{
			Check: "left solid", Severity: Note,
			What:  fmt.Sprintf("%s left solid: %s.", count(len(g.at), "place is", "places are"), g.why),
			Value: float64(len(g.at)), Unit: "places", At: g.at,
			Mend: "Nothing need be done. To open them, lower the bridge, the corner radius or the smallest opening.",
		})
	}
	return fs
}

func count(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}

// checkThinSheet compares the bridge with the sheet. No published rule for hand
// piercing is known to us; "bridge at least the sheet's thickness, never under
// about 0.5 mm" is common practice, and web at least one thickness is published
// for laser and etched work (smslaserfab.com and photo-etching design rules).
func checkThinSheet(_ *pattern.Sheet, r *Report) []Finding {
	least := math.Max(r.Thickness, 0.5)
	if r.Openings == 0 || r.Rule >= least-slack {
		return nil
	}
	return []Finding{{
		Check: "bridge and sheet", Severity: Caution,
		What:  fmt.Sprintf("The bridge rule of %.2f mm is under %.2f mm, the usual least for sheet of %.2f mm.", r.Rule, least, r.Thickness),
		Value: r.Rule, Limit: least, Unit: "mm",
		Mend: "Use a bridge of at least the sheet's thickness, and 1.5 times that where it bends (common practice), or thinner sheet.",
	}}
}

func checkBlade(s *pattern.Sheet, r *Report) []Finding {
	least := s.Design.Rules.SmallestMM
	if r.Openings == 0 || r.Blade.PilotMM <= 0 || least >= r.Blade.PilotMM-slack {
		return nil
	}
	return []Finding{{
		Check: "pilot hole", Severity: Caution,
		What:  fmt.Sprintf("Openings down to %.2f mm are let through; a %s saw blade needs a pilot hole of %.2f mm.", least, r.Blade.Size, r.Blade.PilotMM),
		Value: least, Limit: r.Blade.PilotMM, Unit: "mm",
		Mend: "Set the smallest opening to the pilot hole if the band is sawn by hand. Blade sizes are from memory: makers differ.",
	}}
}

// checkBending tells the strain of the outer face where the band bends most:
// e = 1/(2R/T + 1), R the inner radius (Kalpakjian, Manufacturing Engineering
// and Technology, 3rd ed., as quoted at robsiegwart.com).
func checkBending(s *pattern.Sheet, r *Report) []Finding {
	radius := s.Flat.LeastRadius()
	strain := 1 / (2*radius/r.Thickness + 1)
	if radius >= 3*r.Thickness || s.Design.Band.Making == unroll.Formed {
		return nil
	}
	return []Finding{{
		Check: "bending", Severity: Caution,
		What:  fmt.Sprintf("The inside bends to a radius of %.1f mm, %.1f times the sheet: the outer face stretches by about %.0f %%.", radius, radius/r.Thickness, 100*strain),
		Value: radius, Limit: 3 * r.Thickness, Unit: "mm",
		Mend: "Use thinner sheet or a rounder inside, anneal before and while bending, and try a piece first. An estimate, not a promise.",
	}}
}

// checkGap: a gap of 1.0 to 1.25 in fits most people (hillcountrylapidary.com);
// we speak up well outside that.
func checkGap(s *pattern.Sheet, _ *Report) []Finding {
	gap := s.Flat.GapInner
	if s.Design.Band.Kind != unroll.Cuff || gap >= 20 && gap <= 45 {
		return nil
	}
	return []Finding{{
		Check: "gap", Severity: Caution,
		What:  fmt.Sprintf("The gap of %.1f mm is unusual: 25 to 32 mm fits most wrists.", gap),
		Value: gap, Limit: 25, Unit: "mm",
		Mend: "Try the cuff on: a small gap must be forced open each time, a wide one falls off.",
	}}
}

func checkEnds(s *pattern.Sheet, _ *Report) []Finding {
	b := s.Design.Band
	if b.Kind != unroll.Cuff || b.EndCornerMM >= 1 || b.EndShape == unroll.RoundEnd || b.EndRadiusMM >= 1 {
		return nil
	}
	if b.EndShape == unroll.PointEnd {
		return []Finding{{
			Check: "ends", Severity: Caution,
			What:  fmt.Sprintf("The tips of the cuff's pointed ends have a radius of %.2f mm and can catch skin and cloth.", b.EndRadiusMM),
			Value: b.EndRadiusMM, Limit: 1, Unit: "mm",
			Mend: "Round the tips by 1 mm or more (common practice) and break all edges.",
		}}
	}
	return []Finding{{
		Check: "ends", Severity: Caution,
		What:  "The corners of the cuff's ends are sharp and can cut skin or catch cloth.",
		Value: s.Design.Band.EndCornerMM, Limit: 1, Unit: "mm",
		Mend: "Round the ends by 1 to 2 mm or more (common practice) and break all edges.",
	}}
}

func checkStagger(s *pattern.Sheet, _ *Report) []Finding {
	var fs []Finding
	for i, f := range s.Design.Fields {
		m, _ := pattern.MotifByKey(f.Motif)
		which := ""
		if len(s.Design.Fields) > 1 {
			which = fmt.Sprintf("Field %d: ", i+1)
		}
		switch {
		case m.Interlock && f.Stagger != 0.5:
			fs = append(fs, Finding{
				Check: "stagger", Severity: Note,
				What: fmt.Sprintf("%s%s fit together only half a pitch apart: the stagger of %g is not used.", which, m.Title, f.Stagger),
				Mend: "Nothing need be done.",
			})
		case !m.Interlock && s.Design.Band.Kind == unroll.Cuff && f.Mirror == "" && f.Rows > 1 && f.Stagger != 0 && f.Stagger != 0.5:
			fs = append(fs, Finding{
				Check: "stagger", Severity: Note,
				What: fmt.Sprintf("%sWith a stagger of %g the two halves of the cuff are not mirror images.", which, f.Stagger),
				Mend: "Use a stagger of 0 or 0.5 for a pattern that is the same on both sides.",
			})
		}
	}
	return fs
}

// checkBand passes on what unrolling had to say, and how a closed band is held.
func checkBand(s *pattern.Sheet, _ *Report) []Finding {
	var fs []Finding
	for _, n := range s.Flat.Notes {
		fs = append(fs, Finding{Check: "band", Severity: Note, What: n, Mend: "Nothing need be done."})
	}
	if s.Design.Band.Joint == unroll.Seamless {
		fs = append(fs, Finding{
			Check: "seamless", Severity: Note,
			What: "The band has no joint: openings may run over the two ends of the flat drawing.",
			Mend: "Cut it from tube on a turning axis, or cast it. From flat sheet, choose a soldered joint.",
		})
	}
	return fs
}
