package pattern

import (
	"strings"

	"fretband/unroll"
)

// Untitled is the name of a design until it is given one.
const Untitled = "Untitled"

// Named reports whether the design has been given a name.
func (d Design) Named() bool {
	n := strings.TrimSpace(d.Name)
	return n != "" && n != Untitled
}

// Design is all that a person decides about a pierced band: one small value of
// strings and numbers. It is what is saved, undone, checked, drawn and exported.
type Design struct {
	Name  string      `json:"name"`
	Note  string      `json:"note,omitempty"`
	Band  unroll.Band `json:"band"`
	Metal Metal       `json:"metal"`
	Rules DesignRules `json:"rules"`
	// Fields are laid in their order: where two areas overlap, the earlier one has
	// the right of way and the later one fills what is left.
	Fields     []Field     `json:"fields"`
	Reserves   []Reserve   `json:"reserves,omitempty"`
	Engravings []Engraving `json:"marks,omitempty"`
	Added      []Added     `json:"added,omitempty"`
	Edits      []Edit      `json:"edits,omitempty"`
	// Work is what the maker says of his own bench; Wear is how an open cuff is put
	// on. Neither changes the drawing.
	Work Work `json:"work,omitzero"`
	Wear Wear `json:"wear,omitzero"`
	// Underlay is a picture to trace from. Nothing is made of it.
	Underlay Underlay `json:"underlay,omitzero"`
	// Accepted are findings that the maker has seen and accepts.
	Accepted []Accepted `json:"accepted,omitempty"`
	// Variants are other designs of the same piece, kept for comparing. They have
	// no variants of their own. Nothing here is laid of them.
	Variants []Design `json:"variants,omitempty"`
}

// Metal names the alloy and what it costs.
type Metal struct {
	// Alloy is a key of the table of alloys, or "own" with DensityGCM3.
	Alloy       string  `json:"alloy"`
	DensityGCM3 float64 `json:"density_g_cm3,omitempty"`
	PricePerG   float64 `json:"price_per_g,omitempty"` // 0: no cost is shown
	Currency    string  `json:"currency,omitempty"`
}

// DesignRules are what holds for every opening of the band, however it came about.
type DesignRules struct {
	// BridgeMM is the rule: no metal between openings is thinner.
	BridgeMM float64 `json:"bridge_mm"`
	// RimMM is the solid strip along the edges and the ends of a cuff. A rim
	// thinner than the bridge rule is kept at the bridge rule.
	RimMM float64 `json:"rim_mm"`
	// RimAlong has the rim grow and shrink along the band: in proportion to RimMM, at a
	// few positions from -1 to 1, with a smooth curve through them. It is nowhere
	// thinner than the bridge rule. Round a closed band the curve runs on over the seam.
	RimAlong []Grade `json:"rim_along,omitempty"`
	// CornerMM is the least radius of an opening's inner corners.
	CornerMM float64 `json:"corner_mm"`
	// SmallestMM is the diameter of the circle that every opening must admit.
	SmallestMM float64 `json:"smallest_mm"`
	// Process is how openings are cut, a key of [Processes]; empty if it is not
	// settled. It lays nothing otherwise: the usual limits of the process are reported
	// beside the rules.
	Process string `json:"process,omitempty"`
}

// Work is what the maker says of his own bench. What is 0 is left out:
// the only times are the maker's own.
type Work struct {
	KerfMM        float64 `json:"kerf_mm,omitempty"`         // width that the blade or beam takes
	CutMMMin      float64 `json:"cut_mm_min,omitempty"`      // length cut in a minute
	OpeningMin    float64 `json:"opening_min,omitempty"`     // minutes to drill, thread and start one opening
	BladeMM       float64 `json:"blade_mm,omitempty"`        // length that a blade lasts
	HourPrice     float64 `json:"hour_price,omitempty"`      // in the metal's currency
	LeastAngleDeg float64 `json:"least_angle_deg,omitempty"` // metal angles under it are reported; 0 is the usual 30
}

// Wear is how an open cuff is put on, for the estimate of its stress.
type Wear struct {
	Temper     string  `json:"temper,omitempty"`      // a key of the alloy's tempers
	ProofMPa   float64 `json:"proof_mpa,omitempty"`   // the user's own proof stress; 0 is the table's
	ModulusGPa float64 `json:"modulus_gpa,omitempty"` // the user's own Young's modulus; 0 is the table's
	OpenMM     float64 `json:"open_mm,omitempty"`     // by how much the gap is opened; 0 is what a wrist needs
}

