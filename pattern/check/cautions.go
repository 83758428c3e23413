package check

import (
	"slices"
	"strings"

	"fretband/pattern"
	"fretband/unroll"
)

// Care is a caution that goes with the work or the metal.
type Care struct {
	Topic string // short, for a heading
	Text  string
	// Short is the same in one line, of hazards to body and health; else empty.
	Short  string
	Source string // the source; "common practice" or "memory" where there is none
}

// Cautions returns what to watch for when this band is made, sold and worn: only what
// applies to how the sheet is cut, to its metal and its finished weight; without a sheet
// what applies to any band. It is no legal advice.
func Cautions(s *pattern.Sheet, r *Report) []Care {
	process, b := "", unroll.Band{}
	if s != nil {
		process, b = s.Process, s.Design.Band
	}
	var cs []Care
	hazard := func(topic, source, short, format string, args ...any) {
		cs = append(cs, Care{topic, pattern.Say(format, args...), short, source})
	}
	add := func(topic, source, format string, args ...any) { hazard(topic, source, "", format, args...) }
	open := process == "" // not settled, or in the shop's own words
	if _, ok := pattern.ProcessByKey(process); !ok {
		open = true
	}
	a := pattern.Alloy{}
	if r != nil {
		a = r.Alloy
	}
	if open || process == "laser" {
		text := "A cutting beam is class 4: it blinds and burns, also by reflection. Keep it in an interlocked enclosure, wear eyewear rated for its wavelength and draw off the fume. Only trained people may run it."
		switch name := throwsBack(a); {
		case r == nil:
			text += " Silver, gold and copper throw the beam back."
		case name != "":
			text += " " + name + " throws the beam back strongly: ask the shop whether its machine is made for that."
		}
		text += " Thin parts tip up in its gas: tabs hold them."
		hazard("Laser", "class after IEC 60825-1 (memory)", "the beam blinds and burns, also by reflection: use an enclosure, rated eyewear and extraction, with trained people only.", "%s", text)
	}
	if open || process == "saw" {
		hazard("Saw and drill", "common practice", "blades and drills snap: wear eye protection, hold the sheet on the pin, keep fingers out of the line of cut.", "Blades and drills snap. Wear eye protection, hold the sheet on the pin and keep your fingers out of the line of cut.")
	}
	if process == "etch" {
		hazard("Etching", "common practice", "etchants burn and their fumes harm: wear gloves and goggles, ventilate, pour acid into water.", "Etchants burn skin and eyes, and their fumes harm. Wear gloves and goggles, ventilate, and pour acid into water, never the other way. Spent etchant holds metal: it is waste for a licensed collector.")
	}
	if process == "cast" {
		hazard("Casting", "common practice", "molten metal burns and investment dust harms the lungs: wear a shield and leather, use extraction, with trained people only.", "Molten metal burns, and investment dust harms the lungs. Wear a face shield, leather and a rated mask, and use extraction. Only trained people may cast.")
	}
	if r == nil || b.Soldered() && b.Making != unroll.Formed || solderedOn(r) {
		hazard("Soldering", "common practice", "ventilate, wear goggles, use no solder with cadmium.", "Ventilate, wear goggles, and use no solder that holds cadmium: its fume is deadly.")
	}
	if r == nil || b.Making != unroll.Formed && process != "cast" {
		hazard("Annealing and pickle", "common practice", "flame, hot metal and pickle burn: ventilate, wear goggles, pour acid into water.", "Flame and hot metal burn, and their fume harms: ventilate and wear goggles. Pickle burns too: pour acid into water, and put no steel in it.")
	}
	if r != nil && slices.ContainsFunc(r.Added, func(p AddedPart) bool { return p.Kind == pattern.StonePart }) {
		add("Stones", "common practice", "Heat cracks most stones or takes their colour, and pickle eats soft ones: solder all seats first, pickle and polish, and set the stones last. Check before each wearing that none is loose.")
	}
	hazard("Edges", "common practice", "cut edges and free points are sharp: break and polish each before the band is tried on.", "Cut edges and free points are sharp: break and polish every edge before the band is tried on. Long points bend and catch.")
	if r == nil || r.Openings > 0 {
		hazard("Polishing", "Lapidary Journal, on cuffs; ganoksin.com, on chains", "a wheel grabs openwork: put no finger through the band, wear no gloves, keep chains away.", "A wheel grabs openwork. Hold the band below the wheel's centre, put no finger through the band, and wear no gloves and no chains. Tumble the band without chains.")
	}
	if r == nil || mayHoldNickel(a) {
		what := "This metal may hold nickel, or be plated over it"
		if r == nil {
			what = "White gold, steel, and metal that is plated may hold nickel"
		}
		hazard("Nickel", "EU REACH annex XVII entry 27, tests by EN 1811", "may be in or under this metal: ask for the proof that it is safe on the skin.",
			"%s. In the European Union what is worn on the skin may release 0.5 \u00b5g/cm\u00b2 a week at most (posts in piercings 0.2); plated pieces must stay under it for two years of wear. Ask for the supplier's proof.", what)
	}
	add("Cadmium and lead", "EU REACH annex XVII entries 23 and 63",
		"In the European Union jewellery may hold under 0.01 %% of cadmium and under 0.05 %% of lead by weight in any part, solder and old scrap included.")
	if r == nil || a.Fineness > 0 {
		add("Hallmark", "anchorcertacademy.net for the United Kingdom, tukes.fi for Finland", "%s", hallmark(a, r))
	}
	add("Estimates", "common practice", "All figures are estimates from the drawing: filing, polishing and bending change them. Cut a trial in base metal first.")
	add("Who decides", "common practice", "Local rules, the maker of the machine and licensed or trained practice decide, whatever is printed here.")
	return cs
}

