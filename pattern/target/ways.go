package target

import (
	"fmt"
	"math"
	"slices"

	"fretband/pattern"
)

// way is one manner of changing a design. It reports false where it can change
// nothing.
type way struct {
	key, title string
	find       func(*search) (Choice, bool)
}

// ways in the order in which a person reads them.
var ways = []way{
	{"bridge", "Bridge", byBridge},
	{"rim", "Rim", byRim},
	{"repeats", "Repeats", byRepeats},
	{"size", "Cell size", bySize},
}

// bridgeKnob turns the rule, and with it fields' own bridges that would be under
// it.
func bridgeKnob(d pattern.Design) knob {
	least := usualLeast(d)
	why := "less is under the usual least of the sheet's thickness, and 0.5 mm (common practice)."
	return knob{
		name: "bridge", unit: "mm", lo: least, hi: math.Min(pattern.BridgeRange.Max, math.Max(d.Rules.BridgeMM, d.Band.WidthMM/3)), now: d.Rules.BridgeMM, least: why,
		set: func(d *pattern.Design, v float64) {
			d.Rules.BridgeMM = v
			for i := range d.Fields {
				if b := &d.Fields[i].BridgeMM; *b > 0 && *b < v {
					*b = v
				}
			}
		},
	}
}

func byBridge(s *search) (Choice, bool) { return s.use(s.from, bridgeKnob(s.from)) }

func byRim(s *search) (Choice, bool) {
	d := s.from
	return s.use(d, knob{
		name: "rim", unit: "mm", lo: d.Rules.BridgeMM, hi: math.Max(d.Rules.RimMM, d.Band.WidthMM*0.45), now: math.Max(d.Rules.RimMM, d.Rules.BridgeMM),
		least: "a rim is never thinner than the bridge.",
		set:   func(d *pattern.Design, v float64) { d.Rules.RimMM = v },
	})
}

// use tunes one knob, or for the lightest takes the least that the rules allow.
func (s *search) use(d pattern.Design, k knob) (Choice, bool) {
	if s.target > 0 {
		c, err := s.tune(d, k)
		return c, err == nil
	}
	t := tuner{s, d, k}
	p, err := t.at(k.lo)
	if err != nil {
		return Choice{}, false
	}
	return s.lighter(t.choice(p, ""))
}

// lighter says whether a choice is lighter than what is there.
func (s *search) lighter(c Choice) (Choice, bool) {
	c.Met = c.Why == ""
	if c.Met && c.Report.Left > s.start.Left-1e-6 {
		c.Met, c.Why = false, "It comes out no lighter than it is."
	}
	return c, true
}

// counted is a design with other counts.
type counted struct {
	d    pattern.Design
	says string
	r    tried
}

// scaled returns the design with the cells of all fields along (and across, if
// rows is given) so many times as many; false if that is the same or not allowed.
func scaled(d pattern.Design, along, across float64) (counted, bool) {
	old := d.Fields
	d.Fields = slices.Clone(old)
	says := ""
	for i := range d.Fields {
		f := &d.Fields[i]
		f.Rows = max(1, int(math.Round(float64(f.Rows)*across)))
		if f.PitchMM > 0 {
			f.PitchMM = math.Round(1000*f.PitchMM/along) / 1000
		} else {
			f.Repeats = max(1, int(math.Round(float64(f.Repeats)*along)))
		}
		if says == "" {
			says = changes(old[i], *f)
		}
	}
	if says == "" || d.Check() != nil {
		return counted{}, false
	}
	if len(old) > 1 {
		says += ", other fields in proportion"
	}
	return counted{d: d, says: says}, true
}

