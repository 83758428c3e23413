package app

import (
	"math"
	"slices"
	"strings"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
)

// HandOver holds the answers of the hand-over dialog. Those for one receiver are kept for
// the next time, also if another is chosen in between.
type HandOver struct {
	Folder      string `json:"folder,omitempty"`
	For         string `json:"for,omitempty"`          // key of the receiver; empty is anyone
	LeaveFolder bool   `json:"leave_folder,omitempty"` // it is not opened afterwards
	PaperCopies int    `json:"paper_copies"`           // for the bench
	export.Options
}

// firstHandOver is what is there before anything has been answered.
func firstHandOver() HandOver {
	return HandOver{PaperCopies: 1, Options: export.Options{
		Paper: export.A4, Process: export.Saw, Curves: export.Arcs, ChordMM: export.UsualChordMM,
		TabMM: export.UsualTabMM, Copies: 1, Stress: export.NoStress, Words: export.WordsKept,
		OpeningsColour: export.AskByKey("openings-colour").Usual, OutlineColour: export.AskByKey("outline-colour").Usual, EngravingColour: export.AskByKey("engraving-colour").Usual,
		GapMM: export.UsualGapMM, MarginMM: export.UsualMarginMM,
	}}
}

// Anyone is the key of a receiver of whom nothing is known.
const Anyone = ""

// HandOverGroup is what is asked together, in the order in which it is read: choices
// across, then numbers in pairs.
type HandOverGroup struct {
	Title   string
	Choices []HandOverChoice
	Numbers [][]HandOverNumber
	Beside  bool // its choices stand beside each other
	Folded  bool // and show when the title is pressed: few ask for them
	Tip     string
}

// Summary says in words what has been chosen of a group.
func (g HandOverGroup) Summary(h HandOver) string {
	var words []string
	for _, c := range g.Choices {
		for _, o := range c.Options {
			if o.Key == c.Get(h) {
				words = append(words, o.Title)
			}
		}
	}
	return strings.Join(words, ", ")
}

// HandOverGroups returns what has to be known for the files of a receiver.
func HandOverGroups(receiver string) []HandOverGroup {
	n := func(key string) HandOverNumber { return askedNumber(export.AskByKey(key)) }
	c := func(key string) HandOverChoice { return HandOverChoice{export.AskByKey(key)} }
	cut := HandOverGroup{Title: "How it is cut", Choices: []HandOverChoice{c("curves"), c("words")}, Numbers: [][]HandOverNumber{{n("kerf"), n("lead")}, {n("tabs"), n("tab-width")}, {n("chord")}}}
	sheet := HandOverGroup{Title: "On the sheet of metal", Numbers: [][]HandOverNumber{{n("copies")}, {n("sheet-width"), n("sheet-height")}, {n("gap"), n("margin")}}}
	colours := HandOverGroup{Title: "Colours of lines", Choices: []HandOverChoice{c("openings-colour"), c("outline-colour"), c("engraving-colour")}, Beside: true, Folded: true,
		Tip: "For a machine that goes by the colour of a line. Others go by the group or layer."}
	switch receiver {
	case export.Bench:
		return []HandOverGroup{{Title: "On paper", Choices: []HandOverChoice{c("paper"), c("stress")}, Numbers: [][]HandOverNumber{{paperCopies()}}}}
	case "client":
		return []HandOverGroup{{Title: "Besides", Choices: []HandOverChoice{c("stress")}}}
	case export.LaserShop:
		return []HandOverGroup{cut, sheet, colours}
	case Anyone:
		return []HandOverGroup{{Choices: []HandOverChoice{c("process"), c("paper")}, Beside: true}, cut, sheet, colours}
	}
	return nil
}

// Asked are the answers that concern the receiver, as the files take them.
func (h HandOver) Asked() export.Options {
	var o export.Options
	for _, g := range HandOverGroups(h.For) {
		for _, c := range g.Choices {
			*c.Text(&o) = *c.Text(&h.Options)
		}
		for _, n := range slices.Concat(g.Numbers...) {
			if n.Ask.For == nil || n.Ask.For(&h.Options) {
				n.write(&o, n.Get(h))
			}
		}
	}
	return o
}

