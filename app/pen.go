package app

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"fretband/pattern"
	"fretband/pattern/motif"
	"fretband/pattern/own"
	"fretband/pattern/pen"
	"fretband/unroll/plane"
)

// PenTool draws a single opening by its points.
const PenTool = "points"

// PenSnaps returns what a position near at is drawn to: the points given, the middle lines of
// the blank, openings beside it but for the one that is being drawn, and a grid.
func (e *Editor) PenSnaps(at plane.Point, reach, grid float64, points []plane.Point) pen.Snaps {
	s := pen.Snaps{Reach: reach, Grid: grid, Points: points, MidX: true, MidYs: !e.Flat().Flared()}
	if e.Scene == nil {
		return s
	}
	sheet := e.Scene.Sheet
	s.Bridge = sheet.Rule
	mine := -1
	if _, i, _, ok := e.outline(); ok {
		mine = i
	}
	near := plane.EmptyBox().Add(at).Grow(s.Bridge + reach)
	for i := range sheet.Openings {
		if o := &sheet.Openings[i]; o.Box.Meets(near) && (mine < 0 || o.Edit != mine) {
			s.Openings = append(s.Openings, o.Loop)
		}
	}
	return s
}

// CatchText says in words what a position was drawn to.
func CatchText(c pen.Catch) string {
	switch c {
	case pen.First:
		return "closes"
	case pen.Point:
		return "on a point"
	case pen.Middle:
		return "on the middle"
	case pen.Beside:
		return "a bridge beside"
	case pen.Half:
		return "half a bridge beside"
	}
	return ""
}

// DraftImages returns an outline that is being drawn, with the mirror images that it will
// have, and what the rules would take of all of them, mm^2.
func (e *Editor) DraftImages(l plane.Loop) (images []plane.Loop, left []plane.Loop, taken float64) {
	if e.Scene == nil {
		return nil, nil, 0
	}
	one := pattern.DrawnEdit(e.Flat(), l, &pattern.Edit{Do: pattern.Add, Mirror: e.mirror}, pattern.EditPosition{})
	images, err := e.Scene.Sheet.Images(one)
	if err != nil {
		return nil, nil, 0
	}
	made, taken := e.Scene.Sheet.Held(images)
	for _, m := range made {
		left = append(left, m.Loop)
	}
	return images, left, taken
}

// DrawOutline cuts a single opening with an outline that was drawn on the blank.
func (e *Editor) DrawOutline(l plane.Loop) {
	e.Draw(pattern.DrawnEdit(e.Flat(), l, nil, pattern.EditPosition{}))
}

// outline returns the outline, as it was drawn, of the single opening that alone is picked,
// with its edit and the position that was picked.
func (e *Editor) outline() (plane.Loop, int, pattern.EditPosition, bool) {
	d := e.Now()
	if e.Scene == nil || len(e.Picked) != 1 {
		return nil, 0, pattern.EditPosition{}, false
	}
	_, t, ok := e.first(d, pattern.Add)
	if !ok || d.Edits[t.edit].Shape != pattern.PathShape || len(d.Edits[t.edit].At) != 1 {
		return nil, 0, pattern.EditPosition{}, false
	}
	one := d
	one.Edits = d.Edits[t.edit : t.edit+1]
	ps := pattern.EditPositions(one, e.Flat())
	loops, err := e.Scene.Sheet.Images(d.Edits[t.edit])
	if err != nil {
		return nil, 0, pattern.EditPosition{}, false
	}
	for i, p := range ps {
		if e.Picked[0].has(p.At) {
			return loops[i], t.edit, p, true
		}
	}
	return nil, 0, pattern.EditPosition{}, false
}

// PickedOutline returns the drawing of the single opening that alone is picked, and whether
// it is one that was drawn by points or as a path.
func (e *Editor) PickedOutline() (pen.Drawing, bool) {
	l, _, _, ok := e.outline()
	return pen.Of(l), ok
}

