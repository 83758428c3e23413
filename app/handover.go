package app

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fretband/export"
	"fretband/pattern/check"
)

// HandOver are the answers given when files were last handed over: to whom, where to,
// and how he works. Lengths are mm. What one receiver was told is kept for the next
// time, also if another is asked about in between.
type HandOver struct {
	Folder      string  `json:"folder,omitempty"`
	For         string  `json:"for,omitempty"`          // key of the receiver; empty is whoever asks
	LeaveFolder bool    `json:"leave_folder,omitempty"` // it is not opened afterwards
	Paper       string  `json:"paper"`
	PaperCopies int     `json:"paper_copies"` // for the bench
	Process     string  `json:"process"`
	KerfMM      float64 `json:"kerf_mm"`
	Curves      string  `json:"curves"`
	ChordMM     float64 `json:"chord_mm"`
	LeadMM      float64 `json:"lead_mm"`
	Tabs        int     `json:"tabs"`
	TabMM       float64 `json:"tab_mm"`
	Copies      int     `json:"copies"`
	SheetW      float64 `json:"sheet_w_mm"` // 0: as large as needed
	SheetH      float64 `json:"sheet_h_mm"`
	GapMM       float64 `json:"gap_mm"`
	MarginMM    float64 `json:"margin_mm"`
}

// firstHandOver is what stands there before anything has been answered.
func firstHandOver() HandOver {
	return HandOver{
		Paper: export.A4, PaperCopies: 1, Process: export.Saw, Curves: export.Arcs, ChordMM: export.UsualChordMM,
		TabMM: export.UsualTabMM, Copies: 1, GapMM: export.UsualGapMM, MarginMM: export.UsualMarginMM,
	}
}

// WhoeverAsks is the key of a receiver of whom nothing is known.
const WhoeverAsks = ""

// HandOverGroup is what is asked together, in the order in which it is read: choices
// across, then numbers in pairs.
type HandOverGroup struct {
	Title   string
	Choices []HandOverChoice
	Numbers [][]HandOverNumber
}

// HandOverGroups returns what has to be known for the files of a receiver.
func HandOverGroups(receiver string) []HandOverGroup {
	cut := HandOverGroup{"How it is cut", []HandOverChoice{curvesChoice()}, [][]HandOverNumber{{kerfNumber(), leadNumber()}, {tabsNumber(), tabWidthNumber()}, {chordNumber()}}}
	sheet := HandOverGroup{"On the sheet of metal", nil, [][]HandOverNumber{{copiesNumber()}, {sheetWidthNumber(), sheetHeightNumber()}, {gapNumber(), marginNumber()}}}
	switch receiver {
	case "bench":
		return []HandOverGroup{{"On paper", []HandOverChoice{paperChoice()}, [][]HandOverNumber{{paperCopiesNumber()}}}}
	case "laser":
		return []HandOverGroup{cut, sheet}
	case WhoeverAsks:
		return []HandOverGroup{{"", []HandOverChoice{processChoice(), paperChoice()}, nil}, cut, sheet}
	}
	return nil
}

// Options are the answers that concern the receiver as the files take them.
func (h HandOver) Options() export.Options {
	var o export.Options
	switch h.For {
	case "bench":
		o.Paper, o.Copies = h.Paper, h.PaperCopies
		return o
	case "laser":
	case WhoeverAsks:
		o.Paper, o.Process = h.Paper, h.Process
	default:
		return o
	}
	o.KerfMM, o.LeadMM, o.Curves = h.KerfMM, h.LeadMM, h.Curves
	if h.Curves == export.Chords {
		o.ChordMM = h.ChordMM
	}
	if h.Tabs > 0 {
		o.Tabs, o.TabMM = h.Tabs, h.TabMM
	}
	o.Copies, o.StockW, o.StockH, o.GapMM, o.MarginMM = h.Copies, h.SheetW, h.SheetH, h.GapMM, h.MarginMM
	return o
}

// mend takes kept answers that can't be given back to what stood there at first.
func (h *HandOver) mend() {
	first := firstHandOver()
	for _, to := range append([]string{WhoeverAsks}, receiverKeys()...) {
		for _, g := range HandOverGroups(to) {
			for _, n := range slices.Concat(g.Numbers...) {
				if !n.allows(n.Get(*h)) {
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
	if h.For != WhoeverAsks && !slices.Contains(receiverKeys(), h.For) {
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

// Breaches tells how many rules are broken that the maker does not let stand, and
// what the first of them is.
func Breaches(fs []check.Finding) (count int, first string) {
	for _, f := range fs {
		if f.Severity == check.Breach && f.Open() {
			if count++; count == 1 {
				first = f.What
			}
		}
	}
	return count, first
}

// HandOverNumber is one number of the answers.
type HandOverNumber struct {
	Key, Title, Unit, Tip string
	Min, Max              float64
	Step                  float64 // one press of an arrow key
	Places                int
	Whole                 bool
	// Empty is what an entry without text says, which stands for 0; "" if a number has
	// to be typed.
	Empty string
	Get   func(HandOver) float64
	Set   func(*HandOver, float64)
	Shown func(HandOver) bool // nil: always
}

// Text writes the number, without its unit.
func (n HandOverNumber) Text(h HandOver) string {
	v := n.Get(h)
	if v == 0 && n.Empty != "" {
		return ""
	}
	return FormatNumber(v, n.Places)
}

// Allowed says what may be typed: "0 to 1 mm".
func (n HandOverNumber) Allowed() string {
	s := strings.TrimSpace(fmt.Sprintf("%s to %s %s", FormatNumber(n.Min, n.Places), FormatNumber(n.Max, n.Places), n.Unit))
	if n.Whole {
		s = "a whole number, " + s
	}
	if n.Empty != "" {
		s += ", or nothing"
	}
	return s
}

func (n HandOverNumber) allows(v float64) bool {
	return v >= n.Min && v <= n.Max && (!n.Whole || v == math.Trunc(v)) || v == 0 && n.Empty != ""
}

// Put writes what was typed, or says what is allowed and leaves the answers alone.
func (n HandOverNumber) Put(h *HandOver, typed string) error {
	typed = strings.TrimSpace(typed)
	if typed == "" && n.Empty != "" {
		n.Set(h, 0)
		return nil
	}
	q, err := ReadQuantity(typed, n.Unit, false)
	if err != nil {
		return fmt.Errorf("%s: %w; allowed is %s", n.Title, err, n.Allowed())
	}
	if !n.allows(q.Value) {
		return fmt.Errorf("%s: %s is not allowed; allowed is %s", n.Title, typed, n.Allowed())
	}
	n.Set(h, q.Value)
	return nil
}

// StepBy moves the number by steps of its own, held to its limits; down from the least
// is empty, where that may be.
func (n HandOverNumber) StepBy(h *HandOver, steps float64) {
	p := math.Pow(10, float64(n.Places))
	v := math.Round((n.Get(*h)+steps*n.Step)*p) / p
	if v < n.Min && n.Empty != "" {
		v = 0
	} else {
		v = math.Max(n.Min, math.Min(n.Max, v))
	}
	n.Set(h, v)
}

// HandOverChoice is one of the either-ors of the answers.
type HandOverChoice struct {
	Key, Title, Tip string
	Options         []Option
	Get             func(HandOver) string
	Set             func(*HandOver, string)
}

// CutsSheet reports whether a receiver's files lay parts on a sheet of metal.
func CutsSheet(receiver string) bool {
	return receiver == "laser" || receiver == WhoeverAsks
}
