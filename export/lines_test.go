package export

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestLinesHoldWhatHasRoomAndWordsTooLongStandOut(t *testing.T) {
	b := Breaker[string]{Width: func(w string) float64 { return float64(len(w)) }, Space: 1, Room: 7, Indent: 2}
	told := func(lines [][]Placed[string]) (text []string) {
		for _, l := range lines {
			var line strings.Builder
			for _, w := range l {
				line.WriteString(strings.Repeat(".", int(w.X)-line.Len()) + w.Word)
			}
			text = append(text, line.String())
		}
		return text
	}
	words := strings.Fields("to saw it all longerthanaline end")
	assert.Equal(t, []string{"to.saw", "..it.all", "..longerthanaline", "..end"}, told(Breaker[string]{Width: b.Width, Space: 1, Room: 8, Indent: 2}.Lines(0, words)))
	b.Cut = func(w string, room float64) (string, string, bool) {
		n := int(room)
		return w[:n], w[n:], len(w) > n
	}
	assert.Equal(t, []string{"to.saw", "..it", "..all", "..longe", "..rthan", "..aline", "..end"}, told(b.Lines(0, words)))
	assert.Equal(t, []string{"...to", "..saw", "..it"}, told(b.Lines(3, words[:3])))
	assert.Empty(t, b.Lines(0, nil))
}
