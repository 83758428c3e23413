package app

import (
	"fmt"
	"math"
	"slices"

	"fretband/pattern"
)

// FieldTitle returns what the list calls field i: its name, or its motif.
func FieldTitle(d pattern.Design, i int) string {
	if i < 0 || i >= len(d.Fields) {
		return ""
	}
	if n := d.Fields[i].Name; n != "" {
		return n
	}
	return MotifTitle(d.Fields[i])
}

// AddField adds a field and returns its index, -1 where there are as many as there
// may be. While none lies on the whole band the new one comes last and takes what
// the others leave. Else it is a run in the middle, before the first that lies on
// the whole band: that one yields.
func AddField(d *pattern.Design) int {
	if len(d.Fields) >= pattern.MaxFields {
		return -1
	}
	*d = Clone(*d)
	at := len(d.Fields)
	var a pattern.Area
	for i, f := range d.Fields {
		if f.Area.Shape == "" {
			b := bandBox(*d)
			at = i
			half := b.W() / 6
			if d.Band.OnFinger() { // so short a run would have room for two or three openings
				half = b.W() / 4
			}
			a = pattern.Area{Shape: pattern.RunShape, FromMM: halves(-half), ToMM: halves(half)}
			break
		}
	}
	d.Fields = slices.Insert(d.Fields, at, pattern.UsualField(*d, pattern.Field{Motif: nextMotif(*d), Area: a}))
	return at
}

// CopyField puts a copy of field i after it and returns the copy's index, -1 where
// there is no room. The copy is moved aside, so that both are seen; that of one that
// lies on the whole band becomes a run in its middle, and goes before it.
func CopyField(d *pattern.Design, i int) int {
	if i < 0 || i >= len(d.Fields) || len(d.Fields) >= pattern.MaxFields {
		return -1
	}
	*d = Clone(*d)
	c := Clone(*d).Fields[i]
	switch a := &c.Area; a.Shape {
	case "":
		d.Fields = slices.Insert(d.Fields, i, c)
		setArea(d, i, pattern.RunShape)
		return i
	case pattern.RunShape, pattern.StripShape:
		long := a.ToMM - a.FromMM
		if end := bandBox(*d); a.Shape == pattern.RunShape && a.ToMM+long > end.Max.X || a.Shape == pattern.StripShape && a.ToMM+long > end.Max.Y {
			long = -long
		}
		a.FromMM, a.ToMM = pattern.PositionRange.Clamp(a.FromMM+long), pattern.PositionRange.Clamp(a.ToMM+long)
	default:
		by := math.Max(a.WidthMM, 5)
		if a.XMM+1.5*by > bandBox(*d).Max.X {
			by = -by
		}
		a.XMM = halves(a.XMM + by)
	}
	d.Fields = slices.Insert(d.Fields, i+1, c)
	return i + 1
}

// RemoveField takes field i away.
func RemoveField(d *pattern.Design, i int) {
	if i >= 0 && i < len(d.Fields) {
		*d = Clone(*d)
		d.Fields = slices.Delete(d.Fields, i, i+1)
	}
}

// MoveField moves field i by positions in the list and returns its new index.
func MoveField(d *pattern.Design, i, by int) int {
	if i < 0 || i >= len(d.Fields) {
		return i
	}
	to := max(0, min(len(d.Fields)-1, i+by))
	*d = Clone(*d)
	f := d.Fields[i]
	d.Fields = slices.Insert(slices.Delete(d.Fields, i, i+1), to, f)
	return to
}

// starts are the motifs for new fields: the first that the band does not have yet is
// taken. Each looks unlike the one before.
var starts = []string{"hexagons", "circles", "leaves", "diamonds", "quatrefoils", "waves"}

// nextMotif returns the first of them that the design does not have yet.
func nextMotif(d pattern.Design) string {
	for _, s := range starts {
		if !slices.ContainsFunc(d.Fields, func(f pattern.Field) bool { return f.Motif == s }) {
			return s
		}
	}
	return starts[len(d.Fields)%len(starts)]
}

// FieldText says in one line what field i is: its number, name, and area.
func FieldText(d pattern.Design, i int) string {
	f := d.Fields[i]
	title := FieldTitle(d, i)
	if f.Name != "" {
		title += " (" + lower(MotifTitle(f)) + ")"
	}
	return fmt.Sprintf("%d  %s, %s", i+1, title, AreaText(f.Area))
}

// usualCell is the area of a cell of the usual size in a piece of band of height
// high, as a share of its square.
const usualCell = 1.0 / 9

// MotifSample returns rows and repeats that show a motif well on a piece of band,
// mm long and high.
func MotifSample(key string, long, high float64) (rows, repeats int) {
	return pattern.Grid(key, long, high, high*high*usualCell)
}
