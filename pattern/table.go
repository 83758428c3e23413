package pattern

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
)

// Entry is one line of the table of a design's values ([Table]): what the design file,
// the window and the reference call a value, and what it may be. Its path says where it
// is kept. Which of its pointers it has says what it is: a number, a whole number, a text,
// a list of parts, or, with none, a group of others or a question that only the window
// asks. A text with options is a choice.
type Entry struct {
	// Path is that in the design file; [] stands for the index in a list.
	Path string
	// Case tells the entries of one path apart. It has several where it means another
	// thing in another design, as the diameter of a circle is the length of an oval. What
	// does not depend on that is read of the first.
	Case  string
	Group Group  // where the window shows it; empty if it has no row
	Title string // what a person calls it; # stands for its number in the innermost list
	Unit  string
	Tip   string // what the word means at the bench
	// Doc says in the reference what may be there; {} stands for the range, the
	// options or the greatest length. None says just that.
	Doc string

	// Range is what a number may be, and Typed what may be typed for it where that is not
	// the same. Optional says that 0 is as good as none given, whatever the range.
	Range
	Typed    *Range
	Optional bool
	Step     float64 // of one press of an arrow key
	// Empty is what an entry without text says, which stands for 0; without it there has to
	// be a number.
	Empty string
	// Hundred returns what 100 % is, where a percentage may be typed; nil where none may.
	Hundred  func(*Design, At) float64
	Decimals int // decimals shown
	// Slider has the values in daily use, RingSlider those of a ring if they differ. Empty
	// for a number that has no slider.
	Slider, RingSlider Range
	Gauge              bool // it may be typed as a gauge of sheet

	// Options are the words that may be chosen; Without says which of them a design is not
	// offered. Offer has those that depend on the design. Usual is the one that an empty
	// text stands for.
	Options []Option
	Without func(d *Design, at At, key string) bool
	Offer   func(*Design, At) []Option
	Usual   string
	Wrong   string // says what any other word is not, or what to do with several lines

	Bytes  int  // the longest text
	Needed bool // the text, or the list, must not be empty
	Lines  bool // the text may have several lines
	Data   bool // the text is path data, which has rules of its own

	Most  int    // parts of a list
	Parts string // what they are called, if not as the list is

	// Where a value is kept: one of these, by its path ([Entry.keep]).
	Number func(*Design, At) *float64
	Whole  func(*Design, At) *int
	Text   func(*Design, At) *string
	Count  func(*Design, At) int

	// For says of which designs the value is; in others it has to be left out, and Else
	// says so in words of its own. Shown says when the window shows it, if that is not
	// the same. Nil is always.
	For, Shown func(*Design, At) bool
	Else       string
	// Rule is what the value and others have to be together; it is asked once all before
	// it in the table, and what lies in it, have been checked by themselves.
	Rule func(*Design, At) error
}

// SaidOnce is the Doc of what the reference says of another list.
const SaidOnce = "-"

// Option is one of the words of a choice: as the design file has it, and as a person
// reads it.
type Option struct{ Key, Title string }

// At holds the indices that stand for the [] of a path, the outer list's first.
type At [2]int

// Range is the least and greatest value of a number, both allowed.
type Range struct{ Min, Max float64 }

// Clamp returns the value in the range that is nearest to v.
func (r Range) Clamp(v float64) float64 { return max(r.Min, min(r.Max, v)) }

// Group is what the window shows together.
type Group string

// Groups of the table.
const (
	BandGroup      Group = "band"
	FormGroup      Group = "form"
	ProfileGroup   Group = "profile" // a piece of a free profile
	TopGroup       Group = "top"     // a point of an edge
	BottomGroup    Group = "bottom"
	MetalGroup     Group = "metal"
	WearGroup      Group = "wear"
	WorkGroup      Group = "work"
	RulesGroup     Group = "rules"
	RimGroup       Group = "rim"  // a point of the curve of the rim's width
	GridGroup      Group = "grid" // how often a field's motif is repeated, and how its rows lie
	AreaGroup      Group = "area"
	ArrangeGroup   Group = "arrange"
	SizesGroup     Group = "sizes"
	AlongGroup     Group = "along" // a point of a curve of sizes
	AcrossGroup    Group = "across"
	BridgesGroup   Group = "bridges" // a point of the curve of the bridges' width
	ReserveGroup   Group = "reserve"
	EngravingGroup Group = "mark"
	AddedGroup     Group = "added"
	HandGroup      Group = "hand" // of the selection
	UnderlayGroup  Group = "underlay"
)

// Table lists all that a design holds. Whoever reads, checks, shows or explains a value
// of a design goes by it, so a new one is a line here, and its use.
func Table() []Entry { return table }

// table is built once. Its order is that in which a person reads each group; what says
// which values there are (a shape, a kind) comes before them.
var table = slices.Concat(
	headEntries(), bandEntries(), formEntries(), metalEntries(), ruleEntries(),
	fieldEntries(), areaEntries(), gradeEntries("grade_along", AlongGroup), gradeEntries("grade_across", AcrossGroup), bridgeEntries(),
	reserveEntries(), engravingEntries(), addedEntries(), editEntries(), workEntries(), wearEntries(), underlayEntries(), endEntries(),
)

// byPath holds the entries of each path. checked holds what is checked of the parts of
// each list, by the list's path with [], what the design itself has by "": of several
// entries of one path the first. The band checks itself.
var byPath, checked = sorted()

func sorted() (byPath, checked map[string][]*Entry) {
	byPath, checked = map[string][]*Entry{}, map[string][]*Entry{}
	for i := range table {
		e := &table[i]
		e.keep()
		if len(byPath[e.Path]) == 0 && !strings.HasPrefix(e.Path, "band.") {
			checked[e.list()] = append(checked[e.list()], e)
		}
		byPath[e.Path] = append(byPath[e.Path], e)
	}
	return byPath, checked
}

