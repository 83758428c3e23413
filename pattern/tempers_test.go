package pattern

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestTempersAreThoseOfThePublishedTables(t *testing.T) {
	for _, c := range []struct {
		alloy, temper  string
		proof, modulus float64
		source         string
	}{
		{"sterling-925", "annealed", 124, 75, "ESPI Metals"},
		{"copper", "half-hard", 176, 117, "Smithells"},
		{"brass-cuzn30", "hard", 495, 110, "Olin"},
		{"bronze-c51000", "annealed", 165, 110, "Olin"},
		{"titanium-2", "annealed", 275, 102, "MatWeb"},
	} {
		got := Design{Metal: Metal{Alloy: c.alloy}, Wear: Wear{Temper: c.temper}}.Temper()
		assert.Equal(t, c.proof, got.ProofMPa, c.alloy)
		assert.Equal(t, c.modulus, got.ModulusGPa, c.alloy)
		assert.Contains(t, got.Source, c.source)
		assert.True(t, got.Published(), c.alloy)
	}
}

func TestEveryAlloyHasATemperAndEveryTemperSaysWhereItsFiguresAreFrom(t *testing.T) {
	for _, a := range Alloys() {
		seen := map[string]bool{}
		for _, tm := range Tempers(a.Key) {
			assert.False(t, seen[tm.Key], a.Key)
			seen[tm.Key] = true
			if tm.ProofMPa > 0 {
				assert.Regexp(t, "published|memory", tm.Source, a.Key)
				assert.Positive(t, tm.ModulusGPa, a.Key)
			} else {
				assert.Regexp(t, "found", tm.Source, a.Key)
			}
		}
		assert.True(t, seen["annealed"], a.Key)
	}
}

func TestOwnFiguresStandInPlaceOfTheTables(t *testing.T) {
	d := Design{Metal: Metal{Alloy: "sterling-925"}, Wear: Wear{Temper: "half-hard"}}
	assert.Zero(t, d.Temper().ProofMPa, "no proof stress was found, so none is guessed")
	d.Wear.ProofMPa = 260
	got := d.Temper()
	assert.Equal(t, 260.0, got.ProofMPa)
	assert.Equal(t, 75.0, got.ModulusGPa)
	assert.Contains(t, got.Source, "your own proof stress")
	assert.False(t, got.Published())
	assert.False(t, Tempers("silver-999")[0].Published(), "its proof stress is from memory, its modulus published")
}
