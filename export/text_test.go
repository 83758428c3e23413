package export

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestWrapKeepsEveryWordWithinTheWidth(t *testing.T) {
	text := "Cut edges and free points are sharp: " + strings.Repeat("x", 50) + " end é"
	for width := 6; width < 60; width++ {
		var words strings.Builder
		for _, l := range Wrap(text, width) {
			assert.LessOrEqual(t, len([]rune(l)), width)
			words.WriteString(strings.ReplaceAll(l, " ", ""))
		}
		assert.Equal(t, strings.ReplaceAll(text, " ", ""), words.String())
	}
}