// threshold is from which finished weight, g, a country asks for a hallmark on what is sold
// as that metal.
type threshold struct {
	country, metal string
	grams          float64
}

// thresholds: what weighs less is exempt. United Kingdom: anchorcertacademy.net, the
// Hallmarking Act's exemption weights, marked by an assay office. Finland: tukes.fi,
// design and manufacture of articles of precious metals, a responsibility mark and one
// of fineness.
func thresholds() []threshold {
	const uk, fi = "United Kingdom", "Finland"
	return []threshold{
		{uk, "silver", 7.78}, {uk, "gold", 1}, {uk, "palladium", 1}, {uk, "platinum", 0.5},
		{fi, "silver", 10}, {fi, "gold", 1}, {fi, "palladium", 1}, {fi, "platinum", 1},
	}
}

// standards lists the standards of fineness of the United Kingdom, parts per thousand
// (hallmarkingconvention.org, country profile).
func standards(metal string) []int {
	switch metal {
	case "gold":
		return []int{999, 990, 916, 750, 585, 375}
	case "silver":
		return []int{999, 958, 925, 800}
	case "platinum":
		return []int{999, 950, 900, 850}
	}
	return []int{999, 950, 500} // palladium
}

// nearThreshold is how close to a threshold, as a share of it, an estimate decides nothing: ours.
const nearThreshold = 0.05

func hallmark(a pattern.Alloy, r *Report) string {
	const rest = " Other countries have other limits or none: ask your assay office, and weigh the finished piece."
	metal := preciousOf(a)
	var parts []string
	country := ""
	for _, t := range thresholds() {
		if r != nil && t.metal != metal {
			continue
		}
		part := pattern.Say("%g g of %s", t.grams, t.metal)
		if r != nil {
			switch {
			case r.Left < (1-nearThreshold)*t.grams:
				part += " (this is under it)"
			case r.Left < (1+nearThreshold)*t.grams:
				part += " (this is too near it to say)"
			default:
				part += " (this must be marked)"
			}
			if t.country == "United Kingdom" && !slices.Contains(standards(metal), a.Fineness) {
				part += pattern.Say(" (%d is no standard of fineness there: it is marked as a lower one, if at all)", a.Fineness)
			}
		}
		if t.country != country {
			part = t.country + " from " + part
			country = t.country
		}
		parts = append(parts, part)
	}
	if len(parts) == 0 {
		return "What is sold as precious metal may have to be marked, by its finished weight." + rest
	}
	text := "What is sold as precious metal must be marked from a finished weight: "
	if r != nil {
		text = pattern.Say("This band is to weigh %.2f g. What is sold as %s must be marked from a finished weight: ", r.Left, metal)
	}
	return text + strings.Join(parts, ", ") + ". What is exempt must be of the fineness all the same." + rest
}

// preciousOf names the precious metal of an alloy.
func preciousOf(a pattern.Alloy) string {
	for _, p := range [][2]string{{"gold-", "gold"}, {"platinum-", "platinum"}, {"palladium-", "palladium"}, {"sterling-", "silver"}, {"silver-", "silver"}} {
		if strings.HasPrefix(a.Key, p[0]) {
			return p[1]
		}
	}
	return ""
}

// throwsBack names the metal of an alloy that reflects a beam strongly, "" if it does
// not (memory).
func throwsBack(a pattern.Alloy) string {
	switch m := preciousOf(a); {
	case m == "silver":
		return "Silver"
	case m == "gold":
		return "Gold"
	case strings.HasPrefix(a.Key, "copper"):
		return "Copper"
	case strings.HasPrefix(a.Key, "brass"):
		return "Brass, being mostly copper,"
	case strings.HasPrefix(a.Key, "bronze"):
		return "Bronze, being mostly copper,"
	}
	return ""
}

// mayHoldNickel: white golds, steel, what is often plated over nickel, and metals that
// we do not know (memory).
func mayHoldNickel(a pattern.Alloy) bool {
	return a.Key == "" || a.Key == pattern.OwnAlloy || strings.HasSuffix(a.Key, "-white") ||
		strings.HasPrefix(a.Key, "steel") || strings.HasPrefix(a.Key, "brass") || strings.HasPrefix(a.Key, "bronze") || a.Key == "copper"
}

// solderedOn reports whether something is added that is soldered.
func solderedOn(r *Report) bool {
	return slices.ContainsFunc(r.Added, func(p AddedPart) bool { return p.MetalGrams > 0 })
}
