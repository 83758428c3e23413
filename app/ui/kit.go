package ui

import (
	"image/color"
	"slices"
	"weak"

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

	// dressed are called when the dress changes, and with none only to ask whether what
	// they dress is still there. They are looked through when they have grown to dressedMost.
	dressed     []func(*dress) bool
	dressedMost int
}

// onDress has f called with o when the dress changes. It does not keep o: rows, lists and
// dialogs come and go as a person works. So f must not hold o by itself.
func onDress[T any](k *kit, o *T, f func(o *T, d *dress)) {
	if len(k.dressed) >= k.dressedMost {
		k.forget()
		k.dressedMost = 2*len(k.dressed) + 64
	}
	weakly := weak.Make(o)
	k.dressed = append(k.dressed, func(d *dress) bool {
		o := weakly.Value()
		if o != nil && d != nil {
			f(o, d)
		}
		return o != nil
	})
}

// forget drops what is gone.
func (k *kit) forget() {
	k.dressed = slices.DeleteFunc(k.dressed, func(f func(*dress) bool) bool { return !f(nil) })
}

// wear changes the dress.
func (k *kit) wear(d *dress) {
	k.forget()
	k.dress = d
	for _, f := range k.dressed {
		f(d)
	}
}

func (k *kit) worn() *dress { return k.dress }

// filled returns a rectangle in a colour of the dress.
func (k *kit) filled(of func(*dress) color.Color) *canvas.Rectangle {
	r := canvas.NewRectangle(of(k.dress))
	onDress(k, r, func(r *canvas.Rectangle, d *dress) { r.FillColor = of(d); r.Refresh() })
	return r
}

func lineOf(d *dress) color.Color   { return d.line }
func groundOf(d *dress) color.Color { return d.ground }
func panelOf(d *dress) color.Color  { return d.panel }

// framed puts the edge of an entry round an object.
func (k *kit) framed(o fyne.CanvasObject) fyne.CanvasObject {
	r := canvas.NewRectangle(color.Transparent)
	r.CornerRadius, r.StrokeWidth = 3, 1
	r.StrokeColor = k.dress.line
	onDress(k, r, func(r *canvas.Rectangle, d *dress) { r.StrokeColor = d.line; r.Refresh() })
	return container.NewStack(o, r)
}
