package pages

import (
	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/export"
	"fretband/export/handover"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// Columns of what a receiver is asked.
const (
	askLabel = 88
	askEntry = 84
	askUnit  = 34
	askGap   = 8

	besideLabel = 64 // of choices beside each other
)

// handOverFields are the rows of what one receiver is asked.
type handOverFields struct {
	q       *handOverQuestion
	rows    []fyne.CanvasObject
	numbers []askedNumber
	named   []kit.Field
}

type askedNumber struct {
	n     app.HandOverNumber
	entry *kit.Entry
	row   fyne.CanvasObject
}

func newHandOverFields(q *handOverQuestion) *handOverFields {
	k := q.Kit
	f := &handOverFields{q: q}
	for _, g := range app.HandOverGroups(q.x.For) {
		if g.Folded {
			f.addFolded(g)
			continue
		}
		if g.Title != "" {
			f.rows = append(f.rows, kit.Inset(0, 7, 0, 0, k.Label(g.Title, kit.Head)))
		}
		if g.Beside {
			f.rows = append(f.rows, f.beside(g.Choices, func() {}))
		} else {
			for _, c := range g.Choices {
				f.addChoice(c)
			}
		}
		for _, pair := range g.Numbers {
			f.addPair(pair)
		}
	}
	f.showNumbers()
	return f
}

func (f *handOverFields) addChoice(c app.HandOverChoice) {
	label, box := f.choice(c, func() {
		f.q.showMade()
		f.showNumbers()
	})
	f.rows = append(f.rows, container.New(kit.Columns{Widths: []float32{askLabel, 0}, Gap: askGap, Height: rowHeight}, label, box))
}

// choice returns the label and the box of a choice.
func (f *handOverFields) choice(c app.HandOverChoice, chosen func()) (label, framed fyne.CanvasObject) {
	k := f.q.Kit
	box := k.ChoiceBox()
	box.Offer(c.Options, c.Get(f.q.x))
	box.OnChoose = func(key string) {
		c.Set(&f.q.x, key)
		chosen()
	}
	f.named = append(f.named, kit.Field{Name: c.Key, Object: box})
	return k.Label(c.Title, kit.Plain).Teach(c.Tip), k.Framed(box)
}

// addFolded adds the choices of a group, which show when its title is pressed.
func (f *handOverFields) addFolded(g app.HandOverGroup) {
	fold := kit.NewFold(f.q.Kit, g.Title, g.Tip, f.showNumbers)
	tell := func() { fold.Tell(g.Summary(f.q.x)) }
	tell()
	fold.Body.Add(f.beside(g.Choices, tell))
	f.named = append(f.named, kit.Field{Name: "fold-" + g.Choices[0].Key, Object: fold.Head})
	f.rows = append(f.rows, fold.Box)
}

// beside returns choices in one row.
func (f *handOverFields) beside(cs []app.HandOverChoice, chosen func()) fyne.CanvasObject {
	cols := kit.Columns{Gap: askGap, Height: rowHeight}
	row := container.New(nil)
	for _, c := range cs {
		label, box := f.choice(c, chosen)
		row.Objects = append(row.Objects, label, box)
		cols.Widths = append(cols.Widths, besideLabel, 0)
	}
	row.Layout = cols
	return row
}

func (f *handOverFields) addPair(pair []app.HandOverNumber) {
	k := f.q.Kit
	cols := kit.Columns{Gap: askGap, Height: rowHeight}
	box := container.New(nil)
	for _, n := range pair {
		a := askedNumber{n: n, entry: f.q.entry(n.Text(f.q.x)), row: box}
		a.entry.SetPlaceHolder(n.Empty)
		a.entry.OnStep = func(steps float64) {
			_ = n.Put(&f.q.x, a.entry.Text) // what is wrong is stepped over from the last that was right
			n.StepBy(&f.q.x, steps)
			a.entry.SetText(n.Text(f.q.x))
		}
		box.Objects = append(box.Objects, k.Label(n.Title, kit.Plain).Teach(n.Tip+"\nAllowed: "+n.Allowed()+"."), a.entry, k.Label(n.Unit, kit.Soft))
		cols.Widths = append(cols.Widths, askLabel, askEntry, askUnit)
		f.numbers = append(f.numbers, a)
		f.named = append(f.named, kit.Field{Name: n.Key, Object: a.entry})
	}
	box.Layout = cols
	f.rows = append(f.rows, box)
}

// showNumbers shows the numbers that matter with the present choices.
func (f *handOverFields) showNumbers() {
	for _, a := range f.numbers {
		kit.Show(a.row, a.n.Shows(f.q.x))
	}
	f.q.asked.Refresh()
	f.q.Opened()
}

// read takes the numbers that are shown, or says what is wrong with the first that is.
func (f *handOverFields) read(x *app.HandOver) (*kit.Entry, error) {
	for _, a := range f.numbers {
		if !a.n.Shows(*x) {
			continue
		}
		if err := a.n.Put(x, a.entry.Text); err != nil {
			return a.entry, err
		}
	}
	return nil, nil
}

// keep takes what can be taken of the numbers that have been typed.
func (f *handOverFields) keep(x *app.HandOver) {
	for _, a := range f.numbers {
		_ = a.n.Put(x, a.entry.Text) // what is wrong is not kept; nothing is made of it here
	}
}

// formatsFor lists what a receiver gets by the answers.
func (q *handOverQuestion) formatsFor() []handover.Format {
	to, _ := export.ReceiverByKey(q.x.For)
	return handover.GetsOf(q.Ed.Scene.Sheet, to, q.x.Asked())
}

// fileLine is a line of a list of files.
func fileLine(k *kit.Kit, name, what, size string) fyne.CanvasObject {
	return container.New(kit.Columns{Widths: []float32{0, 170, 66}, Gap: askGap, Height: 19},
		k.Label(name, kit.Strong), k.Label(what, kit.Soft), k.Label(size, kit.Soft).Right())
}
