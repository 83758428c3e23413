package app

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"fretband/pattern"
	"fretband/pattern/added"
)

// NewAdded returns a part of a kind that a person may start from, as large as suits the band.
func NewAdded(kind string, d pattern.Design) pattern.Added {
	w := d.Band.WidthMM
	size := func(share, least, most float64) float64 {
		return math.Max(least, math.Min(most, math.Round(w*share*10)/10))
	}
	a := pattern.Added{Kind: kind, MarginMM: usualEngravingMargin}
	switch kind {
	case pattern.WirePart:
		a.Section, a.Row, a.WidthMM, a.MarginMM = "half-round", pattern.RowBoth, size(0.06, 0.6, 2), 0
	case pattern.BeadsPart:
		a.Row, a.WidthMM, a.MarginMM = pattern.RowTop, size(0.06, 0.6, 1.5), 0.3
		for _, b := range d.Added { // beside wire that is there
			if b.Kind == pattern.WirePart && b.Row != pattern.RowBottom {
				a.InsetMM = math.Max(a.InsetMM, b.InsetMM+b.WidthMM)
			}
		}
	case pattern.OtherPart:
		a.Seat, a.WidthMM, a.WeightG = pattern.CircleShape, size(0.2, 1, 5), 0.5
	default:
		a.Cut, a.Gem = "cabochon", "quartz"
		a.WidthMM = size(0.4, 2, 10)
		a.HeightMM = math.Round(7.5*a.WidthMM) / 10
		a.DepthMM = math.Round(5*a.HeightMM) / 10
		setSetting(&a, pattern.Bezel)
	}
	return a
}

// setSetting gives a stone the usual numbers of a setting: a wall of 28 gauge, 26 round a large
// stone, half as high as the stone.
func setSetting(a *pattern.Added, key string) {
	if a.Setting == key {
		return
	}
	a.Setting = key
	a.WallMM, a.RiseMM, a.BaseMM, a.WeightG = 0, 0, 0, 0
	switch key {
	case pattern.Bezel:
		const large = 12 // mm
		a.WallMM, a.RiseMM = 0.32, math.Max(0.5, hundredths(a.DepthMM/2))
		if a.WidthMM >= large {
			a.WallMM = 0.4
		}
	case pattern.Prongs:
		a.WeightG = 0.1
	}
}

// setCut keeps the size: a stone that is as wide as long has no width of its own.
func setCut(a *pattern.Added, key string) {
	c, _ := added.CutOf(key)
	if a.Cut = key; c.Even {
		a.HeightMM = 0
	} else if a.HeightMM == 0 {
		a.HeightMM = math.Max(pattern.SizeRange.Min, hundredths(0.75*a.WidthMM))
	}
}

func setGem(a *pattern.Added, key string) {
	_, g := a.Stone()
	a.Gem, a.SG = key, 0
	if key == added.OwnGem {
		a.SG = g.Gravity
	}
}

func setSection(a *pattern.Added, key string) {
	s, _ := added.SectionOf(key)
	a.Section, a.HeightMM = key, 0
	if s.High {
		a.HeightMM = math.Max(pattern.SizeRange.Min, hundredths(0.6*a.WidthMM))
	}
}

func setSeat(a *pattern.Added, key string) {
	a.Seat = key
	if key == pattern.CircleShape {
		a.HeightMM, a.RotationDeg = 0, 0
	} else if a.HeightMM == 0 {
		a.HeightMM = math.Max(pattern.SizeRange.Min, hundredths(0.7*a.WidthMM))
	}
}

// setRow has parts follow something else, with usual sizes of it.
func setRow(d *pattern.Design, a *pattern.Added, key string) {
	edge := key == pattern.RowTop || key == pattern.RowBottom || key == pattern.RowBoth
	ring := key == pattern.RowCircle || key == pattern.RowOval
	a.Row = key
	if edge {
		a.YMM = 0
	} else {
		a.InsetMM = 0
	}
	if !ring {
		a.RowWidthMM, a.RowHeightMM = 0, 0
		return
	}
	if a.RowWidthMM == 0 {
		a.RowWidthMM = math.Max(1, math.Round(0.6*d.Band.WidthMM))
	}
	a.RowHeightMM = 0
	if key == pattern.RowOval {
		a.RowHeightMM = math.Max(1, math.Round(0.7*a.RowWidthMM))
	}
	if a.Kind != pattern.BeadsPart && a.Count < 2 {
		a.Count = 8
		// As small as their circle has room for.
		a.WidthMM = math.Max(0.5, math.Min(a.WidthMM, hundredths(a.RowWidthMM/5)))
		a.HeightMM = math.Min(a.HeightMM, a.WidthMM)
	}
	a.SpacingMM = 0
}

