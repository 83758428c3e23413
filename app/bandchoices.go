package app

import (
	"fretband/pattern"
	"fretband/unroll"
)

// BandChoices are the either-ors of the band.
func BandChoices() []Choice {
	return []Choice{
		{
			Path: "band.kind", Title: "Kind", Tip: "A cuff is open at the back; a bangle goes over the hand; a ring goes on a finger.",
			Options: func(pattern.Design) []Option {
				return []Option{{unroll.Cuff, "Cuff, open"}, {unroll.Bangle, "Bangle, closed"}, {unroll.Ring, "Ring"}}
			},
			Get: func(d pattern.Design) string { return d.Band.Kind },
			Set: SetKind,
		},
		{
			Path: "band.inside.by", Title: "Inside by", Tip: "How you know the size: measured across, round the inside, round the wrist, or as a trade size.",
			Options: waysOf,
			Get:     func(d pattern.Design) string { return d.Band.Inside.By },
			Set:     SetInsideBy,
		},
		{
			Path: "band.inside.scale", Title: "Scale", Tip: "Whose sizes these are. A bare number is never guessed.",
			Options: scalesOf,
			Get:     func(d pattern.Design) string { return d.Band.Inside.Scale },
			Set: func(d *pattern.Design, key string) {
				o, err := oval(*d)
				d.Band.Inside.Scale = key
				if err == nil {
					d.Band.Inside.Size = nearestSize(key, o.Circumference())
				}
			},
			Shown: by(unroll.BySize),
		},
		{
			Path: "band.inside.size", Title: "Size", Tip: "On that scale. The inside is round.",
			Options: func(d pattern.Design) []Option {
				var os []Option
				known := false
				for _, s := range Sizes(d.Band.Inside.Scale) {
					os = append(os, Option{s, s})
					known = known || s == d.Band.Inside.Size
				}
				if !known { // a quarter size, or another spelling
					os = append([]Option{{d.Band.Inside.Size, d.Band.Inside.Size}}, os...)
				}
				return os
			},
			Get:   func(d pattern.Design) string { return d.Band.Inside.Size },
			Set:   func(d *pattern.Design, key string) { d.Band.Inside.Size = key },
			Shown: by(unroll.BySize),
		},
		{
			Path: "band.joint", Title: "Closed by", Tip: "Soldered from sheet, a strip at the joint stays solid. Seamless, from tube or cast, openings may run over it.",
			Options: func(pattern.Design) []Option {
				return []Option{{unroll.Soldered, "Soldered joint"}, {unroll.Seamless, "Seamless"}}
			},
			Get: func(d pattern.Design) string { return d.Band.Joint },
			Set: func(d *pattern.Design, key string) {
				d.Band.Joint = key
				d.Band.JointMM = 0
				if key == unroll.Soldered {
					d.Band.JointMM = usualJoint(d.Band.Kind)
				}
			},
			Shown: func(d pattern.Design) bool { return d.Band.Kind != unroll.Cuff },
		},
	}
}

func waysOf(d pattern.Design) []Option {
	os := []Option{{unroll.ByAxes, "Width and height"}, {unroll.BySides, "Straight sides"}, {unroll.ByCircumference, "Circumference"}}
	if d.Band.Kind != unroll.Ring {
		os = append(os, Option{unroll.ByWrist, "Wrist and ease"})
	}
	if d.Band.Kind != unroll.Cuff {
		os = append(os, Option{unroll.BySize, "Trade size"})
	}
	// These come from a design file and can be left, not entered.
	switch d.Band.Inside.By {
	case unroll.ByEdges:
		os = append(os, Option{unroll.ByEdges, "Its two edges"})
	case unroll.ByProfile:
		os = append(os, Option{unroll.ByProfile, "A profile of its own"})
	}
	return os
}

func scalesOf(d pattern.Design) []Option {
	var os []Option
	for _, s := range unroll.Scales() {
		if s.Kind == d.Band.Kind {
			os = append(os, Option{s.Key, s.Name})
		}
	}
	return os
}
