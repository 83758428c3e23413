package ui

import (
	"image"
	"strings"
	"testing"

	"fretband/app"
	"fretband/pattern/project"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
)

// The motif's picture and the numbers that matter are in sight at once, whatever the window.
func TestThePatternPageShowsWhatMattersWithoutAWheel(t *testing.T) {
	for _, name := range project.Gallery() {
		w, _ := openTest(t, name, fyne.NewSize(1400, 870), "light")
		for _, size := range []fyne.Size{{Width: 1400, Height: 870}, {Width: 1100, Height: 670}} {
			w.win.Resize(size)
			w.showTab(app.PatternPage)
			img := w.win.Canvas().Capture()
			keepPicture(t, "pattern-page-"+name+"-"+app.FormatNumber(float64(size.Width), 0), func() image.Image { return img })
			if len(w.ed.Now().Fields) > 2 {
				continue // the list of them comes first
			}
			scroll := w.controls.Pages[app.PatternPage].Scroll
			at := fyne.CurrentApp().Driver().AbsolutePositionForObject
			foot := at(scroll).Y + scroll.Size().Height
			seen := 0
			see := func(what string, o fyne.CanvasObject) {
				seen++
				require.LessOrEqual(t, at(o).Y+o.Size().Height, foot, "%s: %s at %v", name, what, size)
			}
			w.controls.Positions(func(what string, o fyne.CanvasObject) {
				switch {
				case what == "fields:motif", what == "entry:rules.bridge_mm", what == "entry:rules.rim_mm",
					strings.HasPrefix(what, "entry:fields[") && (strings.HasSuffix(what, ".rows") || strings.HasSuffix(what, ".repeats") || strings.HasSuffix(what, ".pitch_mm") || strings.HasSuffix(what, ".stagger")):
					see(what, o)
				case strings.HasPrefix(what, "entry:rules."):
					require.Fail(t, "not folded", what)
				}
			})
			require.GreaterOrEqual(t, seen, 5, name)
		}
	}
}
