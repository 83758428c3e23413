package unroll

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestSizesAgreeWithThePublishedTables(t *testing.T) {
	const (
		iso    = "table of ISO 8653 sizes and inner diameters, Wikipedia \"Ring size\" (0.1 mm)"
		us     = "chart of US sizes, Wikipedia \"Ring size\""
		uk     = "BS 6820 / BS EN 28653, as quoted in two public source files"
		jis    = "JIS S 4700: 13 mm for size 1, 1/3 mm a size"
		bangle = "bangle size chart, papilior.com (0.1 mm)"
	)
	for _, c := range []struct {
		scale, size           string
		circumference, across float64 // 0: not in the source
		tol                   float64
		source                string
	}{
		{"iso", "49", 49, 15.6, 0.05, iso},
		{"iso", "50", 50, 15.9, 0.05, iso},
		{"iso", "52", 52, 16.6, 0.05, iso},
		{"iso", "54", 54, 17.2, 0.05, iso},
		{"iso", "56", 56, 17.8, 0.05, iso},
		{"iso", "58", 58, 18.5, 0.05, iso},
		{"iso", "60", 60, 19.1, 0.05, iso},
		{"iso", "62", 62, 19.7, 0.05, iso},
		{"iso", "64", 64, 20.4, 0.05, iso},
		{"iso", "66", 66, 21.0, 0.05, iso},
		{"iso", "70", 70, 22.3, 0.05, iso},
		{"iso", "72", 72, 22.9, 0.05, iso},
		{"us", "0", 36.5, 11.63, 0.05, us},
		{"us", "7", 54.421, 17.3228, 0.001, "0.458 + 0.032 n inch"},
		{"us", "1", 39.100, 12.446, 0.001, "0.458 + 0.032 n inch"},
		{"us", "5", 49.314, 15.697, 0.001, "0.458 + 0.032 n inch"},
		{"us", "10", 62.082, 19.761, 0.001, "0.458 + 0.032 n inch"},
		{"us", "13", 69.742, 22.200, 0.001, "0.458 + 0.032 n inch"},
		{"uk", "A", 37.5, 0, 1e-9, uk},
		{"uk", "C", 40, 0, 1e-9, uk},
		{"uk", "L", 51.25, 0, 1e-9, uk},
		{"uk", "N", 53.75, 0, 1e-9, uk},
		{"uk", "N 1/2", 54.375, 0, 1e-9, uk},
		{"uk", "Z", 68.75, 0, 1e-9, uk},
		{"uk", "N 1/2", 54.421, 0, 0.06, "charts put US 7 beside UK N 1/2"},
		{"jp", "1", 0, 13, 1e-9, jis},
		{"jp", "13", 0, 17, 1e-9, jis},
		{"it", "14", 54, 0, 1e-9, "the ISO size less 40 (Wikipedia \"Ring size\")"},
		{"bangle", "2-2", 169.4, 54.0, 0.2, bangle},
		{"bangle", "2-4", 179.54, 57.15, 0.01, "2 4/16 inch"},
		{"bangle", "2-4", 179.6, 57.2, 0.1, bangle},
		{"bangle", "2-6", 189.5, 60.3, 0.1, bangle},
		{"bangle", "2-8", 199.4, 63.5, 0.1, bangle},
		{"bangle", "2-10", 0, 66.7, 0.05, bangle},
		{"bangle", "2-12", 0, 69.9, 0.06, bangle},
		{"bangle", "2-14", 0, 73.0, 0.06, bangle},
	} {
		got, err := SizeCircumference(c.scale, c.size)
		require.NoError(t, err)
		if c.circumference > 0 {
			assert.InDelta(t, c.circumference, got, c.tol, "%s %s: %s", c.scale, c.size, c.source)
		}
		if c.across > 0 {
			assert.InDelta(t, c.across, got/math.Pi, c.tol, "%s %s: %s", c.scale, c.size, c.source)
		}
	}
}

