package bent

import (
	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern/view3d"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// Pane is the bent band with a line of buttons over it, and under that,
// while it is cut open, where the cut is.
type Pane struct {
	View    *View
	Root    *fyne.Container
	sides   *kit.Button
	section *kit.Button
	wrist   *kit.Button
	fit     *kit.Button
	plain   *kit.Button
	load    *kit.Button
	large   *kit.Button
	Drawn   *kit.Label // what is drawn besides the band as it is

	sectionLine *fyne.Container
	slide       *kit.Slider
	at          *kit.Label
}

func New(k *kit.Kit, doors Doors) *Pane {
	v := newView(k, doors)
	p := &Pane{View: v}
	under := func(b *kit.Button) fyne.Position {
		return fyne.CurrentApp().Driver().AbsolutePositionForObject(b).AddXY(0, b.Size().Height)
	}
	p.sides = k.Button("View", "Sides to look from: front, back, left, right, above, below. V goes on to the next.", func() { v.pop(under(p.sides), v.viewItems()) })
	p.section = k.Button("Cut", "Cut the band open, to see how thick it stands. X goes on to the next cut; Page Up and Page Down move it.", func() { v.pop(under(p.section), v.sectionItems()) })
	p.wrist = k.Button("Wrist", "Show a wrist, or in a ring a finger, inside the band. W", v.toggleWrist)
	p.fit = k.Button("Fit", "The whole band in sight, from where you look. G", v.fit)
	p.load = k.Button("Under load", "Draw the band as it bends under the load that is chosen over the blank: so many times as far as the line here says. Thin lines are its edges without the load. J", doors.Load)
	p.plain = k.Button("Plain", "The band before it is pierced, to compare: once more, and it is pierced again. Z", doors.Plain)
	p.large = k.Button("Large", "The bent band in the large place and the blank in the small one, or back. F8", doors.Large)
	p.Drawn = k.Label("", kit.Caption)
	for _, b := range []*kit.Button{p.section, p.wrist, p.plain, p.load, p.large} {
		b.Tab = true // a line under it says that it is on
	}
	p.slide = k.Slider(-1, 1)
	p.slide.OnMove = v.moveSection
	p.slide.OnStep = func(steps float64) { v.moveSection(v.sectionAt + steps*sectionStep) }
	p.at = k.Label("", kit.Soft).Right()
	p.sectionLine = container.New(kit.Columns{Widths: []float32{0, 62}, Gap: 6, Height: 24}, p.slide, p.at)
	p.Root = container.New(overView{}, k.Filled(kit.PaperOf), v,
		container.New(kit.Flow{}, p.buttons()...), kit.Inset(8, 0, 0, 0, p.Drawn), p.sectionLine)
	p.ShowLoad(false, false)
	v.onLook = p.show
	p.show()
	return p
}

// overView lays the buttons in as many rows as they need, the view below them, and what is
// said over its upper end.
type overView struct{}

// MinSize implements fyne.Layout: the view gives the size.
func (overView) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.Size{} }

// Layout implements fyne.Layout.
func (overView) Layout(objs []fyne.CanvasObject, s fyne.Size) {
	wide := s.Width - 16
	put := func(o fyne.CanvasObject, x, y, w, h float32) {
		o.Move(fyne.NewPos(x, y))
		o.Resize(fyne.NewSize(w, max(0, h)))
	}
	back, view, buttons := objs[0], objs[1], objs[2].(*fyne.Container)
	put(back, 0, 0, s.Width, s.Height)
	h := buttons.Layout.(kit.Flow).Height(buttons.Objects, wide)
	put(buttons, 6, 4, wide, h)
	y := 4 + h
	put(view, 0, y, s.Width, s.Height-y)
	for _, o := range objs[3:] {
		if o.Visible() {
			put(o, 6, y, wide, o.MinSize().Height)
			y += o.Size().Height
		}
	}
}

func (p *Pane) all() []*kit.Button {
	return []*kit.Button{p.sides, p.section, p.wrist, p.fit, p.plain, p.large, p.load}
}

func (p *Pane) buttons() (objs []fyne.CanvasObject) {
	for _, b := range p.all() {
		objs = append(objs, b)
	}
	return objs
}

// show brings the buttons up to the view.
func (p *Pane) show() {
	v := p.View
	p.wrist.Choose(v.wrist)
	p.section.Choose(v.sectionNo > 0)
	word := "Wrist"
	if v.b.finger {
		word = "Finger"
	}
	p.wrist.SetText(word)
	p.plain.Choose(v.b.Plain)
	p.Drawn.SetText(v.drawn())
	kit.Show(p.Drawn, p.Drawn.Text != "")
	if v.sectionNo == 0 || v.b.scene == nil {
		p.sectionLine.Hide()
		return
	}
	p.sectionLine.Show()
	p.slide.Span(v.b.scene.Extent(view3d.Sections()[v.sectionNo-1].Normal))
	p.slide.Set(v.sectionAt)
	p.at.SetText(app.FormatNumber(v.sectionAt, 1) + " mm")
	p.Root.Refresh()
}

// drawn says what is drawn besides the band as it is.
func (b *View) drawn() string {
	switch l := b.b.Load; {
	case b.b.Plain:
		return "Plain, before it is pierced"
	case l == nil:
		return ""
	case b.sectionNo > 0: // the lines are of the whole band
		return l.Drawn()
	default:
		return l.Drawn() + "; thin lines: without load"
	}
}

// ShowLarge says whether the view has the large place of the window.
func (p *Pane) ShowLarge(on bool) {
	p.View.large = on
	p.large.Choose(on)
}

// ShowLoad says whether the band can be drawn under a load, and whether it is wanted so.
func (p *Pane) ShowLoad(offered, on bool) {
	p.load.Choose(on)
	if offered == p.load.Visible() {
		return
	}
	if offered {
		p.load.Show()
	} else {
		p.load.Hide()
	}
	p.Root.Refresh()
}

// Positions says where the pane's parts are, for the script that drives the window.
func (p *Pane) Positions(tell func(name string, o fyne.CanvasObject)) {
	tell("bent", p.View)
	for _, b := range p.all() {
		tell("bent:"+b.Text, b)
	}
}
