package check

import (
	"testing"

	"fretband/pattern"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What a fix costs is what laying the mended design shows, told before it is taken.
func TestEachFixSaysWhatItCosts(t *testing.T) {
	for _, c := range mended {
		d := benchCuff()
		c.spoil(&d)
		quick := Run(laid(t, d))
		r := Deepen(laid(t, d), quick)
		for _, f := range r.Findings {
			for _, x := range f.Fixes {
				now := Run(laid(t, x.Design))
				want := costWords(now.Openings-r.Openings, now.Left-r.Left)
				assert.Equal(t, want, x.Cost, "%s: %s", c.name, x.Title)
				assert.NotEmpty(t, x.Cost)
			}
		}
		for _, f := range quick.Findings {
			for _, x := range f.Fixes {
				assert.Empty(t, x.Cost, "the report that was deepened stays as it was")
			}
		}
	}
	assert.Equal(t, "1 opening fewer, 2.50 g more", costWords(-1, 2.5))
	assert.Equal(t, "3 openings more, 0.01 g less", costWords(3, -0.006))
	assert.Equal(t, "no opening and no weight lost", costWords(0, 0.004))
}

// Rows of round holes 2.2 mm apart: with bridges of 0.7 mm they are 1.5 mm wide, with the
// usual 1.2 mm they would be 1 mm, under the smallest that is let through: all would be lost.
func TestAFixThatLosesOpeningsWhichWereFineIsNotOffered(t *testing.T) {
	d := benchCuff()
	d.Rules.BridgeMM, d.Rules.SmallestMM = 0.7, 1.2
	d.Fields = []pattern.Field{{Motif: "circles", Rows: 10, PitchMM: 2.2}}
	s := laid(t, d)
	f, ok := worst(All(s), "process-bridges")
	require.True(t, ok)
	assert.Empty(t, f.Fixes)
	assert.NotEmpty(t, f.Mend)
	d.Rules.SmallestMM = 0.8
	f, ok = worst(All(laid(t, d)), "process-bridges")
	require.True(t, ok)
	require.Len(t, f.Fixes, 1)
	_, found := worst(All(laid(t, f.Fixes[0].Design)), "process-bridges")
	assert.False(t, found)
}