// keep finds where the value is kept. A question has nothing there, or a number that its
// options are no values of.
func (e *Entry) keep() {
	of, value := kept(e.Path)
	question := e.Options != nil && (of == nil || of.Kind() != reflect.String)
	switch {
	case question:
	case of == nil:
		panic("pattern: a design has nothing at " + e.Path) // a mistake in the table, which every test would meet
	case of.Kind() == reflect.Float64:
		e.Number = func(d *Design, at At) *float64 { return value(d, at).Addr().Interface().(*float64) }
	case of.Kind() == reflect.Int:
		e.Whole = func(d *Design, at At) *int { return value(d, at).Addr().Interface().(*int) }
	case of.Kind() == reflect.String:
		e.Text = func(d *Design, at At) *string { return value(d, at).Addr().Interface().(*string) }
	case of.Kind() == reflect.Slice:
		e.Count = func(d *Design, at At) int { return value(d, at).Len() }
	}
}

// kept returns the type of what a design keeps at a path, and the way there: by the names
// that its structures have for the design file. The type is nil if there is nothing.
func kept(path string) (reflect.Type, func(*Design, At) reflect.Value) {
	const index = -1 // in a list
	of := reflect.TypeFor[Design]()
	var way []int
	for _, part := range strings.Split(path, ".") {
		name, list := strings.CutSuffix(part, "[]")
		i := 0
		for ; i < of.NumField(); i++ {
			if tag, _, _ := strings.Cut(of.Field(i).Tag.Get("json"), ","); tag == name {
				break
			}
		}
		if i == of.NumField() {
			return nil, nil
		}
		way, of = append(way, i), of.Field(i).Type
		if list {
			way, of = append(way, index), of.Elem()
		}
	}
	return of, func(d *Design, at At) reflect.Value {
		v, deep := reflect.ValueOf(d).Elem(), 0
		for _, i := range way {
			if i == index {
				v, deep = v.Index(at[deep]), deep+1
			} else {
				v = v.Field(i)
			}
		}
		return v
	}
}

// list returns the path of the innermost list that the value lies in, with its [].
func (e *Entry) list() string {
	if i := strings.LastIndex(e.Path, "[]"); i >= 0 {
		return e.Path[:i+len("[]")]
	}
	return ""
}

// Key names the entry for good, whatever its words are: by its path and case.
func (e *Entry) Key() string {
	if e.Case == "" {
		return e.Path
	}
	return e.Path + ":" + e.Case
}

// Choice reports whether the value is one of several words.
func (e *Entry) Choice() bool { return e.Options != nil || e.Offer != nil }

// Offered returns the options that a design is offered.
func (e *Entry) Offered(d *Design, at At) []Option {
	if e.Offer != nil {
		return e.Offer(d, at)
	}
	var os []Option
	for _, o := range e.Options {
		if e.Without == nil || !e.Without(d, at, o.Key) {
			os = append(os, o)
		}
	}
	return os
}

// Applies reports whether the value is one of such a design.
func (e *Entry) Applies(d *Design, at At) bool { return e.For == nil || e.For(d, at) }

// Visible reports whether the window shows the value: it is there, and it is of use.
func (e *Entry) Visible(d *Design, at At) bool {
	if !e.In(d, at) {
		return false
	}
	if e.Shown != nil {
		return e.Shown(d, at)
	}
	return e.Applies(d, at)
}

// In reports whether the lists that the value lies in are so long that it is there.
func (e *Entry) In(d *Design, at At) bool {
	for i, from := 0, 0; ; i++ {
		k := strings.Index(e.Path[from:], "[]")
		if k < 0 {
			return true
		}
		if list := byPath[e.Path[:from+k]][0]; at[i] < 0 || at[i] >= list.Count(d, at) {
			return false
		}
		from += k + 2
	}
}

// PathAt returns the value's path with indices, as the design file's errors name it.
func (e *Entry) PathAt(at At) string { return pathAt(e.Path, at) }

func pathAt(path string, at At) string {
	for _, i := range at {
		path = strings.Replace(path, "[]", fmt.Sprintf("[%d]", i), 1)
	}
	return path
}

// TitleAt returns the value's title, with its number in the list.
func (e *Entry) TitleAt(at At) string {
	i := max(0, strings.Count(e.Path, "[]")-1)
	return strings.Replace(e.Title, "#", strconv.Itoa(at[i]+1), 1)
}

// ByPath returns the entries of a path of the table.
func ByPath(path string) []*Entry { return byPath[path] }

// Lookup returns the entries of a path with indices, as "fields[2].rows", and those.
func Lookup(path string) ([]*Entry, At) {
	var at At
	var bare strings.Builder
	rest := path
	for i := 0; ; i++ {
		before, after, more := strings.Cut(rest, "[")
		bare.WriteString(before)
		if !more {
			return ByPath(bare.String()), at
		}
		digits, after, closed := strings.Cut(after, "]")
		n, err := strconv.Atoi(digits)
		if !closed || err != nil || i == len(at) {
			return nil, At{}
		}
		at[i], rest = n, after
		bare.WriteString("[]")
	}
}

// one and bridgeRule are what 100 % is of a share, and of bridges that go by the rule.
func one(*Design, At) float64            { return 1 }
func bridgeRule(d *Design, _ At) float64 { return d.Rules.BridgeMM }

// is says of designs that a word of theirs is one of those.
func is(of func(*Design, At) string, words ...string) func(*Design, At) bool {
	return func(d *Design, at At) bool { return slices.Contains(words, of(d, at)) }
}
