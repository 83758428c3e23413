package target

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"fretband/pattern"
)

// lighterWay is one manner of having less metal. It finds choices, the best first; none
// where it can change nothing.
type lighterWay struct {
	key, title string
	find       func(*lightening) ([]Choice, error)
}

const (
	uniformWay = "uniform"
	openingWay = "opening"
)

// lighterWays in the order in which a person reads them. The uniform one comes first: the
// others begin where it ends.
var lighterWays = []lighterWay{
	{uniformWay, "Bridges and rim alike", byUniform},
	{"rim", "Rim narrower at the ends", byGradedRim},
	{"bridges", "Bridges wider at the front", byGradedBridges},
	{"taper", "Narrower ends", byTaper},
	{"fewer", "Fewer, larger openings", byFewer},
	{openingWay, "Same weight, opens further", byOpening},
}

// family is a design whose rim is still to be set so that the band holds what it did.
type family struct {
	says string // what is changed, but the rim
	with func(rim float64) pattern.Design
}

// tries is how many solves the rim of one family takes at most.
const tries = 4

// Windows of what a band must hold of the start's while looking: never less than it did,
// so that the share allowed at the end is room for the mesh and no saving; and no more
// than this over it.
const (
	holdsEnough = 1
	holdsAmple  = 1.012
)

// steady finds the rim with which a family holds what the start does, by secants; ok is
// false where none does. A wider rim is stiffer.
func (l *lightening) steady(f family) (c Choice, ok bool, err error) {
	rule := l.base.Rules.BridgeMM
	now := math.Max(l.base.Rules.RimMM, rule)
	most := math.Max(now, l.base.Band.WidthMM*0.3)
	type point struct{ rim, holds float64 }
	var below, above *point
	rim := now
	for range tries {
		if below != nil && rim <= below.rim || above != nil && rim >= above.rim {
			break
		}
		d := f.with(rim)
		if d.Check() != nil {
			break
		}
		r, err := l.try(d)
		if err != nil {
			return c, ok, l.ctx.Err() // numbers that can't be laid are no way
		}
		if r.Pieces != 1 || r.Openings == 0 {
			break
		}
		figures, err := l.solve(r)
		if err != nil {
			if l.ctx.Err() == nil {
				err = nil // a band that can't be solved is no way, nor is one too many
			}
			return c, ok, err
		}
		p := &point{rim, holds(figures, l.figures)}
		if p.holds >= holdsEnough {
			if above == nil || p.rim < above.rim {
				above = p
				c = Choice{Says: f.says + rimSays(l.from, rim), Design: d, Sheet: r.sheet, Report: r.Report, Met: true}
				ok = true
				if bad := l.against(r); bad != "" {
					c.Met, c.Why = false, "It would bring up: "+bad
				}
			}
			if p.holds <= holdsAmple || rim <= rule {
				break
			}
		} else if below == nil || p.rim > below.rim {
			below = p
		}
		// Towards the middle of the window.
		const aim = (holdsEnough + holdsAmple) / 2
		switch {
		case below != nil && above != nil:
			rim = below.rim + (aim-below.holds)*(above.rim-below.rim)/(above.holds-below.holds)
		default:
			// The rims carry about half of the load.
			rim *= 1 + 2*(aim/p.holds-1)
		}
		rim = math.Ceil(100*math.Max(rule, math.Min(most, rim))) / 100
	}
	return c, ok, nil
}

func rimSays(d pattern.Design, rim float64) string {
	was := math.Max(d.Rules.RimMM, d.Rules.BridgeMM)
	if math.Abs(rim-was) < 1e-9 {
		return fmt.Sprintf("rim %s mm as it is", short(was))
	}
	return fmt.Sprintf("rim %s to %s mm", short(was), short(rim))
}

// lightest returns what families come to, the lightest first, and what is no way after.
func (l *lightening) lightest(fs ...family) ([]Choice, error) {
	var found []Choice
	for _, f := range fs {
		c, ok, err := l.steady(f)
		if err != nil {
			return nil, err
		}
		if !ok {
			continue
		}
		if c.Met && c.Report.Left >= l.best.Left-1e-6 {
			c.Met, c.Why = false, "It comes out no lighter."
		}
		found = append(found, c)
	}
	slices.SortStableFunc(found, func(a, b Choice) int {
		switch {
		case a.Met != b.Met && a.Met:
			return -1
		case a.Met != b.Met:
			return 1
		}
		return cmp.Compare(a.Report.Left, b.Report.Left)
	})
	if len(found) == 0 && len(fs) > 0 {
		found = append(found, Choice{Design: l.base, Sheet: l.best.sheet, Report: l.best.Report, Why: "No rim was found with which it holds as much."})
	}
	return found, nil
}