// Underlay is a picture, PNG or JPEG, that the window shows dimmed under the drawing.
type Underlay struct {
	// File is where the picture is, from the folder of the design file on, with slashes; of a
	// design that is in no file yet, from the root.
	File string `json:"file,omitempty"`
	// Its middle lies at XMM, YMM on the blank; it is WidthMM wide, and as high as it then is.
	XMM         float64 `json:"x_mm,omitempty"`
	YMM         float64 `json:"y_mm,omitempty"`
	WidthMM     float64 `json:"width_mm,omitempty"`
	RotationDeg float64 `json:"turn_deg,omitempty"`
}

// Accepted is a finding that the maker accepts, with his reason. It holds for
// findings of that kind near that position.
type Accepted struct {
	Finding string `json:"finding"` // the key of its kind
	At      Spot   `json:"at,omitzero"`
	Reason  string `json:"reason"`
}

// Field fills an area of the blank with one motif.
type Field struct {
	Name  string `json:"name,omitempty"`
	Motif string `json:"motif"`
	// Path is the user's own shape for the motif [OwnKey]: SVG path data of one
	// closed curve. Only its shape counts.
	Path string `json:"path,omitempty"`
	// LeftHalf says how the user's own shape lies left of the middle of a cuff: as it was
	// drawn (empty), or [LeftMirrored].
	LeftHalf string `json:"left_half,omitempty"`
	// Numbers are the motif's own, by name; those not given take its defaults.
	Numbers map[string]float64 `json:"numbers,omitempty"`
	// Area is where the field lies; the zero value is the whole band.
	Area Area `json:"area,omitzero"`

	Rows int `json:"rows"`
	// Repeats is how often the motif is repeated along the area; or PitchMM is asked for:
	// on a closed band, or with [EdgeFit], as many are repeated there as come nearest to it,
	// else exactly that pitch from the middle of the area (see [Sheet.Layout]). One
	// of the two is 0.
	Repeats int     `json:"repeats,omitempty"`
	PitchMM float64 `json:"pitch_mm,omitempty"`
	// Stagger moves every other row by this share of the pitch, 0 to 0.5.
	Stagger float64 `json:"stagger"`
	// Phase moves the whole field along by this share of the pitch.
	Phase float64 `json:"phase,omitempty"`
	// RotationDeg turns the field about the middle of its area. On a closed band it is
	// brought to the nearest rotation at which the pattern closes.
	RotationDeg float64 `json:"turn_deg,omitempty"`
	// Mirror has one half of the field mirror the other: empty, [MirrorAlong],
	// [MirrorAcross] or [MirrorBoth].
	Mirror string `json:"mirror,omitempty"`
	// Edge says what becomes of cells that the area's edge, the rim or a reserve
	// would cut: empty, [EdgeClip], [EdgeWhole] or [EdgeFit].
	Edge string `json:"edge,omitempty"`
	// Follow says what the cells do where the band is not of one width: they are
	// clipped by the rim (empty or [FollowClip]) or scale with the width
	// ([FollowWidth]; not in strips and shapes). On a flared band they follow the arc
	// either way, but in shapes.
	Follow string `json:"follow,omitempty"`
	// BridgeMM is the field's own bridge; 0 is the rule, which holds as well where
	// it is the wider.
	BridgeMM float64 `json:"bridge_mm,omitempty"`
	// WiderAlongMM and WiderAcrossMM have the bridges that run along the band, as those
	// between rows, and those that run across it wider than the field's, by so much.
	// Slanting ones get a part of each; the rim stays.
	WiderAlongMM  float64 `json:"wider_along_mm,omitempty"`
	WiderAcrossMM float64 `json:"wider_across_mm,omitempty"`
	// GradeAlong and GradeAcross have the cells grow and shrink along the area and
	// across it: their sizes at a few positions, with a smooth curve through them. Round a closed
	// band the curve runs on over the seam; sizes given at both its ends, which are
	// the same position, take their mean. In a mirrored field the half above 0 counts.
	GradeAlong  []Grade `json:"grade_along,omitempty"`
	GradeAcross []Grade `json:"grade_across,omitempty"`
	// GradeBridge is how far the bridges grow and shrink with the cells: 0 not at
	// all, 1 in the same proportion. They never fall under the rule.
	GradeBridge float64 `json:"grade_bridge,omitempty"`
	// BridgeAlong has the bridges grow and shrink along the area whatever the cells do:
	// in proportion to the field's bridge, with a curve as of GradeAlong. They never fall
	// under the rule.
	BridgeAlong []Grade `json:"bridge_along,omitempty"`
}

// Ways of following the band's width ([Field.Follow]).
const (
	FollowClip  = "clip"
	FollowWidth = "width"
)

// Ways of treating cells at the edge ([Field.Edge]).
const (
	EdgeClip  = "clip"  // they are cut
	EdgeWhole = "whole" // they are left solid: only whole cells are cut out
	EdgeFit   = "fit"   // as whole, and the pitch is stretched so that whole cells fill the length
)

