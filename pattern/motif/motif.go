// Package motif divides a field into cells that do not overlap, one motif a file. What
// may come in is a [Frame]; what comes out is a [Tiling] of loops. The package pattern
// makes an opening of each cell by taking half a bridge off all round, so that a motif
// need not know of bridges, rims or reserves.
package motif

import "fretband/unroll/plane"

// Motif is a shape that repeats.
type Motif struct {
	Key   string // as in the design file
	Title string // as a person reads it
	What  string // one sentence
	Usual Proportions
	// Interlock says that every other row is half a pitch along whatever the
	// field's stagger says, because the cells fit together only so.
	Interlock bool
	// OverInRows says that Frame.Over counts rows of the field, not rows of cells.
	OverInRows bool
	// Irregular says that the cells do not repeat: no rotation of them closes round a band.
	Irregular bool
	Numbers   []Number
	Edges     int // of a user's own: of its shape
	// Cells divides the frame.
	Cells func(Frame) Tiling
}

// Proportions of a field of the motif that look good, chosen by eye.
type Proportions struct {
	Aspect  float64 // the length of a repeat over the height of a row
	Size    float64 // of a cell's area, to that of a plain motif's cell in the same field
	Stagger float64
}

// Usual returns the proportions of the motif of that key, or [OwnKey].
func Usual(key string) Proportions {
	if m, ok := ByKey(key); ok {
		return m.Usual
	}
	return ownUsual
}

// Number is one of a motif's own numbers.
type Number struct {
	Key, Title, Unit  string
	Default, Min, Max float64
}

// touch is how near cells or points count as one, mm or mm^2: ten times the grid on which
// points are the same.
const touch = 10 * plane.Snap

// All lists all motifs in the order in which a person reads them.
func All() []Motif {
	return []Motif{
		triangles, diamonds, squares, bricks, hexagons, chevrons, lattice,
		circles, ellipses, scallops, ogees, waves,
		leaves, petals, teardrops, trefoils, quatrefoils, lancets,
		crosses, hexastars, randomCells, sails,
	}
}

// ByKey returns the motif of that key and whether there is one.
func ByKey(key string) (Motif, bool) {
	for _, m := range All() {
		if m.Key == key {
			return m, true
		}
	}
	return Motif{}, false
}

// Number returns one of the motif's own numbers as given, or its default.
func (m Motif) Number(given map[string]float64, key string) float64 {
	if v, ok := given[key]; ok {
		return v
	}
	for _, n := range m.Numbers {
		if n.Key == key {
			return n.Default
		}
	}
	return 0
}

// Frame is the box that a motif divides, its middle at the origin. Its edges are
// the middle lines of the bridges that run along the rim.
type Frame struct {
	W, H    float64 // mm, along and across the band
	Rows    int
	Repeats int
	Stagger float64
	// Closed says that the left and right edge are one line: exactly Repeats
	// cells are in a row. Otherwise cells may stick out at both ends, where
	// the rim cuts them.
	Closed bool
	// Beyond and Over have the motif go on in the same order past the frame: by so
	// many repeats at either end, for a field that is moved along, and by so many
	// rows above and below, for one that is turned. They are 0 for a field that just
	// fills its frame.
	Beyond, Over int
	Number       func(key string) float64 // the motif's own
}

// Tiling is a frame divided into cells: a few shapes, each placed many times.
type Tiling struct {
	Shapes []plane.Loop // counter-clockwise, each about its own origin
	Cells  []Cell
	// Rise is the height after which the rows are the same again; 0 where that is
	// two rows.
	Rise float64
}

// Cell is one cell: a shape and where its origin is.
type Cell struct {
	Shape    int
	At       plane.Point
	Row, Col int
}

// Pitch is the length of one repeat.
func (f Frame) Pitch() float64 { return f.W / float64(f.Repeats) }

// row places shape once a repeat with its origin on height y. Columns are
// symmetric about the middle of the band, then moved by shift of a pitch.
func (t *Tiling) row(f Frame, shape, row int, y, shift float64) {
	a := f.Pitch()
	first, last := 0, f.Repeats-1
	if !f.Closed {
		first, last = -2-f.Beyond, f.Repeats+1+f.Beyond
	}
	half := f.W/2 + float64(1+f.Beyond)*a
	for c := first; c <= last; c++ {
		x := (float64(c)-float64(f.Repeats-1)/2)*a + shift*a
		if f.Closed {
			// One period, so that each position of the band is named once.
			for x >= f.W/2-1e-9 {
				x -= f.W
			}
			for x < -f.W/2-1e-9 {
				x += f.W
			}
		} else if x < -half || x > half {
			continue
		}
		t.Cells = append(t.Cells, Cell{shape, plane.Pt(x, y), row, c})
	}
}

// add appends a shape and returns its index.
func (t *Tiling) add(l plane.Loop) int {
	t.Shapes = append(t.Shapes, l)
	return len(t.Shapes) - 1
}

// odd returns the shift of row r: the stagger in every other row.
func (f Frame) odd(r int) float64 {
	if r%2 == 0 {
		return 0
	}
	return f.Stagger
}

// RiseOf returns the height after which the motif's rows are the same again, in a frame of
// that pitch.
func (m Motif) RiseOf(f Frame) float64 {
	f.W, f.Repeats, f.Beyond, f.Over, f.Closed = f.Pitch(), 1, 0, 2, false
	t := m.Cells(f)
	if t.Rise > 0 {
		return t.Rise
	}
	// Two rows of one shape, the first at or below the top.
	y := map[int]float64{}
	for _, p := range t.Cells {
		if p.Shape == 0 {
			y[p.Row] = p.At.Y
		}
	}
	for r := 0; r < 2; r++ {
		a, in := y[r]
		b, too := y[r+2]
		if in && too {
			return a - b
		}
	}
	return 2 * f.H / float64(f.Rows)
}
