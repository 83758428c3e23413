package check

import (
	"context"
	"fmt"
	"math"
	"slices"

	"fretband/pattern"
	"fretband/pattern/strength"
	"fretband/unroll/plane"
)

// helps is how many times as much a band with a tie must carry for the tie to be offered:
// five times and more what the figures move from mesh to mesh (ours).
const helps = 1.05

// offered is a tie that may be a mend.
type offered struct {
	tie   pattern.Edit
	title string // "Tie the tip across"
	tips  []strength.Tip
	push  []plane.Point
	// says is what the load that is looked at takes, with two numbers: with the tie and
	// without.
	says string
	now  float64
	with func(*strength.Figures) float64
	// worth says, if not nil, before anything is solved whether it may help.
	worth func(*pattern.Sheet) bool
}

// offer lays the band with the tie and solves it. It offers the tie if that holds more and
// brings up nothing to be decided.
func (o offered) offer(ctx context.Context, s *pattern.Sheet, r *Report) (Fix, bool) {
	d := s.Design
	d.Edits = append(slices.Clone(d.Edits), o.tie)
	sheet, report, err := Lay(d)
	if err != nil || o.worth != nil && !o.worth(sheet) {
		return Fix{}, false
	}
	for _, f := range report.Findings {
		if f.Severity > Note && !slices.ContainsFunc(r.Findings, func(g Finding) bool { return g.Kind == f.Kind && g.Severity >= f.Severity }) {
			return Fix{}, false
		}
	}
	f, err := StrengthOf(ctx, sheet, report, StrengthAsk{Coarse: true, Alone: true, Tips: o.tips, Pushes: o.push})
	if err != nil {
		return Fix{}, false
	}
	with := o.with(f)
	if with < o.now*helps {
		return Fix{}, false
	}
	return Fix{Title: pattern.Say("%s: %.2f g more, "+o.says, o.title, report.Left-r.Left, with, o.now), Design: d}, true
}

// tieTips offers a bridge from each of some tips that are alike to the metal across.
func tieTips(ctx context.Context, s *pattern.Sheet, r *Report, tips []plane.Point, bends float64) (Fix, bool) {
	i := slices.IndexFunc(r.Deep.Tongues, func(t Tongue) bool { return t.Tip == tips[0] })
	if i < 0 || r.Deep.Tongues[i].Opening == 0 {
		return Fix{}, false // off the edge of the blank there is no metal across
	}
	t := r.Deep.Tongues[i]
	root := t.RootAt[0].Mid(t.RootAt[1])
	way := t.Tip.Sub(root).Unit()
	tie, ok := s.Tied(tieFrom(s, t.Tip, t.Tip.Add(way.Mul(pattern.SizeRange.Min*2))))
	if !ok {
		return Fix{}, false
	}
	line := pattern.TieLine(s.Flat, tie, pattern.EditPosition{At: plane.Pt(tie.At[0].XMM, tie.At[0].YMM)})
	// Those alike lie moved, and so do their ties.
	from := tie.At[0]
	tie.At = nil
	for _, p := range tips {
		tie.At = append(tie.At, pattern.Spot{XMM: from.XMM + p.X - t.Tip.X, YMM: from.YMM + p.Y - t.Tip.Y})
	}
	half := way.Left().Mul(tie.TieWidth(s.Design.Rules) / 2)
	far := [2]plane.Point{line.B.Add(half), line.B.Sub(half)}
	what := "Tie the tip across"
	if len(tips) > 1 {
		what = fmt.Sprintf("Tie the %d tips across", len(tips))
	}
	return offered{
		tie: tie, title: what, says: "bends at %.0f N instead of %.0f", now: bends,
		tips: []strength.Tip{{At: t.Tip, Root: t.RootAt, Length: t.Length, Far: &far}},
		with: func(f *strength.Figures) float64 { n, _ := tipYield(f, tips); return n },
	}.offer(ctx, s, r)
}

// tieFrom is a straight tie between two points of the blank, as wide as the rule.
func tieFrom(s *pattern.Sheet, a, b plane.Point) pattern.Edit {
	x0, v0 := s.Flat.Where(a)
	x, v := s.Flat.Where(b)
	return pattern.Edit{Do: pattern.Tie, At: []pattern.Spot{{XMM: a.X, YMM: a.Y}}, SpanXMM: x - x0, SpanYMM: v - v0}
}

