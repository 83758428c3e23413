package app

import (
	"fmt"

	"fretband/pattern"
)

// MotifChoice chooses the motif. Numbers that the new motif does not know are
// dropped; undo brings them back.
func MotifChoice(i int) Choice {
	return Choice{
		Path: fmt.Sprintf("fields[%d].motif", i), Title: "Motif", Tip: "The shape that repeats.",
		Options: func(pattern.Design) []Option {
			var os []Option
			for _, m := range pattern.Motifs() {
				os = append(os, Option{m.Key, m.Title})
			}
			return os
		},
		Get: func(d pattern.Design) string {
			if i >= len(d.Fields) {
				return ""
			}
			return d.Fields[i].Motif
		},
		Set: func(d *pattern.Design, key string) {
			if i < len(d.Fields) {
				f := &d.Fields[i]
				f.Motif, f.Numbers, f.Path = key, nil, ""
			}
		},
	}
}

// FollowChoice says what the cells do where the band is not of one width.
func FollowChoice(i int) Choice {
	return Choice{
		Path: fmt.Sprintf("fields[%d].follow", i), Title: "Taper", Tip: "Where the band is narrower, the rim cuts the pattern off, or the pattern grows smaller with the width.",
		Options: func(pattern.Design) []Option {
			return []Option{{pattern.FollowClip, "Cut off by the rim"}, {pattern.FollowWidth, "Smaller with the width"}}
		},
		Get: func(d pattern.Design) string {
			if i >= len(d.Fields) || d.Fields[i].Follow == "" {
				return pattern.FollowClip
			}
			return d.Fields[i].Follow
		},
		Set: func(d *pattern.Design, key string) {
			if key == pattern.FollowClip {
				key = ""
			}
			if i < len(d.Fields) {
				d.Fields[i].Follow = key
			}
		},
		Shown: func(d pattern.Design) bool {
			return d.Band.WidthMM != d.Band.EndWidthMM || len(d.Band.TopEdge)+len(d.Band.BottomEdge) > 0
		},
	}
}
