package app

import (
	"math"

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
				_, around, err := oval(*d)
				d.Band.Inside.Scale = key
				if err == nil {
					d.Band.Inside.Size = nearestSize(key, around)
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
			Path: "band.gap", Title: "Gap by", Tip: "How the gap of a cuff is given: by its width, or as a share of the inner circumference, so that it grows with the band.",
			Options: func(pattern.Design) []Option {
				return []Option{{"width", "Its width"}, {"share", "Share of the round"}}
			},
			Get: func(d pattern.Design) string {
				if d.Band.GapShare != 0 {
					return "share"
				}
				return "width"
			},
			Set:   setGapBy,
			Shown: cuff,
		},
		{
			Path: "band.joint", Title: "Closed by", Tip: "Soldered from sheet, a strip at the joint stays solid. Seamless, from tube or cast, openings may run over it.",
			Options: func(d pattern.Design) []Option {
				os := []Option{{unroll.Soldered, "Soldered joint"}}
				if d.Band.FlareDeg == 0 && d.Band.Inside.By != unroll.ByEdges || d.Band.Joint == unroll.Seamless {
					os = append(os, Option{unroll.Seamless, "Seamless"})
				}
				return os // a flared band has a joint
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
	return append(os, Option{unroll.ByEdges, "Its two edges, flared"}, Option{unroll.ByProfile, "A free profile"})
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

// leastGapShare is the least share that can be told from none given.
const leastGapShare = 0.001

func setGapBy(d *pattern.Design, key string) {
	b := &d.Band
	_, around, err := oval(*d)
	switch {
	case key == "share" && b.GapShare == 0:
		b.GapShare = 0.15 // where the size can't be told: ours
		if err == nil && around > 0 {
			b.GapShare = math.Max(leastGapShare, math.Round(b.GapMM/around*10000)/10000)
		}
		b.GapMM = 0
	case key == "width" && b.GapShare != 0:
		b.GapMM = 28
		if err == nil {
			b.GapMM = round2(b.GapShare * around)
		}
		b.GapShare = 0
	}
}
