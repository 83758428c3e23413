package pages

import (
	"net/url"
	"time"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"

	"fyne.io/fyne/v2"
)

// Desk is what the pages and dialogs need: the kit, the design, the settings, and a few doors
// of the window.
type Desk struct {
	Kit      *kit.Kit
	Ed       *app.Editor
	Settings *app.Settings

	// Background runs work elsewhere, Post back on the toolkit's goroutine.
	Background, Post func(func())
	// Later runs f on the toolkit's goroutine after d; nil in tests: never.
	Later func(d time.Duration, f func()) *time.Timer

	Opened       func()            // something has come onto the screen
	SaveSettings func()            // the settings have changed
	Refresh      func()            // the document is saved or is another
	Say          func(text string) // of the file, in the line at the foot
	Width        func() float32    // of the window
	OpenURL      func(*url.URL) error
	GoToEdit     func(i int) // looks at what an edit works on
	TrueSize     func()      // draws the blank as large as it is
	// Thumb is a small picture of a laid blank; of none it is empty.
	Thumb func(s *app.Scene, w, h float32) fyne.CanvasObject
	// Portrait bends a band, which takes a while, and returns what draws it small; nil if it
	// can't be bent.
	Portrait func(*pattern.Sheet) func(*kit.Picture)
}
