package unroll

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

const inchMM = 25.4

func TestBrownAndSharpeGaugesAreThoseOfTheHandbook(t *testing.T) {
	// Machinery's Handbook (29th ed.), American wire gauge in inches, as transcribed in
	// the piping module of the public library fluids. It is rounded to 0.0001 inch, from
	// no. 31 to 0.00001.
	rows := []struct {
		n    int
		inch float64
	}{
		{3, 0.2294}, {4, 0.2043}, {5, 0.1819}, {6, 0.1620}, {7, 0.1443}, {8, 0.1285}, {9, 0.1144},
		{10, 0.1019}, {11, 0.0907}, {12, 0.0808}, {13, 0.0720}, {14, 0.0641}, {15, 0.0571},
		{16, 0.0508}, {17, 0.0453}, {18, 0.0403}, {19, 0.0359}, {20, 0.0320}, {21, 0.0285},
		{22, 0.0253}, {23, 0.0226}, {24, 0.0201}, {25, 0.0179}, {26, 0.0159}, {27, 0.0142},
		{28, 0.0126}, {29, 0.0113}, {30, 0.0100}, {31, 0.00893}, {32, 0.00795},
	}
	for i, r := range rows {
		assert.Equal(t, MinGauge+i, r.n, "one row for each gauge")
		half := 0.00005
		if r.n >= 31 {
			half = 0.000005
		}
		assert.InDelta(t, r.inch*inchMM, GaugeMM(r.n), half*inchMM, "no. %d", r.n)
	}
	assert.Equal(t, MaxGauge, rows[len(rows)-1].n)
}

// ASTM B258 fixes no. 36 at 0.005 inch and no. 0000 (-3) at 0.46 inch; between them the
// 39 steps have one ratio.
func TestBrownAndSharpeGaugesGoFromOneFixedSizeToTheOther(t *testing.T) {
	assert.InDelta(t, 0.005*inchMM, GaugeMM(36), 1e-12)
	assert.InDelta(t, 0.46*inchMM, GaugeMM(-3), 1e-12)
	for n := -3; n < 36; n++ {
		assert.InDelta(t, GaugeMM(n)/GaugeMM(n+1), GaugeMM(20)/GaugeMM(21), 1e-12, "no. %d", n)
	}
}

func TestImperialGaugesAreThoseOfTheStandard(t *testing.T) {
	const (
		standard = "BS 3737:1964, as printed by engineeringtoolbox.com, \"SWG - Standard Wire Gauge\""
		both     = standard + "; Machinery's Handbook, as transcribed in the library fluids, prints the same"
		disputed = standard + "; Machinery's Handbook prints 0.0149"
	)
	rows := []struct {
		n        int
		inch, mm float64 // as printed
		source   string
	}{
		{4, 0.232, 5.893, both}, {5, 0.212, 5.385, both}, {6, 0.192, 4.877, both},
		{7, 0.176, 4.470, both}, {8, 0.160, 4.064, both}, {9, 0.144, 3.658, both},
		{10, 0.128, 3.251, both}, {11, 0.116, 2.946, both}, {12, 0.104, 2.642, both},
		{13, 0.092, 2.337, both}, {14, 0.080, 2.032, both}, {15, 0.072, 1.829, both},
		{16, 0.064, 1.626, both}, {17, 0.056, 1.422, both}, {18, 0.048, 1.219, both},
		{19, 0.040, 1.016, both}, {20, 0.036, 0.914, both}, {21, 0.032, 0.813, both},
		{22, 0.028, 0.711, both}, {23, 0.024, 0.610, both}, {24, 0.022, 0.559, both},
		{25, 0.020, 0.508, both}, {26, 0.018, 0.457, both}, {27, 0.0164, 0.417, both},
		{28, 0.0148, 0.376, disputed}, {29, 0.0136, 0.345, both}, {30, 0.0124, 0.315, both},
		{31, 0.0116, 0.295, both}, {32, 0.0108, 0.274, both}, {33, 0.0100, 0.254, both},
		{34, 0.0092, 0.234, both}, {35, 0.0084, 0.213, both},
	}
	for i, r := range rows {
		assert.Equal(t, MinImperialGauge+i, r.n, "one row for each gauge")
		assert.InDelta(t, r.inch*inchMM, ImperialGaugeMM(r.n), 1e-12, "no. %d: %s", r.n, r.source)
		assert.InDelta(t, r.mm, ImperialGaugeMM(r.n), 0.0005+1e-9, "no. %d: %s", r.n, r.source)
	}
	assert.Equal(t, MaxImperialGauge, rows[len(rows)-1].n)
}

func TestBothTablesHoldTheGaugesWithinTheLimitsForSheet(t *testing.T) {
	assert.Less(t, GaugeMM(MinGauge), float64(MaxThickness))
	assert.Greater(t, GaugeMM(MinGauge-1), float64(MaxThickness))
	assert.Greater(t, GaugeMM(MaxGauge), MinThickness)
	assert.Less(t, GaugeMM(MaxGauge+1), MinThickness)

	// Nos. 3 and 36 of BS 3737.
	assert.Greater(t, 0.252*inchMM, float64(MaxThickness))
	assert.Less(t, 0.0076*inchMM, MinThickness)
	assert.Zero(t, ImperialGaugeMM(MinImperialGauge-1))
	assert.Zero(t, ImperialGaugeMM(MaxImperialGauge+1))
}

func TestSheetOfEveryGaugeIsBent(t *testing.T) {
	for n := MinGauge; n <= MaxGauge; n++ {
		f := unroll(t, with(cuff(60, 48, 25, 1), func(b *Band) { b.Thickness = Thickness{BSGauge: n} }))
		assert.Equal(t, GaugeMM(n), f.Thickness)
	}
	for n := MinImperialGauge; n <= MaxImperialGauge; n++ {
		f := unroll(t, with(cuff(60, 48, 25, 1), func(b *Band) { b.Thickness = Thickness{ImperialGauge: n} }))
		assert.Equal(t, ImperialGaugeMM(n), f.Thickness)
	}
}
