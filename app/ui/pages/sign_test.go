package pages

import (
	"image/color"
	"testing"

	"github.com/stretchr/testify/require"

	"fretband/pattern/check"
)

// Severities differ in the shape of their sign and in their word, whatever the colours.
func TestSeveritiesDifferWithoutColour(t *testing.T) {
	ink := color.NRGBA{A: 255}
	words, shapes := map[string]bool{}, map[string]bool{}
	for _, s := range []check.Severity{check.Breach, check.Caution, check.Note} {
		words[severityWord(s)] = true
		shape, covered := "", 0
		for i, p := range drawSign(s, 14, ink, ink).Pix {
			if i%4 == 3 {
				dark := p > 127
				shape += map[bool]string{true: "#", false: "."}[dark]
				if dark {
					covered++
				}
			}
		}
		shapes[shape] = true
		require.Greater(t, covered, 14*14/6, "it is seen")
	}
	require.Len(t, words, 3)
	require.Len(t, shapes, 3)
}
