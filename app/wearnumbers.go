package app

import (
	"fmt"

	"fretband/pattern"
)

// TemperChoice chooses how hard the metal is when a cuff is worn.
func TemperChoice() Choice {
	return Choice{
		Path: "wear.temper", Title: "Temper", Tip: "How hard the metal is when it is worn. Soldering anneals it; rolling, hammering and bending harden it.",
		Options: func(d pattern.Design) []Option {
			var os []Option
			for _, t := range pattern.Tempers(d.Metal.Alloy) {
				os = append(os, Option{t.Key, t.Title})
			}
			return os
		},
		Get: func(d pattern.Design) string {
			ts := pattern.Tempers(d.Metal.Alloy)
			for _, t := range ts {
				if t.Key == d.Wear.Temper {
					return t.Key
				}
			}
			return ts[0].Key
		},
		Set: func(d *pattern.Design, key string) {
			if key == pattern.Tempers(d.Metal.Alloy)[0].Key {
				key = "" // the softest is meant where none is named
			}
			d.Wear.Temper = key
		},
		Shown: cuff,
	}
}

// WearNumbers are how a cuff is put on and what its metal bears.
func WearNumbers() []Number {
	return []Number{
		{
			Path: "wear.open_mm", Title: "Opened by", Unit: "mm", Min: pattern.OpenRange.Min, Max: pattern.OpenRange.Max, Step: 0.5, Places: 1,
			Tip:   "By how much the ends are pulled apart to put the cuff on. 0 is what lets the narrow side of the wrist through the gap.",
			Get:   func(d pattern.Design) float64 { return d.Wear.OpenMM },
			Set:   func(d *pattern.Design, v float64) { d.Wear.OpenMM = v },
			Shown: cuff,
		},
		{
			Path: "wear.proof_mpa", Title: "Proof stress", Unit: "MPa", Min: pattern.ProofRange.Min, Max: pattern.ProofRange.Max, Step: 5, Places: 0,
			Tip:   "The 0.2 % proof stress from your supplier's sheet. 0 takes the table's, where there is one.",
			Get:   func(d pattern.Design) float64 { return d.Wear.ProofMPa },
			Set:   func(d *pattern.Design, v float64) { d.Wear.ProofMPa = v },
			Shown: cuff,
		},
		{
			Path: "wear.modulus_gpa", Title: "Modulus", Unit: "GPa", Min: pattern.ModulusRange.Min, Max: pattern.ModulusRange.Max, Step: 1, Places: 1,
			Tip:   "Young's modulus of your metal: how stiff it is, whatever its temper. 0 takes the table's, where there is one.",
			Get:   func(d pattern.Design) float64 { return d.Wear.ModulusGPa },
			Set:   func(d *pattern.Design, v float64) { d.Wear.ModulusGPa = v },
			Shown: cuff,
		},
	}
}

// TemperText says what the metal is taken for and who says so; empty for a band that
// is not sprung on.
func TemperText(d pattern.Design) string {
	if !cuff(d) {
		return ""
	}
	t := d.Temper()
	figure := func(v float64, unit string) string {
		if v <= 0 {
			return "not known: give your own"
		}
		return FormatNumber(v, 1) + " " + unit
	}
	return fmt.Sprintf("Proof stress %s, modulus %s. %s.", figure(t.ProofMPa, "MPa"), figure(t.ModulusGPa, "GPa"), upper(t.Source))
}

// upper returns a sentence with a capital.
func upper(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}