// mend replaces kept answers that can't be given any more by the first ones.
func (h *HandOver) mend() {
	first := firstHandOver()
	for _, to := range append([]string{Anyone}, receiverKeys()...) {
		for _, g := range HandOverGroups(to) {
			for _, n := range slices.Concat(g.Numbers...) {
				if !n.typing().allows(n.Get(*h)) {
					n.Set(h, n.Get(first))
				}
			}
			for _, c := range g.Choices {
				if !slices.ContainsFunc(c.Options, func(o Option) bool { return o.Key == c.Get(*h) }) {
					c.Set(h, c.Get(first))
				}
			}
		}
	}
	if h.For != Anyone && !slices.Contains(receiverKeys(), h.For) {
		h.For = first.For
	}
}

func receiverKeys() []string {
	var keys []string
	for _, v := range export.Receivers() {
		keys = append(keys, v.Key)
	}
	return keys
}

// Breaches says how many rules are broken that the maker does not accept, and
// what the first of them is.
func Breaches(fs []check.Finding) (count int, first string) {
	for _, f := range fs {
		if f.Broken() {
			if count++; count == 1 {
				first = f.What
			}
		}
	}
	return count, first
}

// HandOverNumber is one number of the answers: a line of the table of what may be asked.
type HandOverNumber struct {
	*export.Ask
	Min float64 // that may be typed
	Get func(HandOver) float64
	Set func(*HandOver, float64)
}

func askedNumber(a *export.Ask) HandOverNumber {
	n := HandOverNumber{Ask: a, Min: max(a.Min, a.Least)}
	n.Get = func(h HandOver) float64 {
		if a.Whole != nil {
			return float64(*a.Whole(&h.Options))
		}
		return *a.Number(&h.Options)
	}
	n.Set = func(h *HandOver, v float64) { n.write(&h.Options, v) }
	return n
}

func (n HandOverNumber) write(o *export.Options, v float64) {
	if n.Whole != nil {
		*n.Whole(o) = int(v)
	} else {
		*n.Number(o) = v
	}
}

// paperCopies is how many templates are printed. The bench gets another number than
// a shop.
func paperCopies() HandOverNumber {
	a := *export.AskByKey("copies")
	a.Key, a.Tip = "paper-copies", "How many templates are printed: one is used up with each part that is sawn. As many as fit stand on a page."
	n := askedNumber(&a)
	n.Get = func(h HandOver) float64 { return float64(h.PaperCopies) }
	n.Set = func(h *HandOver, v float64) { h.PaperCopies = int(v) }
	return n
}

// Shows reports whether the answers so far leave it something to say.
func (n HandOverNumber) Shows(h HandOver) bool { return n.Shown == nil || n.Shown(&h.Options) }

// Text writes the number, without its unit.
func (n HandOverNumber) Text(h HandOver) string {
	v := n.Get(h)
	if v == 0 && n.Empty != "" {
		return ""
	}
	return FormatNumber(v, n.Decimals)
}

// Allowed says what may be typed: "0 to 1 mm".
func (n HandOverNumber) Allowed() string { return n.typing().allowed() }

func (n HandOverNumber) typing() typing {
	return typing{title: n.Title, unit: n.Unit, empty: n.Empty, Range: pattern.Range{Min: n.Min, Max: n.Max}, decimals: n.Decimals, whole: n.Whole != nil}
}

// Put writes what was typed, or says what is allowed and leaves the answers alone.
func (n HandOverNumber) Put(h *HandOver, typed string) error {
	q, err := n.typing().read(typed)
	if err == nil {
		n.Set(h, q.Value)
	}
	return err
}

// StepBy moves the number by steps of its own, kept within its limits; down from the least
// is empty, where that may be.
func (n HandOverNumber) StepBy(h *HandOver, steps float64) {
	p := math.Pow(10, float64(n.Decimals))
	v := math.Round((n.Get(*h)+steps*n.Step)*p) / p
	if v < n.Min && n.Empty != "" {
		v = 0
	} else {
		v = math.Max(n.Min, math.Min(n.Max, v))
	}
	n.Set(h, v)
}

// HandOverChoice is one of the either-ors of the answers.
type HandOverChoice struct{ *export.Ask }

// Get returns the key that is chosen.
func (c HandOverChoice) Get(h HandOver) string { return *c.Text(&h.Options) }

// Set chooses a key.
func (c HandOverChoice) Set(h *HandOver, key string) { *c.Text(&h.Options) = key }

// CutsSheet reports whether a receiver's files lay parts on a sheet of metal.
func CutsSheet(receiver string) bool {
	return receiver == export.LaserShop || receiver == Anyone
}
