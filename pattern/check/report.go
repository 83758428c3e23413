package check

import (
	"fretband/pattern"
	"fretband/pattern/strength"
	"fretband/unroll/plane"
)

// Report holds all figures of one laid sheet and all findings.
// It is the only source of every number shown, printed or exported.
type Report struct {
	Alloy          Alloy
	Density        float64 // g/cm^3
	Plain          float64 // g, the band before piercing
	Removed        float64 // g
	Left           float64 // g
	OpenShare      float64 // removed area / blank area
	Cost           float64 // of the metal left, in Currency; 0 if no price is given
	PlainCost      float64
	Currency       string
	BlankArea      float64 // mm^2
	CutArea        float64 // mm^2 removed
	BlankLen       float64 // mm
	BlankWidth     float64 // mm
	Thickness      float64 // mm
	Openings       int
	Dropped        int
	CutLength      float64 // mm, openings and outline
	OpenLength     float64 // mm, openings alone
	Engravings     int     // engraved, not cut: in none of the figures above
	EngravedLength float64 // mm
	Rule           float64 // mm
	EdgeRule       float64 // mm, rule to the edge
	Bridges        BridgeSet
	Thinnest       Bridge  // Bridges.Thinnest
	Finished       float64 // mm, about what filing and polishing leave of it ([Finish]); 0 without one
	Net            NetSection
	Blade          Blade
	Making         Making
	Pieces         int // parts the metal falls into; 1 is sound
	// Hang and Faces are those of the band in its form.
	Hang  Hang
	Faces Faces
	// LeftSolid is what could not be cut, by reason; Doming and Springback are what doming
	// and bending do.
	LeftSolid  []LeftSolid
	Doming     Doming
	Springback Springback
	// Added are the figures of what is soldered or set on, AddedGrams and AddedCost those of all
	// of it: in none of the weights and costs above, but in Hang.
	Added                 []AddedPart
	AddedGrams, AddedCost float64
	Findings              []Finding
	// Deep is what takes longer to find; nil until [Deepen] has found it.
	Deep *Deep
	// Strength is what the solve of the band says; nil until [Strengthen] has asked it, and
	// where it can't be made: Unsolved says why.
	Strength *strength.Figures
	Unsolved error
}

// Bridge is a position where metal is narrow: its two points, their distance, and
// what is on either side.
type Bridge struct {
	Width    float64 // mm
	A, B     plane.Point
	Rule     float64 // mm, what this bridge has to keep
	From, To int     // numbers of the openings; To is 0 for the outline, equal to From for a neck within one edge
}

// None reports whether there is no such bridge, as of a blank without openings: nothing
// but its rule is set then, and its width, 0, is no figure.
func (b Bridge) None() bool { return b == Bridge{Rule: b.Rule} }

// Shortfall returns by how much the bridge is under its rule, mm, 0 if it keeps
// it (but for rounding).
func (b Bridge) Shortfall() float64 {
	if b.None() || b.Width >= b.Rule-slack {
		return 0
	}
	return b.Rule - b.Width
}

// NetSection is how much metal is in each cross-section along the band.
type NetSection struct {
	X    []float64 // mm along the blank, increasing, evenly spaced
	Net  []float64 // mm of width left at X
	Full []float64 // mm of width of the unpierced blank at X
	// WeakX is where the share left is least, WeakNet what is left there.
	WeakX, WeakNet, WeakFull float64
}

// Severity of a finding.
type Severity int

const (
	Note    Severity = iota // for the reader
	Caution                 // the maker should look
	Breach                  // a rule of the design is broken
)

func (s Severity) String() string { return [...]string{"note", "caution", "breach"}[s] }

// Finding is one thing that a person should know.
type Finding struct {
	Kind     Kind
	Severity Severity
	What     string // one sentence: what and where
	Why      string // why it matters, one sentence; may be empty where What says it
	Value    float64
	Limit    float64
	Unit     string
	At       []plane.Point // places on the blank; may be empty
	Mend     string        // what to do
	// Fixes are ways of mending it that can be done at once.
	Fixes []Fix
	// Accepted is the maker's reason for accepting it; empty if he has not.
	Accepted string
	// Deep is set by [Deepen] on what it found.
	Deep bool
}

// Fix is a way of mending a finding: the design as it would be.
type Fix struct {
	Title  string // "Widen the rim to 1.2 mm"
	Design pattern.Design
	// Cost is what that does to the band, "4 openings fewer, 1.20 g more": empty until
	// [Deepen] has tried it.
	Cost string
}

// Open reports whether the finding still asks for something: it is more than a
// note and has not been accepted.
func (f Finding) Open() bool { return f.Severity > Note && f.Accepted == "" }

// Broken reports whether it says that a rule is broken, which the maker does not accept.
func (f Finding) Broken() bool { return f.Severity == Breach && f.Open() }