// byUniform brings bridges that stand above the rule to it; where none does, it asks
// whether wider ones beside a narrower rim carry as much for less.
func byUniform(l *lightening) ([]Choice, error) {
	rule := l.base.Rules.BridgeMM
	wide := 0.0
	for _, f := range l.base.Fields {
		wide = math.Max(wide, f.BridgeMM)
		if f.GradeBridge > 0 {
			wide = math.Max(wide, math.Nextafter(rule, 2*rule))
		}
	}
	bridges := func(says string, mm float64) family {
		return family{says, func(rim float64) pattern.Design {
			d := l.base
			d.Fields = slices.Clone(d.Fields)
			for i := range d.Fields {
				d.Fields[i].BridgeMM, d.Fields[i].GradeBridge = mm, 0
			}
			d.Rules.RimMM = rim
			return d
		}}
	}
	if wide > rule {
		return l.lightest(bridges(fmt.Sprintf("bridges to the rule of %s mm, ", short(rule)), 0))
	}
	if math.Max(l.base.Rules.RimMM, rule) < 1.1*rule {
		return nil, nil
	}
	wider := math.Round(115*rule) / 100
	return l.lightest(bridges(fmt.Sprintf("bridges %s to %s mm, ", short(rule), short(wider)), wider))
}

// byGradedRim has the rim of a cuff stay as wide as it must be at the front, where the
// load is greatest, and grow narrower towards the ends.
func byGradedRim(l *lightening) ([]Choice, error) { return l.lightest(l.gradedRims()...) }

func (l *lightening) gradedRims() []family {
	rule, rim := l.base.Rules.BridgeMM, math.Max(l.base.Rules.RimMM, l.base.Rules.BridgeMM)
	if l.best.sheet.Flat.Closed() || rim < 1.1*rule {
		return nil
	}
	narrow := func(end float64) family {
		return family{fmt.Sprintf("rim %s mm at the ends, at the front ", short(end)), func(front float64) pattern.Design {
			d := l.following()
			d.Rules.RimMM = front
			size := pattern.GradeRange.Clamp(math.Ceil(100*end/front) / 100)
			d.Rules.RimAlong = []pattern.Grade{{At: -1, Size: size}, {At: 0, Size: 1}, {At: 1, Size: size}}
			return d
		}}
	}
	return []family{narrow(rule), narrow(math.Round(50*(rule+rim)) / 100)}
}

// byGradedBridges has the bridges of a cuff stand at the rule at its ends and wider at the
// front, beside a rim that may be narrower for it, alike or graded too.
func byGradedBridges(l *lightening) ([]Choice, error) { return l.lightest(l.gradedBridges()...) }

func (l *lightening) gradedBridges() []family {
	if l.best.sheet.Flat.Closed() {
		return nil
	}
	rule := l.base.Rules.BridgeMM
	wider := func(front float64, f family) family {
		return family{fmt.Sprintf("bridges %s mm at the ends, %s at the front, %s", short(rule), short(math.Round(100*front*rule)/100), f.says), func(rim float64) pattern.Design {
			d := f.with(rim)
			d.Fields = slices.Clone(d.Fields)
			for i := range d.Fields {
				f := &d.Fields[i]
				if a := f.Area.Shape; a == "" || a == pattern.StripShape { // those that go from end to end
					f.BridgeMM, f.GradeBridge = 0, 0
					f.BridgeAlong = []pattern.Grade{{At: -1, Size: 1}, {At: 0, Size: front}, {At: 1, Size: 1}}
				}
			}
			return d
		}}
	}
	alike := family{"", func(rim float64) pattern.Design {
		d := l.base
		d.Rules.RimMM = rim
		return d
	}}
	fs := []family{wider(1.3, alike)}
	if rims := l.gradedRims(); len(rims) > 0 {
		fs = append(fs, wider(1.3, rims[0]))
	}
	return fs
}

