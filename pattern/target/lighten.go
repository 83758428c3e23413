package target

import (
	"context"
	"errors"
	"fmt"
	"math"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/strength"
)

// What [Lighten] holds and how far it looks.
const (
	// Held is how far a way may fall short of what it holds: 1 %, a little more than the
	// figures move from mesh to mesh.
	Held = 0.01
	// WorthSaving is the share of the weight under which a way is not worth having.
	WorthSaving = 0.02
	// MostSolves is how many times at most the band is solved while looking.
	MostSolves = 40
)

// Lighter is one way of having less metal, with what it holds.
type Lighter struct {
	Choice
	Figures *strength.Figures
	// Saved is the share of the weight of the best uniform pattern that it saves.
	Saved float64
	// Opens is the share by which it goes farther than the design as it is before whole
	// bridges yield, of a way that spends the same weight.
	Opens float64
	// Holds is how much of the stiffness of the design as it is, and of its way to the
	// yield of whole bridges, it has: the lesser share of both.
	Holds float64
	// Lost is how many openings fewer than the design as it is it has.
	Lost int
}

// Load is the case that is held: a cuff that is opened, a closed band that is squeezed.
func (l Lighter) Load() strength.CaseFigures { return l.Figures.Cases[0] }

// Stiffness is the force that moves the load a millimetre, N.
func (l Lighter) Stiffness() float64 { return 1 / l.Load().PerN }

// YieldForce is the force at which whole bridges yield, N; 0 where no proof stress is
// known.
func (l Lighter) YieldForce() float64 {
	if c := l.Load(); c.InNewtons() {
		return c.BridgeYield
	}
	return l.Load().BridgeYield / l.Load().PerN
}

// Rolled is the force that moves a cuff's ends a millimetre past each other, N, as where
// it is rolled on over its side; 0 for a closed band. It is told, not held.
func (l Lighter) Rolled() float64 {
	for _, c := range l.Figures.Cases {
		if c.Case == strength.Push {
			return 1 / c.PerN
		}
	}
	return 0
}

// holds returns how much of the start's stiffness, and of the way to its yield along
// whole bridges, a band has: the lesser of both. The proof stress drops out.
func holds(f, start *strength.Figures) float64 {
	stiff := func(f *strength.Figures) float64 { return 1 / f.Cases[0].PerN }
	return math.Min(stiff(f)/stiff(start), yields(f)/yields(start))
}

// yields is how far the load goes before whole bridges yield, for a proof stress of 1 MPa.
func yields(f *strength.Figures) float64 { return f.Cases[0].PerN / f.Cases[0].Result.Bridge }

// Lightened is what [Lighten] found.
type Lightened struct {
	Start Lighter
	// Left is the weight that was asked for, g; 0: as light as it goes.
	Left float64
	// Uniform is the weight of the best uniform pattern under the same rule, g: what
	// ways are compared with.
	Uniform float64
	Ways    []Lighter
	Solves  int
}

// Worth reports whether any way saves enough to be worth having, or comes to the weight
// that was asked for.
func (l *Lightened) Worth() bool {
	for _, w := range l.Ways {
		if w.Met && (l.Left > 0 || math.Max(w.Saved, w.Opens) >= WorthSaving) {
			return true
		}
	}
	return false
}

// Lighten looks for ways to have less metal that hold how stiff the band is and how far
// it goes before whole bridges yield, each within [Held], and the sheet, the rules and
// the symmetry. Neither alone would do: a softer band yields later.
//
// Ways are compared with the best uniform pattern, so that what a roomy one wastes is
// not told as saved. With left, g, above 0 each way comes to that weight instead, and what
// it holds is told. told, if not nil, hears how many solves of how many at most are
// done. Same design, same ways.
//
// Cost: at most [MostSolves] coarse solves, and a fine one for each way that is met.
func Lighten(ctx context.Context, d pattern.Design, left float64, told func(done, of int)) (*Lightened, error) {
	if len(d.Fields) == 0 {
		return nil, errors.New("the band has no field: there is no pattern to lighten; add a field first")
	}
	l := &lightening{search: &search{ctx: ctx, from: d, target: left, allowed: map[check.Kind]bool{}}, told: told}
	now, err := l.try(d)
	if err != nil {
		return nil, err
	}
	if left != 0 && !(left > 0 && left < now.Left) {
		return nil, fmt.Errorf("%s g is no weight to lighten to: the band weighs %.2f g as it is; ask for less", short(left), now.Left)
	}
	l.start = now
	for _, f := range now.Findings {
		if f.Severity > check.Note {
			l.allowed[f.Kind] = true
		}
	}
	if l.figures, err = l.solve(now); err != nil {
		return nil, err
	}
	start, err := l.finish(Choice{Way: nowWay, Title: "As it is", Design: d, Sheet: now.sheet, Report: now.Report})
	if err != nil {
		return nil, err
	}
	for _, f := range start.Report.Findings {
		if f.Severity > check.Note {
			l.allowed[f.Kind] = true
		}
	}
	l.base, l.best = d, now
	start.Holds = 1
	out := &Lightened{Start: start, Left: left, Uniform: now.Left}
	for _, w := range lighterWays {
		one, ok, err := l.first(w, start)
		if err != nil {
			return nil, err
		}
		if !ok {
			continue
		}
		if left > 0 {
			one.Saved = 1 - one.Report.Left/now.Left
		} else if w.key == openingWay && one.Met {
			if one.Opens = yields(one.Figures)/yields(start.Figures) - 1; one.Opens < WorthSaving {
				one.Met, one.Opens, one.Why = false, 0, "It opens hardly further."
			}
		} else if w.key == uniformWay && one.Met {
			out.Uniform, l.base, l.best = one.Report.Left, one.Design, tried{one.Report, one.Sheet}
			one.Saved = 1 - one.Report.Left/now.Left
		} else if one.Met {
			one.Saved = 1 - one.Report.Left/out.Uniform
		}
		one.Lost = now.Openings - one.Report.Openings
		out.Ways = append(out.Ways, one)
	}
	out.Solves = l.solves
	return out, nil
}

