package blank

import (
	"image"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/export/picture"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
)

// Pane is the blank with, while stress is shown, a line over it: the case that is shown, the
// legend and in words at what load.
type Pane struct {
	View *View
	Root *fyne.Container

	Case   *kit.ChoiceBox
	Words  *kit.Label
	ed     *app.Editor
	kit    *kit.Kit
	line   *fyne.Container
	legend *canvas.Raster
}

// NewPane puts the blank and the line of its stress together.
func NewPane(k *kit.Kit, ed *app.Editor, doors Doors) *Pane {
	p := &Pane{View: New(k, ed, doors), ed: ed, kit: k, Case: k.ChoiceBox(), Words: k.Label("", kit.Plain)}
	p.Case.OnChoose = func(key string) {
		if (key == app.PushTool) != (ed.Tool == app.PushTool) {
			ed.TakeTool(app.PushTool)
		}
		if key != app.PushTool {
			ed.Stress.Choose(key)
		}
	}
	p.legend = canvas.NewRaster(p.drawLegend)
	p.legend.ScaleMode = canvas.ImageScalePixels
	kit.OnDress(k, p.legend, func(r *canvas.Raster, _ *kit.Dress) { r.Refresh() })
	caution := k.Label(picture.StressEstimate+".", kit.Caption).Teach("Stiffness within 2 %, the stress that 99 % of the metal stay under within 5 %, the greatest up to 20 % low; rolled on over its side, 99 % of the metal up to 9 % low: by comparison with another solver. The metal is less sure. " + picture.StressCaution)
	words := kit.Down(3, p.Words, caution)
	p.line = container.NewStack(k.Filled(kit.PanelOf), kit.Inset(12, 4, 12, 3,
		container.New(kit.Columns{Widths: []float32{262, legendWidth, 0}, Gap: 14, Height: legendHeight}, p.Case, kit.Sized(legendWidth, legendHeight, p.legend), words)))
	p.line.Hide()
	p.Root = container.NewBorder(p.line, nil, nil, nil, p.View)
	return p
}

// ShowStress brings the line and the blank up to what there is of stress.
func (p *Pane) ShowStress() {
	s := p.ed.Stress
	if s.Shown != p.line.Visible() {
		kit.Show(p.line, s.Shown)
		p.Root.Refresh()
	}
	if s.Shown {
		options, chosen, words := s.Options(), s.Chosen(), s.Words(p.View.sheet())
		if p.ed.Tool == app.PushTool {
			chosen, words = app.PushTool, "Click on the metal that you would push or pull."
		}
		p.Case.Offer(options, chosen)
		kit.Show(p.Case, len(options) > 0)
		p.Words.SetText(words)
		p.legend.Refresh()
	}
	p.View.Redraw()
}

func (p *Pane) drawLegend(w, h int) image.Image {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	if m := p.ed.Stress.Map; m != nil && p.legend.Size().Width > 0 {
		drawStressLegend(img, float64(w)/float64(p.legend.Size().Width), m, p.kit.Dress, p.kit.Faces)
	}
	return img
}
