package unroll

// Kinds of band.
const (
	Cuff   = "cuff"   // open: a gap at the back of the wrist
	Bangle = "bangle" // closed, put on over the hand
	Ring   = "ring"   // closed, on a finger
)

// Ways of giving the inside of a band ([Inside.By]).
const (
	ByAxes          = "axes"          // WidthMM x HeightMM
	ByCircumference = "circumference" // CircumferenceMM and Ratio
	ByWrist         = "wrist"         // WristMM + EaseMM and Ratio
	BySize          = "size"          // ring or bangle size: Scale and Size; the inside is round
	BySides         = "sides"         // WidthMM x HeightMM: two half circles and two straight runs
	ByProfile       = "profile"       // Profile: straight runs and arcs by their numbers
	ByEdges         = "edges"         // TopMM and BottomMM: a flared band by the circumferences of its edges
)

// Ways of closing a bangle or ring ([Band.Joint]).
const (
	Soldered = "soldered" // made from sheet: a strip at the joint stays solid
	Seamless = "seamless" // cut from tube or cast: openings may run over the joint
)

// Shapes of a cuff's ends ([Band.EndShape]). Without one they are square, or
// rounded at the corners by EndCornerMM.
const (
	RoundEnd = "round" // one arc from edge to edge
	PointEnd = "point" // drawn to a blunt point: EndLengthMM and EndRadiusMM
)

// Sections of a band across its width ([Band.Dome]); flat if empty.
const (
	Outward = "outward" // the outer face bulges, as a barrel's
	Hollow  = "hollow"  // the outer face is hollow, as a reel's
)

// Ways of flattening a domed section ([Band.DomeFlat]); none keeps all lengths.
const (
	ArcLength = "arc-length" // lengths across the band are true
	Conformal = "conformal"  // angles are true, so small shapes keep their form
	EqualArea = "equal-area" // areas are true, so weights are
)

// Ways of making ([Band.Making]).
const (
	MadeFlat = "flat"   // cut flat, then bent; also if empty
	Formed   = "formed" // cut or cast as formed: walls along the normal
)

// Faces that the drawing of a formed band shows ([Band.Drawn]); the neutral
// surface, at NeutralK of the thickness, if empty.
const (
	InnerFace  = "inner"
	MiddleFace = "middle"
	OuterFace  = "outer"
)

// Band is a band as it is worn, the way a person gives its numbers. It is part
// of the design file, so it holds only strings and numbers, in the units that
// its field names say.
type Band struct {
	Kind   string `json:"kind"`
	Inside Inside `json:"inside"`
	// GapMM is the opening of a cuff, measured along its inside; 0 otherwise.
	GapMM float64 `json:"gap_mm,omitempty"`
	// GapShare gives the gap as a share of the inner circumference instead.
	GapShare  float64   `json:"gap_share,omitempty"`
	Thickness Thickness `json:"thickness"`
	// WidthMM is the width at the middle, EndWidthMM at the two ends. They are
	// equal for a band of constant width.
	WidthMM    float64 `json:"width_mm"`
	EndWidthMM float64 `json:"end_width_mm"`
	// SwellLengthMM is the length, about the middle, within which the width goes
	// from the ends' to the middle's; 0 is the whole length.
	SwellLengthMM float64 `json:"swell_length_mm,omitempty"`
	// TopEdge and BottomEdge draw an edge off its plain position: smoothly through
	// these points. The band need then not be the same above and below.
	TopEdge    []EdgePoint `json:"top_edge,omitempty"`
	BottomEdge []EdgePoint `json:"bottom_edge,omitempty"`
	// EndCornerMM rounds the four corners of a cuff's ends; 0 leaves them square.
	EndCornerMM float64 `json:"end_corner_mm,omitempty"`
	// EndShape is another shape of a cuff's ends; EndLengthMM and EndRadiusMM are
	// the length of the point and the radius of its tip.
	EndShape    string  `json:"end_shape,omitempty"`
	EndLengthMM float64 `json:"end_length_mm,omitempty"`
	EndRadiusMM float64 `json:"end_radius_mm,omitempty"`
	// FlareDeg is the half-angle of a conical band, positive if the top edge is
	// the wider one; the inside is then that of the middle of the width.
	FlareDeg float64 `json:"flare_deg,omitempty"`
	// Dome curves the section across the width, by the radius of its arc on the
	// surface that is drawn true or by its rise over the width at the middle.
	Dome         string  `json:"dome,omitempty"`
	DomeRadiusMM float64 `json:"dome_radius_mm,omitempty"`
	DomeRiseMM   float64 `json:"dome_rise_mm,omitempty"`
	DomeFlat     string  `json:"dome_flat,omitempty"`
	// Making and Drawn say how the metal is cut and which face the drawing shows.
	Making string `json:"making,omitempty"`
	Drawn  string `json:"drawn,omitempty"`
	// Joint and JointMM say how a closed band is closed and how long a strip at
	// the joint stays solid (both sides together). Empty and 0 for a cuff.
	Joint   string  `json:"joint,omitempty"`
	JointMM float64 `json:"joint_mm,omitempty"`
	// NeutralK places the neutral surface, whose length does not change in
	// bending, between the inner (0) and outer (1) face.
	NeutralK float64 `json:"neutral_k"`
}

