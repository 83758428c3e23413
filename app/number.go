package app

import (
	"fmt"
	"math"
	"strings"

	"fretband/pattern"
	"fretband/unroll"
)

// Number is one number of a design that a person may change: what it is called,
// where it lies, and how to read and write it.
type Number struct {
	Path, Title, Unit string // Path as in the design file
	Tip               string // what the word means at the bench
	Min, Max          float64
	Step              float64 // one press of an arrow key
	Places            int     // decimals shown
	Whole             bool
	Gauge             bool // takes "18 ga" as well
	// Low and High are the ends of its slider: the values in daily use. Both 0
	// for a number without one.
	Low, High float64
	// RingLow and RingHigh are those for a ring, if they differ.
	RingLow, RingHigh float64

	Get   func(pattern.Design) float64
	Set   func(*pattern.Design, float64)
	Shown func(pattern.Design) bool // nil: always
}

// HasSlider reports whether the number has a slider.
func (n Number) HasSlider() bool { return n.High > n.Low }

// Span returns the ends of the slider for design d.
func (n Number) Span(d pattern.Design) (low, high float64) {
	if d.Band.Kind == unroll.Ring && n.RingHigh > n.RingLow {
		return n.RingLow, n.RingHigh
	}
	return n.Low, n.High
}

// Text writes the number's value in d, without its unit.
func (n Number) Text(d pattern.Design) string {
	if g := d.Band.Thickness.BSGauge; n.Gauge && g != 0 {
		return fmt.Sprintf("%d ga", g)
	}
	if g := d.Band.Thickness.ImperialGauge; n.Gauge && g != 0 {
		return fmt.Sprintf("%d swg", g)
	}
	return FormatNumber(n.Get(d), n.Places)
}

// Allowed says what may be typed: "0.1 to 20 mm".
func (n Number) Allowed() string {
	s := fmt.Sprintf("%s to %s", FormatNumber(n.Min, n.Places), FormatNumber(n.Max, n.Places))
	if n.Unit != "" {
		s += " " + n.Unit
	}
	if n.Whole {
		s = "a whole number, " + s
	}
	if n.Gauge {
		s += fmt.Sprintf(", %d to %d ga (B&S) or %d to %d swg", unroll.MinGauge, unroll.MaxGauge, unroll.MinImperialGauge, unroll.MaxImperialGauge)
	}
	return s
}

// Put writes what was typed into d, or says what is allowed and leaves d alone.
func (n Number) Put(d *pattern.Design, typed string) error {
	q, err := ReadQuantity(typed, n.Unit, n.Gauge)
	if err != nil {
		return fmt.Errorf("%s: %w; allowed is %s", n.Title, err, n.Allowed())
	}
	if q.Gauge != 0 {
		if q.Gauge < unroll.MinGauge || q.Gauge > unroll.MaxGauge {
			return fmt.Errorf("%s: allowed is %s", n.Title, n.Allowed())
		}
		d.Band.Thickness = unroll.Thickness{BSGauge: q.Gauge}
		return nil
	}
	if q.Imperial != 0 {
		if q.Imperial < unroll.MinImperialGauge || q.Imperial > unroll.MaxImperialGauge {
			return fmt.Errorf("%s: allowed is %s", n.Title, n.Allowed())
		}
		d.Band.Thickness = unroll.Thickness{ImperialGauge: q.Imperial}
		return nil
	}
	// The last digit shown must not push a limit's own value out.
	slack := math.Pow(10, -float64(n.Places)) / 2
	v := q.Value
	if v < n.Min && v > n.Min-slack {
		v = n.Min
	}
	if v > n.Max && v < n.Max+slack {
		v = n.Max
	}
	if v < n.Min || v > n.Max || n.Whole && v != math.Trunc(v) {
		return fmt.Errorf("%s: %s is not allowed; allowed is %s", n.Title, strings.TrimSpace(typed), n.Allowed())
	}
	n.Set(d, v)
	return nil
}

// Slide writes v, held to the limits and taken to the number's last decimal.
func (n Number) Slide(d *pattern.Design, v float64) {
	p := math.Pow(10, float64(n.Places))
	v = math.Round(v*p) / p
	n.Set(d, math.Max(n.Min, math.Min(n.Max, v)))
}

// StepBy moves the number by steps of its own, held to its limits.
func (n Number) StepBy(d *pattern.Design, steps float64) { n.Slide(d, n.Get(*d)+steps*n.Step) }

// NumberAt returns the number of that path for design d.
func NumberAt(d pattern.Design, path string) (Number, bool) {
	lists := [][]Number{BandNumbers(), FormNumbers(), MetalNumbers(), RuleNumbers(), WorkNumbers(), WearNumbers()}
	for i := range d.Fields {
		lists = append(lists, FieldNumbers(d, i))
	}
	for i := range d.Reserves {
		lists = append(lists, ReserveNumbers(i))
	}
	for i := range d.Marks {
		lists = append(lists, MarkNumbers(i))
	}
	for i := range d.Band.Inside.Profile {
		lists = append(lists, PieceNumbers(i))
	}
	for _, e := range Edges() {
		for i := range e.Points(d) {
			lists = append(lists, EdgeNumbers(e, i))
		}
	}
	var found Number
	for _, list := range lists {
		for _, n := range list {
			if n.Path != path {
				continue
			}
			if n.Shown == nil || n.Shown(d) {
				return n, true
			}
			found = n // of the several that a path has, the one that is shown is meant
		}
	}
	return found, found.Path != ""
}
