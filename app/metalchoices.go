package app

import (
	"fretband/pattern"
)

// AlloyChoice chooses the metal.
func AlloyChoice() Choice {
	return Choice{
		Path: "metal.alloy", Title: "Alloy", Tip: "Sets the weight. Alloys of one name differ by a few parts in a hundred: your supplier's figure is the better one.",
		Options: func(pattern.Design) []Option {
			var os []Option
			for _, a := range pattern.Alloys() {
				os = append(os, Option{a.Key, a.Name})
			}
			return os
		},
		Get: func(d pattern.Design) string { return d.Metal.Alloy },
		Set: func(d *pattern.Design, key string) {
			density, _ := densityOf(d.Metal)
			if key != d.Metal.Alloy { // another metal bears something else
				d.Wear.Temper, d.Wear.ProofMPa, d.Wear.ModulusGPa = "", 0, 0
			}
			d.Metal.Alloy = key
			d.Metal.DensityGCM3 = 0
			if key == pattern.OwnAlloy {
				d.Metal.DensityGCM3 = density
			}
		},
	}
}

func densityOf(m pattern.Metal) (float64, bool) {
	if m.Alloy == pattern.OwnAlloy && m.DensityGCM3 > 0 {
		return m.DensityGCM3, true
	}
	if a, ok := pattern.AlloyByKey(m.Alloy); ok {
		return a.Density, true
	}
	return 10, false
}