// EdgePoint is a position that an edge runs through.
type EdgePoint struct {
	// At is the position along the band: 0 in the middle, -1 and 1 at the ends.
	At float64 `json:"at"`
	// OutMM is how far the edge is outside its plain position there, mm.
	OutMM float64 `json:"out_mm"`
}

// Inside gives the inner oval. By says which of the other fields are read; the
// rest stay zero.
type Inside struct {
	By              string  `json:"by"`
	WidthMM         float64 `json:"width_mm,omitempty"`
	HeightMM        float64 `json:"height_mm,omitempty"`
	CircumferenceMM float64 `json:"circumference_mm,omitempty"`
	WristMM         float64 `json:"wrist_mm,omitempty"`
	EaseMM          float64 `json:"ease_mm,omitempty"`
	// Ratio is width : height of the oval, 1 for round.
	Ratio float64 `json:"ratio,omitempty"`
	Scale string  `json:"scale,omitempty"`
	Size  string  `json:"size,omitempty"`
	// Profile lists the pieces of a free profile, from the front round the band
	// in the direction of the flat's x.
	Profile []Piece `json:"profile,omitempty"`
	// TopMM and BottomMM are the inner circumferences of a flared band's edges.
	TopMM    float64 `json:"top_circumference_mm,omitempty"`
	BottomMM float64 `json:"bottom_circumference_mm,omitempty"`
}

// Thickness of the sheet: exactly one of these is given. A gauge goes by the name
// of its system, since a bare number could be either.
type Thickness struct {
	MM      float64 `json:"mm,omitempty"`
	BSGauge int     `json:"bs_gauge,omitempty"` // Brown & Sharpe
	// ImperialGauge is the British standard wire gauge, "SWG".
	ImperialGauge int `json:"imperial_gauge,omitempty"`
}

// Measured returns the thickness in mm, however it is given; 0 if it isn't.
func (t Thickness) Measured() float64 {
	switch {
	case t.BSGauge != 0:
		return GaugeMM(t.BSGauge)
	case t.ImperialGauge != 0:
		return ImperialGaugeMM(t.ImperialGauge)
	}
	return t.MM
}

// Open reports whether the band is open, with a gap: a cuff. Others are closed.
func (b Band) Open() bool { return b.Kind == Cuff }

// OnFinger reports whether the band is worn on a finger.
func (b Band) OnFinger() bool { return b.Kind == Ring }

// Seamless reports whether the band is closed without a joint.
func (b Band) Seamless() bool { return b.Joint == Seamless }

// Soldered reports whether the band is closed by a joint.
func (b Band) Soldered() bool { return !b.Open() && !b.Seamless() }
