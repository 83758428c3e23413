package pattern

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Every process, its limits as a share of the sheet's thickness and the least below
// which no sheet is so thin as to go.
func TestProcessLimitsAreThoseOfTheirSources(t *testing.T) {
	const (
		ours   = "common practice"
		smslab = "smslaserfab.com and tuanthinh.net: web and hole of the thickness; least and corner common practice"
		etcher = "metaletching.com, techetch.com: web 1.0, hole 1.1, inner radius about 1.0; least common practice"
	)
	rows := []struct {
		key                     string
		bridge, opening, corner [2]float64 // share of the thickness, least in mm
		source                  string
	}{
		{"saw", [2]float64{1, 0.5}, [2]float64{1, 0.6}, [2]float64{0.25, 0.15}, ours},
		{"laser", [2]float64{1, 0.3}, [2]float64{1, 0.3}, [2]float64{0.1, 0.05}, smslab},
		{"etch", [2]float64{1, 0.1}, [2]float64{1.1, 0.1}, [2]float64{1, 0.05}, etcher},
		{"cast", [2]float64{0.8, 0.8}, [2]float64{1, 0.8}, [2]float64{0.25, 0.2}, ours},
	}
	for i, p := range Processes() {
		r := rows[i]
		assert.Equal(t, r.key, p.Key, "one row for each process")
		for name, c := range map[string]struct {
			is   func(float64) float64
			want [2]float64
		}{"bridge": {p.Bridge, r.bridge}, "opening": {p.Opening, r.opening}, "corner": {p.Corner, r.corner}} {
			assert.InDelta(t, 6*c.want[0], c.is(6), 1e-12, "%s %s of thick sheet: %s", p.Key, name, r.source)
			assert.InDelta(t, c.want[1], c.is(0.01), 1e-12, "%s %s of foil: %s", p.Key, name, r.source)
		}
		got, ok := ProcessByKey(p.Key)
		assert.True(t, ok)
		assert.Equal(t, p.Title, got.Title)
	}
	assert.Len(t, Processes(), len(rows))
	_, ok := ProcessByKey("")
	assert.False(t, ok)
}
