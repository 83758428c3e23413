package app

import (
	"errors"

	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// Page is a page of the controls.
type Page int

// The pages of the controls, in the order of their tabs.
const (
	BandPage Page = iota
	FormPage
	MetalPage
	PatternPage
	ReservesPage
	HandPage
)

// Editor is what one window works at: the document, the last scene that could be laid of
// it, what is selected, and which controls are open. It has no screen; a window follows
// it by [Editor.On].
type Editor struct {
	Doc *Document
	Log *Log

	Selection
	Problem string // why the design as it is can't be laid

	Width Width  // of a step by the arrow keys
	Item  Item   // the reserve or engraving that is selected
	Tool  string // the shape that the next drag draws a single opening of; "" for none
	Field int    // the field whose controls are shown
	// FieldShown says that the field was chosen by hand: the blank shows its area.
	FieldShown bool
	Page       Page
	Folded     bool // the controls are folded away

	Stress *Stress // laid over the blank

	On Followers

	// TraceShown says that the hand may take the picture to trace.
	TraceShown bool

	under *Under                // the picture to trace, once it has been read
	drawn map[string][2]float64 // size of the single opening that was drawn last, by shape
	taken *taken                // while a hand drags something
}

// Followers are told what has changed.
type Followers struct {
	Changed func() // the design
	Picked  func() // what is picked, or the tool
	Item    func() // which reserve or engraving is selected
	Field   func() // which field is selected, or whether its area is shown
	Page    func() // which page is open
	// Leave says that a finding or an edit is no longer being looked at.
	Leave func()
	Say   func(string) // why something can't be done
	// Push has the band pushed at a position of the blank.
	Push func(plane.Point)
}

// taken is the design and the selection as a drag began.
type taken struct {
	design pattern.Design
	picked []Picked
}

// NewEditor returns an editor of a document, without followers.
func NewEditor(doc *Document, log *Log) *Editor {
	none := func() {}
	now := func(f func()) { f() }
	return &Editor{Doc: doc, Log: log, Item: NoItem, Page: PatternPage, Stress: NewStress(now, now), On: Followers{none, none, none, none, none, none, func(string) {}, func(plane.Point) {}}}
}

// Open puts another document in the place of the one before.
func (e *Editor) Open(doc *Document) {
	e.Doc = doc
	e.Picked, e.Item, e.Tool, e.Problem, e.taken = nil, NoItem, "", "", nil
}

// Now returns the design as it is.
func (e *Editor) Now() pattern.Design { return e.Doc.Now() }

// Seal ends the step that is under way.
func (e *Editor) Seal() { e.Doc.Seal() }

// Change makes d the design; path, old and now say in the log what has changed. key joins
// changes in a row into one step; without one the change is a step of its own.
func (e *Editor) Change(key, path, old, now string, d pattern.Design) {
	if key == "" {
		e.Seal()
	}
	if e.Doc.Change(key, d) {
		e.Log.Event("edit", "field", path, "old", old, "new", now)
		e.On.Changed()
	}
}

// Adopt makes d the design in one step, to which nothing is joined.
func (e *Editor) Adopt(what, says string, d pattern.Design) {
	e.Change("", what, e.Now().Name, says, d)
	e.Seal()
}

// Rename gives the design a name.
func (e *Editor) Rename(name string) {
	d := e.Now()
	old := d.Name
	d.Name = AsName(name)
	e.Change("", "name", old, d.Name, d)
}

// Put writes what was typed into a number, or returns what is wrong with it.
func (e *Editor) Put(n Number, typed string) error {
	d := e.Now()
	old := n.Text(d)
	if err := n.Put(&d, typed); err != nil {
		e.Log.Event("refused", "field", n.Path, "typed", typed, "why", err)
		return err
	}
	e.Change("", n.Path, old, n.Text(d), d)
	return nil
}

// Slide gives a number the value of a slider.
func (e *Editor) Slide(n Number, v float64) {
	d := e.Doc.Before(n.Path)
	n.Slide(&d, v)
	e.Change(n.Path, n.Path, n.Text(e.Now()), n.Text(d), d)
}

// Step changes a number by steps of its own.
// From a number that is empty they go on from the value in force.
func (e *Editor) Step(n Number, steps float64) {
	e.Slide(n, e.InForce(n)+steps*n.Step)
}

// Choose takes an option of a choice.
func (e *Editor) Choose(c Choice, key string) {
	d := e.Now()
	old := c.Get(d)
	c.Set(&d, key)
	e.Change("", c.Path, old, key, d)
}

// Why says in a sentence why something can't be done with the design, and calls the field as
// the controls do.
func (e *Editor) Why(err error) string {
	var f *unroll.FieldError
	if errors.As(err, &f) {
		return TitleOf(e.Now(), f.Path) + ": " + f.Msg + "."
	}
	return err.Error() + "."
}

// OpenPage opens a page of the controls.
func (e *Editor) OpenPage(p Page) {
	e.Page = p
	e.On.Page()
}

// SelectField has the controls of field i shown, and its area on the blank.
func (e *Editor) SelectField(i int) {
	e.Field, e.FieldShown = i, true
	e.On.Field()
	e.Log.Event("field", "index", i)
}

// LeaveField takes the area of the selected field off the blank, and reports whether it was
// there.
func (e *Editor) LeaveField() bool {
	if !e.FieldShown || e.Page != PatternPage {
		return false
	}
	e.FieldShown = false
	e.On.Field()
	return true
}
