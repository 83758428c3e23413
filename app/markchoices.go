package app

import (
	"fmt"
	"math"

	"fretband/pattern"
)

// Keys of [MarkKeep].
const (
	keepsAway  = "away"
	runThrough = "through"
)

// MarkKeep chooses whether openings stay away from mark i.
func MarkKeep(i int) Choice {
	return Choice{
		Path: fmt.Sprintf("marks[%d].keep_mm", i), Title: "Openings", Tip: "Whether the pattern leaves room for the mark, or may be cut through it.",
		Options: func(pattern.Design) []Option {
			return []Option{{keepsAway, "keep away from it"}, {runThrough, "may run through it"}}
		},
		Get: func(d pattern.Design) string {
			if i < len(d.Marks) && d.Marks[i].KeepMM < 0 {
				return runThrough
			}
			return keepsAway
		},
		Set: func(d *pattern.Design, key string) {
			if i >= len(d.Marks) || (d.Marks[i].KeepMM < 0) == (key == runThrough) {
				return
			}
			*d = Clone(*d)
			if d.Marks[i].KeepMM = usualKeep; key == runThrough {
				d.Marks[i].KeepMM = pattern.KeepRange.Min
			}
		},
	}
}

// MarkText is what mark i says, of a text.
func MarkText(i int) Choice {
	c := noteChoice(fmt.Sprintf("marks[%d].text", i), func(d *pattern.Design) *string {
		if i >= len(d.Marks) {
			return nil
		}
		return &d.Marks[i].Text
	})
	c.Title = "Text"
	return c
}

// MarkPath is the path data of mark i, of drawn lines.
func MarkPath(i int) Choice {
	c := noteChoice(fmt.Sprintf("marks[%d].path", i), func(d *pattern.Design) *string {
		if i >= len(d.Marks) {
			return nil
		}
		return &d.Marks[i].Path
	})
	c.Title = "Lines"
	return c
}

// MarkNote is what mark i is for.
func MarkNote(i int) Choice {
	return noteChoice(fmt.Sprintf("marks[%d].note", i), func(d *pattern.Design) *string {
		if i >= len(d.Marks) {
			return nil
		}
		return &d.Marks[i].Note
	})
}

// usualKeep is what openings keep from a new mark, mm: ours.
const usualKeep = 0.5

// NewMark returns a mark that a person may start from, at the middle of the blank.
func NewMark(kind string, d pattern.Design) pattern.Mark {
	size := math.Max(1, math.Min(3, math.Round(d.Band.WidthMM/6*2)/2))
	m := pattern.Mark{Kind: kind, KeepMM: usualKeep}
	switch kind {
	case pattern.LineMark:
		m.LengthMM = 8 * size
	case pattern.TextMark:
		m.Text, m.HeightMM = "Name", size
	default:
		m.Path = pattern.Say("M%g 0C%g %g %g %g %g 0", -4*size, -2*size, -3*size, 2*size, 3*size, 4*size)
	}
	return m
}
