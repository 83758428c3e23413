package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
)

// kit is what every widget of a window shares: its dress, its fonts and its tips.
type kit struct {
	dress *dress
	faces *faces
	tips  *tips
	// escape gives up what is in the foreground.
	escape func()

	dressed []func(*dress)
}

// onDress has f called when the dress changes.
func (k *kit) onDress(f func(*dress)) { k.dressed = append(k.dressed, f) }

// wear changes the dress.
func (k *kit) wear(d *dress) {
	k.dress = d
	for _, f := range k.dressed {
		f(d)
	}
}

func (k *kit) worn() *dress { return k.dress }

// framed puts the edge of an entry round an object.
func (k *kit) framed(o fyne.CanvasObject) fyne.CanvasObject {
	r := canvas.NewRectangle(color.Transparent)
	r.CornerRadius, r.StrokeWidth = 3, 1
	dress := func(d *dress) { r.StrokeColor = d.line; r.Refresh() }
	dress(k.dress)
	k.onDress(dress)
	return container.NewStack(o, r)
}
