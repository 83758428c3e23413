package bent

import (
	"math"
	"slices"
	"strings"

	"fretband/pattern/view3d"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// look goes to a standard place to look from.
func (b *View) look(s view3d.Standard) {
	b.Camera, b.fitted = s.Camera, true
	b.sectionEye = b.Camera // what is cut away stands in the way of this view
	b.refit()
	b.looked()
}

func (b *View) Reset() { b.look(view3d.Views()[0]) }

func (b *View) looked() {
	if b.onLook != nil {
		b.onLook()
	}
	b.redraw()
}

// fit shows the whole band from where one looks.
func (b *View) fit() {
	b.fitted = true
	b.refit()
	b.redraw()
}

// nextView goes on to the next of the standard views.
func (b *View) nextView() {
	vs := view3d.Views()
	at := slices.IndexFunc(vs, func(s view3d.Standard) bool { return s.Yaw == b.Camera.Yaw && s.Pitch == b.Camera.Pitch })
	b.look(vs[(at+1)%len(vs)])
}

// Key follows a key that the window or the view was given, and reports whether it means
// something here.
func (b *View) Key(e *fyne.KeyEvent) bool {
	switch e.Name {
	case fyne.KeyV:
		b.nextView()
	case fyne.KeyX:
		b.setSection(b.sectionNo + 1)
	case fyne.KeyW:
		b.toggleWrist()
	case fyne.KeyG:
		b.fit()
	case fyne.KeyPageUp:
		b.moveSection(b.sectionAt + sectionStep)
	case fyne.KeyPageDown:
		b.moveSection(b.sectionAt - sectionStep)
	default:
		return false
	}
	return true
}

// setSection cuts the band open, at its middle, and looks at the cut squarely where
// it would not be seen otherwise.
func (b *View) setSection(section int) {
	b.sectionNo = section % (len(view3d.Sections()) + 1)
	if b.sectionNo > 0 && b.b.scene != nil {
		c := view3d.Sections()[b.sectionNo-1]
		b.sectionAt = b.middleOf(b.sectionNo)
		b.sectionEye = b.Camera
		for _, v := range view3d.Views() {
			if v.Name == c.View && !c.Seen(b.Camera) {
				b.look(v)
			}
		}
	}
	b.looked()
}

// middleOf returns where a cut goes through the middle of the band, mm.
func (b *View) middleOf(section int) float64 {
	if section == 0 || b.b.scene == nil {
		return 0
	}
	lo, hi := b.b.scene.Extent(view3d.Sections()[section-1].Normal)
	return math.Round(5*(lo+hi)) / 10
}

// sectionStep is how far a key moves the cut, mm.
const sectionStep = 0.5

func (b *View) moveSection(at float64) {
	if b.sectionNo == 0 || b.b.scene == nil {
		return
	}
	lo, hi := b.b.scene.Extent(view3d.Sections()[b.sectionNo-1].Normal)
	b.sectionAt = math.Round(10*math.Max(lo, math.Min(hi, at))) / 10
	b.looked()
}

// section returns the plane of the cut. What lay towards the eye when the cut
// was chosen is taken away, so that turning the band does not change it.
func (b *View) section() *view3d.Plane {
	if b.sectionNo == 0 {
		return nil
	}
	return view3d.Sections()[b.sectionNo-1].Plane(b.sectionAt, b.sectionEye)
}

func (b *View) toggleWrist() {
	b.wrist = !b.wrist
	b.looked()
}

func (b *View) turn(dx, dy float64) {
	b.Camera = b.Camera.Orbit(dx, dy)
	b.redraw()
}

// nearer comes nearer by a factor, to the middle of the picture.
func (b *View) nearer(by float64) {
	if b.b.scene == nil {
		return
	}
	b.fitted = false
	b.Camera = b.b.scene.Near(b.Camera, by, float64(b.w)/2, float64(b.h)/2, b.w, b.h)
	b.redraw()
}

// offer opens the menu of positions to look from.
func (b *View) offer(at fyne.Position) {
	items := b.Items()
	for i, on := range []bool{b.b.Plain, b.large, b.wrist} {
		items[len(items)-3+i].Checked = on
	}
	b.pop(at, items)
}

func (b *View) pop(at fyne.Position, items []*fyne.MenuItem) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(b); c != nil {
		b.tick(items)
		widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", items...), c, at)
	}
}

// Items are the lines of that menu, for the window's own as well.
func (b *View) Items() []*fyne.MenuItem {
	items := b.viewItems()
	items = append(items, fyne.NewMenuItemSeparator())
	items = append(items, b.sectionItems()...)
	return append(items, fyne.NewMenuItemSeparator(),
		fyne.NewMenuItem("Plain, before it is pierced (Z)", b.doors.Plain),
		fyne.NewMenuItem("In the large place (F8)", b.doors.Large),
		fyne.NewMenuItem("Show or hide the wrist or finger (W)", b.toggleWrist))
}

// tick marks the lines that say how the band is seen now.
func (b *View) tick(items []*fyne.MenuItem) {
	for _, i := range items {
		for _, s := range view3d.Views() {
			i.Checked = i.Checked || i.Label == s.Name && s.Yaw == b.Camera.Yaw && s.Pitch == b.Camera.Pitch
		}
		for k, c := range b.sectionItems() {
			i.Checked = i.Checked || i.Label == c.Label && k == b.sectionNo
		}
	}
}

func (b *View) viewItems() []*fyne.MenuItem {
	var items []*fyne.MenuItem
	for _, s := range view3d.Views() {
		items = append(items, fyne.NewMenuItem(s.Name, func() { b.look(s) }))
	}
	return items
}

func (b *View) sectionItems() []*fyne.MenuItem {
	items := []*fyne.MenuItem{fyne.NewMenuItem("Whole, not cut", func() { b.setSection(0) })}
	for i, c := range view3d.Sections() {
		items = append(items, fyne.NewMenuItem("Cut: "+strings.ToLower(c.Name[:1])+c.Name[1:], func() { b.setSection(i + 1) }))
	}
	return items
}