// TakenText says how much the rules and its neighbours took of the drawing that is picked.
func (e *Editor) TakenText() string {
	l, i, p, ok := e.outline()
	if !ok {
		return ""
	}
	left := 0.0
	for k := range e.Scene.Sheet.Openings {
		o := &e.Scene.Sheet.Openings[k]
		if slices.ContainsFunc(o.By, func(t pattern.Touch) bool { return t.Edit == i && t.At.Dist(p.At) < samePlace }) {
			left += o.Loop.Area()
		}
	}
	if taken := math.Abs(l.Area()) - left; taken > 0.005 {
		return pattern.Say("The rules take %.2f mm\u00b2 of the %.2f mm\u00b2 that are drawn.", taken, math.Abs(l.Area()))
	}
	return "It is cut as it is drawn."
}

// HoldOutline returns a function with which a hand changes the drawing that is picked, from
// the design as it is now. What can't be cut changes nothing and is said.
func (e *Editor) HoldOutline() func(pen.Drawing) error {
	_, i, p, ok := e.outline()
	was, picks := e.Now(), e.Picked
	return func(to pen.Drawing) error {
		if !ok {
			return errors.New("nothing that was drawn is picked")
		}
		l, err := to.Loop()
		if err != nil {
			return err
		}
		d := Clone(was)
		d.Edits[i] = pattern.DrawnEdit(e.Flat(), l, &was.Edits[i], p)
		one := d
		one.Edits = d.Edits[i : i+1]
		e.Picked = slices.Clone(picks)
		if ps := pattern.EditPositions(one, e.Flat()); p.Spot < len(ps) {
			e.Picked[0].At = []plane.Point{ps[p.Spot].At}
		}
		e.Change("edits.outline", "edits", fmt.Sprint(len(was.Edits)), "outline", d)
		return nil
	}
}

// lastOpening returns the opening that was picked last, nil if there is none.
func (e *Editor) lastOpening() (*pattern.Opening, Picked) {
	if e.Scene == nil {
		return nil, Picked{}
	}
	for i := len(e.Picked) - 1; i >= 0; i-- {
		if p := e.Picked[i]; p.Opening >= 0 && p.Opening < len(e.Scene.Sheet.Openings) {
			return &e.Scene.Sheet.Openings[p.Opening], p
		}
	}
	return nil, Picked{}
}

// DrawOn makes a drawing of the opening that was picked last, so that its points can be
// changed: its cell is left solid, and the same outline drawn there.
func (e *Editor) DrawOn() {
	o, p := e.lastOpening()
	if o == nil {
		return
	}
	d := e.Now()
	if len(d.Edits)+2 > pattern.MaxEdits {
		e.On.Say(fmt.Sprintf("A design holds at most %d edits by hand.", pattern.MaxEdits))
		return
	}
	l := o.Loop
	old := len(d.Edits)
	LeaveSolid(&d, e.Flat(), []Picked{p}, "")
	picks := Draw(&d, pattern.DrawnEdit(e.Flat(), l, nil, pattern.EditPosition{}))
	e.Pick(picks)
	e.Change("", "edits", fmt.Sprint(old), "drawn on", d)
	e.On.Picked()
}

// MotifOfPicked makes the outline of the opening that was picked last, as it was drawn, the
// motif of the field that is selected; a band without fields is given one.
func (e *Editor) MotifOfPicked() {
	o, _ := e.lastOpening()
	l, _, _, drawn := e.outline()
	switch {
	case drawn:
	case o != nil:
		l = o.Loop
	default:
		return
	}
	d := e.Now()
	if len(d.Fields) == 0 {
		AddField(&d)
	}
	i := max(0, min(e.Field, len(d.Fields)-1))
	choice := OwnMotif(i, own.Data(l.Move(l.Bounds().Centre().Mul(-1))))
	choice.Set(&d, motif.OwnKey)
	e.Field = i
	e.Change("", choice.Path, "", motif.OwnKey, d)
	e.OpenPage(PatternPage)
}
