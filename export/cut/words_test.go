package cut

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/export/sample"
	"fretband/pattern/check"
	"fretband/unroll/plane"
)

func labels(fs []export.Fact) (ls []string) {
	for _, f := range fs {
		ls = append(ls, f.Label)
	}
	return ls
}

func TestWordsOfACutSheetSayWhatIsOnItAndNoMore(t *testing.T) {
	s, r := sample.Cuff()
	assert.Equal(t, []string{"Curves", "Direction"}, labels(Facts(s, r, export.Options{})))
	o := export.Options{Copies: 4, LeadMM: 0.8, Tabs: 3, StockW: 500, StockH: 300, Curves: export.Chords, KerfMM: 0.1}
	fs := Facts(s, r, o)
	assert.Equal(t, []string{"Cut sheet", "Grain on the sheet", "Curves", "Direction", "Order", "Lead-ins", "Tabs", "Total"}, labels(fs))
	words := ""
	for _, f := range fs {
		words += f.Text + "\n"
	}
	for _, w := range []string{
		"4 parts on a sheet of 500 x 300 mm, 3 mm or more apart", "edge of the sheet 5 mm", "grain of the sheet run along x",
		"chords only, within 0.005 mm", "0.8 mm, shorter where", "first stretch of the line that it leads into", "middle of the cut",
		"3 tabs of 0.4 mm", "stops for 0.5 mm", "saw them through and file",
		"4 parts, " + export.MM(4*(r.CutLength-3*0.4)) + " mm of cut in all",
	} {
		assert.Contains(t, words, w)
	}
	o.KerfMM = 0
	assert.Contains(t, leadWords(o), "finished edge")
	assert.NotContains(t, tabWords(o), "stops for")
}

func TestWordsPlaceThePartsWhereThePlanDoes(t *testing.T) {
	for name, s := range sample.Gallery(t) {
		r := check.Run(s)
		for _, o := range []export.Options{{Copies: 7, LeadMM: 1, KerfMM: 0.1}, {Copies: 3, StockW: 400, StockH: 900, Tabs: 2}} {
			p, err := newCuttingPlan(s, r, o)
			require.NoError(t, err, name)
			sheet, copies, err := laidOut(s, r, o)
			require.NoError(t, err, name)
			assert.Equal(t, p.sheet, sheet, name)
			assert.Equal(t, p.copies, copies, name)
		}
	}
}

func TestWordsOnTheGrainTellTheTurn(t *testing.T) {
	turned := func(a ...float64) (ps []placed) {
		for _, d := range a {
			ps = append(ps, placed{rotation: d * math.Pi / 180, at: plane.Pt(1, 1)})
		}
		return ps
	}
	assert.NotContains(t, grainWords(turned(0, 0)), "turned")
	assert.Contains(t, grainWords(turned(0, 180)), "1 of them lie turned half round")
	assert.Contains(t, grainWords(turned(90, 90)), "along y")
	assert.Contains(t, grainWords(turned(33, 213, 33)), "turned by 33 degrees")
	assert.Contains(t, grainWords(turned(33, 213, 33)), "1 of them")
}

func TestWrapKeepsEveryWordWithinTheWidth(t *testing.T) {
	text := "Cut edges and free points are sharp: " + strings.Repeat("x", 50) + " end é"
	for width := 6; width < 60; width++ {
		var words strings.Builder
		for _, l := range wrap(text, width) {
			assert.LessOrEqual(t, len([]rune(l)), width)
			words.WriteString(strings.ReplaceAll(l, " ", ""))
		}
		assert.Equal(t, strings.ReplaceAll(text, " ", ""), words.String())
	}
}
