package export

import (
	"sort"
	"strconv"

	"fretband/export/pdf"
	"fretband/pattern"
	"fretband/unroll/plane"
)

// Measures of what is written into an opening, mm: ours. Digits under a
// millimetre can't be read at the bench.
const (
	roomTolerance = 0.01 // of the middle of an opening
	numberClear   = 0.2  // from a number to the line that is sawn
	numberGap     = 0.25 // from a number to the pilot mark
	pilotArm      = 0.6  // half the cross at most
)

// numberHeights are the heights of digits that are tried, largest first.
var numberHeights = []float64{2.6, 2.2, 1.8, 1.5, 1.25, 1.0}

// mark is what the template writes into one opening.
type mark struct {
	number   int
	row      int
	pilot    plane.Point // the middle of the largest circle inside
	room     float64     // its radius
	numbered bool        // whether the number has room
	at       plane.Point // middle of the number's baseline
	height   float64     // of its digits
}

// marks finds a place for pilot mark and number in each opening. width measures
// a number set with digits of the given height. No number is larger than half of
// them can be: a page of one size reads better than one of many.
func marks(s *pattern.Sheet, width func(text string, height float64) float64) []mark {
	ms := marksUpTo(s, numberHeights[0], width)
	var heights []float64
	for _, m := range ms {
		if m.numbered {
			heights = append(heights, m.height)
		}
	}
	if len(heights) == 0 {
		return ms
	}
	sort.Float64s(heights)
	if middle := heights[len(heights)/2]; middle < heights[len(heights)-1] {
		return marksUpTo(s, middle, width)
	}
	return ms
}

func marksUpTo(s *pattern.Sheet, most float64, width func(string, float64) float64) []mark {
	// Openings of one shape with numbers of one length are marked alike.
	type key struct{ shape, digits int }
	type model struct {
		mark
		at plane.Point
	}
	known := map[key]model{}
	ms := make([]mark, 0, len(s.Openings))
	for _, o := range s.Openings {
		text := strconv.Itoa(o.Number)
		k := key{o.Shape, len(text)}
		m, ok := known[k]
		if !ok || o.Shape < 0 {
			m = model{newMark(o.Loop, text, most, width), o.At}
			if o.Shape >= 0 {
				known[k] = m
			}
		}
		n, v := m.mark, o.At.Sub(m.at)
		n.number, n.row = o.Number, o.Row
		n.pilot, n.at = n.pilot.Add(v), n.at.Add(v)
		ms = append(ms, n)
	}
	return ms
}

func newMark(l plane.Loop, text string, most float64, width func(string, float64) float64) mark {
	var m mark
	m.pilot, m.room = room(l, roomTolerance)
	arm := m.arm() + numberGap
	for _, h := range numberHeights {
		if h > most {
			continue
		}
		w := width(text, h)
		for _, v := range [4]plane.Point{
			{X: 0, Y: -arm - h},        // under the mark
			{X: 0, Y: arm},             // over it
			{X: arm + w/2, Y: -h / 2},  // to its right
			{X: -arm - w/2, Y: -h / 2}, // to its left
		} {
			at := m.pilot.Add(v)
			box := plane.Box{Min: plane.Pt(at.X-w/2, at.Y), Max: plane.Pt(at.X+w/2, at.Y+h)}
			if clearOf(l, box, numberClear) {
				m.numbered, m.at, m.height = true, at, h
				return m
			}
		}
	}
	return m
}

// arm returns half the size of the pilot cross.
func (m mark) arm() float64 { return min(pilotArm, 0.45*m.room) }

// clearOf reports whether a box lies inside a loop and at least d from it.
func clearOf(l plane.Loop, b plane.Box, d float64) bool {
	return l.Contains(b.Min) && plane.Nearest(plane.Rect(b), l).D >= d
}

// rowLabel says which numbers stand in a row whose openings are too small to
// hold them.
type rowLabel struct {
	y      float64
	text   string
	height float64
}

// rowLabels returns labels for the rows in which a number found no room, as far
// as the rows stand far enough apart to be told from one another.
func rowLabels(ms []mark) []rowLabel {
	var ls []rowLabel
	for i := 0; i < len(ms); {
		j, full, y := i, true, 0.0
		for ; j < len(ms) && ms[j].row == ms[i].row; j++ {
			full = full && ms[j].numbered
			y += ms[j].pilot.Y
		}
		if !full {
			text := strconv.Itoa(ms[i].number)
			if j-i > 1 {
				text += "-" + strconv.Itoa(ms[j-1].number)
			}
			ls = append(ls, rowLabel{y / float64(j-i), text, 1.8})
		}
		i = j
	}
	for i := range ls {
		for j := range ls {
			if d := ls[i].y - ls[j].y; i != j && max(d, -d)*0.8 < ls[i].height {
				ls[i].height = max(d, -d) * 0.8
			}
		}
	}
	kept := ls[:0]
	for _, l := range ls {
		if l.height >= 1 {
			kept = append(kept, l)
		}
	}
	return kept
}

// digits returns the font whose digits have the given height.
func digits(height float64) pdf.Font {
	return pdf.Font{Size: height / pdf.Font{Size: 1}.CapHeight()}
}
