package ui

import (
	"strings"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern/check"
	"fretband/unroll"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// listenToFindings joins the list of findings to the window.
func (w *Window) listenToFindings() {
	f := w.findings
	f.onSelect, f.onMark = w.showFinding, w.markFinding
	f.onMend, f.onAccept, f.onTakeUp = w.mend, w.askToAccept, w.takeUp
}

// mend takes a way of mending a finding. One that was worked out for an older design
// is let go: the finding comes anew in a moment.
func (w *Window) mend(f check.Finding, x check.Fix) {
	if w.scene == nil || !app.Equal(w.result.Design, w.doc.Now()) {
		return
	}
	w.takeDesign("mended", x.Title, x.Design)
	w.log.Event("mended", "check", f.Kind.Key, "by", x.Title)
}

// askToAccept asks for the reason to let a finding stand.
func (w *Window) askToAccept(f check.Finding) {
	k := w.kit
	reason := w.dialogs.Entry("")
	bad := k.Passage("", kit.Warn, 440)
	body := kit.Down(8,
		k.Passage(f.What, kit.Plain, 440),
		k.Passage("It is kept in the list, with the reason, and goes with the report and the files: whoever makes the band reads it.", kit.Soft, 440),
		container.New(kit.Columns{Widths: []float32{60, 374}, Gap: 8, Height: rowHeight}, k.Label("Reason", kit.Plain), reason), bad)
	var d *kit.Dialog
	d = w.dialogs.Ask("Let it stand", body, nil, kit.Answer{Text: "Cancel"}, kit.Answer{Text: "Let it stand", Main: true, Stay: true, Do: func() {
		next := w.doc.Now()
		if err := app.Accept(&next, f, reason.Text); err != nil {
			bad.Set(raised(err.Error())+".", kit.Warn, 440)
			d.Panel.Refresh()
			return
		}
		d.Close()
		w.takeDesign("accepted", f.Kind.Title, next)
		w.log.Event("accepted", "check", f.Kind.Key)
	}})
	d.Named("reason", reason)
	w.win.Canvas().Focus(reason)
}

func raised(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// takeUp opens a finding again that was let stand.
func (w *Window) takeUp(f check.Finding) {
	next := w.doc.Now()
	app.TakeUp(&next, f)
	w.takeDesign("accepted", "taken up "+f.Kind.Title, next)
}

// markFinding marks a finding's places on the blank and on the bent band; nil takes the
// marks away.
func (w *Window) markFinding(f *check.Finding) {
	m := &w.blank.marks
	if f == nil {
		m.places = nil
		w.bent.Mark(unroll.Flat{}, nil, 0)
	} else {
		m.places, m.severity = f.At, f.Severity
		w.bent.Mark(w.scene.sheet.Flat, f.At, f.Severity)
	}
	w.blank.redraw()
}

// showFinding goes to a finding's place.
func (w *Window) showFinding(i int, f check.Finding) {
	w.pickThese(nil)
	w.markFinding(&f)
	if len(f.At) <= manyPlaces { // else marks, but stay where we are
		w.blank.lookAt(f.At)
	}
	w.bent.TurnToMarks()
	w.log.Event("finding", "index", i, "check", f.Kind.Key, "places", len(f.At))
	w.tellSoon()
}

// tellFindings tells where the rows that are in sight stand, and what can be done in
// them.
func (w *Window) tellFindings(tell func(string, fyne.CanvasObject)) {
	s := w.findings.scroll
	for _, r := range w.findings.list.rows {
		if y := r.Position().Y - s.Offset.Y; y < 0 || y+r.Size().Height > s.Size().Height {
			continue
		}
		name := r.f.Kind.Key
		tell("finding:"+name, r)
		for _, b := range r.buttons {
			tell("mend:"+strings.ReplaceAll(b.Text, " ", "-"), b)
		}
	}
}

// manyPlaces is from how many places on one stays where one looks.
const manyPlaces = 12
