package app

import (
	"fmt"

	"fretband/pattern"
	"fretband/pattern/check"
)

// UsualText gives the usual limits of the design's process for sheet of that thickness,
// mm, and their source; both are empty as long as no process is chosen.
func UsualText(d pattern.Design, thickness float64) (limits, source string) {
	p, ok := pattern.ProcessByKey(d.Rules.Process)
	if !ok {
		return "", ""
	}
	u := check.UsualOf(p, thickness)
	say := func(v float64) string { return FormatNumber(v, 2) }
	return fmt.Sprintf("Usual for %s mm: bridge %s, corner %s, smallest %s mm.", FormatNumber(thickness, 3), say(u.Bridge), say(u.Corner), say(u.Opening)),
		"Usual limits: " + p.Source + ". They are guides: whoever cuts it decides."
}

// RulesText says in a few words what the rules hold besides bridge and rim.
func RulesText(d pattern.Design) string {
	r := d.Rules
	text := fmt.Sprintf("corner %s, smallest %s mm", FormatNumber(r.CornerMM, 2), FormatNumber(r.SmallestMM, 2))
	if p, ok := pattern.ProcessByKey(r.Process); ok {
		text += ", " + lower(p.Title)
	}
	if len(r.RimAlong) > 0 {
		text += ", rim graded"
	}
	return text
}

// TemperText says which temper is assumed and who says so; empty for a band that
// is not sprung on.
func TemperText(d pattern.Design) string {
	if !d.Band.Open() {
		return ""
	}
	t := d.Temper()
	figure := func(v float64, unit string) string {
		if v <= 0 {
			return "not known: give your own"
		}
		return FormatNumber(v, 1) + " " + unit
	}
	return fmt.Sprintf("Proof stress %s, modulus %s. %s.", figure(t.ProofMPa, "MPa"), figure(t.ModulusGPa, "GPa"), capital(t.Source))
}