func TestSizesMayBeSpeltInTheUsualWays(t *testing.T) {
	for _, c := range []struct{ scale, plain, spelt string }{
		{"uk", "N 1/2", "N½"}, {"uk", "N 1/2", "n 1/2"}, {"uk", "N 1/2", " N1/2 "}, {"uk", "N 1/2", "N.5"},
		{"us", "7.5", "7 1/2"}, {"us", "7.5", "7½"}, {"us", "7.5", "7,5"}, {"us", "7.25", "7 ¼"}, {"us", ".5", "1/2"},
		{"iso", "54.5", "54,5"}, {"bangle", "2-4", "2 - 4"}, {"bangle", "2-4", "2–4"}, {"uk", "Z+1", "z +1"},
	} {
		want, err := SizeCircumference(c.scale, c.plain)
		require.NoError(t, err)
		got, err := SizeCircumference(c.scale, c.spelt)
		require.NoError(t, err, c.spelt)
		assert.Equal(t, want, got, c.spelt)
	}
}

func TestEveryScaleReadsItsOwnExamples(t *testing.T) {
	for _, sc := range Scales() {
		assert.NotEmpty(t, sc.Source)
		assert.Contains(t, []string{Ring, Bangle}, sc.Kind)
		for _, example := range strings.Split(sc.Example, ", ") {
			c, err := SizeCircumference(sc.Key, example)
			require.NoError(t, err)
			assert.Greater(t, c, float64(MinCircumference))
			assert.Less(t, c, float64(MaxCircumference))
		}
	}
}

func TestUnclearSizesAreRefusedWithAQuestion(t *testing.T) {
	for _, c := range []struct{ scale, size, part string }{
		{"", "7", "which is meant"},
		{"", "7", `"us" (17.3 mm across), "jp" (15.0 mm across)`},
		{"gauge", "54", `must be one of "iso", "us", "uk", "jp", "it", "bangle"`},
		{"us", "54", `which scale is meant? It is a size on "iso"`},
		{"us", "N", `"uk"`},
		{"uk", "7", `"us"`},
		{"uk", "N1", `is "N1" meant as "N 1/2" or as "N+1"?`},
		{"us", "17.5", "inner diameter in mm?"},
		{"iso", "17.3", "inner diameter in mm?"},
		{"bangle", "2.4", `meant as inches or as "2-4"?`},
		{"us", "7.3", "quarters"},
		{"us", "-1", "not a size"},
		{"us", "1e1", "not a size"},
		{"us", "", "not a size"},
		{"uk", "Ñ", "not a size"},
		{"uk", "Z+7", "not a size"},
		{"uk", "A+1", "not a size"},
		{"iso", "9999999999999", "not a size"},
		{"iso", "NaN", "not a size"},
	} {
		_, err := SizeCircumference(c.scale, c.size)
		require.Error(t, err, "%q %q", c.scale, c.size)
		assert.Contains(t, err.Error(), c.part)
	}
}

func TestGaugesAgreeWithTheHandbookTable(t *testing.T) {
	const source = "Machinery's Handbook, AWG in inches (rounded to 0.0001)"
	for n, inch := range map[int]float64{
		10: 0.1019, 12: 0.0808, 14: 0.0641, 16: 0.0508, 18: 0.0403, 20: 0.0320,
		22: 0.0253, 24: 0.0201, 26: 0.0159, 28: 0.0126, 30: 0.0100,
	} {
		assert.InDelta(t, inch*25.4, GaugeMM(n), 0.0021, "%d: %s", n, source)
	}
	assert.InDelta(t, 1.0237, GaugeMM(18), 5e-5, "ASTM B258 formula")
	assert.Less(t, GaugeMM(MinGauge), float64(MaxThickness))
	assert.Greater(t, GaugeMM(MinGauge-1), float64(MaxThickness))
	assert.Greater(t, GaugeMM(MaxGauge), MinThickness)
	assert.Less(t, GaugeMM(MaxGauge+1), MinThickness)
}
