package app

import (
	"fmt"
	"math"
	"strings"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll"
)

// Number is one number of a design that a person may change: a line of the table, at its
// position in the lists, and how to read and write it.
type Number struct {
	pattern.Entry        // its range is what may be typed
	Path, Title   string // with the position
	at            pattern.At

	Get   func(pattern.Design) float64
	Set   func(*pattern.Design, float64)
	Shown func(pattern.Design) bool
}

// Numbers returns the numbers of a group of the table, at those positions in the lists.
func Numbers(g pattern.Group, at ...int) []Number {
	var ns []Number
	table := pattern.Table()
	for i := range table {
		if e := &table[i]; e.Group == g && isNumber(e) {
			ns = append(ns, numberOf(e, atOf(at)))
		}
	}
	return ns
}

func atOf(at []int) (all pattern.At) {
	copy(all[:], at)
	return all
}

func isNumber(e *pattern.Entry) bool { return (e.Number != nil || e.Whole != nil) && !e.Choice() }

func numberOf(e *pattern.Entry, at pattern.At) Number {
	n := Number{Entry: *e, Path: e.PathAt(at), Title: e.TitleAt(at), at: at}
	if e.Typed != nil {
		n.Range = *e.Typed
	}
	get := readAs[e.Path]
	if get == nil {
		get = func(d *pattern.Design, at pattern.At) float64 {
			if e.Whole != nil {
				return float64(*e.Whole(d, at))
			}
			return *e.Number(d, at)
		}
	}
	set := follows[e.Path]
	if set == nil {
		set = func(d *pattern.Design, at pattern.At, v float64) {
			switch {
			case e.Whole != nil:
				*e.Whole(d, at) = int(v)
			case e.Optional && v < e.Min:
				*e.Number(d, at) = 0
			default:
				*e.Number(d, at) = v
			}
		}
	}
	n.Get = func(d pattern.Design) float64 {
		if !e.In(&d, at) {
			return 0
		}
		return get(&d, at)
	}
	n.Set = func(d *pattern.Design, v float64) {
		if e.In(d, at) {
			unshare(d, e)
			set(d, at, v)
		}
	}
	n.Shown = func(d pattern.Design) bool { return e.Visible(&d, at) }
	return n
}

// unshare copies d if the value lies in a list, which other designs may share.
func unshare(d *pattern.Design, e *pattern.Entry) {
	if strings.Contains(e.Path, "[]") {
		*d = Clone(*d)
	}
}

// HasSlider reports whether the number has a slider.
func (n Number) HasSlider() bool { return n.Slider.Max > n.Slider.Min }

// Span returns the ends of the slider for design d.
func (n Number) Span(d pattern.Design) (low, high float64) {
	if d.Band.OnFinger() && n.RingSlider.Max > n.RingSlider.Min {
		return n.RingSlider.Min, n.RingSlider.Max
	}
	return n.Slider.Min, n.Slider.Max
}

// Text writes the number's value in d, without its unit.
func (n Number) Text(d pattern.Design) string {
	if g := d.Band.Thickness.BSGauge; n.Gauge && g != 0 {
		return fmt.Sprintf("%d ga", g)
	}
	if g := d.Band.Thickness.ImperialGauge; n.Gauge && g != 0 {
		return fmt.Sprintf("%d swg", g)
	}
	v := n.Get(d)
	if v == 0 && n.Empty != "" {
		return ""
	}
	return FormatNumber(v, n.Decimals)
}

// Allowed says what may be typed: "0.1 to 20 mm".
func (n Number) Allowed() string { return n.typing().allowed() }

func (n Number) typing() typing {
	return typing{title: n.Title, unit: n.Unit, empty: n.Empty, Range: n.Range, decimals: n.Decimals, whole: n.Whole != nil, gauge: n.Gauge}
}