// lightening is one run of [Lighten].
type lightening struct {
	*search
	figures *strength.Figures // of the start, coarse
	base    pattern.Design    // the best uniform pattern so far
	best    tried             // the same, laid
	solves  int
	coarse  bool // final figures are by the coarse mesh
	told    func(done, of int)
}

// nowWay is the key of the design as it is.
const nowWay = "now"

// errSpent says that no solve is left.
var errSpent = errors.New("no solve is left")

// solve finds the figures of a design by the mesh that is used while looking.
func (l *lightening) solve(r tried) (*strength.Figures, error) {
	if l.solves >= MostSolves {
		return nil, errSpent
	}
	l.solves++
	f, err := check.StrengthOf(l.ctx, r.sheet, r.Report, check.StrengthAsk{Coarse: true, Alone: true})
	if l.told != nil {
		l.told(l.solves, MostSolves)
	}
	return f, err
}

// finish takes the deep report and the figures that are told: by the fine mesh, or where
// the design as it is can't be solved by it, by the coarse one.
func (l *lightening) finish(c Choice) (Lighter, error) {
	c.Report = check.DeepenWhile(c.Sheet, c.Report, func() bool { return l.ctx.Err() == nil })
	if err := l.ctx.Err(); err != nil {
		return Lighter{}, err
	}
	f, err := check.StrengthOf(l.ctx, c.Sheet, c.Report, check.StrengthAsk{Coarse: l.coarse})
	if err != nil && c.Way == nowWay && l.ctx.Err() == nil {
		l.coarse = true
		f, err = check.StrengthOf(l.ctx, c.Sheet, c.Report, check.StrengthAsk{Coarse: true})
	}
	return Lighter{Choice: c, Figures: f}, err
}

// first returns the first that a way finds that is one by its final figures too; where
// none is, the first of all, with what stands in its way. ok is false where the way finds
// nothing.
func (l *lightening) first(w lighterWay, start Lighter) (one Lighter, ok bool, err error) {
	for c, err := range w.find(l) {
		if err != nil {
			return one, ok, err
		}
		c.Way, c.Title = w.key, w.title
		now := Lighter{Choice: c}
		if c.Met {
			if now, err = l.finish(c); err != nil {
				return one, ok, err
			}
			l.judge(&now, start)
		}
		if !ok || now.Met {
			one, ok = now, true
		}
		if now.Met {
			break
		}
	}
	return one, ok, nil
}

// judge says why a way that was found is none after all: by its final figures, or by what
// the deep report finds.
func (l *lightening) judge(one *Lighter, start Lighter) {
	not := func(why string) { one.Met, one.Why = false, why }
	one.Holds = holds(one.Figures, start.Figures)
	if l.target == 0 && one.Holds < 1-Held {
		not(pattern.Say("Solved by the finer mesh it holds only %.1f %% of what the band holds as it is.", 100*one.Holds))
	} else if bad := l.against(tried{one.Report, one.Sheet}); bad != "" {
		not("It would bring up: " + bad)
	} else if breaches(one.Report) > breaches(start.Report) {
		not("It would break a rule in more positions than the band does as it is.")
	}
}

// breaches counts the broken rules of a report.
func breaches(r *check.Report) int {
	n := 0
	for _, f := range r.Findings {
		if f.Severity == check.Breach {
			n++
		}
	}
	return n
}
