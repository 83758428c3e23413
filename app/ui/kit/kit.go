package kit

import (
	"fmt"
	"image/color"
	"slices"
	"weak"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
)

// Kit is what every widget of a window shares: its dress, its fonts and its tips.
type Kit struct {
	Dress *Dress
	Faces *Faces
	Tips  *Tips
	// Escape gives up what is in the foreground.
	Escape func()
	// Dialogs are there as soon as there is a window for them.
	Dialogs *Dialogs

	// dressed are called when the dress changes, and with none only to ask whether what
	// they dress is still there. They are looked through when they have grown to dressedMost.
	dressed     []func(*Dress) bool
	dressedMost int
}

// New makes a kit in the dress of that name.
func New(name string) *Kit {
	f, err := newFaces(theme.DefaultTextFont().Content())
	if err != nil {
		panic(fmt.Sprintf("the toolkit's own font: %v", err)) // it is built in
	}
	k := &Kit{Dress: DressNamed(name), Faces: f}
	k.Tips = newTips(k)
	return k
}

// OnDress has f called with o when the dress changes. It does not keep o: rows, lists and
// dialogs come and go as a person works. So f must not hold o by itself.
func OnDress[T any](k *Kit, o *T, f func(o *T, d *Dress)) {
	if len(k.dressed) >= k.dressedMost {
		k.forget()
		k.dressedMost = 2*len(k.dressed) + 64
	}
	weakly := weak.Make(o)
	k.dressed = append(k.dressed, func(d *Dress) bool {
		o := weakly.Value()
		if o != nil && d != nil {
			f(o, d)
		}
		return o != nil
	})
}

// forget drops what is gone.
func (k *Kit) forget() {
	k.dressed = slices.DeleteFunc(k.dressed, func(f func(*Dress) bool) bool { return !f(nil) })
}

// Wear changes the dress to that of a name.
func (k *Kit) Wear(name string) {
	d := DressNamed(name)
	k.forget()
	k.Dress = d
	for _, f := range k.dressed {
		f(d)
	}
}

// Filled returns a rectangle in a colour of the dress.
func (k *Kit) Filled(of func(*Dress) color.Color) *canvas.Rectangle {
	r := canvas.NewRectangle(of(k.Dress))
	OnDress(k, r, func(r *canvas.Rectangle, d *Dress) { r.FillColor = of(d); r.Refresh() })
	return r
}

// Hairline returns a thin line between two parts.
func (k *Kit) Hairline() *canvas.Rectangle {
	r := k.Filled(LineOf)
	r.SetMinSize(fyne.NewSize(1, 1))
	return r
}

// Show shows an object or hides it.
func Show(o fyne.CanvasObject, on bool) {
	if on {
		o.Show()
	} else {
		o.Hide()
	}
}

func LineOf(d *Dress) color.Color   { return d.Line }
func GroundOf(d *Dress) color.Color { return d.ground }
func PaperOf(d *Dress) color.Color  { return d.Paper }
func PanelOf(d *Dress) color.Color  { return d.Panel }

// Framed puts the edge of an entry round an object.
func (k *Kit) Framed(o fyne.CanvasObject) fyne.CanvasObject {
	r := canvas.NewRectangle(color.Transparent)
	r.CornerRadius, r.StrokeWidth = 3, 1
	r.StrokeColor = k.Dress.Line
	OnDress(k, r, func(r *canvas.Rectangle, d *Dress) { r.StrokeColor = d.Line; r.Refresh() })
	return container.NewStack(o, r)
}

// Gap is an empty space of that width.
func (k *Kit) Gap(w float32) fyne.CanvasObject {
	r := canvas.NewRectangle(nil)
	r.FillColor = Alpha(k.Dress.Panel, 0)
	r.SetMinSize(fyne.NewSize(w, 1))
	return r
}
