package export

import (
	"fmt"

	"fretband/pattern"
	"fretband/pattern/check"
)

// What a caster asks of a solid. Common practice, but for what names its source: the caster
// decides.
const (
	// Linear shrinkage from a wax to the metal, and of wax that is injected into a mould:
	// Artistry of Gold.
	waxToMetal, injectedWax = 0.01, 0.025
	// What cast skin, filing and polishing take of each side, mm.
	castSkinLeast, castSkinMost = 0.10, 0.15
	// Densities of patterns, g/cm³: wax 0.95 to 0.98 (Untracht), resin 1.1 to 1.2.
	waxDensity, resinDensity = 0.96, 1.15
	buttonShare              = 0.10 // of wax and sprues: Rio Grande, Romanoff
)

// patternSize returns the size of a pattern that shrinks in steps to a finished size.
func patternSize(finished float64, steps ...float64) float64 {
	for _, s := range steps {
		finished /= 1 - s
	}
	return finished
}

// castMetal returns the mass of metal that fills the mould of a pattern with its sprues,
// with the button.
func castMetal(patternMass, density, patternDensity float64) float64 {
	return patternMass * (1 + buttonShare) * density / patternDensity
}

func solidWords(s *pattern.Sheet, r *check.Report) string {
	text := "the band in its form, at its finished size: neither shrinkage nor polish allowance nor sprue is in it"
	if r.Engravings > 0 {
		text += ", nor is the engraving"
	}
	return text
}

func shrinkageWords(_ *pattern.Sheet, r *check.Report, _ Options) string {
	return pattern.Say("a pattern measures the finished size / (1 - s). Of a direct pattern s is 1 %% or more by metal (%.2f mm across becomes %.2f), of wax injected into a mould 2.5 %% more (%.2f). Ask the caster for his own (common practice)",
		r.Hang.Width, patternSize(r.Hang.Width, waxToMetal), patternSize(r.Hang.Width, injectedWax, waxToMetal))
}

func polishWords(_ *pattern.Sheet, r *check.Report, _ Options) string {
	text := pattern.Say("cast skin, filing and polishing take %.2f to %.2f mm of each side (common practice): the wall of %s mm loses up to %.2f",
		castSkinLeast, castSkinMost, MM(r.Thickness), 2*castSkinMost)
	if !r.Thinnest.None() {
		text += pattern.Say(", the thinnest bridge of %.2f mm as much", r.Thinnest.Width)
	}
	return text + ". Add it to the pattern if the finished piece is to keep its size"
}

func sprueWords(s *pattern.Sheet, _ *check.Report, _ Options) string {
	text := "on the heaviest part and thicker than that (common practice), on an edge that is filed anyway"
	if len(s.Design.Reserves)+len(s.Design.Added) > 0 {
		text += "; not where metal is kept solid"
	}
	return text
}

func patternWords(_ *pattern.Sheet, r *check.Report, _ Options) string {
	if r.Density == 0 {
		return ""
	}
	at := func(density float64) float64 { return r.Left * density / r.Density }
	return fmt.Sprintf("%s; metal for a wax and its sprues: %s times their weight, the usual button of %.0f %% included (common practice)",
		pattern.Say("finished %.2f g; of the same size in wax about %.2f g, in resin %.2f g", r.Left, at(waxDensity), at(resinDensity)),
		MM(castMetal(1, r.Density, waxDensity)), 100*buttonShare)
}
