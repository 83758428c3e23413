package kit

import (
	"image/color"
	"math"
)

// Contrast returns the contrast ratio of two opaque colours, from 1 to 21: Web Content
// Accessibility Guidelines 2.2, "contrast ratio" and "relative luminance" (W3C, 2023).
func Contrast(a, b color.NRGBA) float64 {
	l, k := luminance(a), luminance(b)
	return (math.Max(l, k) + 0.05) / (math.Min(l, k) + 0.05)
}

func luminance(c color.NRGBA) float64 {
	part := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*part(c.R) + 0.7152*part(c.G) + 0.0722*part(c.B)
}