// Mirrors ([Field.Mirror], [Edit.Mirror]).
const (
	MirrorAlong  = "along"  // left and right of the middle are mirror images
	MirrorAcross = "across" // above and below the middle are
	MirrorBoth   = "both"
)

// LeftMirrored has the shapes on the left half of a cuff be mirror images ([Field.LeftHalf]).
const LeftMirrored = "mirrored"

// Grade is the size of cells at a position.
type Grade struct {
	At   float64 `json:"at"`   // -1 (left end, bottom) to 1 (right end, top), 0 in the middle
	Size float64 `json:"size"` // in proportion to the others
}

// Shapes of areas, reserves and single openings.
const (
	CircleShape    = "circle"
	OvalShape      = "oval"
	RectangleShape = "rectangle"
	PathShape      = "path" // SVG path data
	// Of areas only:
	RunShape   = "run"   // from one position along the length to another, over the whole width
	StripShape = "strip" // from one height across the width to another, over the whole length
)

// Area is where a field lies, measured from the middle of the blank. The zero value
// is the whole band.
type Area struct {
	Shape string `json:"shape,omitempty"`
	// FromMM and ToMM bound a run (along, negative is left) or a strip (across,
	// negative is below).
	FromMM float64 `json:"from_mm,omitempty"`
	ToMM   float64 `json:"to_mm,omitempty"`
	// The others have their middle at XMM, YMM.
	XMM         float64 `json:"x_mm,omitempty"`
	YMM         float64 `json:"y_mm,omitempty"`
	WidthMM     float64 `json:"width_mm,omitempty"`
	HeightMM    float64 `json:"height_mm,omitempty"`
	RotationDeg float64 `json:"turn_deg,omitempty"`
	Path        string  `json:"path,omitempty"` // its origin at XMM, YMM
}

// Reserve is an area kept solid, or a row of them, measured from the middle of the
// blank.
type Reserve struct {
	Shape string  `json:"shape"`
	XMM   float64 `json:"x_mm"`
	YMM   float64 `json:"y_mm"`
	// WidthMM is the diameter of a circle; HeightMM goes with ovals and rectangles.
	WidthMM     float64 `json:"width_mm,omitempty"`
	HeightMM    float64 `json:"height_mm,omitempty"`
	RotationDeg float64 `json:"turn_deg,omitempty"`
	Path        string  `json:"path,omitempty"` // its origin at XMM, YMM
	// Count are in a row along the band, SpacingMM from middle to middle, the
	// row's middle at XMM; 0 and 1 are a single one. A spacing of 0 spreads them
	// evenly round a closed band, and evenly along an open one.
	Count     int     `json:"count,omitempty"`
	SpacingMM float64 `json:"spacing_mm,omitempty"`
	// MarginMM is the distance that openings keep from the reserve.
	MarginMM float64 `json:"margin_mm"`
	Note     string  `json:"note,omitempty"` // "stone seat", "hallmark"
}

// Added is a part that is soldered or set on the outside of the band, or a row of them: a
// stone, a border wire, beads, or any other.
type Added struct {
	Kind string `json:"kind"`
	Note string `json:"note,omitempty"` // its name
	// Cut, Gem and SG are a stone's: keys of [added.Cuts] and [added.Gems], and the specific
	// gravity of one in no table.
	Cut string  `json:"cut,omitempty"`
	Gem string  `json:"gem,omitempty"`
	SG  float64 `json:"sg,omitempty"`
	// Section is a wire's, a key of [added.Sections]; Seat is the shape of a part.
	Section string `json:"section,omitempty"`
	Seat    string `json:"seat,omitempty"`
	// Row is what several follow, Count of them; InsetMM is how far in from the edge one along
	// an edge is.
	Row         string  `json:"row,omitempty"`
	XMM         float64 `json:"x_mm,omitempty"`
	YMM         float64 `json:"y_mm,omitempty"`
	InsetMM     float64 `json:"inset_mm,omitempty"`
	RowWidthMM  float64 `json:"row_width_mm,omitempty"`
	RowHeightMM float64 `json:"row_height_mm,omitempty"`
	Count       int     `json:"count,omitempty"`
	SpacingMM   float64 `json:"spacing_mm,omitempty"` // from middle to middle; 0 is even
	GapMM       float64 `json:"gap_mm,omitempty"`     // between beads
	// WidthMM is the length or diameter of a stone, part or bead, and the width of a wire;
	// HeightMM the width of a stone or part, and the height of an oval wire.
	WidthMM     float64 `json:"width_mm,omitempty"`
	HeightMM    float64 `json:"height_mm,omitempty"`
	DepthMM     float64 `json:"depth_mm,omitempty"`
	RotationDeg float64 `json:"turn_deg,omitempty"`
	// Setting holds a stone: a bezel of a wall WallMM thick, RiseMM high, on a plate BaseMM
	// thick; or prongs, which weigh WeightG.
	Setting string  `json:"setting,omitempty"`
	WallMM  float64 `json:"wall_mm,omitempty"`
	RiseMM  float64 `json:"rise_mm,omitempty"`
	BaseMM  float64 `json:"base_mm,omitempty"`
	WeightG float64 `json:"weight_g,omitempty"`
	Alloy   string  `json:"alloy,omitempty"` // of its metal; empty is that of the band
	Price   float64 `json:"price,omitempty"` // of one
	// MarginMM is the distance that openings keep from it.
	MarginMM float64 `json:"margin_mm,omitempty"`
}