// tiePaths offers to tie an opening on a weakest way, where that is the only one: what it
// does for the load that such a way bears is solved. Where openings of the way are
// laid again elsewhere, so is the way, and no tie is tried.
func tiePaths(ctx context.Context, s *pattern.Sheet, r *Report) {
	for i := range r.Findings {
		f := &r.Findings[i]
		var way func(WeakestPaths) WeakestPath
		var dx, dv float64 // across the way
		var load func(*strength.Figures) (strength.CaseFigures, bool)
		says := "whole bridges yield from %.1f mm on instead of %.1f"
		switch f.Kind {
		case KindWeakestWayAcross:
			dx = pattern.SizeRange.Min * 2
			way = WeakestPaths.Bent
			load = func(f *strength.Figures) (strength.CaseFigures, bool) { return f.Cases[0], true }
		case KindWeakestWayAlong:
			dv = pattern.SizeRange.Min * 2
			way = func(w WeakestPaths) WeakestPath { return w.Along }
			load = func(f *strength.Figures) (c strength.CaseFigures, ok bool) {
				for _, c := range f.Cases {
					if c.Case == strength.Push && len(c.At) == 2 { // the ends of a cuff, past each other
						return c, true
					}
				}
				return c, false
			}
			says = "rolled on, its bridges yield at %.0f N instead of %.0f"
		default:
			continue
		}
		c, ok := load(r.Strength)
		was := way(r.Deep.WeakestPaths)
		if !ok || c.BridgeYield == 0 || repeated(s, was.Bridges) {
			continue
		}
		tie, ok := tieThrough(s, was.Bridges, dx, dv)
		if !ok {
			continue
		}
		fix, ok := offered{
			tie: tie, title: "Tie an opening of it across", says: says, now: c.BridgeYield,
			with:  func(f *strength.Figures) float64 { c, _ := load(f); return c.BridgeYield },
			worth: func(s *pattern.Sheet) bool { return way(FindWeakestPaths(s)).Metal >= helps*was.Metal },
		}.offer(ctx, s, r)
		if ok {
			f.Fixes = append(slices.Clone(f.Fixes), fix)
		}
	}
}

// tieAttached offers to tie a piece that hangs on little metal across the opening where it is
// farthest from what holds it. What a push at that place takes is solved, with the tie and
// without.
func tieAttached(ctx context.Context, s *pattern.Sheet, r *Report) {
	for i := range r.Findings {
		f := &r.Findings[i]
		if f.Kind != KindAttachedPart {
			continue
		}
		h := r.Deep.Attached.Inside
		if h.None() || h.Bridges[0].A != f.At[0] {
			h = r.Deep.Attached.AtEdge
		}
		tie, at, ok := tieOff(s, h)
		if !ok {
			continue
		}
		yield := func(f *strength.Figures) float64 {
			k := slices.IndexFunc(f.Cases, func(c strength.CaseFigures) bool { return c.What == strength.PushedWhat })
			return f.Cases[k].BridgeYield
		}
		without, err := StrengthOf(ctx, s, r, StrengthAsk{Coarse: true, Alone: true, Pushes: []plane.Point{at}})
		if err != nil || yield(without) == 0 {
			continue
		}
		fix, ok := offered{
			tie: tie, title: "Tie it across", says: "pushed there it bends at %.0f N instead of %.0f", now: yield(without),
			push: []plane.Point{at}, with: yield,
		}.offer(ctx, s, r)
		if ok {
			f.Fixes = append(slices.Clone(f.Fixes), fix)
		}
	}
}

// tieOff finds the tie that leads off a piece across the middle of the opening that is
// farthest from its bridges, and where on the piece it begins.
func tieOff(s *pattern.Sheet, h AttachedPart) (best pattern.Edit, at plane.Point, ok bool) {
	var middle plane.Point
	for _, b := range h.Bridges {
		middle = middle.Add(s.Toward(h.Bridges[0].A, b.A).Point(b.A.Mid(b.B)).Mul(1 / float64(len(h.Bridges))))
	}
	most := 0.0
	for _, b := range h.Bridges {
		for _, n := range [2]int{b.From, b.To} {
			if n == 0 {
				continue
			}
			l := s.Openings[n-1].Loop
			c := l.Centroid()
			if !l.Contains(c) || c.Dist(middle) < pattern.SizeRange.Min {
				continue
			}
			far := math.Inf(1)
			for _, k := range h.Bridges {
				far = math.Min(far, k.A.Mid(k.B).Dist(c))
			}
			tie, can := s.Tied(tieFrom(s, c, c.Add(c.Sub(middle).Unit().Mul(2*pattern.SizeRange.Min))))
			if !can || far <= most {
				continue
			}
			line := pattern.TieLine(s.Flat, tie, pattern.EditPosition{At: plane.Pt(tie.At[0].XMM, tie.At[0].YMM)})
			if at = line.A; line.B.Dist(middle) < line.A.Dist(middle) {
				at = line.B
			}
			most, best, ok = far, tie, true
		}
	}
	return best, at, ok
}

// repeated reports whether each opening between the bridges of a way is laid elsewhere too.
func repeated(s *pattern.Sheet, way []Bridge) bool {
	laid := map[int]int{}
	for i := range s.Openings {
		laid[s.Openings[i].Shape]++
	}
	for _, b := range way {
		for _, n := range [2]int{b.From, b.To} {
			if n > 0 {
				if k := s.Openings[n-1].Shape; k < 0 || laid[k] < 2 {
					return false
				}
			}
		}
	}
	return true
}

// tieThrough finds the shortest tie that runs in a direction through the middle of one of
// the openings between bridges.
func tieThrough(s *pattern.Sheet, way []Bridge, dx, dv float64) (best pattern.Edit, ok bool) {
	least := math.Inf(1)
	for _, b := range way {
		for _, n := range [2]int{b.From, b.To} {
			if n == 0 {
				continue
			}
			c := s.Openings[n-1].Loop.Centroid()
			if !s.Openings[n-1].Loop.Contains(c) {
				continue
			}
			x, v := s.Flat.Where(c)
			if tie, ok := s.Tied(tieFrom(s, c, s.Flat.Place(x+dx, v+dv))); ok {
				if long := math.Hypot(tie.SpanXMM, tie.SpanYMM); long < least {
					least, best = long, tie
				}
			}
		}
	}
	return best, !math.IsInf(least, 1)
}
