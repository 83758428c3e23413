package unroll

import "math"

// GaugeMM returns the thickness, mm, of sheet of the Brown & Sharpe (American
// wire) gauge n: 0.127 x 92^((36-n)/39) mm (ASTM B258; compare the table in
// Machinery's Handbook, which is rounded to 0.0001 inch). It is not the Imperial
// gauge (SWG), whose 18 is 1.219 mm (memory).
func GaugeMM(n int) float64 { return 0.127 * math.Pow(92, float64(36-n)/39) }

// The gauges whose thickness lies within the limits for sheet: 5.827 mm and
// 0.202 mm.
const (
	MinGauge = 3
	MaxGauge = 32
)
