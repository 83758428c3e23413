package pattern

import (
	"math"

	"fretband/unroll/plane"
)

// onAxis is how far a cell may reach over the axis of a mirror and still count as
// lying on one side of it, or be off its own mirror image, mm.
const onAxis = 1e-9

// mirrored keeps the cells of one half and adds their mirror images. A cell astride
// the axis stays whole if it is its own mirror image; else it is cut there, so that
// the openings on both sides keep half a bridge from the axis.
//
// On a line that closes, around long, there is a second axis half way round. An
// around of 0 is a line with ends.
func mirrored(shapes []plane.Loop, cells []fieldCell, along, across bool, around float64) ([]plane.Loop, []fieldCell, error) {
	if !along && !across {
		return shapes, cells, nil
	}
	boxes := plane.Boxes(shapes)
	least, most := plane.Pt(math.Inf(-1), math.Inf(-1)), plane.Pt(math.Inf(1), math.Inf(1))
	if along {
		least.X = 0
		if around > 0 {
			most.X = around / 2
		}
	}
	if across {
		least.Y = 0
	}
	rows, cols := span(cells)
	var out []fieldCell
	one := func(c fieldCell) error {
		b := boxes[c.shape].Move(c.at)
		if b.Max.X <= least.X+onAxis || b.Max.Y <= least.Y+onAxis || b.Min.X >= most.X-onAxis {
			return nil
		}
		lo, hi := least, most
		var onX, onY bool // its own mirror image
		image := func(axis plane.Point, x bool) bool {
			l := shapes[c.shape].Move(c.at.Sub(axis))
			return flipped(l, x, !x).Same(l, onAxis)
		}
		if along {
			for _, x := range []float64{least.X, most.X} {
				if b.Min.X < x-onAxis && b.Max.X > x+onAxis && image(plane.Pt(x, 0), true) {
					onX, lo.X, hi.X = true, math.Inf(-1), math.Inf(1)
				}
			}
		}
		if across && b.Min.Y < -onAxis && image(plane.Point{}, false) {
			onY, lo.Y = true, math.Inf(-1)
		}
		kept := []fieldCell{c}
		if b.Min.X < lo.X-onAxis || b.Min.Y < lo.Y-onAxis || b.Max.X > hi.X+onAxis {
			half := b.Grow(1)
			half.Min = plane.Pt(math.Max(half.Min.X, lo.X), math.Max(half.Min.Y, lo.Y))
			half.Max = plane.Pt(math.Min(half.Max.X, hi.X), math.Min(half.Max.Y, hi.Y))
			var err error
			if kept, err = c.cut(&shapes, plane.Rect(half)); err != nil {
				return err
			}
		}
		for _, c := range kept {
			for flips := range 4 {
				x, y := flips&1 != 0, flips&2 != 0
				if x && (!along || onX) || y && (!across || onY) {
					continue
				}
				d := c
				if x {
					d.at.X, d.flipX, d.col = -d.at.X, true, cols-d.col
				}
				if y {
					d.at.Y, d.flipY, d.row = -d.at.Y, true, rows-d.row
				}
				out = append(out, d)
			}
		}
		return nil
	}
	for _, c := range cells {
		if err := one(c); err != nil {
			return nil, nil, err
		}
		if along && around > 0 {
			c.at.X += around // one over the second axis, on the other side of it
			if err := one(c); err != nil {
				return nil, nil, err
			}
		}
	}
	return shapes, out, nil
}

// span returns the sums of the first and the last row and column, from which a
// row's or column's number is taken off to get that of its mirror image.
func span(cells []fieldCell) (rows, cols int) {
	if len(cells) == 0 {
		return 0, 0
	}
	first, last := cells[0], cells[0]
	for _, c := range cells {
		first.row, first.col = min(first.row, c.row), min(first.col, c.col)
		last.row, last.col = max(last.row, c.row), max(last.col, c.col)
	}
	return first.row + last.row, first.col + last.col
}
