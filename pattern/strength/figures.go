package strength

import (
	"context"
	"math"

	"fretband/unroll/plane"
)

// Names of the kinds of cases.
const (
	Open    = "open"    // the ends of a cuff are pulled apart
	Close   = "close"   // the same, pressed together
	Squeeze = "squeeze" // two opposite places of a closed band are pressed together
	CatchOn = "tip"     // metal held on one side only is caught and pulled
	Push    = "push"    // a hand pushes somewhere
)

// Asked is what figures are asked for.
type Asked struct {
	ProofMPa float64 // 0 if none is known: then nothing is said of yield
	OpenMM   float64 // by how much a cuff is opened
	GapMM    float64 // the straight way between its ends: it can't be closed by more
	HandN    float64 // what a hand does, N, for squeezing, pushing and tips
	Tips     []Tip
	Pushes   []plane.Point
}

// CaseFigures are those of one case at its usual load. Beyond yield nothing is promised.
type CaseFigures struct {
	Case string // its kind
	What string // in words
	At   []plane.Point
	// Across is of a tip that is pulled out of the surface, not in it.
	Across bool
	// PerN is the way of the load for each newton, mm; AtMM and ForceN are the usual
	// load.
	PerN, AtMM, ForceN float64
	// Peak and P99 are von Mises stresses at that load, MPa: the greatest at a corner,
	// and what 99 % of the area stay under.
	Peak, P99 float64
	PeakAt    plane.Point
	// FirstYield and BridgeYield are the loads at which the metal yields at a corner and
	// across a whole bridge or rim, at BridgeAt: mm of way in the cases open, close and
	// squeeze, newtons in the others. 0 where no proof stress is known.
	FirstYield, BridgeYield float64
	BridgeAt                plane.Point
	// Bridge is the greatest mean stress over the width of a bridge at the usual load.
	Bridge float64
	// PlainPerN is PerN of the same band unpierced; 0 for tips.
	PlainPerN float64
	// Result is what a newton does, for pictures.
	Result *Result
}

// InNewtons reports whether the loads at yield are told in newtons.
func (c CaseFigures) InNewtons() bool { return c.Case == CatchOn || c.Case == Push }

// Sense is -1 where the load runs against that of its result, and else 1.
func (c CaseFigures) Sense() float64 {
	if c.Case == Close {
		return -1
	}
	return 1
}

// Scaled is the case at that share of its load.
func (c CaseFigures) Scaled(share float64) CaseFigures {
	for _, v := range []*float64{&c.AtMM, &c.ForceN, &c.Peak, &c.P99, &c.Bridge} {
		*v *= share
	}
	return c
}

// Figures are what is told of a band's strength.
type Figures struct {
	Cases []CaseFigures
	// Rims is the share of the bending that the two rims carry.
	Rims float64
	// IdleArea and IdleVolume are of the metal that hardly works: mm^2 and mm^3.
	IdleArea, IdleVolume float64
	Idle                 []bool // of each triangle
	Freedoms             int
	Coarse               bool // of a coarse mesh
	Study                *Study
}

// idleShare is the share of the stress in the most loaded bridge under which metal counts
// as idle: ours.
const idleShare = 0.1

// PushedWhat names the case of a push where the user said.
const PushedWhat = "pushed outwards or inwards"

// squeezes is how many directions a closed band is squeezed in.
const squeezes = 12

// question is a case to be solved, and what it is called.
type question struct {
	kind, what string
	load       func(s *Study) (Case, error)
	mm         float64 // its usual way; 0 is a hand's force
	works      bool    // it says which metal works
	across     bool    // of a tip
}

