package app

import (
	"fmt"
	"math"

	"fretband/pattern"
)

// MoveArea puts the middle of the area of field i at a position on the blank.
func MoveArea(d *pattern.Design, i int, x, y float64) {
	changeArea(d, i, func(a *pattern.Area) {
		a.XMM, a.YMM = pattern.PositionRange.Clamp(tenths(x)), pattern.PositionRange.Clamp(tenths(y))
	})
}

// SizeArea gives the area of field i a size, mm; a circle its width.
func SizeArea(d *pattern.Design, i int, width, height float64) {
	changeArea(d, i, func(a *pattern.Area) {
		a.WidthMM = pattern.SizeRange.Clamp(tenths(width))
		if a.Shape != pattern.CircleShape {
			a.HeightMM = pattern.SizeRange.Clamp(tenths(height))
		}
	})
}

// RotateArea rotates the area of field i to an angle, degrees.
func RotateArea(d *pattern.Design, i int, deg float64) {
	changeArea(d, i, func(a *pattern.Area) {
		a.RotationDeg = pattern.RotationRange.Clamp(math.Round(math.Remainder(deg, 360)))
	})
}

// StretchArea puts one end of a run or a strip of field i at a position, mm from the
// middle of the blank: the left or lower end, or the other.
func StretchArea(d *pattern.Design, i int, upper bool, at float64) {
	end := "from_mm"
	if upper {
		end = "to_mm"
	}
	if n, ok := NumberAt(*d, fieldPath(i, "area."+end)); ok {
		n.Slide(d, tenths(at))
	}
}

func changeArea(d *pattern.Design, i int, do func(*pattern.Area)) {
	if i >= 0 && i < len(d.Fields) {
		*d = Clone(*d)
		do(&d.Fields[i].Area)
	}
}

func tenths(v float64) float64 { return math.Round(v*10) / 10 }

// AreaPositionText says in numbers where an area is, for reading beside the hand.
func AreaPositionText(a pattern.Area) string {
	n := func(v float64) string { return FormatNumber(v, 1) }
	switch a.Shape {
	case pattern.RunShape, pattern.StripShape:
		return fmt.Sprintf("%s to %s, %s mm", n(a.FromMM), n(a.ToMM), n(a.ToMM-a.FromMM))
	}
	return fmt.Sprintf("%s, %s mm", n(a.XMM), n(a.YMM))
}

// AreaSize says in numbers how large an area is, and how it is turned.
func AreaSize(a pattern.Area) string {
	n := func(v float64) string { return FormatNumber(v, 1) }
	if a.Shape == pattern.CircleShape {
		return n(a.WidthMM) + " mm"
	}
	s := fmt.Sprintf("%s x %s mm", n(a.WidthMM), n(a.HeightMM))
	if a.RotationDeg != 0 {
		s += ", turned " + n(a.RotationDeg) + "\u00b0"
	}
	return s
}
