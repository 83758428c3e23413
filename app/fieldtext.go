package app

import (
	"strings"

	"fretband/pattern"
)

// ArrangeText says in a few words how the rows of field i lie, where that is not
// the plain way.
func ArrangeText(d pattern.Design, i int) string {
	if i >= len(d.Fields) {
		return ""
	}
	f := d.Fields[i]
	var s []string
	if f.PitchMM != 0 {
		s = append(s, "by pitch")
	}
	if f.Phase != 0 {
		s = append(s, "shifted "+FormatNumber(f.Phase, 2))
	}
	if f.TurnDeg != 0 {
		s = append(s, "turned "+FormatNumber(f.TurnDeg, 1)+"\u00b0")
	}
	if f.Mirror != "" {
		s = append(s, "mirrored")
	}
	switch f.Edge {
	case pattern.EdgeWhole:
		s = append(s, "whole ones only")
	case pattern.EdgeFit:
		s = append(s, "fitted")
	}
	if f.Follow == pattern.FollowWidth {
		s = append(s, "with the width")
	}
	if f.BridgeMM != 0 {
		s = append(s, "bridge "+FormatNumber(f.BridgeMM, 2)+" mm")
	}
	if len(s) == 0 {
		return "plain"
	}
	return strings.Join(s, ", ")
}

// SizesText says in a few words how the openings of field i grow and shrink.
func SizesText(d pattern.Design, i int) string {
	var s []string
	for _, c := range Curves() {
		ch := GradeChoice(c, i)
		key := ch.Get(d)
		if len(c.Points(d, i)) == 0 {
			continue
		}
		for _, o := range ch.Options(d) {
			if o.Key == key {
				s = append(s, lower(c.Title())+": "+lower(o.Title))
			}
		}
	}
	if len(s) == 0 {
		return "all alike"
	}
	return strings.Join(s, ", ")
}
