package check

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
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

// Every blade: inches and millimetres, teeth to the inch and to the centimetre as trade
// tables give them. All of it is from memory; the two ways of writing each number hold
// one another. Number 4 with 15 teeth a centimetre and 6/0 with 30 are published
// (grokipedia.com, "Piercing saw"; nickbaines.me.uk, "Metal cutting").
func TestBladesAreThoseOfTheTradeTables(t *testing.T) {
	rows := []struct {
		size                                       string
		thickIn, thickMM, widthIn, widthMM, tpi, n float64
	}{
		{"8/0", 0.0063, 0.16, 0.0126, 0.32, 89, 35}, {"7/0", 0.0067, 0.17, 0.0130, 0.33, 84, 33},
		{"6/0", 0.0070, 0.18, 0.0140, 0.36, 76, 30}, {"5/0", 0.0080, 0.20, 0.0157, 0.40, 71, 28},
		{"4/0", 0.0086, 0.22, 0.0175, 0.44, 66, 26}, {"3/0", 0.0095, 0.24, 0.0190, 0.48, 61, 24},
		{"2/0", 0.0103, 0.26, 0.0204, 0.52, 56, 22}, {"1/0", 0.0110, 0.28, 0.0220, 0.56, 53.5, 21},
		{"1", 0.0120, 0.30, 0.0240, 0.61, 51, 20}, {"2", 0.0134, 0.34, 0.0276, 0.70, 43, 17},
		{"3", 0.0140, 0.36, 0.0290, 0.74, 40.5, 16}, {"4", 0.0150, 0.38, 0.0307, 0.78, 38, 15},
		{"5", 0.0158, 0.40, 0.0331, 0.84, 35.5, 14}, {"6", 0.0173, 0.44, 0.0370, 0.94, 33, 13},
		{"7", 0.0189, 0.48, 0.0400, 1.02, 30.5, 12}, {"8", 0.0197, 0.50, 0.0440, 1.12, 28, 11},
	}
	list := blades()
	require.Len(t, list, len(rows))
	for i, r := range rows {
		b := list[i]
		assert.Equal(t, r.size, b.Size, "finest first")
		assert.InDelta(t, r.thickIn*25.4, b.ThickMM, 1e-9, b.Size)
		assert.InDelta(t, r.widthIn*25.4, b.WidthMM, 1e-9, b.Size)
		assert.Equal(t, r.n, b.Teeth, b.Size)
		assert.InDelta(t, r.thickMM, b.ThickMM, 0.005, b.Size)
		assert.InDelta(t, r.widthMM, b.WidthMM, 0.005, b.Size)
		assert.InDelta(t, r.tpi/2.54, b.Teeth, 0.5, b.Size)
	}
}

func TestNumberDrillsAreThoseOfTheStandard(t *testing.T) {
	const source = "ANSI/ASME B94.11M, inches" // as listed in three public files; two print 0.02925 and 0.0293 for no. 69
	rows := []float64{
		0.0135, 0.0145, 0.0160, 0.0180, 0.0200, 0.0210, 0.0225, 0.0240, 0.0250, 0.0260, // 80 to 71
		0.0280, 0.0292, 0.0310, 0.0320, 0.0330, 0.0350, 0.0360, 0.0370, 0.0380, 0.0390, // 70 to 61
		0.0400, 0.0410, 0.0420, 0.0430, 0.0465, 0.0520, 0.0550, 0.0595, 0.0635, 0.0670, // 60 to 51
		0.0700, 0.0730, 0.0760, 0.0785, 0.0810, 0.0820, 0.0860, 0.0890, 0.0935, 0.0960, // 50 to 41
		0.0980, // 40
	}
	for i, inch := range rows {
		number := 80 - i
		mm := inch * 25.4
		n, d := numberDrill(mm - 1e-6)
		assert.Equal(t, number, n, source)
		assert.InDelta(t, mm, d, 1e-9, "no. %d: %s", number, source)
		if i > 0 { // what is just larger than one takes the next
			n, _ = numberDrill(rows[i-1]*25.4 + 1e-6)
			assert.Equal(t, number, n, source)
		}
	}
	assert.Equal(t, 40, 81-len(rows))
	n, _ := numberDrill(99)
	assert.Equal(t, 40, n, "the largest listed")
}

func TestMetricDrillsComeInTheStandardSteps(t *testing.T) {
	const source = "BS 328, as listed in Wikipedia, \"Drill bit sizes\""
	var sizes []float64 // hundredths of a millimetre
	for n := 2; n <= 9; n++ {
		for _, h := range []int{0, 2, 5, 8} {
			sizes = append(sizes, float64(10*n+h))
		}
	}
	for n := 10; n <= 29; n++ {
		sizes = append(sizes, float64(10*n), float64(10*n+5))
	}
	for i, h := range sizes {
		assert.InDelta(t, h/100, metricDrill(h/100), 1e-9, source)
		assert.InDelta(t, h/100, metricDrill(h/100-0.0001), 1e-9, source)
		if i > 0 {
			assert.InDelta(t, h/100, metricDrill(sizes[i-1]/100+0.0001), 1e-9, source)
		}
	}
	assert.InDelta(t, 0.2, metricDrill(0.05), 1e-9, "the smallest listed")
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
