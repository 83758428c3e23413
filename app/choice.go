package app

import "fretband/pattern"

// Option is one thing that can be chosen.
type Option = pattern.Option

// Choice is a choice or a text of the design: a line of the table, at its
// position in the lists.
type Choice struct {
	Path, Title, Tip string
	Options          func(pattern.Design) []Option
	Get              func(pattern.Design) string
	Set              func(*pattern.Design, string)
	Shown            func(pattern.Design) bool
}

// Choices returns the choices of a group of the table, at those positions in the lists.
func Choices(g pattern.Group, at ...int) []Choice {
	var cs []Choice
	table := pattern.Table()
	for i := range table {
		if e := &table[i]; e.Group == g && e.Choice() {
			cs = append(cs, choiceOf(e, atOf(at)))
		}
	}
	return cs
}

// ChoiceOf returns the choice or text that the table has under a key ([pattern.Entry.Key]).
func ChoiceOf(key string, at ...int) Choice {
	table := pattern.Table()
	for i := range table {
		if e := &table[i]; e.Key() == key {
			return choiceOf(e, atOf(at))
		}
	}
	panic("app: the table has no " + key) // a mistake in the program, which every test would meet
}

func choiceOf(e *pattern.Entry, at pattern.At) Choice {
	w := ways[e.Key()]
	if w.is != nil {
		w.get = func(d *pattern.Design, at pattern.At) string {
			if w.is(d, at) {
				return e.Options[1].Key
			}
			return e.Options[0].Key
		}
		w.set = func(d *pattern.Design, at pattern.At, key string) { w.become(d, at, key == e.Options[1].Key) }
	}
	if w.get == nil {
		w.get = func(d *pattern.Design, at pattern.At) string {
			if s := *e.Text(d, at); s != "" {
				return s
			}
			return e.Usual
		}
	}
	if w.set == nil {
		w.set = func(d *pattern.Design, at pattern.At, key string) {
			if key == e.Usual {
				key = ""
			}
			*e.Text(d, at) = key
		}
	}
	return Choice{
		Path: e.PathAt(at), Title: e.TitleAt(at), Tip: e.Tip,
		Options: func(d pattern.Design) []Option { return e.Offered(&d, at) },
		Get: func(d pattern.Design) string {
			if !e.In(&d, at) {
				return ""
			}
			return w.get(&d, at)
		},
		Set: func(d *pattern.Design, key string) {
			if e.In(d, at) {
				unshare(d, e)
				w.set(d, at, key)
			}
		},
		Shown: func(d pattern.Design) bool { return e.Visible(&d, at) },
	}
}
