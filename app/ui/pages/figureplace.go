package pages

import (
	"image/color"

	"fretband/app/ui/kit"
	"fretband/pattern/check"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// placed is a figure of places on the blank: a click marks them.
type placed struct {
	kit.Press
	inner fyne.CanvasObject
	back  *canvas.Rectangle
	of    func(*check.Report) []plane.Point
}

func newPlaced(f *Figures, inner fyne.CanvasObject, of func(*check.Report) []plane.Point) *placed {
	p := &placed{inner: inner, back: canvas.NewRectangle(color.Transparent), of: of}
	p.Begin(f.kit, p, "", func() {
		if f.OnChoose != nil && f.shown != nil {
			f.OnChoose(p.of(f.shown))
			f.chosen = p // after what was marked before is let go
		}
	})
	return p
}

// CreateRenderer implements fyne.Widget.
func (p *placed) CreateRenderer() fyne.WidgetRenderer { return kit.Render(p) }

// Parts implements kit.Built.
func (p *placed) Parts() []fyne.CanvasObject { return []fyne.CanvasObject{p.back, p.inner} }

// Least implements kit.Built.
func (p *placed) Least() fyne.Size { return p.inner.MinSize() }

// Lay implements kit.Built.
func (p *placed) Lay(s fyne.Size) {
	p.back.Resize(s)
	p.inner.Resize(s)
}

// Paint implements kit.Built.
func (p *placed) Paint() {
	p.back.FillColor = color.Transparent
	if p.Over || p.Focused {
		p.back.FillColor = kit.Alpha(p.Dress().Ink, 14)
	}
}

// Forget lets go of the figure whose places are marked.
func (f *Figures) Forget() { f.chosen = nil }

// bridgeEnds are the places of bridges.
func bridgeEnds(bs []check.Bridge) []plane.Point {
	var at []plane.Point
	for _, b := range bs {
		at = append(at, b.A, b.B)
	}
	return at
}
