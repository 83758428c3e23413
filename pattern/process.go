package pattern

import "math"

// Process is a way of cutting openings, with the usual limits for sheet of a
// thickness t, mm. They are guides, not laws: the receiver's own word counts.
type Process struct {
	Key, Title string
	// Bridge is the usual least width of metal, Opening the least opening, Corner
	// the least inner radius.
	Bridge, Opening, Corner func(t float64) float64
	Source                  string
}

// Processes lists the ways of cutting in the order in which a person reads them.
func Processes() []Process {
	times := func(k, least float64) func(float64) float64 {
		return func(t float64) float64 { return math.Max(k*t, least) }
	}
	return []Process{
		{"saw", "Sawn by hand", times(1, 0.5), times(1, 0.6), times(0.25, 0.15),
			"common practice: bridges of the sheet's thickness and never under 0.5 mm, corners of half the blade; no published rule was found"},
		{"laser", "Laser", times(1, 0.3), times(1, 0.3), times(0.1, 0.05),
			"web and hole of the sheet's thickness (smslaserfab.com and tuanthinh.net, design rules; others allow 0.7 times); corners of half the kerf"},
		{"etch", "Photo-etched", times(1, 0.1), times(1.1, 0.1), times(1, 0.05),
			"web 1.0, hole and slot 1.1 times the thickness, inner radius about the thickness (metaletching.com, techetch.com, design rules); by metal: silver 0.8, gold 1.5 (etchform.co)"},
		{"cast", "Cast as formed", times(0.8, 0.8), times(1, 0.8), times(0.25, 0.2),
			"usual least wall 0.8 mm, 1.0 mm safer (common practice)"},
	}
}

// CutBy returns the same sheet, cut by another process. Its design stays what it is, so that
// what is made of it still carries the design's number.
func (s *Sheet) CutBy(process string) *Sheet {
	other := *s
	other.Process = process
	return &other
}

// ProcessByKey returns the process of that key and whether there is one.
func ProcessByKey(key string) (Process, bool) {
	for _, p := range Processes() {
		if p.Key == key {
			return p, true
		}
	}
	return Process{}, false
}
