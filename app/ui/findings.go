package ui

import (
	"fmt"
	"image"
	"image/color"

	"fretband/app"
	"fretband/pattern/check"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// findings lists what a person should know, worst first. A click on one goes to
// its place.
type findings struct {
	kit    *kit
	root   *fyne.Container
	head   *label
	list   *findingList
	scroll *container.Scroll

	found    []check.Finding
	deep     []check.Finding // the last that were found by check.Deepen
	waiting  bool            // what is found more slowly is still to come
	last     bool            // they are of the last design that could be laid, not of this one
	selected int
	onSelect func(i int, f check.Finding)
}

// mostFindings is how many are listed; more than this nobody reads.
const mostFindings = 60

func newFindings(k *kit) *findings {
	f := &findings{kit: k, selected: -1}
	f.head = k.label("FINDINGS", headVoice)
	f.list = &findingList{owner: f}
	f.list.ExtendBaseWidget(f.list)
	f.scroll = container.NewVScroll(f.list)
	f.root = container.NewBorder(container.New(inset{14, 10, 14, 4}, f.head), nil, nil, nil, f.scroll)
	k.onDress(func(*dress) { f.list.Refresh() })
	return f
}

// show lists what a report says. What was found more slowly before stays in sight,
// marked, until it has been looked for again.
func (f *findings) show(r *check.Report) {
	found := r.Findings
	if r.Deep != nil {
		f.deep = nil
		for _, x := range found {
			if x.Deep {
				f.deep = append(f.deep, x)
			}
		}
	} else {
		found = check.InOrder(found, f.deep)
	}
	keep := -1
	if f.selected >= 0 && f.selected < len(f.found) {
		was := f.found[f.selected].Check
		for i, n := range found {
			if n.Check == was {
				keep = i
				break
			}
		}
	}
	f.selected = keep
	f.found = found
	f.last = false
	f.tellHead()
	f.list.fill()
}

// checking says whether something is still being looked for.
func (f *findings) checking(on bool) {
	if f.waiting != on {
		f.waiting = on
		f.tellHead()
		f.list.Refresh()
	}
}

// ofLast says that the findings are those of the last design that could be laid, and
// whether all of that have been looked for.
func (f *findings) ofLast(all bool) {
	f.last, f.waiting = true, !all
	f.tellHead()
	f.list.Refresh()
}

// clearAll takes all findings away.
func (f *findings) clearAll() {
	f.deep, f.waiting = nil, false
	f.show(&check.Report{})
}

// stale reports whether a finding is one of an older design.
func (f *findings) stale(x check.Finding) bool { return x.Deep && f.waiting }

func (f *findings) tellHead() {
	var n [3]int
	for _, x := range f.found {
		if !f.stale(x) {
			n[x.Severity]++
		}
	}
	head := "no breach"
	if n[check.Breach] > 0 {
		head = many(n[check.Breach], "breach", "breaches")
	}
	if n[check.Caution] > 0 {
		head += ", " + many(n[check.Caution], "caution", "cautions")
	}
	if n[check.Note] > 0 {
		head += ", " + many(n[check.Note], "note", "notes")
	}
	switch {
	case f.last:
		head = "of the last design that could be laid: " + head
	case f.waiting:
		head = "checking...  so far " + head
	}
	f.head.setText("FINDINGS  " + head)
}

func many(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}

// relay lays the list out anew: a row that is chosen may be higher.
func (f *findings) relay() {
	f.list.Refresh()
	f.scroll.Refresh()
	f.list.Refresh()
}

// clear lets go of the finding that is chosen.
func (f *findings) clear() {
	if f.selected >= 0 {
		f.selected = -1
		f.relay()
	}
}

// choose selects finding i as if it were clicked.
func (f *findings) choose(i int) {
	if i < 0 || i >= len(f.found) || i >= mostFindings || f.stale(f.found[i]) {
		return
	}
	f.selected = i
	f.relay()
	r := f.list.rows[i]
	top, bottom := r.Position().Y, r.Position().Y+r.Size().Height
	if top < f.scroll.Offset.Y {
		f.scroll.Offset.Y = top
		f.scroll.Refresh()
	} else if bottom > f.scroll.Offset.Y+f.scroll.Size().Height {
		f.scroll.Offset.Y = bottom - f.scroll.Size().Height
		f.scroll.Refresh()
	}
	if f.onSelect != nil {
		f.onSelect(i, f.found[i])
	}
}

// next selects the finding after (or before) the selected one that has a place.
func (f *findings) next(step int) {
	n := min(len(f.found), mostFindings)
	for k, i := 0, f.selected; k < n; k++ {
		i += step
		if i < 0 {
			i = n - 1
		}
		if i >= n {
			i = 0
		}
		if len(f.found[i].At) > 0 && !f.stale(f.found[i]) {
			f.choose(i)
			return
		}
	}
}

// findingList stacks the rows; it knows its width before its height.
type findingList struct {
	widget.BaseWidget
	owner *findings
	rows  []*findingRow
	width float32
}

func (l *findingList) fill() {
	o := l.owner
	n := min(len(o.found), mostFindings)
	for len(l.rows) < n {
		l.rows = append(l.rows, newFindingRow(o, len(l.rows)))
	}
	l.rows = l.rows[:n]
	for i, r := range l.rows {
		r.show(o.found[i], l.width)
	}
	l.Refresh()
	o.scroll.Refresh()
}

// CreateRenderer implements fyne.Widget.
func (l *findingList) CreateRenderer() fyne.WidgetRenderer { return &findingListRenderer{l} }

type findingListRenderer struct{ l *findingList }

func (r *findingListRenderer) Destroy() {}
func (r *findingListRenderer) Objects() []fyne.CanvasObject {
	os := make([]fyne.CanvasObject, len(r.l.rows))
	for i, w := range r.l.rows {
		os[i] = w
	}
	return os
}

func (r *findingListRenderer) MinSize() fyne.Size {
	var h float32
	for _, w := range r.l.rows {
		h += w.height()
	}
	return fyne.NewSize(60, h+6)
}

func (r *findingListRenderer) Layout(s fyne.Size) {
	if s.Width != r.l.width {
		r.l.width = s.Width
		for i, w := range r.l.rows {
			w.show(r.l.owner.found[i], s.Width)
		}
		// The height may be another now.
		if h := r.MinSize().Height; h > s.Height {
			r.l.Resize(fyne.NewSize(s.Width, h))
			return
		}
	}
	y := float32(0)
	for _, w := range r.l.rows {
		h := w.height()
		w.Move(fyne.NewPos(0, y))
		w.Resize(fyne.NewSize(s.Width, h))
		y += h
	}
}

func (r *findingListRenderer) Refresh() {
	r.Layout(r.l.Size())
	for _, w := range r.l.rows {
		w.Refresh()
	}
}

// findingRow is one finding: its shape and word, what was found, what to do.
type findingRow struct {
	widget.BaseWidget
	owner *findings
	index int
	f     check.Finding

	back, bar  *canvas.Rectangle
	sign       *canvas.Raster
	word       *canvas.Text
	value      *canvas.Text
	what, mend *passage
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
)

func newFindingRow(o *findings, i int) *findingRow {
	r := &findingRow{owner: o, index: i}
	r.back, r.bar = canvas.NewRectangle(color.Transparent), canvas.NewRectangle(color.Transparent)
	r.sign = canvas.NewRaster(func(w, h int) image.Image {
		return drawSign(r.f.Severity, min(w, h), severityColour(o.kit.dress, r.f.Severity))
	})
	r.word, r.value = canvas.NewText("", color.Black), canvas.NewText("", color.Black)
	r.word.TextSize, r.value.TextSize = 12, 12
	r.word.TextStyle.Bold = true
	r.value.Alignment = fyne.TextAlignTrailing
	r.what, r.mend = o.kit.passage("", plainVoice, 200), o.kit.passage("", softVoice, 200)
	r.ExtendBaseWidget(r)
	return r
}

func (r *findingRow) show(f check.Finding, width float32) {
	r.f = f
	w := max(80, width-findingLeft-14)
	r.what.set(f.What, plainVoice, w)
	r.mend.set(f.Mend, softVoice, w)
	r.Refresh()
}

func (r *findingRow) height() float32 {
	h := float32(8) + 18 + r.what.height() + 8
	if r.tellsMend() {
		h += r.mend.height() + 1
	}
	return h
}

// tellsMend reports whether what to do is shown: always where something is to be
// done, and for a note once it is chosen.
func (r *findingRow) tellsMend() bool {
	return r.f.Mend != "" && (r.f.Severity > check.Note || r.index == r.owner.selected)
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
		r.owner.kit.escape()
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
	return []fyne.CanvasObject{r.back, r.bar, r.sign, r.word, r.value, r.what, r.mend}
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
	r.what.Move(fyne.NewPos(findingLeft, y))
	r.what.Resize(fyne.NewSize(r.what.width, r.what.height()))
	y += r.what.height() + 1
	r.mend.Move(fyne.NewPos(findingLeft, y))
	r.mend.Resize(fyne.NewSize(r.mend.width, r.mend.height()))
}

func (w *findingRowRenderer) Refresh() {
	r, d := w.r, w.r.owner.kit.dress
	r.back.FillColor, r.bar.FillColor = color.Transparent, color.Transparent
	if r.over {
		r.back.FillColor = alpha(d.ink, 14)
	}
	if r.index == r.owner.selected {
		r.back.FillColor, r.bar.FillColor = alpha(d.selected, 26), d.selected
	}
	r.back.StrokeColor, r.back.StrokeWidth = color.Transparent, 0
	if r.focused {
		r.back.StrokeColor, r.back.StrokeWidth = d.selected, 1.5
	}
	r.word.Text = severityWord(r.f.Severity) + "  " + r.f.Check
	r.word.Color = severityColour(d, r.f.Severity)
	r.value.Text = ""
	said := plainVoice
	if r.owner.stale(r.f) {
		said = softVoice
	}
	r.what.set(r.what.text, said, r.what.width)
	if r.owner.stale(r.f) {
		r.value.Text = "checking..."
	} else if r.f.Unit != "" {
		r.value.Text = app.FormatNumber(r.f.Value, 3) + " " + r.f.Unit
	}
	r.value.Color = d.soft
	if r.tellsMend() {
		r.mend.Show()
	} else {
		r.mend.Hide()
	}
	r.what.Refresh()
	r.mend.Refresh()
	w.Layout(r.Size())
	for _, o := range []fyne.CanvasObject{r.back, r.bar, r.sign, r.word, r.value} {
		o.Refresh()
	}
}
