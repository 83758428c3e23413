package pages

import (
	"errors"
	"fmt"
	"image"
	"math"
	"reflect"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/export"
	"fretband/export/cut"
	"fretband/export/paint"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// cutSheetView shows how the parts will lie on the sheet of metal, while the numbers
// for it are typed, or says why they can't.
type cutSheetView struct {
	widget.BaseWidget
	kit    *kit.Kit
	layout cut.Layout
	tone   kit.Metal
	raster *canvas.Raster
	img    *image.RGBA
	fill   paint.Fill

	words *kit.Label
	box   *fyne.Container
	of    cutSheetOf
	asked int // layouts asked for; an older one that comes late is left
}

// cutSheetOf is what a layout was asked for: it is not asked for again while only a
// folder or a name is typed.
type cutSheetOf struct {
	scene   *app.Scene
	options export.Options
}

const cutSheetHigh = 84

func newCutSheetView(k *kit.Kit) *cutSheetView {
	v := &cutSheetView{kit: k, words: k.Label("", kit.Soft)}
	v.raster = canvas.NewRaster(v.render)
	v.ExtendBaseWidget(v)
	v.box = kit.Down(1, kit.Inset(0, 6, 0, 0, v.words), v)
	return v
}

// CreateRenderer implements fyne.Widget.
func (v *cutSheetView) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(v.raster)
}

// MinSize implements fyne.CanvasObject.
func (v *cutSheetView) MinSize() fyne.Size { return fyne.NewSize(100, cutSheetHigh) }

// ask lays the parts out beside the window's work and shows what came of it.
func (v *cutSheetView) ask(desk *Desk, x app.HandOver) {
	sc, of := desk.Ed.Scene, cutSheetOf{desk.Ed.Scene, x.Asked()}
	if sc == nil || of.scene == v.of.scene && reflect.DeepEqual(of.options, v.of.options) {
		return
	}
	v.asked++
	n := v.asked
	v.of, v.tone = of, kit.MetalOf(sc.Sheet.Design.Metal.Alloy)
	desk.Background(func() {
		l, err := cut.LayOut(sc.Sheet, sc.Report, of.options)
		desk.Post(func() {
			if n == v.asked {
				v.show(l, err)
			}
		})
	})
}

func (v *cutSheetView) show(l cut.Layout, err error) {
	v.layout = l
	var room *cut.RoomError
	switch {
	case errors.As(err, &room) && room.Fit == 0:
		v.words.Set("No room for a part.", kit.Warn)
	case errors.As(err, &room):
		v.words.Set(fmt.Sprintf("Room for %d of %d parts.", room.Fit, room.Asked), kit.Warn)
	case err != nil:
		v.words.Set("It can't be laid out so.", kit.Warn)
	default:
		v.words.Set(fmt.Sprintf("%s on %s x %s mm", many(len(l.Parts), "part", "parts"), app.FormatNumber(l.W, 1), app.FormatNumber(l.H, 1)), kit.Soft)
	}
	v.raster.Refresh()
}

func (v *cutSheetView) render(w, h int) image.Image {
	d := v.kit.Dress
	if v.img == nil || v.img.Rect.Dx() != w || v.img.Rect.Dy() != h {
		v.img = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	paint.Box(v.img, 0, 0, w, h, d.Panel)
	l := v.layout
	if len(l.Parts) == 0 || w < 4 || h < 4 {
		return v.img
	}
	scale := math.Min(float64(w)/l.W, float64(h)/l.H)
	paint.Box(v.img, 0, 0, int(math.Ceil(l.W*scale)), int(math.Ceil(l.H*scale)), d.Rule)
	paint.Box(v.img, 1, 1, int(math.Ceil(l.W*scale))-1, int(math.Ceil(l.H*scale))-1, d.Paper)
	v.fill.Reset(w, h)
	for _, part := range l.Parts {
		for i, p := range part.Flatten(0.2 / scale) {
			x, y := p.X*scale, (l.H-p.Y)*scale
			if i == 0 {
				v.fill.MoveTo(x, y)
			} else {
				v.fill.LineTo(x, y)
			}
		}
		v.fill.Close()
	}
	v.fill.Draw(v.img, v.tone.Face)
	return v.img
}
