package ui

import (
	"fmt"
	"math"
	"slices"

	"fretband/app"
	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// hand is what the window knows of editing by hand, besides what is picked.
type hand struct {
	mirror string
	// last is the size of the single opening that was drawn last, by shape.
	last map[string][2]float64
	// taken is the design as it was when something was taken hold of, and what was
	// picked then.
	taken  pattern.Design
	picked []app.Picked
}

var _ app.Selection = (*handPage)(nil)

// Flat implements app.Selection.
func (h *handPage) Flat() unroll.Flat {
	if h.w == nil || h.w.scene == nil {
		return unroll.Flat{}
	}
	return h.w.scene.sheet.Flat
}

// Picks implements app.Selection.
func (h *handPage) Picks() []app.Picked {
	if h.w == nil {
		return nil
	}
	return h.w.blank.marks.picked
}

// Take implements app.Selection.
func (h *handPage) Take(p []app.Picked) { h.w.blank.marks.picked = p }

// Mirror implements app.Selection.
func (h *handPage) Mirror() string {
	if h.w == nil {
		return ""
	}
	return h.w.hand.mirror
}

// SetMirror implements app.Selection.
func (h *handPage) SetMirror(m string) { h.w.hand.mirror = m }

func (w *Window) listenToHand() {
	w.controls.hand.w = w
	w.blank.onClick = w.clicked
	w.blank.onNudge = w.nudge
	w.blank.onTaken = func() {
		w.doc.Seal()
		w.hand.taken, w.hand.picked = w.doc.Now(), w.blank.marks.picked
	}
	h := w.controls.hand
	h.onRemove, h.onGo = w.removeEdit, w.goToEdit
}

// pickThese makes picks what is picked. What follows is a step of its own.
func (w *Window) pickThese(picks []app.Picked) {
	w.doc.Seal()
	w.blank.marks.picked = picks
	w.showPicked()
}

func (w *Window) showPicked() {
	w.controls.hand.show(w.doc.Now())
	w.showHandles()
}

// chooseMany is pickThese for gestures that are meant for editing by hand: the page
// with what can be done comes up.
func (w *Window) chooseMany(picks []app.Picked) {
	w.blank.marks.places, w.blank.marks.item = nil, app.NoItem
	w.findings.clear()
	w.pickThese(picks)
	if len(picks) > 0 {
		w.controls.turnTo(handPageAt)
	}
	w.log.Event("picked", "count", len(picks))
	w.tellSoon()
}

// refind finds what is picked on the scene that has just come.
func (w *Window) refind() {
	m := &w.blank.marks
	m.picked = app.Refind(w.scene.sheet, m.picked)
}

// giveUpDrag takes back the drag that is under way, and reports whether there was
// one.
func (w *Window) giveUpDrag() bool {
	if !w.blank.giveUp() {
		return false
	}
	w.blank.marks.picked = w.hand.picked
	if !app.Equal(w.doc.Now(), w.hand.taken) {
		w.doc.Undo() // a drag is one step
		w.changed()
	}
	w.showPicked()
	w.log.Event("given-up")
	return true
}

// pickAt returns what can be picked at a place.
func (w *Window) pickAt(at plane.Point) (app.Picked, bool) {
	if w.scene == nil {
		return app.Picked{}, false
	}
	if i := w.scene.openingAt(at); i >= 0 {
		return app.Pick(w.scene.sheet, i), true
	}
	if i := w.scene.solidAt(at); i >= 0 {
		return app.PickSolid(w.scene.sheet, i), true
	}
	return app.Picked{}, false
}

func same(a, b app.Picked) bool { return a.Opening == b.Opening && a.Solid == b.Solid }

func indexOf(picks []app.Picked, p app.Picked) int {
	for i, q := range picks {
		if same(p, q) {
			return i
		}
	}
	return -1
}

func union(a, b []app.Picked) []app.Picked {
	out := append([]app.Picked(nil), a...)
	for _, p := range b {
		if indexOf(a, p) < 0 {
			out = append(out, p)
		}
	}
	return out
}

// clicked follows a click on the blank: one picks what is there, with shift it is
// added or left out, two pick the row, three the field.
func (w *Window) clicked(at plane.Point, mod fyne.KeyModifier, times int) {
	if w.scene == nil {
		return
	}
	if w.blank.marks.hand.tool != "" {
		w.drawAt(at)
		return
	}
	shift := mod&fyne.KeyModifierShift != 0
	p, ok := w.pickAt(at)
	now := w.blank.marks.picked
	switch {
	case ok && times > 1 && p.Opening >= 0:
		row := app.SameRow(w.scene.sheet, []app.Picked{p})
		if times > 2 {
			row = app.SameField(w.scene.sheet, []app.Picked{p})
		}
		if shift {
			row = union(now, row)
		}
		w.chooseMany(row)
	case ok && shift:
		if i := indexOf(now, p); i >= 0 {
			now = append(append([]app.Picked(nil), now[:i]...), now[i+1:]...)
		} else {
			now = union(now, []app.Picked{p})
		}
		w.chooseMany(now)
	case shift:
	case ok && p.Solid >= 0:
		w.chooseMany([]app.Picked{p})
	default:
		opening := -1
		if ok {
			opening = p.Opening
		}
		w.blank.pick(opening, w.scene.itemAt(at, w.blank.reach()))
	}
}

// sweep picks what lies in a box that the hand draws.
func (w *Window) sweep(at plane.Point, mod fyne.KeyModifier) *hold {
	if w.scene == nil {
		return nil
	}
	var had []app.Picked
	if mod&fyne.KeyModifierShift != 0 {
		had = w.blank.marks.picked
	}
	m := &w.blank.marks
	return &hold{
		move: func(to plane.Point) {
			box := plane.EmptyBox().Add(at).Add(to)
			m.hand.sweep = &box
			m.picked = union(had, w.within(box))
			m.beside = fmt.Sprintf("%d picked", len(m.picked))
		},
		drop: func() {
			m.hand.sweep = nil
			w.chooseMany(m.picked)
		},
	}
}

// within returns all openings and solid cells whose middles lie in a box.
func (w *Window) within(box plane.Box) []app.Picked {
	var picks []app.Picked
	s := w.scene.sheet
	in := func(l plane.Loop) bool {
		mid := l.Bounds().Centre()
		return slices.ContainsFunc(s.OnBlank(l), func(r pattern.Round) bool { return box.Holds(r.Point(mid)) })
	}
	for i := range s.Openings {
		if in(s.Openings[i].Loop) {
			picks = append(picks, app.Pick(s, i))
		}
	}
	for i := range s.Solid {
		if in(s.Solid[i].Loop) {
			picks = append(picks, app.PickSolid(s, i))
		}
	}
	return picks
}

func (w *Window) chooseAll() {
	// The menu gets its shortcut before the entry does.
	if e, ok := w.win.Canvas().Focused().(fyne.Shortcutable); ok {
		e.TypedShortcut(&fyne.ShortcutSelectAll{})
		return
	}
	if w.scene != nil && len(w.dialogs.Open) == 0 {
		w.chooseMany(w.within(w.scene.sheet.Flat.Outline.Bounds().Grow(w.scene.sheet.Flat.Length)))
	}
}

func (w *Window) chooseRow() {
	if w.scene != nil {
		w.chooseMany(app.SameRow(w.scene.sheet, w.blank.marks.picked))
	}
}

func (w *Window) chooseField() {
	if w.scene != nil {
		w.chooseMany(app.SameField(w.scene.sheet, w.blank.marks.picked))
	}
}

// byHand edits what is picked as one step.
func (w *Window) byHand(key, what string, do func(d *pattern.Design, f unroll.Flat, picks []app.Picked)) {
	if w.scene == nil || len(w.blank.marks.picked) == 0 {
		return
	}
	d := w.doc.Now()
	old := len(d.Edits)
	do(&d, w.scene.sheet.Flat, w.blank.marks.picked)
	if key == "" {
		w.doc.Seal()
	}
	w.change(key, "edits", fmt.Sprint(old), what, d)
}

func (w *Window) leaveSolid() {
	w.byHand("", "solid", func(d *pattern.Design, f unroll.Flat, picks []app.Picked) { app.LeaveSolid(d, f, picks, w.hand.mirror) })
}

func (w *Window) openAgain() { w.byHand("", "open", app.OpenAgain) }

func (w *Window) undoHand() { w.byHand("", "undone", app.UndoHand) }

func (w *Window) removeEdit(i int) {
	d := w.doc.Now()
	app.RemoveEdit(&d, i)
	w.doc.Seal()
	w.change("", fmt.Sprintf("edits[%d]", i), "", "removed", d)
}

func (w *Window) clearIdle() {
	d := w.doc.Now()
	if w.scene == nil || !app.Equal(d, w.scene.sheet.Design) {
		return // the list is about to change
	}
	app.ClearIdle(&d, w.scene.sheet)
	w.doc.Seal()
	w.change("", "edits", "", "idle ones removed", d)
}

// goToEdit picks what an edit works on and brings its places into sight.
func (w *Window) goToEdit(i int) {
	if w.scene == nil {
		return
	}
	s := w.scene.sheet
	var picks []app.Picked
	var at []plane.Point
	for k := range s.Openings {
		for _, t := range s.Openings[k].By {
			if t.Edit == i {
				picks = append(picks, app.Pick(s, k))
				at = append(at, s.Openings[k].Box.Centre())
				break
			}
		}
	}
	for k, c := range s.Solid {
		if c.Edit == i {
			picks = append(picks, app.PickSolid(s, k))
			at = append(at, c.At)
		}
	}
	var idle []plane.Point
	for _, d := range s.Idle {
		if d.Edit == i {
			idle = append(idle, d.At)
			picks = append(picks, app.Picked{At: []plane.Point{d.At}, Opening: -1, Solid: -1})
		}
	}
	w.pickThese(picks)
	w.blank.marks.places, w.blank.marks.severity = idle, 1
	w.blank.lookAt(append(at, idle...))
	w.log.Event("goto", "edit", i+1, "picked", len(at), "idle", len(idle))
}

// mods returns the modifier keys that are held, as far as the driver knows.
func mods() fyne.KeyModifier {
	if d, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok {
		return d.CurrentKeyModifiers()
	}
	return 0
}

// nudge moves what is picked by a step of an arrow key.
func (w *Window) nudge(dx, dy float64) bool {
	step := 0.1
	if mods()&fyne.KeyModifierShift != 0 {
		step = 1
	}
	if w.nudgeItem(plane.Pt(dx*step, dy*step)) {
		return true
	}
	if !app.Movable(w.doc.Now(), w.controls.hand) {
		return false
	}
	w.byHand("edits.nudge", pattern.Say("nudged %g,%g", dx*step, dy*step), func(d *pattern.Design, f unroll.Flat, picks []app.Picked) {
		w.blank.marks.picked = app.Shifted(d, f, picks, app.Shift{Along: dx * step, Across: dy * step}, w.hand.mirror)
	})
	return true
}

// grabPicked has what is picked follow the hand.
func (w *Window) grabPicked(at plane.Point, _ fyne.KeyModifier) *hold {
	p, ok := w.pickAt(at)
	if !ok || p.Opening < 0 || indexOf(w.blank.marks.picked, p) < 0 {
		return nil
	}
	x0, v0 := w.scene.sheet.Flat.Where(at)
	h := w.shifting("edits.move", func(f unroll.Flat, to plane.Point) (app.Shift, string) {
		x, v := f.Where(to)
		s := app.Shift{Along: hundredths(x - x0), Across: hundredths(v - v0)}
		if mods()&fyne.KeyModifierShift != 0 { // straight along or across
			if math.Abs(s.Along) > math.Abs(s.Across) {
				s.Across = 0
			} else {
				s.Along = 0
			}
		}
		return s, pattern.Say("along %.2f   across %.2f mm", s.Along, s.Across)
	})
	return &h
}

func hundredths(v float64) float64 { return math.Round(v*100) / 100 }

// shifting is a hold that changes what is picked by what by makes of the place of
// the hand. It goes by what the design was when it was taken; a ghost shows at once
// what the openings themselves show as soon as they are laid.
func (w *Window) shifting(key string, by func(f unroll.Flat, to plane.Point) (app.Shift, string)) hold {
	f, s := w.scene.sheet.Flat, w.scene.sheet
	was := w.doc.Now()
	picks := append([]app.Picked(nil), w.blank.marks.picked...)
	var loops []plane.Loop
	for _, p := range picks {
		if p.Opening >= 0 {
			loops = append(loops, s.Openings[p.Opening].Loop)
		}
	}
	m := &w.blank.marks
	return hold{
		move: func(to plane.Point) {
			shift, text := by(f, to)
			scale := shift.Scale
			if scale == 0 {
				scale = 1
			}
			m.hand.ghosts = m.hand.ghosts[:0]
			for _, l := range loops {
				m.hand.ghosts = append(m.hand.ghosts, pattern.Shifted(f, l, shift.Along, shift.Across, shift.TurnDeg*math.Pi/180, scale))
			}
			m.beside = text
			d := app.Clone(was)
			m.picked = app.Shifted(&d, f, picks, shift, w.hand.mirror)
			w.change(key, "edits", fmt.Sprint(len(was.Edits)), text, d)
		},
		drop: func() {
			m.hand.ghosts = nil
			w.showPicked()
			w.tellSoon()
		},
	}
}

// handHandles are those of what was picked last: one turns it, one scales it, and
// all else that is picked with it.
func (w *Window) handHandles(s *scene) []handle {
	picks := w.blank.marks.picked
	i := -1
	for _, p := range picks {
		if p.Opening >= 0 && p.Opening < len(s.sheet.Openings) {
			i = p.Opening
		}
	}
	if i < 0 || len(picks) > handlesUpTo {
		return nil
	}
	o := &s.sheet.Openings[i]
	k := w.blank.v.k / math.Max(1, w.blank.v.frame.scale) // of the toolkit's pixels
	c := o.Loop.Centroid()
	top := plane.Pt(c.X, o.Box.Max.Y+2/k)
	corner := plane.Pt(o.Box.Max.X+5/k, o.Box.Min.Y-5/k)
	turn := handle{at: plane.Pt(c.X, o.Box.Max.Y+24/k), name: "turn", round: true, free: true, stem: &top}
	turn.take = func() hold {
		from := turn.at.Sub(c)
		return w.shifting("edits.turn", func(_ unroll.Flat, to plane.Point) (app.Shift, string) {
			d := to.Sub(c)
			step := 1.0
			if mods()&fyne.KeyModifierShift != 0 {
				step = 15
			}
			deg := step * math.Round(math.Atan2(from.Cross(d), from.Dot(d))*180/math.Pi/step)
			return app.Shift{TurnDeg: deg}, pattern.Say("turned %g\u00b0", deg)
		})
	}
	scale := handle{at: corner, name: "scale", free: true}
	scale.take = func() hold {
		from := math.Max(1e-3, corner.Dist(c))
		return w.shifting("edits.scale", func(_ unroll.Flat, to plane.Point) (app.Shift, string) {
			by := math.Max(0.1, math.Min(10, math.Round(100*to.Dist(c)/from)/100))
			return app.Shift{Scale: by}, pattern.Say("scaled by %.0f %%", 100*by)
		})
	}
	return []handle{turn, scale}
}

// handlesUpTo is the most picked openings that turn and scale by handles: to do so
// with more would be slow to follow the hand. Numbers do it for any.
const handlesUpTo = 400
