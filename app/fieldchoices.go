package app

import (
	"fretband/pattern"
)

// MotifChoice chooses the motif. Numbers that the new motif does not know are
// dropped; undo brings them back.
func MotifChoice() Choice {
	return Choice{
		Path: "field.motif", Title: "Motif", Tip: "The shape that repeats.",
		Options: func(pattern.Design) []Option {
			var os []Option
			for _, m := range pattern.Motifs() {
				os = append(os, Option{m.Key, m.Title})
			}
			return os
		},
		Get: func(d pattern.Design) string { return d.Field.Motif },
		Set: func(d *pattern.Design, key string) {
			d.Field.Motif = key
			d.Field.Numbers = nil
		},
	}
}

// FollowChoice says what the cells do where the band is not of one width.
func FollowChoice() Choice {
	return Choice{
		Path: "field.follow", Title: "Taper", Tip: "Where the band is narrower, the rim cuts the pattern off, or the pattern grows smaller with the width.",
		Options: func(pattern.Design) []Option {
			return []Option{{pattern.FollowClip, "Cut off by the rim"}, {pattern.FollowWidth, "Smaller with the width"}}
		},
		Get: func(d pattern.Design) string {
			if d.Field.Follow == "" {
				return pattern.FollowClip
			}
			return d.Field.Follow
		},
		Set: func(d *pattern.Design, key string) {
			d.Field.Follow = key
			if key == pattern.FollowClip {
				d.Field.Follow = ""
			}
		},
		Shown: func(d pattern.Design) bool {
			return d.Band.WidthMM != d.Band.EndWidthMM || len(d.Band.TopEdge)+len(d.Band.BottomEdge) > 0
		},
	}
}
