package check

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The drill that trade tables name for a blade (memory) passes the blade's width
// but not its diagonal; the drill advised here passes the diagonal.
func TestTheAdvisedDrillPassesTheBladesDiagonal(t *testing.T) {
	usual := map[string]int{"8/0": 80, "7/0": 80, "6/0": 79, "5/0": 78, "4/0": 77, "3/0": 76, "2/0": 75, "1/0": 73,
		"1": 71, "2": 70, "3": 68, "4": 67, "5": 65, "6": 58, "7": 55, "8": 53}
	assert.Len(t, blades(), len(usual))
	for _, b := range blades() {
		assert.GreaterOrEqual(t, b.PilotMM, b.Diagonal(), b.Size)
		n, mm := numberDrill(b.Diagonal())
		assert.Equal(t, b.PilotMM, mm)
		if b.Size < "5" || len(b.Size) > 1 { // the coarsest blades' usual drills are generous
			assert.Less(t, n, usual[b.Size], "%s: the usual drill is smaller", b.Size)
		}
	}
}

func TestDiagonalsAgreeWithTheGeometry(t *testing.T) {
	want := map[string][2]float64{ // diagonal, the usual drill's diameter (ANSI/ASME B94.11M), mm
		"8/0": {0.358, 0.343}, "4/0": {0.495, 0.457}, "2/0": {0.580, 0.533}, "1": {0.682, 0.660}, "4": {0.868, 0.813},
	}
	seen := 0
	for _, b := range blades() {
		if w, ok := want[b.Size]; ok {
			seen++
			assert.InDelta(t, w[0], b.Diagonal(), 1e-3, b.Size)
			assert.Greater(t, b.Diagonal(), w[1], b.Size)
		}
	}
	assert.Equal(t, len(want), seen)
}

func TestNumberDrillsAgreeWithTheStandard(t *testing.T) {
	const source = "ANSI/ASME B94.11M, x 25.4"
	for number, mm := range map[int]float64{80: 0.343, 70: 0.711, 60: 1.016, 50: 1.778, 40: 2.489} {
		n, d := numberDrill(mm - 0.001)
		assert.Equal(t, number, n, source)
		assert.InDelta(t, mm, d, 5e-4, source)
	}
	last := 0.0
	for d := 0.3; d < 2.4; d += 0.001 {
		_, mm := numberDrill(d)
		assert.GreaterOrEqual(t, mm, d)
		assert.GreaterOrEqual(t, mm, last)
		if mm > last {
			assert.Less(t, last, d, "one size less is too small")
		}
		last = mm
	}
	n, _ := numberDrill(99)
	assert.Equal(t, 40, n, "the largest listed")
}

func TestMetricDrillsComeInTheStandardSteps(t *testing.T) {
	const source = "BS 328, as listed in \"Drill bit sizes\""
	for _, c := range [][2]float64{
		{0.05, 0.2}, {0.2, 0.2}, {0.201, 0.22}, {0.358, 0.38}, {0.35, 0.35}, {0.381, 0.4}, {0.98, 0.98}, {0.981, 1}, {1, 1}, {1.01, 1.05}, {1.226, 1.25},
	} {
		assert.InDelta(t, c[1], metricDrill(c[0]), 1e-9, "%v: %s", c[0], source)
	}
}

func TestBladesGoByTheTeethInTheMetal(t *testing.T) {
	for _, c := range []struct {
		thickness float64
		size      string
		advice    string
	}{
		// n teeth need n x 10 / (teeth a cm) mm (computed): three of 26 a cm in 1.154 mm.
		{1.2, "4/0", "3.1 teeth"},
		{1.16, "4/0", "three are the usual advice"},
		{1.14, "5/0", "up to size 1. "},
		{0.86, "8/0", "3.0 teeth"},
		{0.8, "8/0", "two are enough"},
		{0.58, "8/0", "2.0 teeth"},
		{0.56, "8/0", "too thin for two teeth"},
		{0.3, "8/0", "backing sheet"},
		{6, "8", "6.6 teeth"},
	} {
		b := BladeFor(c.thickness)
		assert.Equal(t, c.size, b.Size, "%v mm", c.thickness)
		assert.Contains(t, b.Advice, c.advice, "%v mm", c.thickness)
		assert.Contains(t, b.Advice, "makers differ")
		assert.Contains(t, b.Advice, "eye protection")
	}
	assert.InDelta(t, 20.0/35, ThinSheet, 0.002)
	b := BladeFor(1.2)
	assert.Equal(t, "no. 76, or metric 0.50 mm", b.Drill)
}