// questions lists the cases of a band; the tips come last.
func (s *Study) questions(ask Asked) []question {
	var qs []question
	if !s.closed {
		qs = append(qs,
			question{Open, "the ends pulled straight apart", (*Study).Opened, ask.OpenMM, true, false},
			question{Close, "the ends pressed straight together", (*Study).Opened, math.Min(ask.OpenMM, ask.GapMM), false, false},
			question{Push, "rolled on over its side: the ends pushed past each other along the axis, the front held", (*Study).Rolled, ask.OpenMM, false, false})
	} else {
		for i := range squeezes {
			x := s.home(s.metal.Flat.Length * float64(i) / (2 * squeezes))
			qs = append(qs, question{Squeeze, "two opposite places pressed together, in the worst of the directions",
				func(s *Study) (Case, error) { return s.Squeezed(x) }, 0, true, false})
		}
	}
	for _, p := range ask.Pushes {
		qs = append(qs, question{Push, PushedWhat, func(s *Study) (Case, error) { return s.Pushed(p) }, 0, false, false})
	}
	for _, t := range ask.Tips {
		qs = append(qs,
			question{CatchOn, "a tip pulled out of the surface", func(s *Study) (Case, error) { return s.Caught(t, true) }, 0, false, true},
			question{CatchOn, "a tip pulled sideways in the surface", func(s *Study) (Case, error) { return s.Caught(t, false) }, 0, false, false})
	}
	return qs
}

// Of finds the figures of a band. plain is the same band unpierced, or nil.
func (s *Study) Of(ctx context.Context, ask Asked, plain *Study) (*Figures, error) {
	f := &Figures{Freedoms: s.Freedoms(), Study: s}
	var qs []question
	var cases, bare []Case
	for _, q := range s.questions(ask) {
		c, err := q.load(s)
		if err != nil {
			if q.kind == CatchOn { // no metal to take hold of at this fineness
				continue
			}
			return nil, err
		}
		qs, cases = append(qs, q), append(cases, c)
		if plain != nil && q.kind != CatchOn {
			if c, err = q.load(plain); err != nil {
				return nil, err
			}
			bare = append(bare, c)
		}
	}
	results, err := s.Solve(ctx, cases...)
	if err != nil {
		return nil, err
	}
	var unpierced []*Result
	if plain != nil {
		if unpierced, err = plain.Solve(ctx, bare...); err != nil {
			return nil, err
		}
	}
	worst := -1 // of the squeezes, by its place in f.Cases
	var works []*Result
	for i, q := range qs {
		c := figuresOf(q, cases[i], results[i], ask)
		if i < len(unpierced) {
			c.PlainPerN = unpierced[i].PerN
		}
		if q.works {
			works = append(works, results[i])
		}
		switch {
		case q.kind != Squeeze:
			f.Cases = append(f.Cases, c)
		case worst < 0:
			worst, f.Cases = len(f.Cases), append(f.Cases, c)
		case results[i].Bridge > f.Cases[worst].Result.Bridge*(1+1e-9):
			f.Cases[worst] = c
		}
	}
	f.Rims = f.Cases[0].Result.Rims
	s.idle(f, works)
	return f, nil
}

// figuresOf scales a result to the usual load.
func figuresOf(q question, c Case, r *Result, ask Asked) CaseFigures {
	f := CaseFigures{Case: q.kind, What: q.what, At: c.At, Across: q.across, PerN: r.PerN, PeakAt: r.PeakAt, BridgeAt: r.BridgeAt, Result: r}
	if q.mm > 0 || q.kind == Open || q.kind == Close {
		f.AtMM, f.ForceN = q.mm, q.mm/r.PerN
	} else {
		f.AtMM, f.ForceN = ask.HandN*r.PerN, ask.HandN
	}
	f.Peak, f.P99, f.Bridge = r.Peak*f.ForceN, r.P99*f.ForceN, r.Bridge*f.ForceN
	unit := r.PerN
	if f.InNewtons() {
		unit = 1
	}
	if ask.ProofMPa > 0 && r.Peak > 0 {
		f.FirstYield = ask.ProofMPa / r.Peak * unit
	}
	if ask.ProofMPa > 0 && r.Bridge > 0 {
		f.BridgeYield = ask.ProofMPa / r.Bridge * unit
	}
	return f
}

// idle finds the metal that stays under idleShare of the most loaded bridge's stress in
// every one of the cases.
func (s *Study) idle(f *Figures, works []*Result) {
	f.Idle = make([]bool, len(s.tri))
	for k := range s.tri {
		f.Idle[k] = true
		for _, r := range works {
			f.Idle[k] = f.Idle[k] && r.Worse(k) < idleShare*r.Bridge
		}
		if f.Idle[k] {
			f.IdleArea += s.tri[k]
			f.IdleVolume += s.tri[k] * s.mesh.Thick[k]
		}
	}
}
