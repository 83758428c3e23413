package app

import (
	"math"

	"fretband/pattern"
	"fretband/pattern/motif"
)

// usualCell is the area of a cell of the usual size in a piece of band of height
// high, as a share of its square.
const usualCell = 1.0 / 9

// MotifSample returns rows and repeats that show a motif well on a piece of band,
// mm long and high.
func MotifSample(key string, long, high float64) (rows, repeats int) {
	return usualGrid(key, long, high, high*high*usualCell)
}

// usualGrid divides a piece, mm long and high, into cells of about an area.
func usualGrid(key string, long, high, area float64) (rows, repeats int) {
	u := motif.Usual(key)
	row := math.Sqrt(area * u.Size / u.Aspect)
	rows = whole(high/row, pattern.RowsRange)
	return rows, whole(long/(high/float64(rows)*u.Aspect), pattern.RepeatsRange)
}
