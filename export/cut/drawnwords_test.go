package cut

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/export/sample"
	"fretband/unroll/plane"
)

// Nobody finds letters in a cut file that were not asked for. Where they are, they stand on
// the sheet, in its margin, apart from all that is cut.
func TestWordsAreDrawnOnDemandAndInTheMarginAlone(t *testing.T) {
	s, r := sample.Cuff()
	for _, o := range []export.Options{{}, {Curves: export.ArcsR12}, {Copies: 3, MarginMM: 8, LeadMM: 1}, {StockW: 300, StockH: 200, MarginMM: 2}} {
		plain := o
		o.Words = export.WordsDrawn
		require.NoError(t, madeAndReadBack(s, r, o))
		for _, key := range []string{"svg", "dxf"} {
			none, drawn := string(fileOf(t, key, s, r, plain)), string(fileOf(t, key, s, r, o))
			assert.NotContains(t, none, "NOTES_NOT_CUT")
			assert.NotContains(t, none, groupWords)
			assert.NotContains(t, none, "TEXT\n")
			assert.NotContains(t, none, "<text")
			f, err := NewFiles(s, r, plain)
			require.NoError(t, err)
			check := map[string]func([]byte) error{"svg": f.CheckSVG, "dxf": f.CheckDXF}[key]
			require.NoError(t, check([]byte(none)))
			assert.ErrorContains(t, check([]byte(drawn)), "asked for")
		}

		p, err := newCuttingPlan(s, r, o)
		require.NoError(t, err)
		sheet := page(p, o)
		lines, err := drawnWords(sheet, fileWords(s, r, o), o)
		require.NoError(t, err)
		require.NotEmpty(t, lines)
		assert.True(t, strings.HasPrefix(lines[0].text, "Part: "))
		assert.Equal(t, wordsGoOn, lines[len(lines)-1].text)
		cut := p.bounds()
		for i, l := range lines {
			// Letters go down by a quarter of their height at most (common practice).
			b := plane.Box{Min: l.at.Sub(plane.Pt(0, wordsHigh/4)), Max: l.at.Add(plane.Pt(wordsHigh*float64(len(l.text)), wordsHigh))}
			assert.Equal(t, sheet, sheet.Union(b), "line %d stands off the sheet", i+1)
			assert.False(t, cut.Nearer(b, 0.05), "line %d stands on what is cut", i+1)
		}
	}
	var b bytes.Buffer
	err := writeDXF(&b, s, r, export.Options{Copies: 2, MarginMM: 1, Words: export.WordsDrawn})
	require.ErrorContains(t, err, "words: the margin of the sheet, 1 mm wide, has no room")
	assert.Zero(t, b.Len())
}

// What a reader takes for the size of the file is the sheet's size.
func TestTheExtentsOfTheFileAreTheSheets(t *testing.T) {
	s, r := sample.Cuff()
	for _, o := range []export.Options{{StockW: 300, StockH: 200}, {StockW: 300, StockH: 200, Words: export.WordsDrawn, Curves: export.ArcsR12}} {
		assert.Contains(t, string(fileOf(t, "svg", s, r, o)), `width="300mm" height="200mm" viewBox="0 0 300 200"`)
		assert.Contains(t, string(fileOf(t, "dxf", s, r, o)), "$EXTMIN\n 10\n0.0\n 20\n0.0\n")
		assert.Contains(t, string(fileOf(t, "dxf", s, r, o)), "$EXTMAX\n 10\n300.0\n 20\n200.0\n")
	}
}
