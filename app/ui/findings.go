package ui

import (
	"fmt"
	"math"

	"fretband/app/ui/kit"
	"fretband/pattern/check"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// findings lists what a person should know, worst first. A click on one goes to
// its place.
type findings struct {
	kit    *kit.Kit
	root   *fyne.Container
	head   *kit.Label
	list   *findingList
	scroll *container.Scroll

	found    []check.Finding
	deep     []check.Finding // the last that were found by check.Deepen
	waiting  bool            // what is found more slowly is still to come
	last     bool            // they are of the last design that could be laid, not of this one
	selected int
	onSelect func(i int, f check.Finding)
	// onMark is told whose places are to be marked, without going there: of the
	// finding that is still chosen in a new report, nil for none.
	onMark func(f *check.Finding)
	// onMend is called for a way of mending, onAccept and onTakeUp for a finding that
	// is to be let stand or no longer.
	onMend             func(check.Finding, check.Fix)
	onAccept, onTakeUp func(check.Finding)
}

// mostFindings is how many are listed; more than this nobody reads.
const mostFindings = 60

func newFindings(k *kit.Kit) *findings {
	f := &findings{kit: k, selected: -1}
	f.head = k.Label("FINDINGS", kit.Head)
	f.list = &findingList{owner: f}
	f.list.ExtendBaseWidget(f.list)
	f.scroll = container.NewVScroll(f.list)
	f.root = container.NewBorder(kit.Inset(14, 10, 14, 4, f.head), nil, nil, nil, f.scroll)
	kit.OnDress(k, f, func(f *findings, _ *kit.Dress) { f.list.Refresh() })
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
		keep = sameFinding(f.found[f.selected], found)
	}
	chosen := f.selected >= 0
	f.selected = keep
	f.found = found
	f.last = false
	f.tellHead()
	f.list.fill()
	if chosen {
		f.remark()
	}
}

// remark has the places of the chosen finding marked, or none.
func (f *findings) remark() {
	if f.onMark == nil {
		return
	}
	if f.selected < 0 || f.stale(f.found[f.selected]) {
		f.onMark(nil)
		return
	}
	f.onMark(&f.found[f.selected])
}

// sameFinding returns the index of the finding of the same check that is nearest to
// where it was, -1 if there is none.
func sameFinding(was check.Finding, found []check.Finding) int {
	best, least := -1, math.Inf(1)
	for i, n := range found {
		if n.Kind != was.Kind {
			continue
		}
		d := 0.0
		if len(n.At) > 0 && len(was.At) > 0 {
			d = n.At[0].Dist(was.At[0])
		}
		if d < least {
			best, least = i, d
		}
	}
	return best
}

// checking says whether something is still being looked for.
func (f *findings) checking(on bool) {
	if f.waiting != on {
		f.waiting = on
		f.tellHead()
		f.list.fill()
		if f.selected >= 0 {
			f.remark()
		}
	}
}

// ofLast says that the findings are those of the last design that could be laid, and
// whether all of that have been looked for.
func (f *findings) ofLast(all bool) {
	f.last, f.waiting = true, !all
	f.tellHead()
	f.list.fill()
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
	stand := 0
	for _, x := range f.found {
		switch {
		case f.stale(x):
		case x.Accepted != "":
			stand++
		default:
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
	if stand > 0 {
		head += fmt.Sprintf(", %d let stand", stand)
	}
	if n[check.Note] > 0 && !f.waiting { // the line is short
		head += ", " + many(n[check.Note], "note", "notes")
	}
	switch {
	case f.last:
		head = "of the last design that could be laid"
	case f.waiting:
		head = "checking...  so far " + head
	}
	f.head.SetText("FINDINGS  " + head)
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
		f.remark()
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
	for _, w := range r.l.rows {
		w.tell() // how high it is goes by what it says
	}
	r.Layout(r.l.Size())
	for _, w := range r.l.rows {
		w.Refresh()
	}
}
