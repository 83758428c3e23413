package pattern

import "strings"

// Temper is a state of hardness of a metal, and what springing needs to know of
// it.
type Temper struct {
	Key, Title string
	// ProofMPa is the 0.2 % proof stress and ModulusGPa Young's modulus; 0 where no
	// figure was found: the user's own is then asked for, nothing is guessed.
	ProofMPa, ModulusGPa float64
	// Source says where each is from: "published" was read in the source named; "usual"
	// figures are from memory and to be taken with more care.
	Source string
}

// Published reports whether the proof stress was read in the source named.
func (t Temper) Published() bool {
	return strings.HasPrefix(t.Source, "published") || strings.HasPrefix(t.Source, "proof stress published")
}

// Tempers lists what is known of an alloy's tempers, softest first; for a metal of
// which nothing is known, annealed without figures. Bending, hammering and filing
// harden: a band formed cold lies between the temper it was cut from and the next.
func Tempers(alloy string) []Temper {
	const (
		soft, half, hard = "annealed", "half-hard", "hard"
		espi             = "ESPI Metals data page \"Silver - Sterling\""
		smithells        = "published: Smithells Metals Reference Book, 8th ed., table 22.7, tough pitch strip"
		olin             = "published: Olin Brass data sheet "
		elements         = "modulus published: element data pages (CRC)"
		carat            = "no proof stress that can be compared was found for this gold (J. C. Wright, Santa Fe Symposium 2000)"
	)
	switch alloy {
	case "sterling-925":
		const modulus = "; modulus 75 GPa is the usual figure, 71 to 78 are quoted"
		return []Temper{
			{soft, "annealed", 124, 75, "proof stress published: " + espi + modulus},
			{half, "half hard", 0, 75, "no proof stress found; half-hard wire breaks at 386 MPa (published: " + espi + ")" + modulus},
			{hard, "hard", 0, 75, "no proof stress found; hard wire breaks at 496 MPa, spring-hard at 552 (published: " + espi + ")" + modulus},
		}
	case "silver-999":
		return []Temper{{soft, "annealed", 54, 83, "proof stress 54 MPa is a usual figure, without a source; " + elements}}
	case "gold-999":
		return []Temper{{soft, "annealed", 20, 79, "proof stress is usually 20 to 40 MPa, without a source; modulus published: totalmateria.com"}}
	case "gold-750-yellow":
		return []Temper{
			{soft, "annealed", 250, 90, "usual figures, without a source: proof stress 250 to 350 MPa, modulus 85 to 95 GPa; alloys of this name differ widely"},
			{hard, "worked hard", 500, 90, "usual figures, without a source: proof stress 500 to 700 MPa, modulus 85 to 95 GPa; alloys of this name differ widely"},
		}
	case "gold-375-yellow", "gold-375-white", "gold-417-yellow", "gold-417-red", "gold-417-white", "gold-417-green",
		"gold-585-yellow", "gold-585-red", "gold-585-white", "gold-585-green",
		"gold-750-red", "gold-750-white", "gold-750-green", "gold-916-yellow":
		return []Temper{{soft, "annealed", 0, 0, carat}}
	case "platinum-950-ruthenium":
		return []Temper{
			{soft, "annealed", 0, 190, "no proof stress found; modulus is usually 180 to 200 GPa, without a source"},
			{hard, "hard", 0, 190, "no proof stress found; modulus is usually 180 to 200 GPa, without a source"},
		}
	case "copper":
		return []Temper{{soft, "annealed", 54, 117, smithells}, {half, "half hard", 176, 117, smithells}, {hard, "hard", 270, 117, smithells}}
	case "brass-cuzn30":
		return []Temper{{soft, "annealed", 145, 110, olin + "C26000"}, {half, "half hard", 350, 110, olin + "C26000"}, {hard, "hard", 495, 110, olin + "C26000"}}
	case "bronze-c51000":
		return []Temper{{soft, "annealed", 165, 110, olin + "C51000"}, {half, "half hard", 395, 110, olin + "C51000"}, {hard, "hard", 560, 110, olin + "C51000"}}
	case "titanium-2":
		return []Temper{{soft, "annealed", 275, 102, "published: ASM/MatWeb data sheet MTU021, the least; 340 is typical"}}
	case "steel-316l":
		return []Temper{{soft, "annealed", 170, 193, "proof stress is usually 170 MPa, the least of ASTM A240, which was not looked up; modulus published: MatWeb data sheet, type 316"}}
	case "niobium":
		return []Temper{{soft, "annealed", 70, 105, "proof stress is usually 70 to 105 MPa, without a source; " + elements}}
	case "tantalum":
		return []Temper{{soft, "annealed", 140, 186, "proof stress is usually 140 to 200 MPa, without a source; " + elements}}
	}
	return []Temper{{soft, "annealed", 0, 0, "no figures found"}}
}

// Temper returns the temper that the design's metal is worn in, the softest if none
// of that name is known, with the user's own figures in place of the table's.
func (d Design) Temper() Temper {
	ts := Tempers(d.Metal.Alloy)
	t := ts[0]
	for _, u := range ts {
		if u.Key == d.Wear.Temper {
			t = u
		}
	}
	w := d.Wear
	switch {
	case w.ProofMPa > 0 && w.ModulusGPa > 0:
		t.Source = "your own figures"
	case w.ProofMPa > 0:
		t.Source = "your own proof stress; for the rest: " + t.Source
	case w.ModulusGPa > 0:
		t.Source = "your own modulus; for the rest: " + t.Source
	}
	if w.ProofMPa > 0 {
		t.ProofMPa = w.ProofMPa
	}
	if w.ModulusGPa > 0 {
		t.ModulusGPa = w.ModulusGPa
	}
	return t
}

// Poisson returns Poisson's ratio of an alloy, that of its main metal, from memory.
// Stiffness follows it by a few per cent at most.
func Poisson(alloy string) float64 {
	switch metal, _, _ := strings.Cut(alloy, "-"); metal {
	case "gold":
		return 0.42
	case "platinum", "niobium":
		return 0.39
	case "steel":
		return 0.29
	case "sterling", "silver", "titanium":
		return 0.37
	}
	return 0.34 // copper and its alloys, tantalum
}
