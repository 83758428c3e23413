package app

import (
	"math"

	"fretband/pattern"
	"fretband/pattern/motif"
	"fretband/unroll/plane"
)

// MotifOf returns the motif of a field and whether there is one. That of a person's
// own shape has the numbers that every shape has, whatever its path.
func MotifOf(f pattern.Field) (motif.Motif, bool) {
	if f.Motif != motif.OwnKey {
		return motif.ByKey(f.Motif)
	}
	m, err := motif.Own(plane.Circle(plane.Point{}, 1))
	return m, err == nil
}

// ownTitle is what the motif of a person's own shape is called.
const ownTitle = "Your own"

// MotifTitle returns what a person calls the field's motif.
func MotifTitle(f pattern.Field) string {
	if f.Motif == motif.OwnKey {
		return ownTitle
	}
	if m, ok := motif.ByKey(f.Motif); ok {
		return m.Title
	}
	return f.Motif
}

// fieldChoice is an either-or of field i.
func fieldChoice(i int, name, title, tip string, options func(pattern.Design) []Option, at func(*pattern.Field) *string, usual string) Choice {
	has := func(d pattern.Design) bool { return i < len(d.Fields) }
	return Choice{
		Path: fieldPath(i, name), Title: title, Tip: tip, Options: options,
		Get: func(d pattern.Design) string {
			if !has(d) {
				return ""
			}
			if v := *at(&d.Fields[i]); v != "" {
				return v
			}
			return usual
		},
		Set: func(d *pattern.Design, key string) {
			if key == usual {
				key = ""
			}
			if has(*d) {
				*d = Clone(*d)
				*at(&d.Fields[i]) = key
			}
		},
		Shown: has,
	}
}

func options(os ...Option) func(pattern.Design) []Option {
	return func(pattern.Design) []Option { return os }
}

// MotifChoice chooses the motif. Numbers that the new motif does not know are
// dropped; undo brings them back.
func MotifChoice(i int) Choice {
	return Choice{
		Path: fieldPath(i, "motif"), Title: "Motif", Tip: "The shape that repeats.",
		Options: func(d pattern.Design) []Option {
			var os []Option
			for _, m := range motif.All() {
				os = append(os, Option{m.Key, m.Title})
			}
			if i < len(d.Fields) && d.Fields[i].Motif == motif.OwnKey {
				os = append(os, Option{motif.OwnKey, ownTitle})
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
			if i < len(d.Fields) && d.Fields[i].Motif != key {
				*d = Clone(*d)
				f := &d.Fields[i]
				f.Motif, f.Numbers, f.Path = key, nil, ""
			}
		},
		Shown: func(d pattern.Design) bool { return i < len(d.Fields) },
	}
}

// FieldChoices are the either-ors of field i besides its motif and its place.
func FieldChoices(i int) []Choice {
	return []Choice{CountChoice(i), MirrorChoice(i), EdgeChoice(i), FollowChoice(i)}
}

// MirrorChoice says which halves of the field are mirror images.
func MirrorChoice(i int) Choice {
	return fieldChoice(i, "mirror", "Mirror", "One half of the field is drawn as the mirror image of the other, about the middle of the field.",
		options(Option{noMirror, "As it falls"}, Option{pattern.MirrorAlong, "Left and right alike"}, Option{pattern.MirrorAcross, "Above and below alike"}, Option{pattern.MirrorBoth, "Both"}),
		func(f *pattern.Field) *string { return &f.Mirror }, noMirror)
}

// noMirror stands in a choice for no mirror.
const noMirror = "none"

// EdgeChoice says what becomes of cells at the edge.
func EdgeChoice(i int) Choice {
	return fieldChoice(i, "edge", "At the edge", "What becomes of openings that the field's edge, the rim or a reserve would cut: they are cut, or left solid, or left solid with the pitch stretched so that whole ones fill the length.",
		options(Option{pattern.EdgeClip, "Openings are cut"}, Option{pattern.EdgeWhole, "Whole ones only"}, Option{pattern.EdgeFit, "Whole ones, fitted"}),
		func(f *pattern.Field) *string { return &f.Edge }, pattern.EdgeClip)
}

// FollowChoice says what the cells do where the band is not of one width.
func FollowChoice(i int) Choice {
	c := fieldChoice(i, "follow", "Taper", "Where the band is narrower, the rim cuts the pattern off, or the pattern grows smaller with the width.",
		options(Option{pattern.FollowClip, "Cut off by the rim"}, Option{pattern.FollowWidth, "Smaller with the width"}),
		func(f *pattern.Field) *string { return &f.Follow }, pattern.FollowClip)
	has := c.Shown
	c.Shown = func(d pattern.Design) bool {
		return has(d) && (d.Band.WidthMM != d.Band.EndWidthMM || len(d.Band.TopEdge)+len(d.Band.BottomEdge) > 0)
	}
	return c
}

// Ways of saying how often a motif stands along.
const (
	byRepeats = "repeats"
	byPitch   = "pitch"
)

// CountChoice says how often the motif stands along the field: a number of times,
// or as often as a pitch goes in. Changing over keeps the look.
func CountChoice(i int) Choice {
	return Choice{
		Path: fieldPath(i, "count"), Title: "Count by", Tip: "How you say how often the motif stands along: so many repeats, or a pitch in mm that is kept when the band's length changes.",
		Options: options(Option{byRepeats, "Number of repeats"}, Option{byPitch, "Pitch in mm"}),
		Get: func(d pattern.Design) string {
			if i < len(d.Fields) && d.Fields[i].PitchMM != 0 {
				return byPitch
			}
			return byRepeats
		},
		Set: func(d *pattern.Design, key string) {
			if i >= len(d.Fields) {
				return
			}
			repeats, pitch := standing(*d, i)
			*d = Clone(*d)
			f := &d.Fields[i]
			switch {
			case key == byPitch && f.PitchMM == 0:
				// Rounded down, so that as many have room.
				f.PitchMM = held(math.Floor(pitch*1e4)/1e4, pattern.PitchRange)
				f.Repeats = 0
			case key == byRepeats && f.PitchMM != 0:
				f.Repeats = whole(repeats, pattern.RepeatsRange)
				f.PitchMM = 0
			}
		},
		Shown: func(d pattern.Design) bool { return i < len(d.Fields) },
	}
}

// standing tells how many repeats of field i stand along it, and their pitch, mm.
func standing(d pattern.Design, i int) (repeats, pitch float64) {
	if s, err := pattern.Lay(d); err == nil {
		l := s.Layout(i)
		return float64(l.Repeats), l.PitchMM
	}
	// Something else stands in the way of laying the design: by its numbers.
	f := d.Fields[i]
	long := lengthOf(d, f)
	if f.PitchMM > 0 {
		return long / f.PitchMM, f.PitchMM
	}
	return float64(f.Repeats), long / float64(max(1, f.Repeats))
}
