package app

import (
	"testing"

	"fretband/pattern"
	"fretband/unroll"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestWearingIsAskedOfCuffsOnly(t *testing.T) {
	d := pattern.Design{Band: unroll.Band{Kind: unroll.Cuff}, Metal: pattern.Metal{Alloy: "brass-cuzn30"}}
	for _, path := range []string{"wear.open_mm", "wear.proof_mpa", "wear.modulus_gpa"} {
		n, ok := NumberAt(d, path)
		require.True(t, ok, path)
		assert.True(t, n.Shown(d), path)
		require.NoError(t, n.Put(&d, "25"))
		assert.Equal(t, 25.0, n.Get(d))
		assert.Error(t, n.Put(&d, "-1"))
		ring := d
		ring.Band.Kind = unroll.Ring
		assert.False(t, n.Shown(ring), path)
		assert.Empty(t, TemperText(ring))
	}
	assert.Equal(t, "Temper", TitleOf(d, "wear.temper"))
}

func TestTheTemperIsOneOfTheAlloysAndAnotherAlloyForgetsIt(t *testing.T) {
	d := pattern.Design{Band: unroll.Band{Kind: unroll.Cuff}, Metal: pattern.Metal{Alloy: "brass-cuzn30"}}
	c := ChoiceOf("wear.temper")
	assert.Equal(t, "annealed", c.Get(d))
	assert.Len(t, c.Options(d), 3)
	c.Set(&d, "hard")
	assert.Equal(t, "hard", c.Get(d))
	// Olin Brass data sheet C26000.
	assert.Contains(t, TemperText(d), "Proof stress 495 MPa, modulus 110 GPa. Published: Olin")
	d.Wear.ProofMPa = 480
	assert.Contains(t, TemperText(d), "480 MPa")
	ChoiceOf("metal.alloy").Set(&d, "gold-585-red")
	assert.Equal(t, pattern.Wear{}, d.Wear)
	assert.Contains(t, TemperText(d), "Proof stress not known: give your own")
}
