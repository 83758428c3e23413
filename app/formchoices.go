package app

import (
	"math"

	"fretband/pattern"
	"fretband/unroll"
)

// FormChoices are the either-ors of the band's finer form.
func FormChoices() []Choice {
	domed := func(d pattern.Design) bool { return d.Band.Dome != "" }
	return []Choice{
		{
			Path: "band.end_shape", Title: "Ends", Tip: "The shape of a cuff's two ends.",
			Options: func(pattern.Design) []Option {
				return []Option{{"", "Square, corners rounded"}, {unroll.RoundEnd, "One round"}, {unroll.PointEnd, "Drawn to a point"}}
			},
			Get: func(d pattern.Design) string { return d.Band.EndShape },
			Set: func(d *pattern.Design, key string) {
				b := &d.Band
				b.EndShape, b.EndCornerMM, b.EndLengthMM, b.EndRadiusMM = key, 0, 0, 0
				switch key {
				case "":
					b.EndCornerMM = math.Min(3, b.EndWidthMM/4)
				case unroll.PointEnd:
					b.EndLengthMM, b.EndRadiusMM = round2(b.EndWidthMM*1.1), round2(math.Max(1, b.EndWidthMM/8))
				}
			},
			Shown: cuff,
		},
		{
			Path: "band.dome", Title: "Section", Tip: "Across the width: flat as a strip, or curved. A domed band can't be unrolled without stretching; what the blank keeps true is your choice.",
			Options: func(pattern.Design) []Option {
				return []Option{{"", "Flat"}, {unroll.Outward, "Domed outwards"}, {unroll.Hollow, "Hollow"}}
			},
			Get: func(d pattern.Design) string { return d.Band.Dome },
			Set: func(d *pattern.Design, key string) {
				b := &d.Band
				was := b.Dome
				b.Dome = key
				switch {
				case key == "":
					b.DomeRadiusMM, b.DomeRiseMM, b.DomeFlat = 0, 0, ""
				case was == "":
					b.FlareDeg = 0
					if b.Inside.By == unroll.ByEdges { // it can be flared no longer
						SetInsideBy(d, unroll.ByCircumference)
						b.FlareDeg = 0
					}
					b.DomeRiseMM, b.DomeFlat = round2(b.WidthMM/30), unroll.EqualArea
				}
			},
		},
		{
			Path: "band.dome_by", Title: "Dome by", Tip: "How the arc of the section is given: by how far its middle rises over the width, or by its radius.",
			Options: func(pattern.Design) []Option { return []Option{{"rise", "Its rise"}, {"radius", "Its radius"}} },
			Get: func(d pattern.Design) string {
				if d.Band.DomeRadiusMM != 0 {
					return "radius"
				}
				return "rise"
			},
			Set: func(d *pattern.Design, key string) {
				b := &d.Band
				switch {
				case key == "radius" && b.DomeRadiusMM == 0:
					b.DomeRadiusMM, b.DomeRiseMM = round2(unroll.DomeRadius(b.WidthMM, b.DomeRiseMM)), 0
				case key == "rise" && b.DomeRadiusMM != 0:
					b.DomeRiseMM, b.DomeRadiusMM = math.Round(1000*unroll.DomeRise(b.WidthMM, b.DomeRadiusMM))/1000, 0
				}
			},
			Shown: domed,
		},
		{
			Path: "band.dome_flat", Title: "Keeps true", Tip: "What stays true where a domed section is made flat; the figures say how far the rest is off.",
			Options: func(pattern.Design) []Option {
				return []Option{{unroll.EqualArea, "Areas, so weights"}, {unroll.Conformal, "Angles, so shapes"}, {unroll.ArcLength, "Lengths across"}}
			},
			Get:   func(d pattern.Design) string { return d.Band.DomeFlat },
			Set:   func(d *pattern.Design, key string) { d.Band.DomeFlat = key },
			Shown: domed,
		},
		{
			Path: "band.making", Title: "Made", Tip: "Cut flat and then bent, the flat drawing is the part. Cut or cast as formed, walls follow the normal.",
			Options: func(pattern.Design) []Option {
				return []Option{{unroll.MadeFlat, "Cut flat, then bent"}, {unroll.Formed, "Cut or cast as formed"}}
			},
			Get: func(d pattern.Design) string {
				if d.Band.Making == "" {
					return unroll.MadeFlat
				}
				return d.Band.Making
			},
			Set: func(d *pattern.Design, key string) {
				d.Band.Making = key
				if key == unroll.MadeFlat {
					d.Band.Making, d.Band.Drawn = "", ""
				}
			},
		},
		{
			Path: "band.drawn", Title: "Drawn face", Tip: "Which face of a formed band is drawn flat.",
			Options: func(pattern.Design) []Option {
				return []Option{{unroll.InnerFace, "The inner face"}, {unroll.MiddleFace, "The middle"}, {unroll.OuterFace, "The outer face"}}
			},
			Get: func(d pattern.Design) string {
				if d.Band.Drawn == "" {
					return unroll.MiddleFace
				}
				return d.Band.Drawn
			},
			Set:   func(d *pattern.Design, key string) { d.Band.Drawn = key },
			Shown: func(d pattern.Design) bool { return d.Band.Making == unroll.Formed },
		},
	}
}
