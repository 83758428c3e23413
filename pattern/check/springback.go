package check

import (
	"math"

	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// springback returns the radius Ri, mm, round which a strip must be bent so that
// it springs open to the inner radius rf, mm, and the ratio Ri/Rf:
//
//	Ri/Rf = 4 x^3 - 3 x + 1,  x = Ri Y/(E T)
//
// (S. Kalpakjian, Manufacturing Engineering and Technology, 3rd ed., sheet-metal
// bending). ok is false where it would spring open to five times Ri and more:
// there the strip is hardly bent at all.
func springback(rf, thickness, modulus, proof float64) (ri, ratio float64, ok bool) {
	x := func(ri float64) float64 { return ri * proof / (modulus * 1000 * thickness) }
	// Rf as a function of Ri rises as long as x < 1/2.
	final := func(ri float64) float64 { y := x(ri); return ri / (4*y*y*y - 3*y + 1) }
	lo, hi := plane.Halve(0, math.Min(rf, 0.4999*modulus*1000*thickness/proof), 200, func(ri float64) bool { return final(ri) < rf })
	ri = (lo + hi) / 2
	return ri, ri / rf, ri > rf/5
}

// checkSpringback advises the bender.
func checkSpringback(s *pattern.Sheet, r *Report) []Finding {
	if s.Design.Band.Making == unroll.Formed {
		return nil
	}
	// Metal is bent annealed. Carat golds, platinum and palladium differ too much from
	// maker to maker: nothing is said of what no source gives.
	m := pattern.Tempers(r.Alloy.Key)[0]
	if !m.Published() {
		return nil
	}
	rf := s.Flat.Inner / (2 * math.Pi)
	ri, _, ok := springback(rf, r.Thickness, m.ModulusGPa, m.ProofMPa)
	if !ok {
		return []Finding{{
			Kind: KindSpringback, Severity: Note,
			What: pattern.Say("Sheet of %.2f mm bent to a radius of %.1f mm mostly springs back.", r.Thickness, rf),
			Why:  "It is so thin for its curve that it hardly takes a set: the usual formula does not reach so far.",
			Mend: "Bend a trial strip.",
		}}
	}
	return []Finding{{
		Kind: KindSpringback, Severity: Note,
		What: pattern.Say("Bend it round a radius of about %.1f mm: it springs open to %.1f mm.", ri, rf),
		Why: pattern.Say("Expected of plain %s metal bent cold to the mean radius of the inside: Ri/Rf = 4x³ - 3x + 1, x = Ri Y/(E T) (Kalpakjian, Manufacturing Engineering and Technology), Y %g MPa, E %g GPa (%s).",
			m.Title, m.ProofMPa, m.ModulusGPa, m.Source),
		Value: ri, Limit: rf, Unit: "mm",
		Mend: "An estimate for plain strip: metal hardened by rolling or bending springs back more, and a pierced band bends first where least metal stands. Try a strip of the same sheet.",
	}}
}
