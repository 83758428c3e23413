package export

import (
	"fmt"
	"strings"

	"fretband/pattern"
	"fretband/unroll"
)

// Ask is one line of the table of what may be asked for the files ([Asks]): its flag on
// the command line, its row in the window, what it may be, and where [Options] has it.
// Which of its pointers it has says whether it is a number, a whole number or a text.
type Ask struct {
	Key   string // its flag, without the dash
	Name  string // in errors, if not the key
	Sides bool   // the command line takes both sides as one flag, 200x100
	// Title, Unit and Tip are what the window says; it has no row for what has no title.
	// Empty is what an entry without text says, which stands for 0.
	Title, Unit, Tip, Empty string

	// Range is what a number may be besides 0, and WhenZero what 0 stands for. Least is
	// the least that the window takes, where that is more: nothing is typed as 0.
	pattern.Range
	Least    float64
	WhenZero string
	Step     float64 // one press of an arrow key
	Decimals int

	Options []pattern.Option // of a choice
	AnyCase bool             // they may be written in capitals
	Usual   string           // what the command line takes if it is not given
	Letters int              // the longest text of the reader's own words; 0: only Options

	Number func(*Options) *float64
	Whole  func(*Options) *int
	Text   func(*Options) *string

	// For says with which others it has a meaning, and Shown when the window has its row;
	// nil is always.
	For, Shown func(*Options) bool
}

// Asks lists what may be asked. A new option is a line here, and its use.
func Asks() []Ask { return asks }

// AskByKey returns the ask of that key.
func AskByKey(key string) *Ask {
	for i := range asks {
		if asks[i].Key == key {
			return &asks[i]
		}
	}
	panic("export: nothing is asked as " + key) // a mistake in the program, which every test would meet
}

