package app

import (
	"math"

	"fretband/pattern"
)

// Option is one thing that can be chosen: its key in the design file and what a
// person reads.
type Option struct{ Key, Title string }

// Choice is one of the design's either-ors.
type Choice struct {
	Path, Title, Tip string
	Options          func(pattern.Design) []Option
	Get              func(pattern.Design) string
	Set              func(*pattern.Design, string)
	Shown            func(pattern.Design) bool // nil: always
}

func round2(v float64) float64 { return math.Round(v*100) / 100 }
