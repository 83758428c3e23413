package app

import (
	"fmt"
	"math"
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
	if f.RotationDeg != 0 {
		s = append(s, "turned "+FormatNumber(f.RotationDeg, 1)+"\u00b0")
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

// StandingText says how field i came out on the sheet: the size of a repeat, how
// many repeats there are where that was not asked for, the rotation at which it closes; or,
// where it has no openings, why.
func StandingText(s *pattern.Sheet, i int) string {
	cut := false
	for _, o := range s.Openings {
		if o.Field == i {
			cut = true
			break
		}
	}
	if !cut {
		for _, d := range s.Dropped {
			if d.Field == i {
				return "No openings: " + d.Why + "."
			}
		}
		return "No openings: nothing of it has room."
	}
	l, f := s.Layout(i), s.Design.Fields[i]
	text := "A repeat is %s mm long, a row %s mm high"
	if len(f.GradeAlong)+len(f.GradeAcross) > 0 {
		text = "On average a repeat is %s mm, a row %s mm"
	}
	text = fmt.Sprintf(text, FormatNumber(l.PitchMM, 2), FormatNumber(l.RowMM, 2))
	if f.PitchMM != 0 {
		text += fmt.Sprintf("; %d whole repeats stand along it", l.Repeats)
	}
	if math.Abs(l.RotationDeg-f.RotationDeg) > 0.005 {
		text += fmt.Sprintf("; it closes at a turn of %s\u00b0", FormatNumber(l.RotationDeg, 2))
	}
	return text + "."
}
