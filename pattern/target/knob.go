package target

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"fretband/pattern"
)

// knob is a number that can be turned: the more of it, the heavier the band.
type knob struct {
	name   string // "bridge"
	unit   string
	lo, hi float64
	now    float64
	set    func(d *pattern.Design, v float64)
	least  string // why it does not go under lo
}

// with returns the design with the knob at v. It shares no memory that is
// changed.
func (k knob) with(d pattern.Design, v float64) pattern.Design {
	d.Fields = slices.Clone(d.Fields)
	k.set(&d, v)
	return d
}

func (k knob) says(v float64) string {
	if v == k.now {
		return fmt.Sprintf("%s %s %s as it is", k.name, short(v), k.unit)
	}
	return fmt.Sprintf("%s %s to %s %s", k.name, short(k.now), short(v), k.unit)
}

// short writes a number in as few digits as its use needs.
func short(v float64) string { return strconv.FormatFloat(v, 'g', 6, 64) }

// mostTries bounds the search with one knob: halving brings any range below a
// thousandth of a millimetre in 15.
const mostTries = 40

// trial is a knob's number and what comes of it.
type trial struct {
	v float64
	r tried
}

// tuner turns one knob of one design.
type tuner struct {
	*search
	d pattern.Design
	k knob
}

func (t tuner) at(v float64) (trial, error) {
	r, err := t.try(t.k.with(t.d, v))
	return trial{v, r}, err
}

func (t tuner) choice(p trial, why string) Choice {
	c := Choice{Says: t.k.says(p.v), Design: t.k.with(t.d, p.v), Sheet: p.r.sheet, Report: p.r.Report, Met: t.met(p.r), Why: why}
	if c.Met {
		c.Why = ""
	}
	if bad := t.against(p.r); bad != "" {
		c.Met, c.Why = false, "It would bring up: "+bad
	}
	return c
}

// tune turns one knob until the target's weight is met. Between two positions whose
// weights lie on either side of the target it cuts the interval where the line
// through them meets it, and in half whenever that makes slow progress (the
// Illinois rule; M. Dowell and P. Jarratt, BIT 11, 1971). The weight need not be
// continuous: openings that become too small are left solid all at once. Then it
// ends at the jump, and says so.
func (s *search) tune(d pattern.Design, k knob) (Choice, error) {
	t := tuner{s, d, k}
	lo, err := t.at(k.lo)
	if err != nil {
		return Choice{}, err
	}
	if lo.r.Left >= s.target {
		return t.choice(lo, pattern.Say("Even with the %s at %s %s, %.4g g is left: %s", k.name, short(k.lo), k.unit, lo.r.Left, k.least)), nil
	}
	hi, err := t.at(k.hi)
	if err != nil {
		return Choice{}, err
	}
	if hi.r.Left <= s.target {
		return t.choice(hi, pattern.Say("With the %s at %s %s, the most that is tried, only %.4g g is left.", k.name, short(k.hi), k.unit, hi.r.Left)), nil
	}
	// Begin beside the present number: it is the nearest to what is there.
	if k.now > lo.v && k.now < hi.v {
		p, err := t.at(k.now)
		if err != nil {
			return Choice{}, err
		}
		if p.r.Left < s.target {
			lo = p
		} else {
			hi = p
		}
	}
	fl, fh, side := lo.r.Left-s.target, hi.r.Left-s.target, 0
	for range mostTries {
		near := nearer(lo, hi, s.target)
		// A tenth of what is allowed leaves room for rounding.
		if math.Abs(near.r.Left-s.target) <= Near/10*s.target {
			return t.rounded(near)
		}
		if hi.v-lo.v < 1e-5 {
			return t.choice(near, pattern.Say("At a %s of %.3f %s the weight jumps from %.4g to %.4g g, since openings there become too small and are left solid.",
				k.name, hi.v, k.unit, lo.r.Left, hi.r.Left)), nil
		}
		v := lo.v - fl*(hi.v-lo.v)/(fh-fl)
		if w := (hi.v - lo.v) / 50; !(v > lo.v+w && v < hi.v-w) {
			v = (lo.v + hi.v) / 2
		}
		p, err := t.at(v)
		if err != nil {
			return Choice{}, err
		}
		if f := p.r.Left - s.target; f < 0 {
			lo, fl = p, f
			if side < 0 {
				fh /= 2
			}
			side = -1
		} else {
			hi, fh = p, f
			if side > 0 {
				fl /= 2
			}
			side = 1
		}
	}
	return t.choice(nearer(lo, hi, s.target), "The search came no nearer."), nil
}

func nearer(a, b trial, target float64) trial {
	if math.Abs(b.r.Left-target) < math.Abs(a.r.Left-target) {
		return b
	}
	return a
}

// rounded writes the number with as few decimals as still reach the target.
func (t tuner) rounded(p trial) (Choice, error) {
	for _, unit := range []float64{0.05, 0.01, 0.001} {
		v := math.Round(p.v/unit) * unit
		v = math.Round(v*1e6) / 1e6 // 1.15, not 1.1500000000000001
		if v < t.k.lo || v > t.k.hi {
			continue
		}
		q, err := t.at(v)
		if err != nil {
			return Choice{}, err
		}
		if t.met(q.r) {
			return t.choice(q, ""), nil
		}
	}
	return t.choice(p, ""), nil
}
