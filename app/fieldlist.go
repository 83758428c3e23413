package app

import (
	"fmt"
	"math"
	"slices"

	"fretband/pattern"
	"fretband/pattern/motif"
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
			a = pattern.Area{Shape: pattern.RunShape, FromMM: halves(-b.W() / 6), ToMM: halves(b.W() / 6)}
			break
		}
	}
	d.Fields = slices.Insert(d.Fields, at, startField(*d, a))
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

// startField returns a field for an area, of a motif that the design does not have yet,
// with openings of a size that suits the band.
func startField(d pattern.Design, a pattern.Area) pattern.Field {
	key := starts[len(d.Fields)%len(starts)]
	for _, s := range starts {
		if !slices.ContainsFunc(d.Fields, func(f pattern.Field) bool { return f.Motif == s }) {
			key = s
			break
		}
	}
	f := pattern.Field{Motif: key, Area: a, Stagger: motif.Usual(key).Stagger}
	unit := math.Max(2.2, math.Min(6, d.Band.WidthMM/4))
	if d.Band.OnFinger() {
		unit = math.Max(1.8, d.Band.WidthMM/3)
	}
	// No cell smaller than bridge and opening together.
	unit = math.Max(unit, d.Rules.BridgeMM+1.5*d.Rules.SmallestMM)
	f.Rows, f.Repeats = usualGrid(key, lengthOf(d, f), boxOf(d, a).H(), unit*unit)
	return f
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
	return usualGrid(key, long, high, high*high*usualCell)
}

// usualGrid divides a piece, mm long and high, into cells of about an area.
func usualGrid(key string, long, high, area float64) (rows, repeats int) {
	u := motif.Usual(key)
	row := math.Sqrt(area * u.Size / u.Aspect)
	rows = whole(high/row, pattern.RowsRange)
	return rows, whole(long/(high/float64(rows)*u.Aspect), pattern.RepeatsRange)
}
