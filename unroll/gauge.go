package unroll

import "math"

// GaugeMM returns the thickness, mm, of sheet of the Brown & Sharpe (American
// wire) gauge n: 0.127 x 92^((36-n)/39) mm (ASTM B258; compare the table in
// Machinery's Handbook, which is rounded to 0.0001 inch). It is not the Imperial
// gauge: see [ImperialGaugeMM].
func GaugeMM(n int) float64 { return 0.127 * math.Pow(92, float64(36-n)/39) }

// The gauges whose thickness lies within the limits for sheet: 5.827 mm and
// 0.202 mm.
const (
	MinGauge = 3
	MaxGauge = 32
)

// ImperialGaugeMM returns the thickness, mm, of sheet of the Imperial (British
// standard wire) gauge n, 0 for one that is not from [MinImperialGauge] to
// [MaxImperialGauge]. The table is that of BS 3737:1964, in inches (as printed by
// engineeringtoolbox.com; Machinery's Handbook has 0.0149 for number 28). Some makers
// of sheet sell by it under the bare name "gauge" or "SWG".
func ImperialGaugeMM(n int) float64 {
	inches := [...]float64{
		0.232, 0.212, 0.192, 0.176, 0.160, 0.144, // 4 to 9
		0.128, 0.116, 0.104, 0.092, 0.080, 0.072, 0.064, 0.056, 0.048, 0.040, // 10 to 19
		0.036, 0.032, 0.028, 0.024, 0.022, 0.020, 0.018, 0.0164, 0.0148, 0.0136, // 20 to 29
		0.0124, 0.0116, 0.0108, 0.0100, 0.0092, 0.0084, // 30 to 35
	}
	if n < MinImperialGauge || n > MaxImperialGauge {
		return 0
	}
	return inches[n-MinImperialGauge] * 25.4
}

// The Imperial gauges within the limits for sheet: 5.893 mm and 0.213 mm.
const (
	MinImperialGauge = 4
	MaxImperialGauge = 35
)
