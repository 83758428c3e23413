package export

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"fretband/pattern/check"
	"fretband/unroll"
)

// Papers that a template can be laid on.
const (
	A4     = "a4"     // 210 x 297 mm, ISO 216
	Letter = "letter" // 8.5 x 11 in, ASME Y14.1
	A3     = "a3"     // 297 x 420 mm, ISO 216
	// 8.5 x 14 in (common practice in North America) and 11 x 17 in (size B of ASME
	// Y14.1).
	Legal   = "legal"
	Tabloid = "tabloid"
)

// Processes that have words of their own; any other plain words are quoted.
const (
	Saw   = "saw"
	Laser = "laser"
	Cast  = "cast"
)

// Curves of the cut files: what the receiver's machine or program can read.
const (
	Arcs    = "arcs"     // true arcs: DXF of release 2000 with bulges, SVG with arcs
	ArcsR12 = "arcs-r12" // true arcs in the older DXF of release 12; SVG as above
	Chords  = "chords"   // straight chords only, in DXF of release 12 and SVG
)

// Solids lists the formats of the bent, pierced band as a closed solid, for casting
// patterns and for looking at. They are large, so only those asked for are written.
//
// The solid has the finished size. Neither kerf nor shrinkage is allowed for: a
// caster adds what the metal and the process take (common practice).
func Solids() []string { return []string{"stl", "3mf"} }

// Whether there is a picture of the stress: the band opened or squeezed.
const (
	NoStress    = "no"
	StressShown = "yes"
)

// Whether the words of the cut files are drawn in the sheet's margin too.
const (
	WordsKept  = "no"
	WordsDrawn = "yes"
)

// AllCurves lists them in the order in which a person reads them.
func AllCurves() []string { return []string{Arcs, ArcsR12, Chords} }

// Limits that the cutting plan goes by as well ([Asks] has the others). Chords within
// [MinChordMM] are long enough to be cut on any arc: one that takes more of them than its
// quarters of a turn has a radius r of 3.4 times that at least, so its chords are
// sqrt(2 r MinChordMM) or 2.6 times that long, which is over [plane.LeastCut].
const (
	MaxCopies  = 1000
	MinChordMM = 0.004
	MaxStockMM = 3000.0
)

// Usual values where an option is 0, mm: ours.
const (
	UsualChordMM  = 0.005
	UsualTabMM    = 0.4
	UsualGapMM    = 3.0
	UsualMarginMM = 5.0
)

