package app

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fretband/pattern"
	"fretband/unroll/plane"
)

// ItemKind is a kind of items.
type ItemKind int

// Kinds of items.
const (
	ReserveItem ItemKind = iota
	EngravingItem
	AddedItem
)

// Item names a reserve, an engraving or an added part of a design: what lies at a position of
// its own and can be taken hold of. [NoItem] is none.
type Item struct {
	Kind  ItemKind
	Index int
}

// NoItem is no item.
var NoItem = Item{Index: -1}

// In reports whether the design has it.
func (it Item) In(d pattern.Design) bool {
	return it.Index >= 0 && it.Index < it.Kind.Count(d)
}

// Count returns how many of the kind a design has.
func (k ItemKind) Count(d pattern.Design) int {
	return [...]int{len(d.Reserves), len(d.Engravings), len(d.Added)}[k]
}

// most is how many a design holds.
func (k ItemKind) most() int {
	return [...]int{pattern.MaxReserves, pattern.MaxEngravings, pattern.MaxAdded}[k]
}

// Word is what a person calls one of the kind.
func (k ItemKind) Word() string { return [...]string{"reserve", "mark", "part"}[k] }

// Path is its name in the design file.
func (it Item) Path() string { return fmt.Sprintf("%s[%d]", it.List(), it.Index) }

// List is the name in the design file of the list that holds it.
func (it Item) List() string {
	return [...]string{"reserves", "marks", "added"}[it.Kind]
}

// number is where it keeps a number that all kinds have.
func (it Item) number(d *pattern.Design, name string) *float64 {
	return pattern.ByPath(it.List() + "[]." + name)[0].Number(d, pattern.At{it.Index})
}

// At returns where it lies.
func (it Item) At(d pattern.Design) plane.Point {
	return plane.Pt(*it.number(&d, "x_mm"), *it.number(&d, "y_mm"))
}

// Put lays it at a position, to a hundredth of a millimetre and within the limits.
func (it Item) Put(d *pattern.Design, at plane.Point) {
	*d = Clone(*d)
	if it.Kind == AddedItem {
		putAdded(&d.Added[it.Index], pattern.PositionRange.Clamp(hundredths(at.X)), pattern.PositionRange.Clamp(hundredths(at.Y)))
		return
	}
	*it.number(d, "x_mm") = pattern.PositionRange.Clamp(hundredths(at.X))
	*it.number(d, "y_mm") = pattern.PositionRange.Clamp(hundredths(at.Y))
}

// RotateTo turns it to an angle, to a degree, from -180 to 180.
func (it Item) RotateTo(d *pattern.Design, deg float64) {
	*d = Clone(*d)
	if it.Kind == AddedItem && !turnsAdded(d.Added[it.Index]) {
		return
	}
	*it.number(d, "turn_deg") = math.Round(math.Remainder(deg, 360))
}

// Resize gives a reserve that width and height, a line that length, and a text that
// height of capitals, to a tenth of a millimetre; what is no size of it is not used.
func (it Item) Resize(d *pattern.Design, width, height float64) {
	*d = Clone(*d)
	tenth := func(v float64, r pattern.Range) float64 { return r.Clamp(math.Round(v*10) / 10) }
	switch it.Kind {
	case AddedItem:
		resizeAdded(&d.Added[it.Index], tenth(width, pattern.SizeRange), tenth(height, pattern.SizeRange))
		return
	case EngravingItem:
		m := &d.Engravings[it.Index]
		switch m.Kind {
		case pattern.LineEngraving:
			m.LengthMM = tenth(width, pattern.LengthRange)
		case pattern.TextEngraving:
			m.HeightMM = tenth(height, pattern.LetterRange)
		}
		return
	}
	r := &d.Reserves[it.Index]
	r.WidthMM = tenth(width, pattern.SizeRange)
	if r.Shape != pattern.CircleShape {
		r.HeightMM = tenth(height, pattern.SizeRange)
	}
}

// Copy adds one like it, beside it, and returns that.
func (it Item) Copy(d *pattern.Design) Item {
	*d = Clone(*d)
	c := Item{it.Kind, it.Kind.Count(*d)}
	if c.Index >= it.Kind.most() {
		return NoItem
	}
	clamp := pattern.PositionRange.Clamp
	switch it.Kind {
	case EngravingItem:
		m := d.Engravings[it.Index]
		m.YMM = clamp(m.YMM - math.Max(2, 1.6*m.HeightMM))
		d.Engravings = append(d.Engravings, m)
	case AddedItem:
		a := d.Added[it.Index]
		switch {
		case a.Row == pattern.RowTop || a.Row == pattern.RowBottom || a.Row == pattern.RowBoth:
			a.InsetMM = hundredths(math.Min(60, a.InsetMM+a.WidthMM))
		default:
			a.XMM = clamp(hundredths(a.XMM + a.WidthMM + 2*(a.WallMM+a.MarginMM) + a.RowWidthMM + 1))
		}
		d.Added = append(d.Added, a)
	default:
		r := d.Reserves[it.Index]
		r.XMM = clamp(hundredths(r.XMM + r.WidthMM + 2*r.MarginMM + 1))
		d.Reserves = append(d.Reserves, r)
	}
	return c
}