// Kinds of added parts ([Added.Kind]).
const (
	StonePart = "stone"
	WirePart  = "wire"
	BeadsPart = "beads"
	OtherPart = "part"
)

// What rows of added parts follow ([Added.Row]).
const (
	RowLine   = "" // along the band
	RowCircle = "circle"
	RowOval   = "oval"
	RowTop    = "top" // edge
	RowBottom = "bottom"
	RowBoth   = "both"
)

// Settings of stones ([Added.Setting]).
const (
	Bezel  = "bezel"
	Prongs = "prongs"
)

// Kinds of engraving.
const (
	LineEngraving = "line"
	PathEngraving = "path"
	TextEngraving = "text"
)

// Engraving is something engraved, not cut.
type Engraving struct {
	Kind        string  `json:"kind"`
	XMM         float64 `json:"x_mm"` // of its middle; of a path's origin
	YMM         float64 `json:"y_mm"`
	RotationDeg float64 `json:"turn_deg,omitempty"`
	// LengthMM is a line's. Path is SVG path data of open or closed curves.
	LengthMM float64 `json:"length_mm,omitempty"`
	Path     string  `json:"path,omitempty"`
	// Text is drawn as outlines whose capitals are HeightMM tall.
	Text     string  `json:"text,omitempty"`
	HeightMM float64 `json:"height_mm,omitempty"`
	// Side is the face that it is on: empty for the outer one, [InsideFace] for the inner.
	Side string `json:"side,omitempty"`
	// MarginMM is the distance that openings keep from the engraving; a negative number
	// lets them run through it.
	MarginMM float64 `json:"keep_mm"`
	Note     string  `json:"note,omitempty"`
}

// What an edit does.
const (
	LeaveSolid = "solid"   // the cells at its positions are not cut out
	Change     = "change"  // the openings there are moved, turned, scaled
	Replace    = "replace" // the openings there become another shape
	Add        = "add"     // a single opening is cut there
	Tie        = "tie"     // a bridge of metal is left across the openings there
)

// Edit is something done by hand to single openings. It belongs to its positions on
// the blank, not to numbered openings: it works on whatever cell holds such a position
// when the other numbers change, and says so when none does ([Sheet.Idle]). Openings
// of the pattern give way to what is changed or added, by the bridge.
type Edit struct {
	Do string `json:"do"`
	At []Spot `json:"at"`
	// Mirror has the edit done as well at the mirror images of its positions.
	Mirror string `json:"mirror,omitempty"`
	// MoveXMM, MoveYMM, RotationDeg and Scale (0 is 1) change an opening about its
	// middle: along and across the band there, which on a flared one is round its
	// arc.
	MoveXMM     float64 `json:"move_x_mm,omitempty"`
	MoveYMM     float64 `json:"move_y_mm,omitempty"`
	RotationDeg float64 `json:"turn_deg,omitempty"`
	Scale       float64 `json:"scale,omitempty"`
	// Shape, for Replace and Add, is a circle, oval, rectangle or path of that
	// width and height (a path without them is as large as it was drawn), turned by
	// RotationDeg from the band's own direction there.
	Shape    string  `json:"shape,omitempty"`
	WidthMM  float64 `json:"width_mm,omitempty"`
	HeightMM float64 `json:"height_mm,omitempty"`
	Path     string  `json:"path,omitempty"`
	// SpanXMM and SpanYMM, for Tie, are how far along and across the band its other end
	// lies from its position, and BowMM how far its middle is off the straight line
	// between the ends, to the left on the way: an arc, or 0. WidthMM is its width; 0 is
	// the bridge rule, and so is less than that.
	SpanXMM float64 `json:"span_x_mm,omitempty"`
	SpanYMM float64 `json:"span_y_mm,omitempty"`
	BowMM   float64 `json:"bow_mm,omitempty"`
	Note    string  `json:"note,omitempty"`
}

// Spot is a position on the blank, from its middle.
type Spot struct {
	XMM float64 `json:"x_mm"`
	YMM float64 `json:"y_mm"`
}

// Bridge returns the bridge that the field asks for, mm: its own, or the rule.
func (f Field) Bridge(r DesignRules) float64 { return max(f.BridgeMM, r.BridgeMM) }
