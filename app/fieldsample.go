package app

import (
	"math"

	"fretband/pattern"
)

// becoming are proportions that become a motif, chosen by eye: the length of a
// repeat over the height of a row, the number of cells of the usual size that one
// of its cells is worth, and the stagger.
var becoming = map[string]struct{ aspect, size, stagger float64 }{
	"triangles": {1, 1.2, 0.5}, "diamonds": {0.8, 1, 0}, "bricks": {2.6, 1, 0}, "hexagons": {1.15, 1, 0}, "chevrons": {1.5, 1.1, 0},
	"lattice": {0.9, 1, 0}, "circles": {1.15, 0.9, 0.5}, "ellipses": {0.75, 1, 0.5}, "scallops": {1.6, 0.8, 0}, "ogees": {0.75, 1.6, 0},
	"waves": {4, 1.2, 0}, "leaves": {1.15, 1.3, 0}, "petals": {1, 2.4, 0}, "teardrops": {0.9, 1.8, 0.5}, "trefoils": {1, 2, 0.5},
	"quatrefoils": {1, 1.5, 0}, "lancets": {0.6, 1.5, 0}, "crosses": {1, 2.4, 0}, "hexastars": {1.2, 1.8, 0}, "sails": {0.85, 2, 0},
	pattern.OwnKey: {0.75, 1.1, 0},
}

// usualCell is the area of a cell of the usual size in a piece of band of height
// high, as a share of its square.
const usualCell = 1.0 / 9

// MotifSample returns rows and repeats that show a motif well on a piece of band,
// mm long and high.
func MotifSample(motif string, long, high float64) (rows, repeats int) {
	return becomingGrid(motif, long, high, high*high*usualCell)
}

// MotifStagger returns the stagger that becomes a motif.
func MotifStagger(motif string) float64 { return becoming[motif].stagger }

// becomingGrid divides a place, mm long and high, into cells of about an area.
func becomingGrid(motif string, long, high, area float64) (rows, repeats int) {
	b, ok := becoming[motif]
	if !ok {
		b.aspect, b.size = 1, 1
	}
	row := math.Sqrt(area * b.size / b.aspect)
	rows = whole(high/row, pattern.RowsRange)
	return rows, whole(long/(high/float64(rows)*b.aspect), pattern.RepeatsRange)
}
