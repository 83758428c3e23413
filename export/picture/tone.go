package picture

import (
	"image/color"
	"strings"
)

// metalTone is how a metal looks in a picture: its face lying flat, the light and the
// dark end of the sheen on it, its edge, and polished, as the renderer takes it.
type metalTone struct{ light, dark, edge, polish color.NRGBA }

// toneOf goes by what the alloy's key says of its colour. The colours are ours, by eye;
// only their order is the metals': silver whiter than platinum and titanium, gold the
// redder the more copper it has and the greener the more silver.
func toneOf(alloy string) metalTone {
	rgb := func(v uint32) color.NRGBA { return color.NRGBA{uint8(v >> 16), uint8(v >> 8), uint8(v), 255} }
	has := func(words ...string) bool {
		for _, w := range words {
			if strings.Contains(alloy, w) {
				return true
			}
		}
		return false
	}
	switch {
	case has("sterling", "silver"):
		return metalTone{rgb(0xE9E8E5), rgb(0xC3C1BC), rgb(0x77746E), rgb(0xE2E0DB)}
	case has("-white", "platinum", "palladium"):
		return metalTone{rgb(0xE2E0DC), rgb(0xB9B6B0), rgb(0x6B6862), rgb(0xD4D1CA)}
	case has("steel", "titanium", "niobium", "tantalum"):
		return metalTone{rgb(0xD0D1D2), rgb(0xA3A4A5), rgb(0x595A5B), rgb(0xC2C3C5)}
	case has("-red", "bronze"):
		return metalTone{rgb(0xEFC3A4), rgb(0xCE9372), rgb(0x87543A), rgb(0xF0AE88)}
	case has("copper"):
		return metalTone{rgb(0xE9A886), rgb(0xC67A53), rgb(0x7D4023), rgb(0xEE9468)}
	case has("brass"):
		return metalTone{rgb(0xEFDB9A), rgb(0xC9AE5C), rgb(0x7E6822), rgb(0xEDCB6C)}
	case has("-green"):
		return metalTone{rgb(0xEBDDA2), rgb(0xC7B466), rgb(0x7C6A24), rgb(0xE6CC70)}
	case has("gold"):
		return metalTone{rgb(0xF3DA9F), rgb(0xD4AF62), rgb(0x86652A), rgb(0xF5C35E)}
	}
	return metalTone{rgb(0xDEDCD8), rgb(0xB5B2AC), rgb(0x686560), rgb(0xCFCCC6)} // a metal of the maker's own
}
