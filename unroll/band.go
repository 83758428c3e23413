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
)

// Ways of closing a bangle or ring ([Band.Joint]).
const (
	Soldered = "soldered" // made from sheet: a strip at the joint stays solid
	Seamless = "seamless" // cut from tube or cast: openings may run over the joint
)

// Band is a band as it is worn, the way a person gives its numbers. It is part
// of the design file, so it holds only strings and numbers, in the units that
// its field names say.
type Band struct {
	Kind   string `json:"kind"`
	Inside Inside `json:"inside"`
	// GapMM is the opening of a cuff, measured along its inside; 0 otherwise.
	GapMM     float64   `json:"gap_mm,omitempty"`
	Thickness Thickness `json:"thickness"`
	// WidthMM is the width at the middle, EndWidthMM at the two ends. They are
	// equal for a band of constant width.
	WidthMM    float64 `json:"width_mm"`
	EndWidthMM float64 `json:"end_width_mm"`
	// EndCornerMM rounds the four corners of a cuff's ends; 0 leaves them square.
	EndCornerMM float64 `json:"end_corner_mm,omitempty"`
	// Joint and JointMM say how a closed band is closed and how long a strip at
	// the joint stays solid (both sides together). Empty and 0 for a cuff.
	Joint   string  `json:"joint,omitempty"`
	JointMM float64 `json:"joint_mm,omitempty"`
	// NeutralK places the neutral surface, whose length does not change in
	// bending, between the inner (0) and outer (1) face.
	NeutralK float64 `json:"neutral_k"`
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
}

// Thickness of the sheet: exactly one of the two is given.
type Thickness struct {
	MM      float64 `json:"mm,omitempty"`
	BSGauge int     `json:"bs_gauge,omitempty"` // Brown & Sharpe
}
