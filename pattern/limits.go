package pattern

// Ranges that several values have, or that others than the table ask for. All ranges are
// ours: wide enough for any band worn on an arm, narrow enough that a slip of the keyboard
// is caught.
var (
	RowsRange            = Range{1, 60}
	RepeatsRange         = Range{1, 1000}
	BridgeRange          = Range{0.1, 20}
	WiderRange           = Range{0, 20}
	PriceRange           = Range{0, 100000}
	PositionRange        = Range{-500, 500}
	SizeRange            = Range{0.1, 150}
	PitchRange           = Range{0.2, 200}
	RotationRange        = Range{-360, 360}
	GradeAtRange         = Range{-1, 1}
	GradeRange           = Range{0.2, 5} // of sizes
	SpacingRange         = Range{0, 300}
	EngravingMarginRange = Range{-1, 20}
	LengthRange          = Range{0.1, 500}
	LetterRange          = Range{0.3, 40}
	ScaleRange           = Range{0.1, 10}
)

// Limits of what a design holds, ours.
const (
	MaxFields        = 40
	MaxReserves      = 200
	MaxEngravings    = 100
	MaxAdded         = 100
	MaxAddedParts    = 3000 // added parts, those of rows counted singly
	MaxEdits         = 1000
	MaxSpots         = 2000 // of one edit
	MaxVariants      = 20
	MaxAccepted      = 200
	MaxGrades        = 24 // points of a curve
	MaxPath          = 100000
	MaxReserved      = 2000 // reserves, those of rows counted singly
	MaxEditPositions = 4000 // of all edits together, with their mirror images
)

// MaxCells is the greatest number of rows times repeats: some hundred thousand
// openings are more than a bench cuts in a lifetime.
const MaxCells = 30000

// MaxMotifEdges is the greatest number of edges of all cells of a user's own motifs
// together; MaxShapeEdges that of the paths of all reserves, those of rows counted singly, and
// of all areas of fields, and of all openings laid by hand; MaxEngravedEdges that of all
// engraved paths that openings keep away from.
const (
	MaxEngravedEdges = 2000
	MaxMotifEdges    = 300000
	MaxShapeEdges    = 5000
)

// MaxPieces is the greatest number of lines and curves of all paths of a design without
// its variants, each path counted once: reading so many takes a tenth of a second.
const MaxPieces = 20000

// MaxEngravedLength is the greatest length of all that is engraved, mm.
const MaxEngravedLength = 100000
