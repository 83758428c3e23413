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

// Springback is what the bender is advised: round which radius to bend.
type Springback struct {
	// Round is the radius, mm, round which the metal is bent so that it springs open to
	// Inside, the mean radius of the inside: 0 where no source gives the metal's figures, of
	// a band that is not bent, and where the metal is hardly bent at all.
	Round, Inside float64
	// Most says that it springs back from half of that and less.
	Most   bool
	Temper pattern.Temper // metal is bent annealed
}

// springbackOf expects it of a plain strip: a pierced band bends first where least metal
// stands, and metal hardened by rolling or bending springs back more.
func springbackOf(s *pattern.Sheet) Springback {
	b := Springback{Inside: s.Flat.Inner / (2 * math.Pi), Temper: pattern.Tempers(s.Design.Metal.Alloy)[0]}
	// Carat golds, platinum and palladium differ too much from maker to maker: nothing is
	// said of what no source gives.
	if s.Design.Band.Making == unroll.Formed || !b.Temper.Published() {
		return b
	}
	ri, _, ok := springback(b.Inside, s.Flat.Thickness, b.Temper.ModulusGPa, b.Temper.ProofMPa)
	if ok {
		b.Round = ri
	}
	b.Most = b.Round < b.Inside/2
	return b
}

// checkSpringback tells of metal that hardly takes its curve: ours is half the radius.
func checkSpringback(_ *pattern.Sheet, r *Report) []Finding {
	b := r.Springback
	if !b.Most {
		return nil
	}
	return []Finding{{
		Kind: KindSpringback, Severity: Note,
		What:  pattern.Say("Sheet of %.2f mm bent to a radius of %.1f mm springs back from less than half of that.", r.Thickness, b.Inside),
		Why:   pattern.Say("It is so thin for its curve that it hardly takes a set (by %g MPa and %g GPa of plain %s metal).", b.Temper.ProofMPa, b.Temper.ModulusGPa, b.Temper.Title),
		Value: b.Round, Limit: b.Inside / 2, Unit: "mm",
		Mend: "Take thicker sheet, or bend a trial strip first.",
	}}
}