// asks is the table. Its limits are ours, far beyond what a bench or a machine for
// jewellery sheet takes, so that what lies outside is a slip. Figures of what is usual are
// common practice and guides only: the shop decides.
var asks = []Ask{
	{
		// Saw blades are 0.16 to 0.50 mm thick, beams take 0.03 to 0.38 mm, jets of water up
		// to 1.2 mm (common practice).
		Key: "kerf", Title: "Kerf", Unit: "mm", Range: pattern.Range{Min: 0, Max: 1}, WhenZero: "off", Step: 0.01, Decimals: 3,
		Tip:    "The width that the beam or blade takes away: ask the shop. The cut files then draw the middle of the cut, so that the part keeps its size. 0 if the shop allows for it: the lines are the finished edges.",
		Number: func(o *Options) *float64 { return &o.KerfMM },
	},
	{
		Key: "paper", Title: "Paper", Options: paperOptions(), AnyCase: true, Usual: A4,
		Tip:  "Of the saw template, printed at 100 %. Upright or across is chosen for the fewest sheets.",
		Text: func(o *Options) *string { return &o.Paper },
	},
	{
		Key: "process", Title: "Made with", Options: pattern.ByPath("rules.process")[0].Options, Letters: 200,
		Tip:  "How the openings are cut: checks, notes and cautions go by it.",
		Text: func(o *Options) *string { return &o.Process },
	},
	{
		Key: "curves", Title: "Curves",
		Tip:     "How the shop's program reads curves. True arcs run smoothly under the beam. Take the older DXF, or straight chords, only if the shop asks for it.",
		Options: []pattern.Option{{Key: Arcs, Title: "True arcs (DXF of release 2000, SVG)"}, {Key: ArcsR12, Title: "True arcs (DXF of release 12, SVG)"}, {Key: Chords, Title: "Straight chords (DXF of release 12, SVG)"}},
		Text:    func(o *Options) *string { return &o.Curves },
	},
	{
		Key: "copies", Title: "Copies", Range: pattern.Range{Min: 0, Max: MaxCopies}, Least: 1, WhenZero: "one", Step: 1,
		Tip:   "How many parts are laid on the sheet, turned where more of them fit.",
		Whole: func(o *Options) *int { return &o.Copies },
	},
	{
		Key: "chord", Title: "Chords within", Unit: "mm", Range: pattern.Range{Min: MinChordMM, Max: 0.1}, Least: MinChordMM, WhenZero: "usual", Step: 0.001, Decimals: 4,
		Tip:    "How far a straight chord may lie from its arc at most. Less makes smoother edges and larger files.",
		Number: func(o *Options) *float64 { return &o.ChordMM },
		For:    inChords, Shown: inChords,
	},
	{
		Key: "lead", Name: "lead-in", Title: "Lead-in", Unit: "mm", Range: pattern.Range{Min: 0, Max: 10}, WhenZero: "none", Step: 0.1, Decimals: 2,
		Tip:    "A short run-up through the waste: the beam pierces the sheet beside the part, not on its edge, where the start would leave a pip. Shorter where there is no room. 0 for none, as for the saw.",
		Number: func(o *Options) *float64 { return &o.LeadMM },
	},
	{
		Key: "tabs", Title: "Tabs", Range: pattern.Range{Min: 0, Max: 24}, WhenZero: "none", Step: 1,
		Tip:   "Little gaps left in the cut of the outline, so that the part does not tip up or fall while the sheet is worked. They are snapped and filed off afterwards. 0 cuts the part free.",
		Whole: func(o *Options) *int { return &o.Tabs },
	},
	{
		Key: "tab-width", Name: "tab width", Title: "Tab width", Unit: "mm", Range: pattern.Range{Min: 0.05, Max: 5}, Least: 0.05, WhenZero: "usual", Step: 0.05, Decimals: 2,
		Tip:    "Of each tab: wide enough to hold, narrow enough to snap. About a third of the sheet's thickness or a little more.",
		Number: func(o *Options) *float64 { return &o.TabMM },
		For:    func(o *Options) bool { return o.Tabs > 0 },
	},
	{
		Key: "sheet-width", Name: "sheet width", Sides: true, Title: "Sheet, long", Unit: "mm", Range: pattern.Range{Min: 0, Max: MaxStockMM}, Least: 1, WhenZero: "as large as needed", Step: 10, Decimals: 2, Empty: "as needed",
		Tip:    "The sheet that is cut. Leave both sides empty for one as large as the parts need.",
		Number: func(o *Options) *float64 { return &o.StockW },
	},
	{
		Key: "sheet-height", Name: "sheet height", Sides: true, Title: "Sheet, high", Unit: "mm", Range: pattern.Range{Min: 0, Max: MaxStockMM}, Least: 1, WhenZero: "as large as needed", Step: 10, Decimals: 2, Empty: "as needed",
		Tip:    "The sheet that is cut. Leave both sides empty for one as large as the parts need.",
		Number: func(o *Options) *float64 { return &o.StockH },
	},
	{
		Key: "gap", Title: "Gap", Unit: "mm", Range: pattern.Range{Min: 0.1, Max: 100}, Least: 0.1, WhenZero: "usual", Step: 0.5, Decimals: 2,
		Tip:    "Metal left between two parts, with their lead-ins and kerf.",
		Number: func(o *Options) *float64 { return &o.GapMM },
	},
	{
		Key: "margin", Title: "Margin", Unit: "mm", Range: pattern.Range{Min: 0.1, Max: 100}, Least: 0.1, WhenZero: "usual", Step: 0.5, Decimals: 2,
		Tip:    "Metal left between a part and the edge of the sheet, where clamps hold it.",
		Number: func(o *Options) *float64 { return &o.MarginMM },
	},
	{
		Key: "stress", Title: "Stress", Options: []pattern.Option{{Key: NoStress, Title: "No picture of it"}, {Key: StressShown, Title: "A picture, PNG and SVG"}}, Usual: NoStress,
		Tip:  "Where the metal works and where it idles when the band is opened or squeezed, over the blank and over the band as it bends. An estimate for comparing designs, not a promise: the picture says so too.",
		Text: func(o *Options) *string { return &o.Stress },
	},
	{
		Key: "words", Title: "Words", Options: []pattern.Option{{Key: WordsKept, Title: "In the file's description"}, {Key: WordsDrawn, Title: "Drawn in the margin too"}}, Usual: WordsKept,
		Tip:  "The cut files say what the part is and how it is cut where no machine sees it: in the SVG's description and the DXF's comments. Drawn, they stand on a layer of their own, NOTES_NOT_CUT, in the margin of the sheet.",
		Text: func(o *Options) *string { return &o.Words },
	},
	{
		Key: "openings-colour", Title: "Openings", Options: colourOptions(), Usual: cutColour,
		Tip:  "Of the lines of openings in the cut files, for a machine that goes by colour: ask the shop which colour it takes for what.",
		Text: func(o *Options) *string { return &o.OpeningsColour },
	},
	{
		Key: "outline-colour", Title: "Outline", Options: colourOptions(), Usual: cutColour,
		Tip:  "Of the line of the outline in the cut files, which is cut last.",
		Text: func(o *Options) *string { return &o.OutlineColour },
	},
	{
		Key: "engraving-colour", Title: "Engraving", Options: colourOptions(), Usual: engravedColour,
		Tip:  "Of lines and text in the cut files that are engraved, not cut: another colour than what is cut.",
		Text: func(o *Options) *string { return &o.EngravingColour },
	},
	{Key: "date", Letters: 40, Text: func(o *Options) *string { return &o.Date }},
}

func inChords(o *Options) bool { return o.Curves == Chords }

// check says what is wrong with what is asked.
func (a *Ask) check(o *Options) error {
	name := a.Key
	if a.Name != "" {
		name = a.Name
	}
	switch {
	case a.Number != nil:
		return a.checkNumber(name, *a.Number(o))
	case a.Whole != nil:
		return a.checkNumber(name, float64(*a.Whole(o)))
	}
	is := *a.Text(o)
	if a.Letters > 0 {
		if len(is) > a.Letters {
			return fmt.Errorf("%s: %d letters: must be %d at most", name, len(is), a.Letters)
		}
		return nil
	}
	var keys []string
	for _, w := range a.Options {
		if is == "" || is == w.Key || a.AnyCase && strings.EqualFold(is, w.Key) {
			return nil
		}
		keys = append(keys, w.Key)
	}
	return fmt.Errorf("%s %s: must be one of %s", name, unroll.Quote(is), strings.Join(keys, ", "))
}

func (a *Ask) checkNumber(name string, v float64) error {
	if v == 0 || v >= a.Min && v <= a.Max {
		return nil
	}
	from := "to"
	if a.Min > 0 {
		from = fmt.Sprintf("or %g to", a.Min)
	}
	unit := a.Unit
	if unit != "" {
		unit = " " + unit
	}
	return fmt.Errorf("%s %g%s: must be 0 (%s) %s %g%s", name, v, unit, a.WhenZero, from, a.Max, unit)
}
