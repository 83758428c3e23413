package check

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/pattern"
	"fretband/unroll/plane"
)

// Sizes in inch after ANSI/ASME B94.11M, metric ones after BS 328 (TRADE-FACTS 3,
// published).
func TestTheLargestDrillThatIsNotOver(t *testing.T) {
	for _, c := range []struct {
		d      float64
		number int
		inch   float64
		metric float64
	}{
		{0.0135 * 25.4, 80, 0.0135, 0.32},
		{0.35, 80, 0.0135, 0.35},
		{0.61, 73, 0.0240, 0.60},
		{0.609, 74, 0.0225, 0.60},
		{1.00, 61, 0.0390, 1.00},
		{1.016, 60, 0.0400, 1.00},
		{9, 40, 0.0980, 2.50},
	} {
		got, ok := LargestDrill(c.d)
		require.True(t, ok, "%g mm", c.d)
		assert.Equal(t, c.number, got.Number, "%g mm", c.d)
		assert.InDelta(t, c.inch*25.4, got.NumberMM, 1e-9, "%g mm", c.d)
		assert.InDelta(t, c.metric, got.MetricMM, 1e-9, "%g mm", c.d)
		assert.LessOrEqual(t, got.MetricMM, c.d+1e-9)
	}
	_, ok := LargestDrill(0.342)
	assert.False(t, ok)
}

func TestOpeningsArePartedByTheirDrills(t *testing.T) {
	advised := BladeFor(1.2)
	pilots := pilotsFor(advised)
	var ds []float64 // diameters of round openings
	for _, p := range pilots {
		ds = append(ds, p.MM+0.001, p.MM, p.MM-0.001)
	}
	ds = append(ds, 0.2, 5)
	s := &pattern.Sheet{}
	for i, d := range ds {
		s.Openings = append(s.Openings, pattern.Opening{Number: i + 1, Shape: -1, Loop: plane.Circle(plane.Pt(6*float64(i), 0), d/2)})
	}
	seen := map[int]bool{}
	coarser := math.Inf(1)
	for _, g := range Drills(s, advised) {
		assert.Equal(t, len(g.Openings), g.Count)
		assert.Less(t, g.MM, coarser)
		for _, n := range g.Openings {
			assert.False(t, seen[n], "opening %d twice", n)
			seen[n] = true
			assert.GreaterOrEqual(t, ds[n-1], g.MM, "opening %d", n)
			// No coarser blade gets in.
			assert.True(t, ds[n-1] < coarser, "opening %d", n)
		}
		coarser = g.MM
	}
	assert.Len(t, seen, len(ds))
}

// The counts on the template are those of the report.
func TestDrillsAreThoseOfTheReport(t *testing.T) {
	s, err := pattern.Lay(bigDesign(200))
	require.NoError(t, err)
	r := All(s)
	var want, got []Pilot
	want = r.Making.Pilots
	for _, g := range Drills(s, r.Blade) {
		if g.Blade != "" {
			got = append(got, g.Pilot)
		}
	}
	require.NotEmpty(t, want)
	assert.Equal(t, want, got)
}
