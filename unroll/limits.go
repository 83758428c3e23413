package unroll

// The limits of what can be asked for, mm unless said otherwise. They are ours:
// wide enough for any band that is worn, narrow enough to catch a slip of the
// decimal point or of the unit.
const (
	MinThickness = 0.2
	MaxThickness = 6
	MinWidth     = 1
	MaxWidth     = 150

	// The inner axes.
	MinInside = 8
	MaxInside = 150
	// The inner circumference: that of the round bands of these diameters.
	MinCircumference = 25
	MaxCircumference = 475
	// Width : height of the oval, either way.
	MinRatio = 0.25
	MaxRatio = 4

	MinWrist = 80
	MaxWrist = 300
	// A springy cuff may be worn a little smaller than the wrist.
	MinEase = -30
	MaxEase = 80

	// A profile given by its pieces.
	MaxPieces      = 60
	MinPiece       = 0.01
	MinPieceRadius = 1
	MaxPieceRadius = 1000

	MinNeutralK = 0.3
	MaxNeutralK = 0.6

	MinJoint = 0.2
	MaxJoint = 40

	// MaxGapShare is the largest share of the inner circumference that the gap
	// of a cuff may take (and must stay under): with less than half left it no
	// longer holds on the wrist.
	MaxGapShare = 0.5

	// MaxEdgeSlope is the steepest that a tapering edge may run against the
	// length of the band: 45 degrees.
	MaxEdgeSlope = 1

	// MaxEdgePoints bounds the points of one edge, MaxEdgeOut how far, mm, one of
	// them may be off the plain edge.
	MaxEdgePoints = 24
	MaxEdgeOut    = 60

	// MaxFlare is the steepest half-angle of a flared band, degrees: at 45 the
	// whole blank turns through 255 degrees.
	MaxFlare = 45

	// The arc of a domed section: its radius, mm, and how far it may turn from
	// the middle to an edge, degrees.
	MinDome      = 2
	MaxDome      = 2000
	MaxDomeAngle = 60
)