// byOpening spends the weight of the best uniform pattern where the load is, so that the
// band goes farther before whole bridges yield, and is no less stiff.
func byOpening(l *lightening) ([]Choice, error) {
	if l.best.sheet.Flat.Closed() {
		return nil, nil
	}
	var fs []family // the first of each manner, which keeps the solves few
	for _, all := range [][]family{l.gradedRims(), l.gradedBridges(), l.tapers()} {
		fs = append(fs, all[:min(1, len(all))]...)
	}
	type found struct {
		Choice
		opens float64
	}
	var all []found
	for _, f := range fs {
		d, r, rim, ok := l.sameWeight(f)
		if err := l.ctx.Err(); err != nil {
			return nil, err
		}
		if !ok || r.Pieces != 1 || r.Openings == 0 {
			continue
		}
		figures, err := l.solve(r)
		if err != nil {
			if l.ctx.Err() != nil {
				return nil, l.ctx.Err()
			}
			continue
		}
		c := Choice{Says: f.says + rimSays(l.from, rim), Design: d, Sheet: r.sheet, Report: r.Report, Met: holds(figures, l.figures) >= holdsEnough}
		if bad := l.against(r); !c.Met {
			c.Why = "It is softer, or opens no further."
		} else if bad != "" {
			c.Met, c.Why = false, "It would bring up: "+bad
		}
		all = append(all, found{c, yields(figures)})
	}
	slices.SortStableFunc(all, func(a, b found) int {
		if a.Met != b.Met {
			if a.Met {
				return -1
			}
			return 1
		}
		return cmp.Compare(b.opens, a.opens)
	})
	var out []Choice
	for _, f := range all {
		out = append(out, f.Choice)
	}
	return out, nil
}

// weighings is how many times at most a rim is set anew so that the weight is the same.
const weighings = 8

// sameWeight finds the rim with which a family weighs what the best uniform pattern does,
// and no more. A wider rim is heavier.
func (l *lightening) sameWeight(f family) (best pattern.Design, r tried, rim float64, ok bool) {
	lo, hi := l.base.Rules.BridgeMM, l.base.Band.WidthMM*0.3
	at := math.Max(l.base.Rules.RimMM, lo)
	for range weighings {
		d := f.with(at)
		if d.Check() != nil {
			return best, r, rim, ok
		}
		now, err := l.try(d)
		if err != nil {
			return best, r, rim, ok
		}
		if now.Left <= l.best.Left*(1+Near) {
			best, r, rim, ok = d, now, at, true
			if lo = at; now.Left >= l.best.Left*(1-Near) {
				break
			}
		} else {
			hi = at
		}
		next := math.Round(50*(lo+hi)) / 100
		if next == at || next <= lo && ok {
			break
		}
		at = next
	}
	return best, r, rim, ok
}

// byTaper has the band of a cuff grow narrower towards the ends, and its cells with it.
func byTaper(l *lightening) ([]Choice, error) {
	if l.best.sheet.Flat.Closed() {
		return nil, nil
	}
	return l.lightest(l.tapers()...)
}

func (l *lightening) tapers() []family {
	was := l.base.Band.EndWidthMM
	var fs []family
	for _, share := range []float64{0.85, 0.7, 0.55} {
		end := math.Round(10*share*was) / 10
		fs = append(fs, family{fmt.Sprintf("ends %s to %s mm wide, ", short(was), short(end)), func(rim float64) pattern.Design {
			d := l.following()
			d.Band.EndWidthMM, d.Rules.RimMM = end, rim
			return d
		}})
	}
	return fs
}

// byFewer takes fewer and larger openings, along, across or both.
func byFewer(l *lightening) ([]Choice, error) {
	rows := float64(l.base.Fields[0].Rows)
	shares := [][2]float64{{0.8, 1}, {0.65, 1}}
	if rows > 1 {
		less := (rows - 1) / rows
		shares = append(shares, [2]float64{less, less})
	}
	var fs []family
	for _, s := range shares {
		c, ok := scaled(l.base, s[0], s[1])
		if !ok {
			continue
		}
		fs = append(fs, family{c.says + ", ", func(rim float64) pattern.Design {
			d := c.d
			d.Rules.RimMM = rim
			return d
		}})
	}
	return l.lightest(fs...)
}

// following returns the base with the cells of its fields following the width, where
// their areas allow it, if the band has one width so far: else they do already or are to
// be cut.
func (l *lightening) following() pattern.Design {
	d := l.base
	if !l.best.sheet.Flat.Level() {
		return d
	}
	d.Fields = slices.Clone(d.Fields)
	for i := range d.Fields {
		if a := d.Fields[i].Area.Shape; a == "" || a == pattern.RunShape {
			d.Fields[i].Follow = pattern.FollowWidth
		}
	}
	return d
}
