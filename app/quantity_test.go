package app

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestQuantitiesAreReadAsTheBenchWritesThem(t *testing.T) {
	for _, c := range []struct {
		typed, unit string
		gauge       bool
		hundred     float64
		want        Quantity
		source      string
	}{
		{"1.5", "mm", false, 0, Quantity{Value: 1.5}, "plain"},
		{"1,5", "mm", false, 0, Quantity{Value: 1.5}, "decimal comma"},
		{" 1.5 mm ", "mm", false, 0, Quantity{Value: 1.5}, "own unit"},
		{"1/16 in", "mm", false, 0, Quantity{Value: 1.5875}, "inch of 25.4 mm, exact"},
		{"1/16in", "mm", false, 0, Quantity{Value: 1.5875}, "inch of 25.4 mm, exact"},
		{"1 1/2 in", "mm", false, 0, Quantity{Value: 38.1}, "inch of 25.4 mm, exact"},
		{`3/8"`, "mm", false, 0, Quantity{Value: 9.525}, "inch of 25.4 mm, exact"},
		{"0.5in.", "mm", false, 0, Quantity{Value: 12.7}, "inch of 25.4 mm, exact"},
		{"2 Inches", "mm", false, 0, Quantity{Value: 50.8}, "inch of 25.4 mm, exact"},
		{"1.2 cm", "mm", false, 0, Quantity{Value: 12}, "metre"},
		{"18 ga", "mm", true, 0, Quantity{Gauge: 18}, "gauge"},
		{"18swg", "mm", true, 0, Quantity{Imperial: 18}, "gauge"},
		{"-2", "mm", false, 0, Quantity{Value: -2}, "sign"},
		{"\u22122", "mm", false, 0, Quantity{Value: -2}, "printed minus"},
		{"12", "", false, 0, Quantity{Value: 12}, "count"},
		{"40 %", "%", false, 0, Quantity{Value: 40}, "share"},
		{"10.4 g/cm\u00b3", "g/cm\u00b3", false, 0, Quantity{Value: 10.4}, "own unit"},
		{"75 GPa", "GPa", false, 0, Quantity{Value: 75}, "own unit"},
		{"1.25 : 1", ": 1", false, 0, Quantity{Value: 1.25}, "own unit"},
		{"20 per h", "per h", false, 0, Quantity{Value: 20}, "own unit"},
		{"15\u00b0", "\u00b0", false, 0, Quantity{Value: 15}, "own unit"},

		{"1.3 + 0.2", "mm", false, 0, Quantity{Value: 1.5}, "arithmetic"},
		{"1,3+0,2", "mm", false, 0, Quantity{Value: 1.5}, "arithmetic"},
		{"60/2", "mm", false, 0, Quantity{Value: 30}, "arithmetic"},
		{"7 - 2 - 1", "mm", false, 0, Quantity{Value: 4}, "from left to right"},
		{"48/4/2", "mm", false, 0, Quantity{Value: 6}, "from left to right"},
		{"2 + 3 * 4", "mm", false, 0, Quantity{Value: 14}, "products first"},
		{"(2 + 3) x 4", "mm", false, 0, Quantity{Value: 20}, "brackets first"},
		{"2 \u00d7 3 \u00f7 4", "mm", false, 0, Quantity{Value: 1.5}, "printed signs"},
		{"-(3 - 5)", "mm", false, 0, Quantity{Value: 2}, "sign"},
		{"1/2 in + 0.3", "mm", false, 0, Quantity{Value: 13}, "what has no unit is in the entry's"},
		{"1 in / 2", "mm", false, 0, Quantity{Value: 12.7}, "inch"},
		{"2 * 1 1/2 in", "mm", false, 0, Quantity{Value: 76.2}, "inch"},
		{"2(1 in + 1)", "mm", false, 0, Quantity{}, ""}, // refused: no sign stands between
		{"2 * (1 in + 1)", "mm", false, 0, Quantity{Value: 52.8}, "inch"},
		{"1 cm + 5 mm", "mm", false, 0, Quantity{Value: 15}, "metre"},
		{"32 * 30 %", "mm", false, 0, Quantity{Value: 9.6}, "a percentage is a factor"},
		{"30 %", "of round", false, 1, Quantity{Value: 0.3}, "per cent of a share"},
		{"30%", "mm", false, 40, Quantity{Value: 12}, "per cent of what is named"},
		{"50 % - 1", "mm", false, 40, Quantity{Value: 19}, "per cent of what is named"},
		{"40 % + 2.5", "%", false, 0, Quantity{Value: 42.5}, "the entry's own unit"},
	} {
		got, err := ReadQuantity(c.typed, c.unit, c.gauge, c.hundred)
		if c.source == "" {
			require.Error(t, err, c.typed)
			continue
		}
		require.NoError(t, err, c.typed)
		require.Equal(t, c.want.Gauge, got.Gauge, c.typed)
		require.Equal(t, c.want.Imperial, got.Imperial, c.typed)
		require.InDelta(t, c.want.Value, got.Value, 1e-12, c.typed)
	}
}

func TestWhatIsNoQuantityIsRefused(t *testing.T) {
	for _, typed := range []string{"", "mm", "abc", "1..2", "1/0", "NaN", "1e999", "--1", "1 2", "5 kg", "18 ga", "1,000,5",
		"1 +", "+", "(1", "1)", "()", "1 * ", "2 ** 3", "1 in in", "1 in * 2 mm", "3 / (1 in)", "1 1/0", "1 1/2.5", "2 mmm", "ga", "2 * x", strings.Repeat("(", 100000) + "1"} {
		_, err := ReadQuantity(typed, "mm", false, 0)
		require.Error(t, err, "%.40s", typed)
	}
	_, err := ReadQuantity("5 in", "", false, 0)
	require.Error(t, err, "a count has no inches")
	for _, typed := range []string{"18.5 ga", "9 + 9 ga", "18 ga + 1"} {
		_, err = ReadQuantity(typed, "mm", true, 0)
		require.Error(t, err, typed)
	}
	_, err = ReadQuantity("30 %", "mm", false, 0)
	require.ErrorContains(t, err, "percentage", "a percentage of nothing says so")
}

// Whatever is typed is a finite number or an error, and never a panic.
func FuzzQuantity(f *testing.F) {
	for _, s := range []string{"1 1/2 in + 3", "30 %", "-(2 x 3)", "18 ga", "1,5/0", "\u22121\u2033"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for _, unit := range []string{"mm", "", "%", ": 1", "per g"} {
			q, err := ReadQuantity(s, unit, true, 1)
			if err == nil && (math.IsNaN(q.Value) || math.IsInf(q.Value, 0)) {
				t.Errorf("%q is read as %g", s, q.Value)
			}
		}
	})
}

func TestNumbersAreWrittenWithoutIdleZeros(t *testing.T) {
	for v, want := range map[float64]string{1: "1", 1.5: "1.5", 0.8000001: "0.8", -0.00001: "0", 12.345: "12.345", 100: "100"} {
		require.Equal(t, want, FormatNumber(v, 3))
	}
}
