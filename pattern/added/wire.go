package added

import "math"

// Section is the shape of a wire's cross-section.
type Section struct {
	Key, Name string
	// High reports whether its height is given beside its width.
	High bool

	area, centre float64 // of one that is 1 mm wide and 1 mm high
	height       float64 // in proportion to the width, unless it is given
}

// Sections lists the wires, each lying with its width on the metal; a half-round one with its
// flat side. Areas and centroids are those of plane figures: a circle, a half circle, whose
// centroid is 4 r/(3 pi) = 0.2122 d above the flat, a square, an ellipse.
func Sections() []Section {
	return []Section{
		{Key: "round", Name: "Round", area: math.Pi / 4, centre: 0.5, height: 1},
		{Key: "half-round", Name: "Half-round", area: math.Pi / 4, centre: 4 / (3 * math.Pi), height: 0.5},
		{Key: "square", Name: "Square", area: 1, centre: 0.5, height: 1},
		{Key: "oval", Name: "Oval", High: true, area: math.Pi / 4, centre: 0.5},
	}
}

// SectionOf returns the section of a key, and whether there is one.
func SectionOf(key string) (Section, bool) {
	for _, s := range Sections() {
		if s.Key == key {
			return s, true
		}
	}
	return Section{}, false
}

// Height returns how high a wire of that width stands, mm; given is its own height, for a
// section that has one.
func (s Section) Height(width, given float64) float64 {
	if s.High {
		return given
	}
	return s.height * width
}

// Area returns the area of the section, mm^2.
func (s Section) Area(width, height float64) float64 { return s.area * width * s.Height(width, height) }

// Centroid returns how far above the metal the centroid of the section is, mm. The volume of a
// bent wire is its area times the length of the way through there (Pappus).
func (s Section) Centroid(width, height float64) float64 {
	return s.centre * s.Height(width, height)
}
