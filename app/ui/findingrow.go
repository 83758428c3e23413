package ui

import (
	"image"
	"image/color"
	"slices"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern/check"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// findingRow is one finding: its shape and word, what was found and, where something
// is to be done or once it is chosen, why it matters and how to mend it, with buttons
// for what can be done at once.
type findingRow struct {
	widget.BaseWidget
	owner *findings
	index int
	f     check.Finding

	back, bar  *canvas.Rectangle
	sign       *canvas.Raster
	word       *canvas.Text
	value      *canvas.Text
	said       [3]*kit.Passage // what, why, how to mend it; or what and the reason to let it stand
	buttons    []*kit.Button
	buttonsFor string
	width      float32
	over       bool
	focused    bool
}

var (
	_ fyne.Tappable     = (*findingRow)(nil)
	_ fyne.Focusable    = (*findingRow)(nil)
	_ desktop.Hoverable = (*findingRow)(nil)
)

const (
	signSize    = 11
	findingLeft = 34
	findingEnd  = 14
	fixHeight   = 24
	fixGap      = 5
)

func newFindingRow(o *findings, i int) *findingRow {
	r := &findingRow{owner: o, index: i}
	r.back, r.bar = canvas.NewRectangle(color.Transparent), canvas.NewRectangle(color.Transparent)
	r.sign = canvas.NewRaster(func(w, h int) image.Image {
		d := o.kit.Dress
		c := d.Severity(r.f.Severity)
		if r.f.Accepted != "" {
			return drawAcceptedSign(r.f.Severity, min(w, h), c, d.Panel)
		}
		return drawSign(r.f.Severity, min(w, h), c)
	})
	r.word, r.value = canvas.NewText("", color.Black), canvas.NewText("", color.Black)
	r.word.TextSize, r.value.TextSize = 12, 12
	r.word.TextStyle.Bold = true
	r.value.Alignment = fyne.TextAlignTrailing
	for i := range r.said {
		r.said[i] = o.kit.Passage("", kit.Soft, 200)
	}
	r.ExtendBaseWidget(r)
	return r
}

// chosen reports whether the row is the one that is selected.
func (r *findingRow) chosen() bool { return r.index == r.owner.selected }

func (r *findingRow) show(f check.Finding, width float32) {
	r.f, r.width = f, width
	r.Refresh()
}

// tell lays out in words what the row says now.
func (r *findingRow) tell() {
	f, w := r.f, max(80, r.width-findingLeft-findingEnd)
	what, why, how := f.What, "", ""
	voice := kit.Plain
	switch {
	case f.Accepted != "":
		voice = kit.Soft
		how = "Let stand: " + f.Accepted
		if r.chosen() {
			why = f.Why
		}
	default:
		if r.chosen() {
			why = f.Why
		}
		if f.Severity > check.Note || r.chosen() {
			how = f.Mend
		}
	}
	if r.owner.stale(f) {
		voice = kit.Soft // the rest stays, so that nothing jumps
	}
	r.said[0].Set(what, voice, w)
	r.said[1].Set(why, kit.Soft, w)
	r.said[2].Set(how, kit.Soft, w)
	r.makeButtons()
}

// makeButtons makes a button for each thing that can be done at once.
func (r *findingRow) makeButtons() {
	f, o := r.f, r.owner
	type act struct {
		title, tip string
		do         func()
	}
	var acts []act
	switch {
	case f.Accepted != "":
		if r.chosen() {
			acts = append(acts, act{"No longer let it stand", "The finding is open again.", func() { o.onTakeUp(r.f) }})
		}
	default:
		if f.Open() || r.chosen() {
			for i, x := range f.Fixes {
				acts = append(acts, act{x.Title, x.Title + ": one step, which can be undone.", func() { o.onMend(r.f, r.f.Fixes[i]) }})
			}
		}
		if f.Open() && r.chosen() && f.Kind != check.KindPieces {
			acts = append(acts, act{"Let it stand\u2026", "Accept the finding, with a reason that goes with the files.", func() { o.onAccept(r.f) }})
		}
	}
	key := ""
	for _, a := range acts {
		key += a.title + "\n"
	}
	if key != r.buttonsFor {
		r.buttonsFor, r.buttons = key, nil
		for _, a := range acts {
			r.buttons = append(r.buttons, o.kit.Button(a.title, a.tip, a.do).Framed())
		}
	}
	for _, b := range r.buttons {
		b.SetOff(o.stale(f) || o.last) // they are of an older design
	}
}

// places lays the buttons in lines and returns how high they stand.
func (r *findingRow) place(top float32, put bool) float32 {
	if len(r.buttons) == 0 {
		return 0
	}
	room := max(80, r.width-findingLeft-findingEnd)
	x, y := float32(0), float32(4)
	for _, b := range r.buttons {
		w := min(room, b.MinSize().Width-10)
		if x > 0 && x+w > room {
			x, y = 0, y+fixHeight+fixGap
		}
		if put {
			b.Move(fyne.NewPos(findingLeft+x, top+y))
			b.Resize(fyne.NewSize(w, fixHeight))
		}
		x += w + fixGap
	}
	return y + fixHeight + 2
}

func (r *findingRow) height() float32 {
	h := float32(8) + 18 + 8
	for _, p := range r.said {
		if p.Text != "" {
			h += p.Height() + 1
		}
	}
	return h + r.place(0, false)
}

// Tapped implements fyne.Tappable.
func (r *findingRow) Tapped(*fyne.PointEvent) { r.owner.choose(r.index) }

// MouseIn implements desktop.Hoverable.
func (r *findingRow) MouseIn(*desktop.MouseEvent) { r.over = true; r.Refresh() }

// MouseMoved implements desktop.Hoverable.
func (r *findingRow) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (r *findingRow) MouseOut() { r.over = false; r.Refresh() }

// FocusGained implements fyne.Focusable.
func (r *findingRow) FocusGained() { r.focused = true; r.Refresh() }

// FocusLost implements fyne.Focusable.
func (r *findingRow) FocusLost() { r.focused = false; r.Refresh() }

// TypedRune implements fyne.Focusable.
func (r *findingRow) TypedRune(rune) {}

// TypedKey implements fyne.Focusable.
func (r *findingRow) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		r.Tapped(nil)
	case fyne.KeyEscape:
		r.owner.kit.Escape()
	}
}

