package unroll

import "math"

// EdgeCircumferences returns the inner circumferences of a flared band's edges
// from that of its middle, mm: the slant of a cone of the half-angle flare,
// degrees, changes the radius by sin(flare) a millimetre.
func EdgeCircumferences(middle, width, flare float64) (top, bottom float64) {
	d := math.Pi * width * math.Sin(flare*math.Pi/180)
	return middle + d, middle - d
}

// FlareOf returns the half-angle, degrees, of a band whose edges have these inner
// circumferences, mm; held to [MaxFlare].
func FlareOf(top, bottom, width float64) float64 {
	sin := (top - bottom) / (2 * math.Pi * width)
	most := math.Sin(MaxFlare * math.Pi / 180)
	return math.Asin(math.Max(-most, math.Min(most, sin))) * 180 / math.Pi
}
