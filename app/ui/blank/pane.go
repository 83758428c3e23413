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
	Words  *kit.Passage
	note   *kit.Passage // that it is an estimate
	ed     *app.Editor
	kit    *kit.Kit
	back   fyne.CanvasObject
	line   *fyne.Container
	legend *canvas.Raster
}

// NewPane puts the blank and the line of its stress together.
func NewPane(k *kit.Kit, ed *app.Editor, doors Doors) *Pane {
	p := &Pane{View: New(k, ed, doors), ed: ed, kit: k, Case: k.ChoiceBox(), Words: k.Passage("", kit.Plain, 0)}
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
	p.note = k.Passage(picture.StressEstimate+".", kit.Caption, 0).Teach("Stiffness within 2 %, the stress that 99 % of the metal stay under within 5 %, the greatest up to 20 % low; rolled on over its side, 99 % of the metal up to 9 % low: by comparison with another solver. The metal is less sure. " + picture.StressCaution)
	p.back = k.Filled(kit.PanelOf)
	p.line = container.NewWithoutLayout(p.back, p.Case, p.legend, p.Words, p.note)
	p.line.Hide()
	p.Root = container.New(p, p.line, p.View)
	return p
}

// MinSize implements fyne.Layout.
func (p *Pane) MinSize([]fyne.CanvasObject) fyne.Size { return p.View.MinSize() }

// Layout implements fyne.Layout: the line of the stress has one row, or several where the
// pane is narrow, and the blank what is left.
func (p *Pane) Layout(_ []fyne.CanvasObject, s fyne.Size) {
	y := float32(0)
	if p.line.Visible() {
		y = p.layLine(s.Width)
		p.line.Resize(fyne.NewSize(s.Width, y))
		p.back.Resize(p.line.Size())
	}
	p.View.Move(fyne.NewPos(0, y))
	p.View.Resize(fyne.NewSize(s.Width, max(0, s.Height-y)))
}

// layLine lays the line of the stress out at a width and returns how high it is.
func (p *Pane) layLine(wide float32) float32 {
	const (
		caseWidth = 262
		wordsMin  = 220
		edge, gap = 12, 14
		top       = 5
	)
	room := wide - 2*edge
	put := func(o fyne.CanvasObject, x, y, w, h float32) {
		o.Move(fyne.NewPos(edge+x, y))
		o.Resize(fyne.NewSize(w, h))
	}
	// words lays what is said one under the other and returns where it ends.
	words := func(x, y, w float32) float32 {
		for _, t := range []*kit.Passage{p.Words, p.note} {
			t.Set(t.Text, t.Voice, w)
			put(t, x, y, w, t.Height())
			y += t.Height() + 1
		}
		return y
	}
	boxHigh := p.Case.MinSize().Height
	switch beside := room - caseWidth - gap; {
	case beside >= legendWidth+gap+wordsMin:
		put(p.Case, 0, top+(legendHeight-boxHigh)/2, caseWidth, boxHigh)
		put(p.legend, caseWidth+gap, top, legendWidth, legendHeight)
		return max(words(caseWidth+legendWidth+2*gap, top, beside-legendWidth-gap), top+legendHeight) + 3
	case beside >= wordsMin:
		put(p.Case, 0, top, caseWidth, boxHigh)
		y := max(words(caseWidth+gap, top, beside), top+boxHigh) + 3
		put(p.legend, 0, y, min(room, legendWidth), legendHeight)
		return y + legendHeight + 3
	default:
		put(p.Case, 0, top, min(room, caseWidth), boxHigh)
		y := words(0, top+boxHigh+3, room) + 2
		put(p.legend, 0, y, min(room, legendWidth), legendHeight)
		return y + legendHeight + 3
	}
}

// ShowStress brings the line and the blank up to what there is of stress.
func (p *Pane) ShowStress() {
	s := p.ed.Stress
	was := p.line.Visible()
	kit.Show(p.line, s.Shown)
	if s.Shown {
		options, chosen, words := s.Options(), s.Chosen(), s.Words(p.View.sheet())
		if p.ed.Tool == app.PushTool {
			chosen, words = app.PushTool, "Click on the metal that you would push or pull."
		}
		p.Case.Offer(options, chosen)
		kit.Show(p.Case, len(options) > 0)
		p.Words.Set(words, kit.Plain, p.Words.Width)
		p.legend.Refresh()
	}
	if s.Shown || was {
		p.Root.Refresh() // the words may need another line
	}
	p.View.Redraw()
}

func (p *Pane) drawLegend(w, h int) image.Image {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	if m := p.ed.Stress.Map; m != nil && p.legend.Size().Width > 0 {
		drawStressLegend(img, p.legend.Size().Width, float64(w)/float64(p.legend.Size().Width), m, p.kit.Dress, p.kit.Faces)
	}
	return img
}