func changes(old, f pattern.Field) string {
	says := ""
	if f.Rows != old.Rows {
		says = fmt.Sprintf("rows %d to %d", old.Rows, f.Rows)
	}
	along := ""
	if f.Repeats != old.Repeats {
		along = fmt.Sprintf("repeats %d to %d", old.Repeats, f.Repeats)
	}
	if f.PitchMM != old.PitchMM {
		along = fmt.Sprintf("pitch %s to %s mm", short(old.PitchMM), short(f.PitchMM))
	}
	if says != "" && along != "" {
		says += ", "
	}
	return says + along
}

// byRepeats changes how many cells there are along, from a third to three times as
// many.
func byRepeats(s *search) (Choice, bool) {
	n := along(s.from)
	var all []counted
	for k := max(1, (n+2)/3); k <= 3*n; k++ {
		if c, ok := scaled(s.from, float64(k)/float64(n), 1); ok {
			all = append(all, c)
		}
	}
	return s.best(all)
}

// bySize changes rows and repeats alike, so that cells keep their look.
func bySize(s *search) (Choice, bool) {
	rows := s.from.Fields[0].Rows
	var all []counted
	for r := 1; r <= 3*rows; r++ {
		k := float64(r) / float64(rows)
		if c, ok := scaled(s.from, k, k); ok && r != rows {
			all = append(all, c)
		}
	}
	return s.best(all)
}

// along is how many cells the first field has along the band.
func along(d pattern.Design) int {
	f := d.Fields[0]
	if f.PitchMM > 0 {
		return 24 // steps of a pitch: a 24th each
	}
	return f.Repeats
}

// best finds the counts that come nearest to the target, and for a weight sets the
// bridge so that it is met. More cells have more bridges and are heavier, so the
// place is found by halving; others near it are tried where that one fails.
func (s *search) best(all []counted) (Choice, bool) {
	if len(all) == 0 {
		return Choice{}, false
	}
	weigh := func(i int) bool {
		if all[i].r.Report == nil {
			r, err := s.try(all[i].d)
			if err != nil {
				return false
			}
			all[i].r = r
		}
		return true
	}
	if s.target == 0 {
		// The lightest that brings no caution: fewer cells are lighter, so the first
		// that is lawful.
		for i := range all {
			if !weigh(i) {
				return Choice{}, false
			}
			if c := all[i]; s.against(c.r) == "" {
				return s.lighter(Choice{Says: c.says, Design: c.d, Sheet: c.r.sheet, Report: c.r.Report})
			}
		}
		return Choice{}, false
	}
	lo, hi := 0, len(all)-1
	for hi-lo > 1 {
		mid := (lo + hi) / 2
		if !weigh(mid) {
			return Choice{}, false
		}
		if all[mid].r.Left < s.target {
			lo = mid
		} else {
			hi = mid
		}
	}
	// The nearest first, then fewer and larger cells, which leave the bridge more
	// room to make up for the rest.
	var nearest Choice
	found := false
	for _, step := range []int{0, 1, -1, -2, -4, -8} {
		i := lo + step
		if i < 0 || i >= len(all) || !weigh(i) {
			continue
		}
		c, err := s.finished(all[i])
		if err != nil {
			return Choice{}, false
		}
		if !found || off(c, s.target) < off(nearest, s.target) {
			nearest, found = c, true
		}
		if c.Met {
			return c, true
		}
	}
	return nearest, found
}

// finished sets the bridge of a design with other counts so that the target is met.
func (s *search) finished(c counted) (Choice, error) {
	if bad := s.against(c.r); bad == "" && s.met(c.r) {
		return Choice{Says: c.says, Design: c.d, Sheet: c.r.sheet, Report: c.r.Report, Met: true}, nil
	}
	fine, err := s.tune(c.d, bridgeKnob(c.d))
	fine.Says = c.says + ", " + fine.Says
	return fine, err
}

// off is how far a choice is from the target, g; one that may not be made is
// farther than any.
func off(c Choice, target float64) float64 {
	if c.Report.Breached() || c.Report.Openings == 0 {
		return math.Inf(1)
	}
	return math.Abs(c.Report.Left - target)
}
