package pages

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"slices"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/export"
	"fretband/export/cut"
	"fretband/export/paint"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
)

// cutSheetView shows how the parts will lie on the sheet of metal, while the numbers
// for it are typed, or says why they can't.
type cutSheetView struct {
	layout  cut.Layout
	tone    kit.Metal
	picture *kit.Picture

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
	v := &cutSheetView{words: k.Label("", kit.Soft)}
	v.picture = k.Picture(v.draw)
	v.picture.SetMinSize(fyne.NewSize(100, cutSheetHigh))
	v.box = kit.Down(1, kit.Inset(0, 6, 0, 0, v.words), v.picture.Raster)
	return v
}

// ask lays the parts out beside the window's work and shows what came of it.
func (v *cutSheetView) ask(desk *Desk, x app.HandOver) {
	sc, of := desk.Ed.Scene, cutSheetOf{desk.Ed.Scene, x.Asked()}
	of.options.For = x.For // whoever cuts from tube has no sheet
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
	v.picture.Refresh()
}

func (v *cutSheetView) draw(p *kit.Picture) {
	d, l := p.Dress, v.layout
	p.Ground(d.Panel)
	if len(l.Parts) == 0 || p.W < 4 || p.H < 4 {
		return
	}
	scale := math.Min(p.W/l.W, p.H/l.H)
	w, h := int(math.Ceil(l.W*scale)), int(math.Ceil(l.H*scale))
	paint.Box(p.Img, 0, 0, w, h, d.Rule)
	paint.Box(p.Img, 1, 1, w-1, h-1, d.Paper)
	for _, part := range slices.Concat(l.Parts, l.Openings) {
		p.Loop(part.Flatten(0.2/scale), func(q plane.Point) (x, y float64) { return q.X * scale, (l.H - q.Y) * scale })
	}
	p.Draw(v.tone.Face)
}
