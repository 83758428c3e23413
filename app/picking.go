package app

import (
	"fmt"
	"slices"

	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// SetScene takes what has just been laid, and finds on it what is picked.
func (e *Editor) SetScene(s *Scene) {
	e.Scene = s
	if s != nil {
		e.Picked = Refind(s.Sheet, e.Picked)
	}
}

// Pick makes picks what is picked. What follows is a step of its own.
func (e *Editor) Pick(picks []Picked) {
	e.Seal()
	e.Picked = picks
	e.On.Picked()
}

// PickMany is Pick for gestures that are meant for editing by hand: the page with what can
// be done is opened.
func (e *Editor) PickMany(picks []Picked) {
	e.Item = NoItem
	e.On.Leave()
	e.Pick(picks)
	if len(picks) > 0 {
		e.OpenPage(HandPage)
	}
	e.Log.Event("picked", "count", len(picks))
}

// PickAll picks all openings and solid cells.
func (e *Editor) PickAll() {
	if e.Scene != nil {
		f := e.Flat()
		e.PickMany(e.Scene.Within(f.Outline.Bounds().Grow(f.Length)))
	}
}

// PickRow picks all openings in the rows of those that are picked.
func (e *Editor) PickRow() {
	if e.Scene != nil {
		e.PickMany(SameRow(e.Scene.Sheet, e.Picked))
	}
}

// PickField picks all openings in the fields of those that are picked.
func (e *Editor) PickField() {
	if e.Scene != nil {
		e.PickMany(SameField(e.Scene.Sheet, e.Picked))
	}
}

// PickEdit picks what edit i works on, and returns where that is and where the edit finds
// nothing.
func (e *Editor) PickEdit(i int) (at, idle []plane.Point) {
	s := e.Scene.Sheet
	var picks []Picked
	for k := range s.Openings {
		o := &s.Openings[k]
		if slices.ContainsFunc(o.By, func(t pattern.Touch) bool { return t.Edit == i }) {
			picks = append(picks, Pick(s, k))
			at = append(at, o.Box.Centre())
		}
	}
	for k, c := range s.Solid {
		if c.Edit == i {
			picks = append(picks, PickSolid(s, k))
			at = append(at, c.At)
		}
	}
	for _, d := range s.Idle {
		if d.Edit == i {
			idle = append(idle, d.At)
			picks = append(picks, Picked{At: []plane.Point{d.At}, Opening: -1, Solid: -1, Tie: tieOf(s.Design, i)})
		}
	}
	e.Pick(picks)
	e.Log.Event("goto", "edit", i+1, "picked", len(at), "idle", len(idle))
	return at, idle
}

// Click handles a click on the blank: one picks what is there, or with more adds it or
// leaves it out; two pick the row, three the field. An engraved line may be as far as
// within away, mm.
func (e *Editor) Click(at plane.Point, within float64, more bool, times int) {
	if e.Scene == nil {
		return
	}
	switch e.Tool {
	case "":
	case PushTool:
		e.pushAt(at)
		return
	default:
		e.drawAt(at)
		return
	}
	p, ok := e.Scene.PickAt(at)
	switch {
	case ok && times > 1 && p.Opening >= 0:
		row := SameRow(e.Scene.Sheet, []Picked{p})
		if times > 2 {
			row = SameField(e.Scene.Sheet, []Picked{p})
		}
		if more {
			row = Union(e.Picked, row)
		}
		e.PickMany(row)
	case ok && more:
		if i := indexOf(e.Picked, p); i >= 0 {
			e.PickMany(slices.Delete(slices.Clone(e.Picked), i, i+1))
		} else {
			e.PickMany(Union(e.Picked, []Picked{p}))
		}
	case more:
	case ok && p.Solid >= 0:
		e.PickMany([]Picked{p})
	default:
		opening := -1
		if ok {
			opening = p.Opening
		}
		e.PickOne(opening, e.Scene.ItemAt(at, within))
	}
}

// PickOne picks an opening, -1 for none, or selects the item that lies there.
func (e *Editor) PickOne(opening int, it Item) {
	e.On.Leave()
	e.Select(it)
	if it.Kind == EngravingItem || it.Kind == AddedItem && it != NoItem {
		opening = -1 // it lies over the opening
	}
	n := 0
	var picks []Picked
	if opening >= 0 {
		o := &e.Scene.Sheet.Openings[opening]
		n = o.Number
		if o.Field >= 0 && o.Field != e.Field {
			e.SelectField(o.Field)
			e.LeaveField() // the opening was meant, not its field
		}
		picks = []Picked{Pick(e.Scene.Sheet, opening)}
	}
	e.Pick(picks)
	var at [3]int
	at[it.Kind] = it.Index + 1
	e.Log.Event("pick", "opening", n, "reserve", at[ReserveItem], "mark", at[EngravingItem], "part", at[AddedItem])
}

// IsPicked reports whether p is picked.
func (e *Editor) IsPicked(p Picked) bool { return indexOf(e.Picked, p) >= 0 }

func indexOf(picks []Picked, p Picked) int {
	return slices.IndexFunc(picks, func(q Picked) bool { return p.Opening == q.Opening && p.Solid == q.Solid })
}

// Union returns the picks of a and those of b that are not in a.
func Union(a, b []Picked) []Picked {
	out := slices.Clone(a)
	for _, p := range b {
		if indexOf(a, p) < 0 {
			out = append(out, p)
		}
	}
	return out
}

// LetGo lets go of all that is picked or selected.
func (e *Editor) LetGo() {
	e.Pick(nil)
	e.On.Leave()
	e.Select(NoItem)
}

// Grab remembers what there is before a hand drags something.
func (e *Editor) Grab() {
	e.Seal()
	e.taken = &taken{e.Now(), e.Picked}
}

// GiveUp takes back what has been dragged since [Editor.Grab].
func (e *Editor) GiveUp() {
	if e.taken == nil {
		return
	}
	e.Picked = e.taken.picked
	if !Equal(e.Now(), e.taken.design) {
		e.Doc.Undo() // a drag is one step
		e.On.Changed()
	}
	e.On.Picked()
	e.Log.Event("given-up")
}

// byHand edits what is picked.
func (e *Editor) byHand(key, says string, do func(d *pattern.Design, f unroll.Flat, picks []Picked)) {
	if e.Scene == nil || len(e.Picked) == 0 {
		return
	}
	d := e.Now()
	old := len(d.Edits)
	do(&d, e.Flat(), e.Picked)
	e.Change(key, "edits", fmt.Sprint(old), says, d)
}

// LeaveSolid leaves what is picked solid.
func (e *Editor) LeaveSolid() {
	e.byHand("", "solid", func(d *pattern.Design, f unroll.Flat, picks []Picked) { LeaveSolid(d, f, picks, e.mirror) })
}

// OpenAgain has the solid cells that are picked cut out again.
func (e *Editor) OpenAgain() { e.byHand("", "open", OpenAgain) }

// UndoHand takes away all that was done by hand to what is picked.
func (e *Editor) UndoHand() { e.byHand("", "undone", UndoHand) }

// RemoveEdit takes edit i away.
func (e *Editor) RemoveEdit(i int) {
	d := e.Now()
	RemoveEdit(&d, i)
	e.Change("", fmt.Sprintf("edits[%d]", i), "", "removed", d)
}

// ClearIdle takes away the edits that find nothing to work on.
func (e *Editor) ClearIdle() {
	d := e.Now()
	if e.Scene == nil || !Equal(d, e.Scene.Sheet.Design) {
		return // the list is about to change
	}
	ClearIdle(&d, e.Scene.Sheet)
	e.Change("", "edits", "", "idle ones removed", d)
}

// Nudge moves what is selected, mm, and reports whether anything is.
func (e *Editor) Nudge(by plane.Point) bool {
	if d := e.Now(); e.Item.In(d) {
		e.MoveItem(e.Item, e.Item.At(d).Add(by))
		return true
	}
	if !e.Movable(e.Now()) {
		return false
	}
	e.byHand("edits.nudge", pattern.Say("nudged %g,%g", by.X, by.Y), func(d *pattern.Design, f unroll.Flat, picks []Picked) {
		e.Picked = Shifted(d, f, picks, Shift{Along: by.X, Across: by.Y}, e.mirror)
	})
	return true
}

// Shifting returns a function that moves, turns and scales the openings that are picked
// now. It starts from the design as it is now, so a late result does not move them twice.
func (e *Editor) Shifting(key string) func(by Shift, says string) {
	was, picks, f := e.Now(), slices.Clone(e.Picked), e.Flat()
	return func(by Shift, says string) {
		d := Clone(was)
		e.Picked = Shifted(&d, f, picks, by, e.mirror)
		e.Change(key, "edits", fmt.Sprint(len(was.Edits)), says, d)
	}
}

// Tools besides the shapes of single openings: one draws a tie, the other pushes at the band.
const (
	TieTool  = "tie"
	PushTool = "push"
)

// TakeTool makes the next drag on the blank draw a single opening of that shape, or a tie, or
// the next click push there; the same again, or none, puts the tool away.
func (e *Editor) TakeTool(shape string) {
	if e.Tool == shape {
		shape = ""
	}
	e.Tool = shape
	if shape != "" && shape != PushTool {
		e.OpenPage(HandPage)
	}
	e.On.Picked()
	e.Log.Event("tool", "shape", shape)
}

// pushAt pushes at a position of the blank to see what that does to the metal.
func (e *Editor) pushAt(at plane.Point) {
	if !e.Scene.metalAt(at) {
		e.On.Say("No metal lies there: click on the metal that you would push.")
		return
	}
	e.On.Say("")
	e.TakeTool("")
	e.On.Push(at)
}

// DrawnTie returns the tie from one point of the blank to another, as wide as the last one
// and with its ends on the metal. It is false for one that crosses no opening.
func (e *Editor) DrawnTie(from, to plane.Point) (pattern.Edit, bool) {
	x0, v0 := e.Flat().Where(from)
	x, v := e.Flat().Where(to)
	one, ok := e.Scene.Sheet.Tied(pattern.Edit{Do: pattern.Tie, At: []pattern.Spot{spotAt(from)}, SpanXMM: x - x0, SpanYMM: v - v0, WidthMM: e.drawn[""][0]})
	one.SpanXMM, one.SpanYMM = hundredths(one.SpanXMM), hundredths(one.SpanYMM)
	return one, ok
}

// drawAt cuts an opening of the tool's shape, as large as the last one.
func (e *Editor) drawAt(at plane.Point) {
	size, ok := e.drawn[e.Tool]
	if !ok {
		size = [2]float64{4, 2.5}
		if e.Tool == pattern.CircleShape {
			size = [2]float64{3, 0}
		}
	}
	e.Draw(pattern.Edit{Shape: e.Tool, WidthMM: size[0], HeightMM: size[1], At: []pattern.Spot{{XMM: at.X, YMM: at.Y}}})
}

// Draw cuts a single opening, or draws a tie, picks it and puts the tool away.
func (e *Editor) Draw(one pattern.Edit) {
	d := e.Now()
	if len(d.Edits) >= pattern.MaxEdits {
		e.On.Say(fmt.Sprintf("A design holds at most %d edits by hand.", pattern.MaxEdits))
		return
	}
	if e.drawn == nil {
		e.drawn = map[string][2]float64{}
	}
	e.drawn[one.Shape] = [2]float64{one.WidthMM, one.HeightMM}
	one.Mirror = e.mirror
	picks := Draw(&d, one)
	e.Tool = ""
	e.Pick(picks)
	e.Change("", "edits", fmt.Sprint(len(d.Edits)-1), EditText(one), d)
	e.On.Picked()
}

// Select selects a reserve or engraving, [NoItem] for none.
func (e *Editor) Select(it Item) {
	e.Item = it
	e.On.Item()
}

// AddItem adds an item: an engraving of a kind, a reserve of a shape, a part of a kind; and
// selects it.
func (e *Editor) AddItem(kind ItemKind, of string) {
	e.addItem(kind, of, func(*pattern.Design, Item) {})
}

func (e *Editor) addItem(kind ItemKind, of string, put func(*pattern.Design, Item)) {
	d := e.Now()
	it := Item{kind, kind.Count(d)}
	switch kind {
	case EngravingItem:
		d.Engravings = append(d.Engravings, NewEngraving(of, d))
	case AddedItem:
		d.Added = append(d.Added, NewAdded(of, d))
	default:
		d.Reserves = append(d.Reserves, NewReserve(of, d))
	}
	put(&d, it)
	e.added(it, d)
}

// CopyItem adds one more like it, and selects that.
func (e *Editor) CopyItem(it Item) {
	d := e.Now()
	if !it.In(d) {
		return
	}
	if c := it.Copy(&d); c != NoItem {
		e.added(c, d)
	}
}

// added takes a design with one more item, the last of its list, and selects that.
func (e *Editor) added(it Item, d pattern.Design) {
	e.Change("", it.List(), fmt.Sprint(it.Index), fmt.Sprint(it.Index+1), d)
	e.Select(it)
}

// RemoveItem takes it away.
func (e *Editor) RemoveItem(it Item) {
	d := e.Now()
	if !it.In(d) {
		return
	}
	it.Remove(&d)
	e.Select(NoItem)
	e.Change("", it.List(), it.Path(), "removed", d)
}

// MoveItem puts it at a position, and returns that in words.
func (e *Editor) MoveItem(it Item, to plane.Point) string {
	return e.ChangeItem(it, "place", Item.PositionText, func(d *pattern.Design) { it.Put(d, to) })
}

// ChangeItem calls do to change an item, and returns in the words of text what it is then.
func (e *Editor) ChangeItem(it Item, what string, text func(Item, pattern.Design) string, do func(*pattern.Design)) string {
	d := e.Now()
	if !it.In(d) {
		return ""
	}
	old := text(it, d)
	do(&d)
	path := it.Path() + "." + what
	e.Change(path, path, old, text(it, d), d)
	return text(it, d)
}
