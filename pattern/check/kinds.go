package check

// Kind is what a finding is about.
type Kind struct {
	// Key names the kind in design files and in tests. It never changes.
	Key string
	// Title is what a person reads.
	Title string
}

// The kinds of findings: of the pattern, of how it is cut, of what carries, of the band, and
// of engraving.
var (
	KindPieces                   = Kind{"pieces", "pieces"}
	KindNarrowBridges            = Kind{"narrow-bridges", "narrow bridges"}
	KindThinnestBridge           = Kind{"thinnest-bridge", "thinnest bridge"}
	KindRim                      = Kind{"rim", "rim"}
	KindReserve                  = Kind{"reserve", "reserve"}
	KindAddedOffTheBlank         = Kind{"added-off-the-blank", "part off the blank"}
	KindAddedOverlap             = Kind{"added-overlap", "parts overlap"}
	KindLowBezel                 = Kind{"low-bezel", "low bezel"}
	KindNothingCut               = Kind{"nothing-cut", "nothing cut"}
	KindLeftSolid                = Kind{"left-solid", "left solid"}
	KindByHand                   = Kind{"by-hand", "by hand"}
	KindOpeningAndProcess        = Kind{"opening-and-process", "small openings"}
	KindProcessBridges           = Kind{"process-bridges", "thin bridges"}
	KindNoWayIn                  = Kind{"no-way-in", "no way in"}
	KindFinerBlade               = Kind{"finer-blade", "finer blade"}
	KindNarrowSlot               = Kind{"narrow-slot", "narrow slot"}
	KindHeat                     = Kind{"heat", "heat"}
	KindThinBand                 = Kind{"thin-band", "thin band"}
	KindCastWall                 = Kind{"cast-wall", "cast wall"}
	KindBeam                     = Kind{"laser-and-sheet", "laser and sheet"}
	KindMarkRoom                 = Kind{"room-for-hallmark", "room for hallmark"}
	KindHand                     = Kind{"hand", "hand"}
	KindCutOff                   = Kind{"cut-off", "cut off"}
	KindMetalPoint               = Kind{"metal-point", "metal point"}
	KindSharpCorner              = Kind{"sharp-corner", "sharp corner"}
	KindTongue                   = Kind{"tongue", "tongue"}
	KindAttachedPart             = Kind{"held-piece", "held piece"}
	KindWeakestWayAcross         = Kind{"weakest-way-across", "weakest way across"}
	KindWeakestWayAlong          = Kind{"weakest-way-along", "weakest way along"}
	KindSpringingOn              = Kind{"springing-on", "springing on"}
	KindSqueezing                = Kind{"squeezing", "squeezing"}
	KindSpringback               = Kind{"springback", "springback"}
	KindBending                  = Kind{"bending", "bending"}
	KindGap                      = Kind{"gap", "gap"}
	KindEnds                     = Kind{"ends", "ends"}
	KindDoming                   = Kind{"doming", "doming"}
	KindFaces                    = Kind{"faces", "faces"}
	KindStagger                  = Kind{"stagger", "stagger"}
	KindEngravingOffTheBlank     = Kind{"mark-off-the-blank", "mark off the blank"}
	KindEngravingOverAReserve    = Kind{"mark-over-a-reserve", "mark over a reserve"}
	KindEngravingThroughOpenings = Kind{"mark-through-openings", "mark through openings"}
	KindEngravingOverTheJoint    = Kind{"mark-over-the-joint", "mark over the joint"}
)