// CreateRenderer implements fyne.Widget.
func (r *findingRow) CreateRenderer() fyne.WidgetRenderer {
	w := &findingRowRenderer{r}
	w.Refresh()
	return w
}

type findingRowRenderer struct{ r *findingRow }

func (w *findingRowRenderer) Destroy()           {}
func (w *findingRowRenderer) MinSize() fyne.Size { return fyne.NewSize(60, w.r.height()) }
func (w *findingRowRenderer) Objects() []fyne.CanvasObject {
	r := w.r
	os := []fyne.CanvasObject{r.back, r.bar, r.sign, r.word, r.value, r.said[0], r.said[1], r.said[2]}
	for _, b := range r.buttons {
		os = append(os, b)
	}
	return os
}

func (w *findingRowRenderer) Layout(s fyne.Size) {
	r := w.r
	r.back.Resize(s)
	r.bar.Resize(fyne.NewSize(3, s.Height))
	r.sign.Move(fyne.NewPos(14, 12))
	r.sign.Resize(fyne.NewSize(signSize, signSize))
	r.word.Move(fyne.NewPos(findingLeft, 8))
	r.word.Resize(fyne.NewSize(s.Width-findingLeft-90, 17))
	r.value.Move(fyne.NewPos(s.Width-14-110, 8))
	r.value.Resize(fyne.NewSize(110, 17))
	y := float32(8 + 18)
	for _, p := range r.said {
		if p.Text == "" {
			continue
		}
		p.Move(fyne.NewPos(findingLeft, y))
		p.Resize(fyne.NewSize(p.Width, p.Height()))
		y += p.Height() + 1
	}
	r.place(y, true)
}

func (w *findingRowRenderer) Refresh() {
	r, d := w.r, w.r.owner.kit.Dress
	r.tell()
	r.back.FillColor, r.bar.FillColor = color.Transparent, color.Transparent
	if r.over {
		r.back.FillColor = kit.Alpha(d.Ink, 14)
	}
	if r.chosen() {
		r.back.FillColor, r.bar.FillColor = kit.Alpha(d.Selected, 26), d.Selected
	}
	r.back.StrokeColor, r.back.StrokeWidth = color.Transparent, 0
	if r.focused {
		r.back.StrokeColor, r.back.StrokeWidth = d.Selected, 1.5
	}
	r.word.Text = severityWord(r.f.Severity) + "  " + r.f.Kind.Title
	r.word.Color = d.Severity(r.f.Severity)
	if r.f.Accepted != "" {
		r.word.Color = d.Soft
	}
	r.value.Text = ""
	if r.owner.stale(r.f) {
		r.value.Text = "checking..."
	} else if r.f.Unit != "" {
		places := 3
		if r.f.Value >= 2 {
			places = 2
		}
		r.value.Text = app.FormatNumber(r.f.Value, places) + " " + r.f.Unit
	}
	r.value.Color = d.Soft
	for _, p := range r.said {
		if p.Text == "" {
			p.Hide()
		} else {
			p.Show()
		}
		p.Refresh()
	}
	w.Layout(r.Size())
	for _, o := range []fyne.CanvasObject{r.back, r.bar, r.sign, r.word, r.value} {
		o.Refresh()
	}
	for _, b := range r.buttons {
		b.Refresh()
	}
}

// buttonTitled returns the button of that title, for the script that drives the window
// and for tests; nil if there is none.
func (r *findingRow) buttonTitled(title string) *kit.Button {
	i := slices.IndexFunc(r.buttons, func(b *kit.Button) bool { return b.Text == title })
	if i < 0 {
		return nil
	}
	return r.buttons[i]
}
