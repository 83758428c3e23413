package report

import (
	"bytes"
	"context"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
	"fretband/unroll"
)

// A screen of the command line has 40 lines and more, of 100 letters.
const screenLines, screenLetters = 40, 100

func TestTheReportOfACuffFitsOneScreenAndStillNamesEachHazard(t *testing.T) {
	cuffs := 0
	for _, name := range project.Gallery() {
		d, err := project.GalleryDesign(name)
		require.NoError(t, err)
		if d.Band.Kind != unroll.Cuff {
			continue
		}
		cuffs++
		s, err := pattern.Lay(d)
		require.NoError(t, err)
		r := check.Strengthen(context.Background(), s, check.All(s), check.Unasked())
		require.NotNil(t, r.Strength)
		var short, full bytes.Buffer
		require.NoError(t, Text(&short, s, r))
		require.NoError(t, TextInFull(&full, s, r))
		lines := 0
		for _, l := range strings.Split(strings.TrimRight(short.String(), "\n"), "\n") {
			lines += max(1, (utf8.RuneCountInString(l)+screenLetters-1)/screenLetters)
		}
		assert.LessOrEqual(t, lines, screenLines, name)
		hazards := 0
		for _, c := range check.Cautions(s, r) {
			assert.Contains(t, short.String(), c.Topic, name)
			assert.Contains(t, short.String(), c.Short, name)
			assert.Contains(t, full.String(), c.Text, name)
			if c.Short != "" {
				hazards++
			}
		}
		assert.GreaterOrEqual(t, hazards, 4, "laser, saw, edges, polishing")
		assert.Contains(t, short.String(), "fretcut report -full")
		for _, row := range []string{"left", "openings", "bridge rule", "thinnest bridge", "least section", "stiffness", "yields", "saw blade"} {
			assert.Contains(t, short.String(), "\n"+row+" ", name)
		}
		for _, more := range []string{"weakest path across", "centre of gravity", "bend it round", "unrolled", "Places are mm", "Strength: an estimate"} {
			assert.Contains(t, full.String(), more, name)
			assert.NotContains(t, short.String(), more, name)
		}
	}
	assert.NotZero(t, cuffs)
}