// addedText says what a part is.
func addedText(a pattern.Added) string {
	text := ""
	add := func(s string) {
		if s == "" {
			return
		}
		if text != "" {
			text += ", "
		}
		text += s
	}
	add(a.Note)
	if a.Count > 1 && a.Kind != pattern.BeadsPart {
		add(fmt.Sprintf("%d in a row", a.Count))
	}
	n := func(v float64) string { return FormatNumber(v, 2) }
	switch a.Kind {
	case pattern.StonePart:
		c, g := a.Stone()
		size := n(a.WidthMM)
		if !c.Even {
			size += " x " + n(a.HeightMM)
		}
		if a.Note == "" {
			add(g.Word())
			size = lower(c.Name) + " " + size
		}
		add(size + " mm")
	case pattern.WirePart:
		s, _ := added.SectionOf(a.Section)
		add(lower(s.Name) + " wire " + n(a.WidthMM) + " mm")
	case pattern.BeadsPart:
		beads := "beads"
		if a.Count > 0 {
			beads = fmt.Sprintf("%d beads", a.Count)
		}
		if a.WidthMM > 0 {
			beads += " " + n(a.WidthMM) + " mm"
		}
		add(beads)
	default:
		if a.Note == "" {
			add("part")
		}
		add(n(a.WidthMM) + " mm")
	}
	return text
}

// putAdded lays a part at a position: one along an edge keeps to it, and wire lies all along.
func putAdded(a *pattern.Added, x, y float64) {
	if a.Kind == pattern.WirePart {
		return
	}
	a.XMM = x
	if a.Row == pattern.RowLine || a.Row == pattern.RowCircle || a.Row == pattern.RowOval {
		a.YMM = y
	}
}

// resizeAdded gives a part that length and width.
func resizeAdded(a *pattern.Added, width, height float64) {
	a.WidthMM = width
	if a.HeightMM == 0 {
		return
	}
	a.HeightMM = height
	if a.Kind == pattern.StonePart { // which is at least as long as wide
		a.HeightMM = math.Min(height, width)
	}
}

// turnsAdded reports whether a part has an angle of its own.
func turnsAdded(a pattern.Added) bool {
	c, _ := a.Stone()
	return a.Kind == pattern.StonePart && c.Key != "round" && c.Key != "round-cabochon" ||
		a.Kind == pattern.OtherPart && a.Seat != pattern.CircleShape
}

// StoneOn returns a stone in a bezel that fills the seat of a reserve, and whether one does: a
// drawn shape is none of a stone.
func StoneOn(r pattern.Reserve) (pattern.Added, bool) {
	a := pattern.Added{
		Kind: pattern.StonePart, Gem: "quartz", Note: r.Note, XMM: r.XMM, YMM: r.YMM, RotationDeg: r.RotationDeg,
		Count: r.Count, SpacingMM: r.SpacingMM, MarginMM: r.MarginMM,
	}
	if a.Note == "stone seat" {
		a.Note = ""
	}
	wall := 0.32
	if math.Min(r.WidthMM, cmp.Or(r.HeightMM, r.WidthMM)) < 2*wall+1 {
		return a, false
	}
	l, w := r.WidthMM-2*wall, r.HeightMM-2*wall
	switch r.Shape {
	case pattern.CircleShape:
		a.Cut, w, a.RotationDeg = "round-cabochon", l, 0
	case pattern.OvalShape:
		a.Cut = "cabochon"
	case pattern.RectangleShape:
		a.Cut = "rectangle"
	default:
		return a, false
	}
	if w > l { // a stone is at least as long as wide
		l, w = w, l
		a.RotationDeg = math.Remainder(a.RotationDeg+90, 360)
	}
	a.WidthMM = hundredths(l)
	if a.Cut != "round-cabochon" {
		a.HeightMM = hundredths(w)
	}
	a.DepthMM = hundredths(math.Max(0.5, w/2))
	setSetting(&a, pattern.Bezel)
	a.WallMM = wall
	return a, true
}

// SetStone puts a stone in the place of a reserve, and selects it.
func (e *Editor) SetStone(i int) {
	d := Clone(e.Now())
	a, ok := StoneOn(d.Reserves[i])
	if !ok || len(d.Added) >= pattern.MaxAdded {
		e.On.Say("A stone takes the place of a circle, an oval or a rectangle of 1.7 mm or more.")
		return
	}
	d.Reserves = slices.Delete(d.Reserves, i, i+1)
	d.Added = append(d.Added, a)
	e.added(Item{AddedItem, len(d.Added) - 1}, d)
}
