package cut

import (
	"fmt"

	"fretband/export"
	"fretband/unroll/plane"
)

// Letters that are drawn in the sheet's margin, mm: ours. They are taken for as wide as high,
// as those of plain DXF typefaces are (common practice).
const (
	wordsHigh  = 1.2
	wordsLine  = 1.7 // from line to line
	wordsClear = 0.4 // from the sheet's edge, and from where parts may begin
)

const wordsGoOn = "More stands in the file."

// drawnLine is a line of words: at is where it stands.
type drawnLine struct {
	at   plane.Point
	text string
}

// drawnWords returns the words that stand in the margin of the page, the most needed first:
// over the parts and then under them, as many as have room. None unless they are asked for.
//
// Errors: a margin too narrow for a line.
func drawnWords(page plane.Box, words []string, o export.Options) ([]drawnLine, error) {
	if o.Words != export.WordsDrawn {
		return nil, nil
	}
	margin := pageMargin(o)
	each := int((margin - 2*wordsClear + wordsLine - wordsHigh) / wordsLine)
	letters := int((page.W() - 2*margin) / wordsHigh)
	if each < 1 || letters < len(wordsGoOn) {
		return nil, fmt.Errorf("words: the margin of the sheet, %s mm wide, has no room for a line of them: give a wider margin or a longer sheet, or have no words drawn", export.MM(margin))
	}
	var lines []string
	for _, w := range words {
		lines = append(lines, wrap(w, letters)...)
	}
	if room := 2 * each; len(lines) > room {
		lines = append(lines[:room-1:room-1], wordsGoOn)
	}
	var drawn []drawnLine
	for i, l := range lines {
		top := page.Max.Y
		if i >= each {
			top, i = page.Min.Y+margin, i-each
		}
		drawn = append(drawn, drawnLine{plane.Pt(page.Min.X+margin, top-wordsClear-wordsHigh-float64(i)*wordsLine), l})
	}
	return drawn, nil
}