// Put writes what was typed into d, or says what is allowed and leaves d alone.
func (n Number) Put(d *pattern.Design, typed string) error {
	t := n.typing()
	if n.Hundred != nil && n.Entry.In(d, n.at) {
		t.hundred = n.Hundred(d, n.at)
	}
	q, err := t.read(typed)
	switch {
	case err != nil:
		return err
	case q.Gauge != 0:
		d.Band.Thickness = unroll.Thickness{BSGauge: q.Gauge}
	case q.Imperial != 0:
		d.Band.Thickness = unroll.Thickness{ImperialGauge: q.Imperial}
	default:
		n.Set(d, q.Value)
	}
	return nil
}

// Slide writes v, kept within the limits and rounded to the number's last decimal.
func (n Number) Slide(d *pattern.Design, v float64) {
	p := math.Pow(10, float64(n.Decimals))
	n.Set(d, n.Clamp(math.Round(v*p)/p))
}

// NumberAt returns the number of that path for design d.
func NumberAt(d pattern.Design, path string) (Number, bool) {
	var found Number
	entries, at := pattern.Lookup(path)
	for _, e := range entries {
		if !isNumber(e) || e.Group == "" || e.Group == pattern.HandGroup || !e.In(&d, at) {
			continue
		}
		if found = numberOf(e, at); e.Visible(&d, at) {
			break // of the several that a path has, the one that is shown is meant
		}
	}
	if found.Path == "" {
		for _, n := range MotifNumbers(d, fieldOf(path)) {
			if n.Path == path {
				found = n
			}
		}
	}
	return found, found.Path != ""
}

// standsFor says, by the key in the table, what holds where a number is left empty, of the
// design as it was laid last; 0 where nothing is known.
var standsFor = map[string]func(*Scene, pattern.At) float64{
	"band.swell_length_mm": func(s *Scene, _ pattern.At) float64 { return s.Sheet.Flat.Length },
	"fields[].bridge_mm":   ruleInForce,
	"edits[].width_mm:tie": ruleInForce,
	"reserves[].spacing_mm": func(s *Scene, at pattern.At) float64 {
		return s.Sheet.Design.Reserves[at[0]].Spacing(s.Sheet.Flat)
	},
	"added[].spacing_mm": func(s *Scene, at pattern.At) float64 { return s.Sheet.Added[at[0]].Step },
	"added[].width_mm:beads": func(s *Scene, at pattern.At) float64 {
		return s.Sheet.Added[at[0]].SizeMM
	},
	"work.kerf_mm":         func(s *Scene, _ pattern.At) float64 { return s.Report.Making.KerfMM },
	"work.least_angle_deg": func(s *Scene, _ pattern.At) float64 { return check.LeastAngle(s.Sheet) },
	"wear.open_mm":         func(s *Scene, _ pattern.At) float64 { return check.OpenedBy(s.Sheet) },
	"wear.proof_mpa":       func(s *Scene, _ pattern.At) float64 { return s.Sheet.Design.Temper().ProofMPa },
	"wear.modulus_gpa":     func(s *Scene, _ pattern.At) float64 { return s.Sheet.Design.Temper().ModulusGPa },
}

func ruleInForce(s *Scene, _ pattern.At) float64 { return s.Sheet.Design.Rules.BridgeMM }

// InForce returns the value of a number that holds: its own, or what stands for it while it
// is empty.
func (e *Editor) InForce(n Number) float64 {
	v := n.Get(e.Now())
	if v != 0 || n.Empty == "" {
		return v
	}
	return e.standing(n)
}

// standing returns what stands for a number while it is empty, 0 if nothing is known.
func (e *Editor) standing(n Number) float64 {
	of := standsFor[n.Entry.Key()]
	if of == nil || e.Scene == nil || !n.Entry.In(&e.Scene.Sheet.Design, n.at) && n.Group != pattern.HandGroup {
		return 0
	}
	return of(e.Scene, n.at)
}

// WhileEmpty is what the entry of a number says while it is empty: the value in force, in
// brackets as it has not been typed, or in a word or two that there is none.
func (e *Editor) WhileEmpty(n Number) string {
	if v := e.standing(n); v != 0 {
		return "(" + FormatNumber(v, max(n.Decimals, 1)) + ")"
	}
	return n.Empty
}
