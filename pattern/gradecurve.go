package pattern

// GradeCurve returns the size of cells at any position of a field, -1 to 1, as its
// points ask for it: the smooth curve through them that has no other highs and lows
// than theirs, level outside the first and the last. There must be a point; they
// run from left to right.
func GradeCurve(points []Grade) func(at float64) float64 { return monotone(points) }
