package template

import (
	"strconv"

	"fretband/export/pdf"
	"fretband/unroll/plane"
)

// enlargements are the scales that are tried for the numbers that have no room at true size:
// the last one for whatever is left.
var enlargements = []float64{2, 3, 4, 6, 8, 12, 16, 24, 32}

// enlarged is a larger drawing of the part, with the numbers that the one at true size has
// no room for.
type enlarged struct {
	paging         // of the part, drawn scale times as large
	scale  float64 // 0 if all numbers have room
	tiles  []tile  // the sheets with such a number on them
}

// enlarge works out the larger drawing.
func (t *template) enlarge() enlarged {
	fits := func(m pilotMark, scale float64) bool {
		if m.numbered {
			return true
		}
		b := t.middleBox(m, scale, numberHeights[len(numberHeights)-1])
		return clearOf(t.sheet.Openings[m.number-1].Loop, b, numberClear/2/scale)
	}
	if all(t.pilotMarks, func(m pilotMark) bool { return m.numbered }) {
		return enlarged{}
	}
	e := enlarged{}
	for _, e.scale = range enlargements {
		if all(t.pilotMarks, func(m pilotMark) bool { return fits(m, e.scale) }) {
			break
		}
	}
	e.paging = t.paging
	e.copies = 1
	e.area = t.notesArea()
	const round = 5.0 // so that no number is cut off at the edge of a sheet
	e.content = plane.Box{Min: t.drawn.Min.Mul(e.scale), Max: t.drawn.Max.Mul(e.scale)}.Grow(round)
	e.count()
	e.cols, e.rows = 1, 1
	for row := range e.down {
		for col := range e.across {
			at := tile{row, col}
			shown := e.area.Move(e.place(at, 0, 1).Mul(-1)).Grow(-overlap / 2)
			for _, m := range t.pilotMarks {
				if !m.numbered && shown.Contains(m.pilot.Mul(e.scale)) {
					e.tiles = append(e.tiles, at)
					break
				}
			}
		}
	}
	return e
}

// middleBox returns the box round a number in the middle of its opening, where the digits
// are h high on a drawing that is scale times as large.
func (t *template) middleBox(m pilotMark, scale, h float64) plane.Box {
	half := plane.Pt(t.widthOf(strconv.Itoa(m.number), h)/2, h/2).Mul(1 / scale)
	return plane.Box{Min: m.pilot.Sub(half), Max: m.pilot.Add(half)}
}

// drawEnlarged draws a sheet of the larger drawing: outlines and numbers alone.
func (t *template) drawEnlarged(e enlarged, at tile) {
	v := e.place(at, 0, 1)
	seen := e.area.Move(v.Mul(-1))
	larger := func(l plane.Loop) plane.Loop {
		out := append(plane.Loop(nil), l...)
		for i := range out {
			out[i].Point = out[i].Point.Mul(e.scale)
		}
		return out
	}
	t.doc.Loop(larger(t.outline), v, largePen)
	for i, m := range t.pilotMarks {
		l := larger(t.sheet.Openings[i].Loop)
		if !l.Bounds().Meets(seen) {
			continue
		}
		t.doc.Loop(l, v, largePen)
		for k, h := range numberHeights {
			last := k == len(numberHeights)-1 && !m.numbered
			if last || clearOf(t.sheet.Openings[i].Loop, t.middleBox(m, e.scale, h), numberClear/2/e.scale) {
				t.doc.Text(m.pilot.Mul(e.scale).Add(v).Sub(plane.Pt(0, h/2)), strconv.Itoa(m.number), digits(h), pdf.Centre)
				break
			}
		}
	}
}
