package app

import (
	"fretband/pattern"
	"fretband/pattern/check"
)

// standsFor says, by the key in the table, what holds where a number is left empty, of the
// design as it was laid last; 0 where nothing is known.
var standsFor = map[string]func(*Scene, pattern.At) float64{
	"band.swell_length_mm": func(s *Scene, _ pattern.At) float64 { return s.Sheet.Flat.Length },
	"fields[].bridge_mm":   ruleInForce,
	"edits[].width_mm:tie": ruleInForce,
	"reserves[].spacing_mm": func(s *Scene, at pattern.At) float64 {
		return s.Sheet.Design.Reserves[at[0]].Spacing(s.Sheet.Flat)
	},
	"added[].spacing_mm": func(s *Scene, at pattern.At) float64 { return s.Sheet.Added[at[0]].Step },
	"added[].width_mm:beads": func(s *Scene, at pattern.At) float64 {
		return s.Sheet.Added[at[0]].SizeMM
	},
	"work.kerf_mm":         func(s *Scene, _ pattern.At) float64 { return s.Report.Making.KerfMM },
	"work.least_angle_deg": func(s *Scene, _ pattern.At) float64 { return check.LeastAngle(s.Sheet) },
	"wear.open_mm":         func(s *Scene, _ pattern.At) float64 { return check.OpenedBy(s.Sheet) },
	"wear.proof_mpa":       func(s *Scene, _ pattern.At) float64 { return s.Sheet.Design.Temper().ProofMPa },
	"wear.modulus_gpa":     func(s *Scene, _ pattern.At) float64 { return s.Sheet.Design.Temper().ModulusGPa },
}

func ruleInForce(s *Scene, _ pattern.At) float64 { return s.Sheet.Design.Rules.BridgeMM }

// InForce returns the value of a number that holds: its own, or what stands for it while it
// is empty.
func (e *Editor) InForce(n Number) float64 {
	v := n.Get(e.Now())
	if v != 0 || n.Empty == "" {
		return v
	}
	return e.standing(n)
}

// standing returns what stands for a number while it is empty, 0 if nothing is known.
func (e *Editor) standing(n Number) float64 {
	of := standsFor[n.Entry.Key()]
	if of == nil || e.Scene == nil || !n.Entry.In(&e.Scene.Sheet.Design, n.at) && n.Group != pattern.HandGroup {
		return 0
	}
	return of(e.Scene, n.at)
}

// WhileEmpty is what the entry of a number says while it is empty: the value in force, in
// brackets as it has not been typed, or in a word or two that there is none.
func (e *Editor) WhileEmpty(n Number) string {
	if v := e.standing(n); v != 0 {
		return "(" + FormatNumber(v, max(n.Decimals, 1)) + ")"
	}
	return n.Empty
}
