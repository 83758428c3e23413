package target

import (
	"cmp"
	"fmt"
	"iter"
	"math"
	"slices"

	"fretband/pattern"
)

// lighterWay is one manner of having less metal. It finds choices one by one, those first
// that promise most; none where it can change nothing. One that isn't met says why.
type lighterWay struct {
	key, title string
	find       func(*lightening) iter.Seq2[Choice, error]
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
	{"fewer", "Fewer, larger openings", byFewer},
	{"taper", "Narrower ends", byTaper},
	{"both", "Narrower ends, fewer openings", byBoth},
	{openingWay, "Same weight, opens further", byOpening},
}

// family is a design whose rim is still to be set so that the band holds what it did.
type family struct {
	says  string  // what is changed, but the rim
	start float64 // the rim to try first, mm
	with  func(rim float64) pattern.Design
}

// How many solves the rim of one family takes at most, and all families of one way.
const (
	tries   = 4
	wayMost = 10
)

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
	most := math.Max(l.rim(), l.base.Band.WidthMM*0.3)
	type point struct{ rim, holds float64 }
	var under, below, above *point // under is the one below that came before
	rim := math.Ceil(100*f.start) / 100
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
			under, below = below, p
		}
		// Towards the middle of the window.
		const aim = (holdsEnough + holdsAmple) / 2
		switch {
		case below != nil && above != nil:
			rim = below.rim + (aim-below.holds)*(above.rim-below.rim)/(above.holds-below.holds)
		case under != nil && below.holds > under.holds:
			rim = math.Min(1.6*below.rim, below.rim+(aim-below.holds)*(below.rim-under.rim)/(below.holds-under.holds))
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

// steadied yields what families come to, each where it holds what the start does, and
// where none does, the reason.
func (l *lightening) steadied(fs ...family) iter.Seq2[Choice, error] {
	return func(yield func(Choice, error) bool) {
		some, began := false, l.solves
		for _, f := range fs {
			if l.solves+tries > began+wayMost {
				break
			}
			settle := l.steady
			if l.target > 0 {
				settle = l.weighing
			}
			c, ok, err := settle(f)
			if err != nil {
				yield(c, err)
				return
			}
			if !ok {
				continue
			}
			if l.target == 0 && c.Met && c.Report.Left >= l.best.Left-1e-6 {
				c.Met, c.Why = false, "It comes out no lighter."
			}
			if some = true; !yield(c, nil) {
				return
			}
		}
		if !some && len(fs) > 0 {
			why := "No rim was found with which it holds as much."
			if l.target > 0 {
				why = pattern.Say("No rim was found with which it weighs %.2f g.", l.target)
			}
			yield(Choice{Design: l.base, Sheet: l.best.sheet, Report: l.best.Report, Why: why}, nil)
		}
	}
}

// byUniform brings bridges that stand above the rule to it; where none does, it asks
// whether wider ones beside a narrower rim carry as much for less.
func byUniform(l *lightening) iter.Seq2[Choice, error] {
	rule := l.base.Rules.BridgeMM
	wide := 0.0
	for _, f := range l.base.Fields {
		wide = math.Max(wide, f.BridgeMM)
		if f.GradeBridge > 0 {
			wide = math.Max(wide, math.Nextafter(rule, 2*rule))
		}
	}
	bridges := func(says string, mm float64) family {
		return family{says, l.rim(), func(rim float64) pattern.Design {
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
		return l.steadied(bridges(fmt.Sprintf("bridges to the rule of %s mm, ", short(rule)), 0))
	}
	if l.target > 0 {
		return l.steadied(l.kept())
	}
	if l.rim() < roomy*rule {
		return l.steadied()
	}
	wider := math.Round(115*rule) / 100
	return l.steadied(bridges(fmt.Sprintf("bridges %s to %s mm, ", short(rule), short(wider)), wider))
}

// rim is the width of the rim that the base has, mm.
func (l *lightening) rim() float64 { return math.Max(l.base.Rules.RimMM, l.base.Rules.BridgeMM) }

// roomy is how many times the rule a rim must be that can grow narrower.
const roomy = 1.1

// byGradedRim has the rim of a cuff stay as wide as it must be at the front, where the
// load is greatest, and grow narrower towards the ends.
func byGradedRim(l *lightening) iter.Seq2[Choice, error] {
	return l.steadied(l.gradedRims(l.kept())...)
}

// kept is the base as it is, its cells following what the rim leaves.
func (l *lightening) kept() family {
	return family{"", l.rim(), func(rim float64) pattern.Design {
		d := l.following()
		d.Rules.RimMM = rim
		return d
	}}
}

// rimEnds are the shares of the half length at which a graded rim has come to what it has
// at the ends, the best first: a cuff that is pulled open at its ends bears half of the
// front's moment, a quarter of its part in the work, from some 0.6 on.
var rimEnds = []float64{0.65, 0.8, 1}

// gradedRims are a family with its rim at the rule at the ends and as wide as it must be
// at the front; none where the rim has no room to grow narrower.
func (l *lightening) gradedRims(f family) []family {
	rule, rim := l.base.Rules.BridgeMM, l.rim()
	if l.best.sheet.Flat.Closed() || rim < roomy*rule {
		return nil
	}
	var fs []family
	for _, from := range rimEnds {
		fs = append(fs, family{fmt.Sprintf("%srim %s mm at the ends, at the front ", f.says, short(rule)), f.start + from*(rim-rule)/2, func(front float64) pattern.Design {
			d := f.with(front)
			size := pattern.GradeRange.Clamp(math.Ceil(100*rule/front) / 100)
			d.Rules.RimAlong = []pattern.Grade{{At: -1, Size: size}, {At: 0, Size: 1}, {At: 1, Size: size}}
			if from < 1 {
				d.Rules.RimAlong = slices.Insert(slices.Insert(d.Rules.RimAlong, 2, pattern.Grade{At: from, Size: size}), 1, pattern.Grade{At: -from, Size: size})
			}
			return d
		}})
	}
	return fs
}

// gradedOrPlain are families with their rim graded, and after them as they are.
func (l *lightening) gradedOrPlain(fs []family) []family {
	var all []family
	for _, f := range fs {
		graded := l.gradedRims(f)
		all = append(all, graded[:min(1, len(graded))]...)
	}
	return append(all, fs...)
}

// byOpening spends the weight of the best uniform pattern where the load is, so that the
// band goes farther before whole bridges yield, and is no less stiff.
func byOpening(l *lightening) iter.Seq2[Choice, error] {
	return func(yield func(Choice, error) bool) {
		all, err := l.openings()
		if err != nil {
			yield(Choice{}, err)
			return
		}
		for _, c := range all {
			if !yield(c, nil) {
				return
			}
		}
	}
}

// openings are the ways to spend the same weight, with the one that opens furthest first.
func (l *lightening) openings() ([]Choice, error) {
	if l.best.sheet.Flat.Closed() || l.target > 0 {
		return nil, nil
	}
	type found struct {
		Choice
		opens float64
	}
	var all []found
	kept, tapers := l.gradedRims(l.kept()), l.gradedOrPlain(l.tapers())
	for _, f := range append(kept[:min(1, len(kept))], tapers[:min(1, len(tapers))]...) {
		d, r, rim, ok := l.weighs(f, l.best.Left)
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
	slices.SortStableFunc(all, func(a, b found) int { return cmp.Compare(b.opens, a.opens) })
	var out []Choice
	for _, f := range all {
		out = append(out, f.Choice)
	}
	return out, nil
}

// weighing brings a family to the weight that is asked for.
func (l *lightening) weighing(f family) (c Choice, ok bool, err error) {
	d, r, rim, ok := l.weighs(f, l.target)
	if err := l.ctx.Err(); err != nil || !ok || r.Pieces != 1 || r.Openings == 0 || r.Left < l.target*(1-Held) {
		return c, false, err
	}
	c = Choice{Says: f.says + rimSays(l.from, rim), Design: d, Sheet: r.sheet, Report: r.Report, Met: true}
	if bad := l.against(r); bad != "" {
		c.Met, c.Why = false, "It would bring up: "+bad
	}
	return c, true, nil
}

// weighings is how many times at most a rim is set anew for a weight.
const weighings = 8

// weighs finds the rim with which a family weighs so many grams, and no more. A wider rim
// is heavier.
func (l *lightening) weighs(f family, left float64) (best pattern.Design, r tried, rim float64, ok bool) {
	lo, hi := l.base.Rules.BridgeMM, l.base.Band.WidthMM*0.3
	at := l.rim()
	for range weighings {
		d := f.with(at)
		if d.Check() != nil {
			return best, r, rim, ok
		}
		now, err := l.try(d)
		if err != nil {
			return best, r, rim, ok
		}
		if now.Left <= left*(1+Near) {
			best, r, rim, ok = d, now, at, true
			if lo = at; now.Left >= left*(1-Near) {
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
func byTaper(l *lightening) iter.Seq2[Choice, error] {
	return l.steadied(l.gradedOrPlain(l.tapers())...)
}

// tapers are families with narrower ends, the narrowest first: there is nothing of a
// closed band.
func (l *lightening) tapers() []family {
	if l.best.sheet.Flat.Closed() {
		return nil
	}
	var fs []family
	for _, share := range []float64{0.55, 0.7, 0.85} {
		fs = append(fs, l.tapered(l.kept(), share))
	}
	return fs
}

// tapered is a family with ends of a share of their width and cells that follow it: cut
// off at the edges they would look torn.
func (l *lightening) tapered(f family, share float64) family {
	was := l.base.Band.EndWidthMM
	end := math.Round(10*share*was) / 10
	return family{fmt.Sprintf("%sends %s to %s mm wide, ", f.says, short(was), short(end)), f.start, func(rim float64) pattern.Design {
		d := f.with(rim)
		d.Band.EndWidthMM = end
		follow(&d)
		return d
	}}
}

// byFewer takes fewer and larger openings, along, across or both.
func byFewer(l *lightening) iter.Seq2[Choice, error] {
	return l.steadied(l.gradedOrPlain(l.fewer())...)
}

func (l *lightening) fewer() []family {
	rows := float64(l.base.Fields[0].Rows)
	shares := [][2]float64{{0.65, 1}, {0.8, 1}}
	if rows > 1 {
		less := (rows - 1) / rows
		shares = append(shares, [2]float64{less, less})
	}
	var fs []family
	for _, s := range shares {
		c, ok := scaled(l.following(), s[0], s[1])
		if !ok {
			continue
		}
		fs = append(fs, family{c.says + ", ", l.rim(), func(rim float64) pattern.Design {
			d := c.d
			d.Rules.RimMM = rim
			return d
		}})
	}
	return fs
}

// byBoth has narrower ends and fewer openings together.
func byBoth(l *lightening) iter.Seq2[Choice, error] {
	var fs []family
	if !l.best.sheet.Flat.Closed() {
		for _, f := range l.fewer() {
			fs = append(fs, l.tapered(f, 0.55))
		}
	}
	return l.steadied(l.gradedOrPlain(fs)...)
}

// following returns the base with the cells of its fields following the width, if the
// band has one width so far: else they do already or are to be cut.
func (l *lightening) following() pattern.Design {
	d := l.base
	if l.best.sheet.Flat.Level() {
		follow(&d)
	}
	return d
}

// follow has the cells of a design's fields follow the width, where their areas allow it.
func follow(d *pattern.Design) {
	d.Fields = slices.Clone(d.Fields)
	for i := range d.Fields {
		if a := d.Fields[i].Area.Shape; a == "" || a == pattern.RunShape {
			d.Fields[i].Follow = pattern.FollowWidth
		}
	}
}
