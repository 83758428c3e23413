package app

import (
	"fretband/pattern"
)

// MetalNumbers are the numbers of the metal.
func MetalNumbers() []Number {
	return []Number{
		{
			Path: "metal.density_g_cm3", Title: "Density", Unit: "g/cm³", Min: pattern.DensityRange.Min, Max: pattern.DensityRange.Max, Step: 0.01, Places: 3,
			Tip:   "Of your own alloy: weight of a piece divided by the water that it pushes aside.",
			Get:   func(d pattern.Design) float64 { return d.Metal.DensityGCM3 },
			Set:   func(d *pattern.Design, v float64) { d.Metal.DensityGCM3 = v },
			Shown: func(d pattern.Design) bool { return d.Metal.Alloy == pattern.OwnAlloy },
		},
		{
			Path: "metal.price_per_g", Title: "Price", Unit: "per g", Min: pattern.PriceRange.Min, Max: pattern.PriceRange.Max, Step: 0.1, Places: 3,
			Tip: "What you pay for a gram, for the cost of the metal left. 0 shows no cost.",
			Get: func(d pattern.Design) float64 { return d.Metal.PricePerG },
			Set: func(d *pattern.Design, v float64) { d.Metal.PricePerG = v },
		},
	}
}
