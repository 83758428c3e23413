package pattern

// Alloy is a metal that a band may be made of.
type Alloy struct {
	Key      string // as in the design file
	Name     string
	Density  float64 // g/cm^3; 0 for [OwnAlloy], whose density the design gives
	Fineness int     // parts of precious metal per thousand; 0 if it is none
	Source   string  // where the density is from, and how sure it is
}

// OwnAlloy is the key of a metal whose density the user gives.
const OwnAlloy = "own"

// Alloys lists the metals in the order in which a person reads them. Alloys of
// one name differ by a few parts in a hundred from maker to maker; fineness is
// the least share of the precious metal by weight (ISO 9202).
func Alloys() []Alloy {
	const (
		stuller   = "Stuller, \"Where to find gravity of materials\" (2012), the same in tmtpages.com specific-gravity table 4"
		stuller10 = "Stuller, \"Where to find gravity of materials\" (2012)"
		computed  = "computed from its parts (reciprocal rule)"
	)
	return []Alloy{
		{"sterling-925", "Sterling silver 925", 10.36, 925, "ESPI Metals data page \"Silver - Sterling\"; others print 10.3 to 10.40, its parts give 10.357"},
		{"silver-999", "Fine silver 999", 10.49, 999, "Central Metals and tmtpages.com tables; others print up to 10.53"},
		{"gold-375-yellow", "9 ct yellow gold 375", 11.1, 375, "diamondsbyme.com specific gravity page (weak); its parts give 11.15"},
		{"gold-375-white", "9 ct white gold 375", 10.7, 375, "diamondsbyme.com specific gravity page (weak)"},
		{"gold-417-yellow", "10 ct yellow gold 417", 11.57, 417, stuller10},
		{"gold-417-red", "10 ct red gold 417", 11.59, 417, stuller10},
		{"gold-417-white", "10 ct white gold 417", 11.07, 417, stuller10},
		{"gold-417-green", "10 ct green gold 417", 11.03, 417, "DISPUTED: " + stuller10 + " prints 11.03, gold and silver alone give 12.96; weights may be up to 15 % too low"},
		{"gold-585-yellow", "14 ct yellow gold 585", 13.07, 585, stuller},
		{"gold-585-red", "14 ct red gold 585", 13.26, 585, stuller},
		{"gold-585-white", "14 ct white gold 585", 12.61, 585, stuller + "; palladium types are usually about 13.5 to 14.0, without a source"},
		{"gold-585-green", "14 ct green gold 585", 14.20, 585, stuller},
		{"gold-750-yellow", "18 ct yellow gold 750", 15.58, 750, stuller},
		{"gold-750-red", "18 ct red gold 750", 15.18, 750, stuller},
		{"gold-750-white", "18 ct white gold 750", 14.64, 750, stuller + "; palladium types are usually about 15.5 to 16.0, without a source"},
		{"gold-750-green", "18 ct green gold 750", 15.90, 750, stuller},
		{"gold-916-yellow", "22 ct yellow gold 916", 17.8, 916, computed + ": 916 gold, 42 silver, 42 copper give 17.82"},
		{"gold-999", "Fine gold 999", 19.32, 999, "Shelby Gem Factory gold alloys page; tmtpages.com table 4"},
		{"platinum-900-iridium", "Platinum 900 iridium", 21.54, 900, stuller10},
		{"platinum-950-iridium", "Platinum 950 iridium", 21.50, 950, computed},
		{"platinum-950-ruthenium", "Platinum 950 ruthenium", 20.70, 950, computed},
		{"platinum-950-cobalt", "Platinum 950 cobalt", 20.8, 950, "DISPUTED: Stuller prints 20.80, its parts give 20.04; weights may be 4 % too high"},
		{"palladium-950-ruthenium", "Palladium 950 ruthenium", 12.04, 950, computed + "; pure palladium 12.02 is the usual figure, without a source"},
		{"copper", "Copper", 8.96, 0, "tmtpages.com table 4; copper strip 8.94"},
		{"brass-cuzn30", "Brass CuZn30", 8.53, 0, "Olin Brass data sheet C26000"},
		{"brass-cuzn37", "Brass CuZn37", 8.44, 0, "data sheet CZ108, rajhans.com"},
		{"bronze-c51000", "Phosphor bronze C51000", 8.86, 0, "Olin Brass data sheet C51000"},
		{"titanium-2", "Titanium grade 2", 4.51, 0, "MatWeb data sheet, annealed sheet"},
		{"steel-316l", "Stainless steel 316L", 8.0, 0, "MatWeb data sheet, type 316, annealed bar"},
		{"niobium", "Niobium", 8.57, 0, "usual figure, without a source; ask your supplier"},
		{"tantalum", "Tantalum", 16.65, 0, "enplanet.co.kr element data, tantalum"},
		{OwnAlloy, "Own metal", 0, 0, "the density given in the design"},
	}
}

// AlloyByKey returns the metal of that key and whether there is one.
func AlloyByKey(key string) (Alloy, bool) {
	for _, a := range Alloys() {
		if a.Key == key {
			return a, true
		}
	}
	return Alloy{}, false
}

// Density returns the design's metal and its density, g/cm^3: the table's, or
// for [OwnAlloy] the design's own. Both are zero for a key that is not there.
func (m Metal) Density() (Alloy, float64) {
	a, ok := AlloyByKey(m.Alloy)
	if ok && a.Key == OwnAlloy {
		a.Density = m.DensityGCM3
	}
	return a, a.Density
}
