package template

import (
	"slices"
	"sort"
	"strconv"

	"fretband/export/pdf"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll/plane"
)

// Measures of what is written into an opening, mm: ours. Digits under a
// millimetre can't be read at the bench.
const (
	roomTolerance = 0.01 // of the middle of the largest circle in an opening
	numberClear   = 0.2  // from a number to the line that is sawn
	numberGap     = 0.25 // from a number to the pilot mark
	pilotArm      = 0.6  // half the cross at most
)

// numberHeights are the heights of digits that are tried, largest first.
var numberHeights = []float64{2.6, 2.2, 1.8, 1.5, 1.25, 1.0}

// pilotMark is what the template writes into one opening.
type pilotMark struct {
	number   int
	pilot    plane.Point  // the middle of the largest circle inside
	room     float64      // its radius
	drill    float64      // diameter of the pilot hole; 0 if none has room
	numbered bool         // whether the number has room at true size
	out      bool         // it stands outside, with a line to it
	led      plane.Edge   // that line, from the opening
	at       plane.Point  // middle of the number's baseline
	height   float64      // of its digits
	waste    []plane.Edge // strokes on the waste side, from the pilot hole
}

// drillSizes returns the diameter of each opening's pilot hole, by its number less one.
func drillSizes(s *pattern.Sheet, groups []check.Drilled) []float64 {
	ds := make([]float64, len(s.Openings))
	for _, g := range groups {
		for _, n := range g.Openings {
			ds[n-1] = g.MM
		}
	}
	return ds
}

// widthOf measures a number set with digits of the given height.
func (t *template) widthOf(text string, height float64) float64 {
	return t.doc.TextWidth(text, digits(height))
}

// markOpenings finds positions for the pilot hole and the number of each opening: the
// number inside, or else led out on free metal or beside the part. What is left has room
// on a larger drawing only ([template.enlarge]).
func (t *template) markOpenings() {
	s := t.sheet
	t.pilotMarks = pilotMarks(s, drillSizes(s, t.drills), t.widthOf)
	ms := t.pilotMarks
	if !all(ms, func(m pilotMark) bool { return m.numbered }) {
		g := t.newFreeRoom()
		most := medianHeight(ms)
		eachShape(s, func(i int, as *pilotMark) {
			m := &ms[i]
			switch {
			case m.numbered:
			case as != nil:
				m.numbered, m.at, m.height = as.numbered, as.at, as.height
			default:
				g.within(s.Openings[i].Loop, m, most, t.widthOf)
			}
		}, ms)
		for i := range ms {
			if !ms[i].numbered {
				g.leadOut(i, &ms[i], t.widthOf)
			}
		}
	}
	eachShape(s, func(i int, as *pilotMark) {
		if as != nil && as.out == ms[i].out {
			ms[i].waste = as.waste
			return
		}
		ms[i].waste = openingWaste(s.Openings[i].Loop, ms[i], t.widthOf)
	}, ms)
}

func all(ms []pilotMark, is func(pilotMark) bool) bool {
	return !slices.ContainsFunc(ms, func(m pilotMark) bool { return !is(m) })
}

// medianHeight returns the height that half of the numbers written so far reach.
func medianHeight(ms []pilotMark) float64 {
	var hs []float64
	for _, m := range ms {
		if m.numbered {
			hs = append(hs, m.height)
		}
	}
	if hs == nil {
		return numberHeights[0]
	}
	sort.Float64s(hs)
	return hs[len(hs)/2]
}

// pilotMarks finds a position for the pilot hole of each opening, and for its number beside
// that where it has room. drills are the pilot holes' diameters; width measures a number
// set with digits of the given height. No number is larger than their median: a page in one
// size reads better than one in many.
func pilotMarks(s *pattern.Sheet, drills []float64, width func(text string, height float64) float64) []pilotMark {
	ms := make([]pilotMark, len(s.Openings))
	eachShape(s, func(i int, as *pilotMark) {
		m := &ms[i]
		m.number, m.drill = s.Openings[i].Number, drills[i]
		if as != nil {
			m.pilot, m.room = as.pilot, as.room
			return
		}
		m.pilot, m.room = s.Openings[i].Loop.LargestCircle(roomTolerance)
	}, ms)
	most := numberHeights[0]
	for range 2 {
		eachShape(s, func(i int, as *pilotMark) {
			m := &ms[i]
			m.numbered, m.at, m.height = false, plane.Point{}, 0
			if as != nil {
				m.numbered, m.at, m.height = as.numbered, as.at, as.height
				return
			}
			m.write(s.Openings[i].Loop, most, width)
		}, ms)
		most = medianHeight(ms)
	}
	return ms
}

// eachShape calls do for each opening. Openings of one shape whose numbers have as many
// digits are marked alike: for all but the first of them, do gets the first one's mark,
// moved to the opening.
func eachShape(s *pattern.Sheet, do func(i int, as *pilotMark), ms []pilotMark) {
	type key struct{ shape, digits int }
	first := map[key]int{}
	for i := range s.Openings {
		o := &s.Openings[i]
		k := key{o.Shape, len(strconv.Itoa(o.Number))}
		j, ok := first[k]
		if !ok || o.Shape < 0 {
			first[k] = i
			do(i, nil)
			continue
		}
		as, v := ms[j], o.At.Sub(s.Openings[j].At)
		as.pilot, as.at = as.pilot.Add(v), as.at.Add(v)
		do(i, &as)
	}
}

// write finds a position for the number in the opening, in digits of most at the most.
func (m *pilotMark) write(l plane.Loop, most float64, width func(string, float64) float64) {
	off := max(m.arm(), m.drill/2) + numberGap
	for _, h := range numberHeights {
		if h > most {
			continue
		}
		w := width(strconv.Itoa(m.number), h)
		for _, v := range [4]plane.Point{
			{X: 0, Y: -off - h},        // under the mark
			{X: 0, Y: off},             // over it
			{X: off + w/2, Y: -h / 2},  // to its right
			{X: -off - w/2, Y: -h / 2}, // to its left
		} {
			m.at, m.height = m.pilot.Add(v), h
			if clearOf(l, m.box(w), numberClear) {
				m.numbered = true
				return
			}
		}
	}
}

// box returns the box round the number, which is w wide.
func (m pilotMark) box(w float64) plane.Box {
	return plane.Box{Min: plane.Pt(m.at.X-w/2, m.at.Y), Max: plane.Pt(m.at.X+w/2, m.at.Y+m.height)}
}

// arm returns half the size of the pilot cross.
func (m pilotMark) arm() float64 { return min(pilotArm, 0.45*m.room) }

// clearOf reports whether a box lies inside a loop and at least d from it.
func clearOf(l plane.Loop, b plane.Box, d float64) bool {
	return l.Contains(b.Min) && plane.Nearest(plane.Rect(b), l).D >= d
}

// digits returns the font whose digits have the given height.
func digits(height float64) pdf.Font {
	return pdf.Font{Size: height / pdf.Font{Size: 1}.CapHeight()}
}
