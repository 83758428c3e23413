package ui

import (
	"testing"

	"fretband/app"
	"fretband/pattern/project"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
)

func TestAClosedBandHasNoWearing(t *testing.T) {
	for _, name := range project.Gallery() {
		w, _ := openTest(t, name, fyne.NewSize(1400, 900), "light")
		w.ed.OpenPage(app.MetalPage)
		w.laying.Deepen()
		cuff := w.ed.Now().Band.Kind == "cuff"
		assert.Equal(t, cuff, w.controls.RowsOf["wear.open_mm"].Box.Visible(), name)
		if name == "harbour-cuff" {
			keepPicture(t, "wearing", w.win.Canvas().Capture)
		}
	}
}
