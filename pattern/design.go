package pattern

import "fretband/unroll"

// Design is all that a person decides about a pierced band: one small value of
// strings and numbers. It is what is saved, undone, checked, drawn and exported.
type Design struct {
	Name     string      `json:"name"`
	Note     string      `json:"note,omitempty"`
	Band     unroll.Band `json:"band"`
	Metal    Metal       `json:"metal"`
	Field    Field       `json:"field"`
	Reserves []Reserve   `json:"reserves,omitempty"`
}

// Metal names the alloy and what it costs.
type Metal struct {
	// Alloy is a key of the table of alloys, or "own" with DensityGCM3.
	Alloy       string  `json:"alloy"`
	DensityGCM3 float64 `json:"density_g_cm3,omitempty"`
	PricePerG   float64 `json:"price_per_g,omitempty"` // 0: no cost is shown
	Currency    string  `json:"currency,omitempty"`
}

// Field fills the blank with one motif.
type Field struct {
	Motif   string `json:"motif"`
	Rows    int    `json:"rows"`
	Repeats int    `json:"repeats"`
	// Stagger moves every other row by this share of the pitch, 0 to 0.5.
	Stagger float64 `json:"stagger"`
	// BridgeMM is the rule: no metal between openings is thinner.
	BridgeMM float64 `json:"bridge_mm"`
	// RimMM is the solid strip along the edges and the ends of a cuff. A rim
	// thinner than the bridge rule is kept at the bridge rule.
	RimMM float64 `json:"rim_mm"`
	// CornerMM is the least radius of an opening's inner corners.
	CornerMM float64 `json:"corner_mm"`
	// SmallestMM is the diameter of the circle that every opening must admit.
	SmallestMM float64 `json:"smallest_mm"`
	// Follow says what the cells do where the band is not of one width: they are
	// clipped by the rim (empty or [FollowClip]) or scale with the width
	// ([FollowWidth]). On a flared band they follow the arc either way.
	Follow string `json:"follow,omitempty"`
	// Numbers are the motif's own, by name; those not given take its defaults.
	Numbers map[string]float64 `json:"numbers,omitempty"`
}

// Ways of following the band's width ([Field.Follow]).
const (
	FollowClip  = "clip"
	FollowWidth = "width"
)

// Shapes of reserve.
const (
	CircleReserve    = "circle"
	RectangleReserve = "rectangle"
)

// Reserve is an area kept solid, measured from the middle of the blank.
type Reserve struct {
	Shape string  `json:"shape"`
	XMM   float64 `json:"x_mm"`
	YMM   float64 `json:"y_mm"`
	// WidthMM is the diameter of a circle; HeightMM is a rectangle's alone.
	WidthMM  float64 `json:"width_mm"`
	HeightMM float64 `json:"height_mm,omitempty"`
	// MarginMM is the distance that openings keep from the reserve.
	MarginMM float64 `json:"margin_mm"`
	Note     string  `json:"note,omitempty"` // "stone seat", "hallmark"
}