// Options say how the files are to be used. The zero value is a template on A4
// and cut files of one part, without kerf compensation. What is asked, the window keeps as
// JSON for the next time.
type Options struct {
	// KerfMM is the width that the blade or beam takes away. 0 draws the
	// finished edges; otherwise the cut files draw the middle of the cut.
	KerfMM float64 `json:"kerf_mm"`
	// Paper is one of [Papers]; empty means A4.
	Paper string `json:"paper"`
	// Process is "saw", "laser" or plain words of the reader's own, over what the receiver
	// and the design say; empty leaves it to them.
	Process string `json:"process"`
	// Solids names those of [Solids] that [Anyone] gets besides; none if empty.
	Solids []string `json:"-"`
	// Copies is how many parts are made: on the cut sheet and on the template's pages.
	// 0 means 1.
	Copies int `json:"copies"`
	// Curves is "arcs", "arcs-r12" or "chords"; empty means "arcs".
	Curves string `json:"curves"`
	// ChordMM is the greatest distance of a chord from its arc, mm, if Curves is
	// "chords"; 0 means [UsualChordMM].
	ChordMM float64 `json:"chord_mm"`
	// LeadMM is the length of the lead-ins, mm; 0 writes none. Where there is no room
	// for it, a lead-in is shorter.
	LeadMM float64 `json:"lead_mm"`
	// Tabs is the number of tabs that hold the outline in the sheet, TabMM the width
	// of each; 0 tabs cut the part free, and 0 mm means [UsualTabMM].
	Tabs  int     `json:"tabs"`
	TabMM float64 `json:"tab_mm"`
	// StockW and StockH are the size of the sheet that is cut, mm; 0 takes one as
	// large as the parts need.
	StockW float64 `json:"sheet_w_mm"`
	StockH float64 `json:"sheet_h_mm"`
	// GapMM is the least distance between parts, MarginMM that from a part to the
	// edge of the sheet, with lead-ins and kerf; 0 means [UsualGapMM] and
	// [UsualMarginMM].
	GapMM    float64 `json:"gap_mm"`
	MarginMM float64 `json:"margin_mm"`
	// For is the key of the receiver; empty if nothing is known of him.
	For string `json:"-"`
	// Quote says that money and working time may stand on papers that leave the house.
	Quote bool `json:"-"`
	// Stress is [StressShown] for a picture of the stress too; empty or [NoStress] for none.
	Stress string `json:"stress"`
	// Words is [WordsDrawn] to draw what the cut files say in the sheet's margin too; empty or
	// [WordsKept] leaves it to the description, which no machine cuts.
	Words string `json:"words"`
	// OpeningsColour, OutlineColour and EngravingColour are keys of [Colours], of the lines in
	// cut files; empty is black, and grey for engraving.
	OpeningsColour  string `json:"openings_colour,omitempty"`
	OutlineColour   string `json:"outline_colour,omitempty"`
	EngravingColour string `json:"engraving_colour,omitempty"`
	// Date is written on templates and job sheets as it is; empty writes none.
	Date string `json:"-"`
	// Replace says that files of other designs that stand in the way may be replaced.
	Replace bool `json:"-"`
	// Earlier are content numbers that the design had before.
	Earlier []string `json:"-"`
	// Was is the name by which files of the design are known, if it has just been given
	// another.
	Was string `json:"-"`
}

// Check says what is wrong with the options, naming the one and its range.
func (o Options) Check() error {
	for i := range asks {
		if err := asks[i].check(&o); err != nil {
			return err
		}
	}
	for _, k := range o.Solids {
		if !slices.Contains(Solids(), k) {
			return fmt.Errorf("solid %s: must be one of %s", unroll.Quote(k), strings.Join(Solids(), ", "))
		}
	}
	if (o.StockW == 0) != (o.StockH == 0) {
		return fmt.Errorf("sheet %g x %g mm: give both sides or neither", o.StockW, o.StockH)
	}
	if i := strings.IndexFunc(o.Process, unicode.IsControl); i >= 0 {
		return fmt.Errorf("process: letter %d is a control character: must be plain words", i+1)
	}
	return nil
}

// Priced reports whether money and working time may stand on the papers: of the house's own,
// and of those that leave it if so asked.
func (o Options) Priced() bool {
	to, _ := ReceiverByKey(o.For)
	return o.Quote || !to.Outside
}

// Parts returns how many parts are made.
func (o Options) Parts() int { return max(o.Copies, 1) }

// OnSheet reports whether the parts are laid on a sheet of their own, with its corner
// for the origin, instead of one in the blank's frame.
func (o Options) OnSheet() bool { return o.Parts() > 1 || o.StockW > 0 }

// Chord returns the greatest distance of chords from arcs, mm; 0 if arcs stay arcs.
func (o Options) Chord() float64 {
	if o.Curves != Chords {
		return 0
	}
	return cmp.Or(o.ChordMM, UsualChordMM)
}

// CutLength returns how much of a part is cut, mm, along the finished edges: all of them but
// for the tabs. Whatever names a length of cut with files names this one.
func (o Options) CutLength(r *check.Report) float64 {
	return r.CutLength - float64(o.Tabs)*o.Tab()
}

func (o Options) Tab() float64    { return cmp.Or(o.TabMM, UsualTabMM) }
func (o Options) Gap() float64    { return cmp.Or(o.GapMM, UsualGapMM) }
func (o Options) Margin() float64 { return cmp.Or(o.MarginMM, UsualMarginMM) }