// Remove takes it away.
func (it Item) Remove(d *pattern.Design) {
	*d = Clone(*d)
	i := it.Index
	switch it.Kind {
	case EngravingItem:
		d.Engravings = slices.Delete(d.Engravings, i, i+1)
	case AddedItem:
		d.Added = slices.Delete(d.Added, i, i+1)
	default:
		d.Reserves = slices.Delete(d.Reserves, i, i+1)
	}
}

// Text says in a line which it is: its number, what it is for, what it is.
func (it Item) Text(d pattern.Design) string {
	if !it.In(d) {
		return ""
	}
	words := []string{}
	add := func(s string) {
		if s != "" {
			words = append(words, s)
		}
	}
	switch it.Kind {
	case AddedItem:
		add(addedText(d.Added[it.Index]))
	case EngravingItem:
		m := d.Engravings[it.Index]
		add(m.Note)
		switch m.Kind {
		case pattern.TextEngraving:
			add(fmt.Sprintf("\u201c%s\u201d %s mm", m.Text, FormatNumber(m.HeightMM, 2)))
		case pattern.LineEngraving:
			add(fmt.Sprintf("line %s mm", FormatNumber(m.LengthMM, 2)))
		default:
			add("drawn lines")
		}
		if m.Side == pattern.InsideFace {
			add("inside")
		}
	default:
		r := d.Reserves[it.Index]
		add(r.Note)
		if r.Count > 1 {
			add(fmt.Sprintf("%d in a row", r.Count))
		}
		add(it.shapeText(r))
	}
	return fmt.Sprintf("%d  %s", it.Index+1, strings.Join(words, ", "))
}

func (Item) shapeText(r pattern.Reserve) string {
	switch {
	case r.Shape == pattern.CircleShape:
		return fmt.Sprintf("circle %s mm", FormatNumber(r.WidthMM, 2))
	case r.Shape == pattern.PathShape && r.WidthMM == 0:
		return "drawn shape"
	case r.Shape == pattern.PathShape:
		return fmt.Sprintf("drawn shape %s x %s mm", FormatNumber(r.WidthMM, 2), FormatNumber(r.HeightMM, 2))
	}
	return fmt.Sprintf("%s %s x %s mm", r.Shape, FormatNumber(r.WidthMM, 2), FormatNumber(r.HeightMM, 2))
}

// PositionText and SizeText are the numbers shown beside it while a hand moves it or
// changes its size.
func (it Item) PositionText(d pattern.Design) string {
	p := it.At(d)
	return pattern.Say("x %.2f  y %.2f mm", p.X, p.Y)
}

// SizeText says its size, and its rotation if it has one.
func (it Item) SizeText(d pattern.Design) string {
	var s string
	var turn float64
	switch it.Kind {
	case AddedItem:
		a := d.Added[it.Index]
		turn = a.RotationDeg
		if s = pattern.Say("%.1f mm", a.WidthMM); a.HeightMM > 0 {
			s = pattern.Say("%.1f x %.1f mm", a.WidthMM, a.HeightMM)
		}
	case EngravingItem:
		m := d.Engravings[it.Index]
		turn = m.RotationDeg
		switch m.Kind {
		case pattern.LineEngraving:
			s = pattern.Say("%.1f mm", m.LengthMM)
		case pattern.TextEngraving:
			s = pattern.Say("capitals %.1f mm", m.HeightMM)
		}
	default:
		r := d.Reserves[it.Index]
		turn = r.RotationDeg
		s = pattern.Say("%.1f x %.1f mm", r.WidthMM, r.HeightMM)
		if r.Shape == pattern.CircleShape {
			return pattern.Say("\u2300 %.1f mm", r.WidthMM)
		}
	}
	if turn != 0 {
		s = strings.TrimSpace(s + pattern.Say("  %.0f\u00b0", turn))
	}
	return s
}

// NewReserve returns a reserve that a person may start from: a quarter of the
// band's width across, at the middle of the blank.
func NewReserve(shape string, d pattern.Design) pattern.Reserve {
	w := math.Max(2, math.Min(12, math.Round(d.Band.WidthMM/4)))
	r := pattern.Reserve{Shape: shape, WidthMM: w, MarginMM: 1}
	switch shape {
	case pattern.RectangleShape:
		r.WidthMM, r.HeightMM = 2*w, w
	case pattern.OvalShape:
		r.WidthMM, r.HeightMM = 1.5*w, w
	}
	return r
}

// NewEngraving returns an engraving that a person may start from, at the middle of the blank.
func NewEngraving(kind string, d pattern.Design) pattern.Engraving {
	size := math.Max(1, math.Min(3, math.Round(d.Band.WidthMM/6*2)/2))
	m := pattern.Engraving{Kind: kind, MarginMM: usualEngravingMargin}
	switch kind {
	case pattern.LineEngraving:
		m.LengthMM = 8 * size
	case pattern.TextEngraving:
		m.Text, m.HeightMM = "Name", size
	default:
		m.Path = pattern.Say("M%g 0C%g %g %g %g %g 0", -4*size, -2*size, -3*size, 2*size, 3*size, 4*size)
	}
	return m
}
