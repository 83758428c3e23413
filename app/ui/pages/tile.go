package pages

import (
	"image/color"

	"fretband/app/ui/kit"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// tile is a picture with its name under it, one of several to choose from.
type tile struct {
	kit.Press
	chosen bool
	move   func(dx, dy int) // to a tile beside it; nil for none

	picture *canvas.Raster
	wide    float32
	high    float32 // of the picture
	frame   *canvas.Rectangle
	name    *canvas.Text
}

func newTile(k *kit.Kit, picture *canvas.Raster, wide, high float32, title, tip string, tap func()) *tile {
	t := &tile{picture: picture, wide: wide, high: high, frame: canvas.NewRectangle(color.Transparent), name: canvas.NewText(title, color.Black)}
	t.frame.CornerRadius = 3
	t.name.Alignment = fyne.TextAlignCenter
	t.Begin(k, t, tip, tap)
	return t
}

// choose marks the tile, or no longer.
func (t *tile) choose(on bool) {
	if t.chosen != on {
		t.chosen = on
		t.Refresh()
	}
}

// TypedKey implements fyne.Focusable.
func (t *tile) TypedKey(e *fyne.KeyEvent) {
	by := map[fyne.KeyName][2]int{fyne.KeyLeft: {-1, 0}, fyne.KeyRight: {1, 0}, fyne.KeyUp: {0, -1}, fyne.KeyDown: {0, 1}}
	if d, ok := by[e.Name]; ok && t.move != nil {
		t.move(d[0], d[1])
		return
	}
	t.Press.TypedKey(e)
}

// CreateRenderer implements fyne.Widget.
func (t *tile) CreateRenderer() fyne.WidgetRenderer { return kit.Render(t) }

// Parts implements kit.Built.
func (t *tile) Parts() []fyne.CanvasObject {
	return []fyne.CanvasObject{t.frame, t.picture, t.name}
}

// Least implements kit.Built.
func (t *tile) Least() fyne.Size { return fyne.NewSize(t.wide, t.high+24) }

// Lay implements kit.Built.
func (t *tile) Lay(s fyne.Size) {
	t.frame.Resize(s)
	t.picture.Move(fyne.NewPos(4, 4))
	t.picture.Resize(fyne.NewSize(s.Width-8, t.high-4))
	t.name.Move(fyne.NewPos(0, t.high+2))
	t.name.Resize(fyne.NewSize(s.Width, 18))
}

// Paint implements kit.Built.
func (t *tile) Paint() {
	d := t.Dress()
	t.name.TextSize, t.name.Color, t.name.TextStyle.Bold = 12, d.Ink, t.chosen
	t.frame.FillColor, t.frame.StrokeColor, t.frame.StrokeWidth = color.Transparent, color.Transparent, 0
	if t.chosen {
		t.frame.StrokeColor, t.frame.StrokeWidth, t.name.Color = d.Selected, 2, d.Selected
	}
	if t.Over {
		t.frame.FillColor = kit.Over(nil, kit.Alpha(d.Ink, 20), d.Panel)
	}
	if t.Focused {
		t.frame.FillColor = kit.Over(nil, kit.Alpha(d.Selected, 50), d.Panel)
	}
}
