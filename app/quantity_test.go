package app

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestQuantitiesAreReadAsTheBenchWritesThem(t *testing.T) {
	for _, c := range []struct {
		typed, unit string
		gauge       bool
		want        Quantity
		source      string
	}{
		{"1.5", "mm", false, Quantity{Value: 1.5}, "plain"},
		{"1,5", "mm", false, Quantity{Value: 1.5}, "decimal comma"},
		{" 1.5 mm ", "mm", false, Quantity{Value: 1.5}, "own unit"},
		{"1/16 in", "mm", false, Quantity{Value: 1.5875}, "inch of 25.4 mm, exact"},
		{"1 1/2 in", "mm", false, Quantity{Value: 38.1}, "inch of 25.4 mm, exact"},
		{`3/8"`, "mm", false, Quantity{Value: 9.525}, "inch of 25.4 mm, exact"},
		{"0.5in", "mm", false, Quantity{Value: 12.7}, "inch of 25.4 mm, exact"},
		{"1.2 cm", "mm", false, Quantity{Value: 12}, "metre"},
		{"18 ga", "mm", true, Quantity{Gauge: 18}, "gauge"},
		{"-2", "mm", false, Quantity{Value: -2}, "sign"},
		{"\u22122", "mm", false, Quantity{Value: -2}, "printed minus"},
		{"12", "", false, Quantity{Value: 12}, "count"},
		{"40 %", "%", false, Quantity{Value: 40}, "share"},
	} {
		got, err := ReadQuantity(c.typed, c.unit, c.gauge)
		require.NoError(t, err, c.typed)
		require.Equal(t, c.want.Gauge, got.Gauge, c.typed)
		require.InDelta(t, c.want.Value, got.Value, 1e-12, c.typed)
	}
}

func TestWhatIsNoQuantityIsRefused(t *testing.T) {
	for _, typed := range []string{"", "mm", "abc", "1..2", "1/0", "1/2/3", "NaN", "1e999", "--1", "1 2", "5 kg", "18 ga", "1,000,5"} {
		_, err := ReadQuantity(typed, "mm", false)
		require.Error(t, err, typed)
	}
	_, err := ReadQuantity("5 in", "", false)
	require.Error(t, err, "a count has no inches")
	_, err = ReadQuantity("18.5 ga", "mm", true)
	require.Error(t, err)
}

func TestNumbersAreWrittenWithoutIdleZeros(t *testing.T) {
	for v, want := range map[float64]string{1: "1", 1.5: "1.5", 0.8000001: "0.8", -0.00001: "0", 12.345: "12.345", 100: "100"} {
		require.Equal(t, want, FormatNumber(v, 3))
	}
}
