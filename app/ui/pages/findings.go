package pages

import (
	"fmt"
	"math"
	"strings"

	"fretband/app/ui/kit"
	"fretband/pattern/check"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// Findings lists what a person should know, worst first. A click on one goes to
// its position.
type Findings struct {
	*Desk
	Root   *fyne.Container
	Head   *kit.Label
	List   *findingList
	scroll *container.Scroll

	Found    []check.Finding
	deep     []check.Finding // the last that were found by check.Deepen
	waiting  bool            // what is found more slowly is still to come
	last     bool            // they are of the last design that could be laid, not of this one
	Selected int
	OnSelect func(i int, f check.Finding)
	// OnRing is called with the finding whose positions are to be marked, without going there: the
	// finding that is still chosen in a new report, nil for none.
	OnRing func(f *check.Finding)
}

// mostFindings is how many are listed; more than this nobody reads.
const mostFindings = 60

func NewFindings(desk *Desk) *Findings {
	k := desk.Kit
	f := &Findings{Desk: desk, Selected: -1}
	f.Head = k.Label("FINDINGS", kit.Head)
	f.List = &findingList{owner: f}
	f.List.ExtendBaseWidget(f.List)
	f.scroll = container.NewVScroll(f.List)
	f.Root = container.NewBorder(kit.Inset(14, 10, 14, 4, f.Head), nil, nil, nil, f.scroll)
	kit.OnDress(k, f, func(f *Findings, _ *kit.Dress) { f.List.Refresh() })
	return f
}

// Show lists what a report says. What was found more slowly before stays in sight,
// marked, until it has been looked for again.
func (f *Findings) Show(r *check.Report) {
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
	if f.Selected >= 0 && f.Selected < len(f.Found) {
		keep = sameFinding(f.Found[f.Selected], found)
	}
	chosen := f.Selected >= 0
	f.Selected = keep
	f.Found = found
	f.last = false
	f.tellHead()
	f.List.fill()
	if chosen {
		f.ring()
	}
}

// ring marks the positions of the chosen finding, if any.
func (f *Findings) ring() {
	if f.OnRing == nil {
		return
	}
	if f.Selected < 0 || f.stale(f.Found[f.Selected]) {
		f.OnRing(nil)
		return
	}
	f.OnRing(&f.Found[f.Selected])
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

// Checking says whether something is still being looked for.
func (f *Findings) Checking(on bool) {
	if f.waiting != on {
		f.waiting = on
		f.tellHead()
		f.List.fill()
		if f.Selected >= 0 {
			f.ring()
		}
	}
}

// OfLast says that the findings are those of the last design that could be laid, and
// whether all of that have been looked for.
func (f *Findings) OfLast(all bool) {
	f.last, f.waiting = true, !all
	f.tellHead()
	f.List.fill()
}

// ClearAll takes all findings away.
func (f *Findings) ClearAll() {
	f.deep, f.waiting = nil, false
	f.Show(&check.Report{})
}

// stale reports whether a finding is one of an older design.
func (f *Findings) stale(x check.Finding) bool { return x.Deep && f.waiting }

func (f *Findings) tellHead() {
	var n [3]int
	stand := 0
	for _, x := range f.Found {
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
		head += fmt.Sprintf(", %d accepted", stand)
	}
	if n[check.Note] > 0 && !f.waiting { // the line is short
		head += ", " + many(n[check.Note], "note", "notes")
	}
	switch {
	case len(f.Found) == 0 && !f.waiting && !f.last:
		head = "nothing to decide"
	case f.last:
		head = "of the last design that could be laid"
	case f.waiting:
		head = "checking...  so far " + head
	}
	f.Head.SetText("FINDINGS  " + head)
}

func many(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}

// relay lays the list out anew: a row that is chosen may be higher.
func (f *Findings) relay() {
	f.List.Refresh()
	f.scroll.Refresh()
	f.List.Refresh()
}

// Clear deselects the finding that is chosen.
func (f *Findings) Clear() {
	if f.Selected >= 0 {
		f.Selected = -1
		f.relay()
		f.ring()
	}
}

// Forget deselects the finding: those of another design follow.
func (f *Findings) Forget() { f.Selected = -1 }

// choose selects finding i as if it were clicked.
func (f *Findings) choose(i int) {
	if i < 0 || i >= len(f.Found) || i >= mostFindings || f.stale(f.Found[i]) {
		return
	}
	f.Selected = i
	f.relay()
	r := f.List.Rows[i]
	top, bottom := r.Position().Y, r.Position().Y+r.Size().Height
	if top < f.scroll.Offset.Y {
		f.scroll.Offset.Y = top
		f.scroll.Refresh()
	} else if bottom > f.scroll.Offset.Y+f.scroll.Size().Height {
		f.scroll.Offset.Y = bottom - f.scroll.Size().Height
		f.scroll.Refresh()
	}
	if f.OnSelect != nil {
		f.OnSelect(i, f.Found[i])
	}
}

// Next selects the finding after (or before) the selected one that has a position.
func (f *Findings) Next(step int) {
	n := min(len(f.Found), mostFindings)
	for k, i := 0, f.Selected; k < n; k++ {
		i += step
		if i < 0 {
			i = n - 1
		}
		if i >= n {
			i = 0
		}
		if len(f.Found[i].At) > 0 && !f.stale(f.Found[i]) {
			f.choose(i)
			return
		}
	}
}

// findingList stacks the rows; it knows its width before its height.
type findingList struct {
	widget.BaseWidget
	owner *Findings
	Rows  []*FindingRow
	width float32
}

func (l *findingList) fill() {
	o := l.owner
	n := min(len(o.Found), mostFindings)
	for len(l.Rows) < n {
		l.Rows = append(l.Rows, newFindingRow(o, len(l.Rows)))
	}
	l.Rows = l.Rows[:n]
	for i, r := range l.Rows {
		r.show(o.Found[i], l.width)
	}
	l.Refresh()
	o.scroll.Refresh()
}

// CreateRenderer implements fyne.Widget.
func (l *findingList) CreateRenderer() fyne.WidgetRenderer { return kit.Render(l) }

// Parts implements kit.Built.
func (l *findingList) Parts() []fyne.CanvasObject {
	os := make([]fyne.CanvasObject, len(l.Rows))
	for i, w := range l.Rows {
		os[i] = w
	}
	return os
}

// Least implements kit.Built.
func (l *findingList) Least() fyne.Size {
	var h float32
	for _, w := range l.Rows {
		h += w.height()
	}
	return fyne.NewSize(60, h+6)
}

// Lay implements kit.Built.
func (l *findingList) Lay(s fyne.Size) {
	if s.Width != l.width {
		l.width = s.Width
		for i, w := range l.Rows {
			w.show(l.owner.Found[i], s.Width)
		}
		// The height may be another now.
		if h := l.Least().Height; h > s.Height {
			l.Resize(fyne.NewSize(s.Width, h))
			return
		}
	}
	y := float32(0)
	for _, w := range l.Rows {
		h := w.height()
		w.Move(fyne.NewPos(0, y))
		w.Resize(fyne.NewSize(s.Width, h))
		y += h
	}
}

// Paint implements kit.Built: how high the rows are goes by what they say.
func (l *findingList) Paint() {
	for _, w := range l.Rows {
		w.tell()
	}
}

// Positions says where the rows that are in sight are, and what can be done in
// them.
func (f *Findings) Positions(tell func(string, fyne.CanvasObject)) {
	tell("findings", f.Root)
	s := f.scroll
	for _, r := range f.List.Rows {
		if y := r.Position().Y - s.Offset.Y; y < 0 || y+r.Size().Height > s.Size().Height {
			continue
		}
		name := r.Finding.Kind.Key
		tell("finding:"+name, r)
		for _, b := range r.Buttons {
			tell("mend:"+strings.ReplaceAll(b.Text, " ", "-"), b)
		}
	}
}
