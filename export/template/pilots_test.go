package template

import (
	"math"
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
		numbered := 0
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
			numbered++
			w := wideDigits("0", m.height) / 2
			for _, dx := range []float64{-w, w} {
				p := m.at
				p.X += dx
				assert.True(t, o.Loop.Contains(p), "%s: number of opening %d", name, o.Number)
				assert.GreaterOrEqual(t, o.Loop.Nearest(p).D, numberClear-1e-9)
			}
		}
		if numbered < len(ms) {
			assert.NotEmpty(t, rowLabels(ms, s.Runs()), name)
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

// Labels of rows that are too close are moved apart, keep their order, and those with
// room stay beside their rows.
func TestRowLabelsStandApart(t *testing.T) {
	var ms []pilotMark
	var runs []pattern.Run
	row := func(y float64, left bool, n int, room float64) {
		runs = append(runs, pattern.Run{From: len(ms) + 1, To: len(ms) + n, Across: y, Left: left})
		for range n {
			ms = append(ms, pilotMark{number: len(ms) + 1, pilot: plane.Pt(0, y), room: room})
		}
	}
	for i := range 5 {
		row(float64(i)*0.9, false, 3, 0.3)
	}
	row(20, false, 1, 0.3)
	row(1, true, 2, 0.3)
	row(1.1, true, 4, 0.3) // of another class, in the same row
	ms = append(ms, pilotMark{number: len(ms) + 1, numbered: true})
	runs = append(runs, pattern.Run{From: len(ms), To: len(ms)})
	var left, right []rowLabel
	for _, l := range rowLabels(ms, runs) {
		if l.left {
			left = append(left, l)
		} else {
			right = append(right, l)
		}
	}
	require.Len(t, left, 1)
	assert.Equal(t, "17-18, 19-22", left[0].text)
	assert.Equal(t, labelOff, left[0].off)
	require.Len(t, right, 6)
	sum := 0.0
	for i, l := range right {
		if i > 0 {
			assert.GreaterOrEqual(t, l.at-right[i-1].at, labelStep-1e-9)
			assert.Greater(t, l.y, right[i-1].y)
		}
		if i < 5 {
			sum += l.at - l.y
		}
		assert.Equal(t, leaderOff, l.off)
	}
	assert.InDelta(t, 0, sum, 1e-9, "the group is not about the middle of its rows")
	assert.Equal(t, "16", right[5].text)
	assert.LessOrEqual(t, math.Abs(right[5].at-20), 1e-9)
}
