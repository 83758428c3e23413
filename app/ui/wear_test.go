package ui

import (
	"testing"

	"fretband/app"
	"fretband/pattern/check"
	"fretband/pattern/project"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// figureOf returns what a row of the figures shows, and whether it is.
func figureOf(t *testing.T, w *Window, name string) (string, bool) {
	t.Helper()
	for _, r := range w.figures.Rows {
		if r.Name.Text == name {
			return r.Value.Text, r.Box.Visible()
		}
	}
	t.Fatalf("no figure %q", name)
	return "", false
}

func TestACuffSaysHowItSpringsOnAndFollowsItsTemper(t *testing.T) {
	w, _ := openTest(t, "harbour-cuff", fyne.NewSize(1400, 900), "light")
	w.ed.OpenPage(app.MetalPage)
	w.laying.Deepen()
	keepPicture(t, "wearing", w.win.Canvas().Capture)
	words, stands := figureOf(t, w, "Sprung on")
	require.True(t, stands)
	assert.Equal(t, check.TakesASet, words)
	require.True(t, has(w, "springing-on"))
	r := w.controls.RowsOf["wear.proof_mpa"]
	require.NotNil(t, r)
	require.True(t, r.Box.Visible())
	typeInto(w, r.Entry, "400")
	words, stands = figureOf(t, w, "Sprung on")
	require.True(t, stands, "it stays in its place while it is looked for again")
	assert.Equal(t, "\u2013", words)
	w.laying.Deepen()
	words, _ = figureOf(t, w, "Sprung on")
	assert.Equal(t, check.SpringsBack, words)
}

func TestAClosedBandHasNoWearing(t *testing.T) {
	for _, name := range project.Gallery() {
		w, _ := openTest(t, name, fyne.NewSize(1400, 900), "light")
		w.ed.OpenPage(app.MetalPage)
		w.laying.Deepen()
		cuff := w.ed.Now().Band.Kind == "cuff"
		_, stands := figureOf(t, w, "Sprung on")
		assert.Equal(t, cuff, stands, name)
		assert.Equal(t, cuff, w.controls.RowsOf["wear.open_mm"].Box.Visible(), name)
	}
}
