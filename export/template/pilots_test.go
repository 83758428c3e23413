package template

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/export/sample"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll/plane"
)

func wideDigits(text string, h float64) float64 { return 0.8 * h * float64(len(text)) }

func TestPilotMarksAndNumbersStandClearOfTheLine(t *testing.T) {
	for name, s := range sample.Gallery(t) {
		ms := pilotMarks(s, drillSizes(s, check.Drills(s, check.BladeFor(s.Flat.Thickness))), wideDigits)
		require.Len(t, ms, len(s.Openings), name)
		for i, m := range ms {
			o := s.Openings[i]
			require.Equal(t, o.Number, m.number)
			require.True(t, o.Loop.Contains(m.pilot), "%s: pilot of opening %d", name, o.Number)
			assert.InDelta(t, m.room, o.Loop.Nearest(m.pilot).D, 1e-6)
			// Every opening admits a circle of the smallest diameter asked for.
			assert.GreaterOrEqual(t, m.room, s.Design.Rules.SmallestMM/2-2*roomTolerance, "%s: opening %d", name, o.Number)
			// The drill stays inside, as far as the middle was sought.
			assert.LessOrEqual(t, m.drill/2, m.room+roomTolerance, "%s: drill of opening %d", name, o.Number)
			if !m.numbered {
				continue
			}
			w := wideDigits("0", m.height) / 2
			for _, dx := range []float64{-w, w} {
				p := m.at
				p.X += dx
				assert.True(t, o.Loop.Contains(p), "%s: number of opening %d", name, o.Number)
				assert.GreaterOrEqual(t, o.Loop.Nearest(p).D, numberClear-1e-9)
			}
		}
	}
}

// Strokes are on the waste: inside openings and off what is written there, outside the
// outline.
func TestStrokesStandOnTheWaste(t *testing.T) {
	drawn := 0
	for name, s := range sample.Gallery(t) {
		tm, err := newTemplate(s, check.Run(s), export.Options{})
		require.NoError(t, err)
		for i, m := range tm.pilotMarks {
			l := s.Openings[i].Loop
			if m.room < wasteRoom {
				require.Empty(t, m.waste, "%s: opening %d", name, i+1)
			}
			for _, e := range m.waste {
				drawn++
				a, b := e.A.Add(m.pilot), e.B.Add(m.pilot)
				assert.Less(t, l.Nearest(a).D, 1e-6, "%s: opening %d", name, i+1)
				assert.True(t, l.Contains(b), "%s: opening %d: stroke to %v", name, i+1, b)
				assert.Greater(t, b.Dist(m.pilot), m.drill/2)
			}
		}
		require.NotEmpty(t, tm.edges, name)
		for _, e := range tm.edges {
			assert.Less(t, s.Flat.Outline.Nearest(e.A).D, 1e-6, name)
			assert.False(t, s.Flat.Outline.Contains(e.B), "%s: stroke to %v", name, e.B)
		}
	}
	assert.Positive(t, drawn)
}

// numbersOf returns the boxes round the numbers at true size.
func numbersOf(tm *template) map[int]plane.Box {
	boxes := map[int]plane.Box{}
	for _, m := range tm.pilotMarks {
		if m.numbered {
			boxes[m.number] = m.box(tm.widthOf(strconv.Itoa(m.number), m.height))
		}
	}
	return boxes
}

// Every opening has its number once: inside it, led out of it, or on the larger drawing. No
// two numbers at true size overlap, none lies over a line, and a line to a number crosses
// nothing else.
func TestEveryOpeningIsNumberedOnceAndClearly(t *testing.T) {
	sheets := sample.Gallery(t)
	sample.EachForm(t, func(name string, d pattern.Design) { sheets[name], _ = sample.Measured(t, d) })
	dense := sample.Form(t, "flared-cuff")
	dense.Rules.BridgeMM, dense.Rules.SmallestMM = 0.5, 0.2
	dense.Fields = []pattern.Field{{Motif: "hexagons", Rows: 14, Repeats: 80, Stagger: 0.5}}
	sheets["dense"], _ = sample.Measured(t, dense)
	for name, s := range sheets {
		tm, err := newTemplate(s, check.Run(s), export.Options{})
		require.NoError(t, err)
		numbers := numbersOf(tm)
		inside, led := 0, 0
		for i, m := range tm.pilotMarks {
			require.Equal(t, i+1, m.number, name)
			l, b := s.Openings[i].Loop, numbers[m.number]
			switch {
			case !m.numbered:
				seen := 0
				for _, at := range tm.large.tiles {
					if tm.large.area.Move(tm.large.place(at, 0, 1).Mul(-1)).Contains(m.pilot.Mul(tm.large.scale)) {
						seen++
					}
				}
				require.Positive(t, seen, "%s: opening %d has no number", name, m.number)
			case m.out:
				led++
				assert.Less(t, l.Nearest(m.led.A).D, ledInside+0.2, "%s: the line to number %d does not begin in its opening", name, m.number)
				assert.True(t, l.Contains(m.led.A))
				assert.Less(t, b.Nearest(m.led.B).Dist(m.led.B), 2*ledGap, "%s: the line does not come to number %d", name, m.number)
			default:
				inside++
				assert.True(t, clearOf(l, b, numberClear-1e-6), "%s: number %d", name, m.number)
			}
			assert.True(t, !m.numbered || m.height >= 1, "%s: number %d can't be read", name, m.number)
		}
		for n, b := range numbers {
			m := tm.pilotMarks[n-1]
			for o, c := range numbers {
				assert.False(t, o > n && b.Meets(c), "%s: numbers %d and %d overlap", name, n, o)
			}
			if !m.out {
				continue
			}
			for i, o := range s.Openings {
				if !o.Box.Meets(b.Grow(ledLong)) {
					continue
				}
				assert.Greater(t, plane.Nearest(plane.Rect(b), o.Loop).D, 0.0, "%s: number %d lies over the line of opening %d", name, n, i+1)
				assert.False(t, o.Loop.Contains(b.Centre()), "%s: number %d stands in opening %d", name, n, i+1)
				if i != n-1 {
					for _, e := range o.Loop.Edges() {
						assert.Greater(t, plane.NearestEdges(m.led, e).D, 0.0, "%s: the line to number %d crosses opening %d", name, n, i+1)
					}
				}
			}
		}
		t.Logf("%s: of %d numbers %d inside, %d led out, %d on a drawing %g times as large, %d sheets",
			name, len(s.Openings), inside, led, len(s.Openings)-inside-led, tm.large.scale, len(tm.large.tiles))
	}
}
