package check

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sort"

	"fretband/pattern"
	"fretband/unroll/plane"
)

// BridgeKind says what a bridge is between.
type BridgeKind int

// Kinds of bridge.
const (
	BetweenOpenings BridgeKind = iota
	ToRim                      // an opening and the edge of the blank
	ToReserve                  // an opening and an area kept solid
	NeckWithin                 // two parts of one edge, of an opening or of the blank
)

func (k BridgeKind) String() string {
	return [...]string{"between openings", "to the rim", "to a reserve", "neck within the metal"}[k]
}

// NarrowBridge is a bridge narrower than its rule, or than is usual.
type NarrowBridge struct {
	Bridge // Rule is what the design asks for there: the bridge, the rim, a margin
	Kind   BridgeKind
	// Usual is the usual least of the process, mm, 0 if there is none: of a reserve,
	// or without a process.
	Usual float64
	// Length is that of the stretch over which the width stays within a tenth, mm: the
	// shorter of its two edges.
	Length  float64
	Reserve int // of ToReserve: from 1
}

// Limit is what the bridge falls short of, mm: its rule or what is usual.
func (b NarrowBridge) Limit() float64 { return math.Max(b.Rule, b.Usual) }

// mostBridges bounds the list of narrow bridges.
const mostBridges = 200

// NarrowBridges lists the bridges narrower than their rule or than is usual for the
// process, those that lack most first, at most 200 and how many there are in all. Of
// two openings, or of an opening and an edge, the least distance is listed; of one
// edge with itself every neck.
func NarrowBridges(s *pattern.Sheet) (list []NarrowBridge, all int) {
	usual, _, _ := usualLimits(s)
	add := func(b NarrowBridge) {
		if b.Width < b.Limit()-slack {
			list = append(list, b)
		}
	}
	most := math.Max(s.Rule, usual)
	number := func(i int) int { return s.Openings[i].Number }

	// Openings with each other, over the seam as well.
	n := len(s.Openings)
	for _, p := range s.Pairs(most) {
		add(NarrowBridge{Bridge: Bridge{p.D, p.A, p.Home(p.B), s.Rule, number(p.I), number(p.J)}, Usual: usual})
	}

	// To the rim.
	m := newMeasure(s)
	widest := max(most, s.EdgeRule, s.Flat.JointStrip) // of those that may lack anything
	for i := range n {
		b := NarrowBridge{Bridge: Bridge{Width: widest}, Kind: ToRim, Usual: usual}
		if m.toEdge(i, &b.Bridge); b.From == 0 {
			continue
		}
		b.Rule = s.EdgeRule
		if !s.Design.Band.Open() && atEnds(s, b.B) {
			// The joint: metal goes on beyond it.
			b.Rule, b.Usual = math.Max(s.Rule, s.Flat.JointStrip), 0
		}
		add(b)
	}

	// To reserves, which ask for their margins.
	near := s.Near()
	for _, k := range s.Reserves {
		margin := s.Design.Reserves[k.Reserve].MarginMM
		for c := range near.To(k.Loop.Bounds(), margin) {
			l := c.Loop(s.Openings[c.Of].Loop)
			g := plane.Nearest(l, k.Loop)
			if k.Loop.Contains(l[0].Point) || l.Contains(k.Loop[0].Point) {
				g.D = 0
			}
			if g.D < margin {
				add(NarrowBridge{Bridge: Bridge{g.D, s.Home(g.A), s.Home(g.B), margin, number(c.Of), 0}, Kind: ToReserve, Reserve: k.Reserve + 1})
			}
		}
	}

	// Necks, by shape once.
	for _, group := range sameShape(s) {
		first := &s.Openings[group[0]]
		for _, g := range first.Loop.Necks(most) {
			for _, i := range group {
				o := &s.Openings[i]
				move := o.At.Sub(first.At)
				if i == group[0] {
					move = plane.Point{}
				}
				add(NarrowBridge{Bridge: Bridge{g.D, g.A.Add(move), g.B.Add(move), s.Rule, o.Number, o.Number}, Kind: NeckWithin, Usual: usual})
			}
		}
	}
	for _, g := range (plane.Region{s.Flat.Outline}).Necks(most) {
		add(NarrowBridge{Bridge: Bridge{g.D, g.A, g.B, s.Rule, 0, 0}, Kind: NeckWithin, Usual: usual})
	}

	sort.SliceStable(list, func(i, j int) bool {
		a, b := &list[i], &list[j]
		if la, lb := a.Limit()-a.Width, b.Limit()-b.Width; math.Abs(la-lb) > tie {
			return la > lb
		}
		p, q := a.A.Mid(a.B), b.A.Mid(b.B)
		if math.Abs(p.X-q.X) > tie {
			return p.X < q.X
		}
		return p.Y < q.Y
	})
	all = len(list)
	kept := list[:0]
next:
	for _, b := range list {
		if len(kept) == mostBridges {
			break
		}
		b.measure(s)
		for _, k := range kept { // the ends of a stretch may be reported as necks of their own
			if b.Kind == NeckWithin && k.Kind == NeckWithin && k.From == b.From && k.A.Mid(k.B).Dist(b.A.Mid(b.B)) < plane.FitTolerance {
				all--
				continue next
			}
		}
		kept = append(kept, b)
	}
	return kept, all
}

// atEnds reports whether p lies at one of the blank's ends.
func atEnds(s *pattern.Sheet, p plane.Point) bool {
	u, _ := s.Flat.Where(p)
	return math.Abs(u) > s.Flat.Length/2-plane.FitTolerance
}

// measure finds how long the bridge is: from its narrowest position along either of its
// edges, both ways, to where the other edge is a tenth farther off or nearer; the
// shorter of the two. Where the width stays the same along a stretch its position becomes
// the middle of that.
func (b *NarrowBridge) measure(s *pattern.Sheet) {
	edge := func(number int) plane.Loop {
		if number == 0 {
			return s.Flat.Outline
		}
		return s.Openings[number-1].Loop
	}
	a, c := edge(b.From), edge(b.To)
	other := c.Edges()
	switch b.Kind {
	case ToReserve:
		for _, k := range s.Reserves {
			for _, l := range s.Again(k.Loop) {
				if k.Reserve == b.Reserve-1 && l.Nearest(b.B).D < slack {
					c, other = l, l.Edges()
				}
			}
		}
	case ToRim:
		other = edgeOfBlank(s)
	}
	// Over the seam the other edge is a copy.
	over := s.Toward(b.A, b.B)
	c, b.B = over.Loop(c), over.Point(b.B)
	for i := range other {
		other[i] = over.Edge(other[i])
	}
	mine := a.Edges()
	whole := a.Len()
	if b.Kind == NeckWithin {
		at, far := along(a, b.A), along(a, b.B)
		mine, other = halfAbout(a, at, far, whole), halfAbout(a, far, at, whole)
	}
	if on, back := stretch(a, other, b.A, b.Width-same, b.Width+same); on+back > 4*same {
		b.A = newCourse(a).at(along(a, b.A) + (on-back)/2)
		best := math.Inf(1)
		for _, e := range other {
			if _, q := e.Nearest(b.A); q.Dist(b.A) < best {
				b.B, best = q, q.Dist(b.A)
			}
		}
	}
	on1, back1 := stretch(a, other, b.A, 0.9*b.Width, 1.1*b.Width)
	on2, back2 := stretch(c, mine, b.B, 0.9*b.Width, 1.1*b.Width)
	b.Length = math.Min(on1+back1, on2+back2)
	b.B = over.Home(b.B)
}

// same is how much wider a bridge may be, mm, and count as of one width along a
// stretch: how exactly the end of a stretch is known.
const same = 1e-6

// sides names what is on either side.
func (b NarrowBridge) sides() string {
	switch b.Kind {
	case ToReserve:
		return fmt.Sprintf("between opening %d and reserve %d", b.From, b.Reserve)
	case NeckWithin:
		if b.From == 0 {
			return "a neck of the blank itself"
		}
		return fmt.Sprintf("a neck within the edge of opening %d", b.From)
	}
	return b.Bridge.sides()
}

// checkNarrowBridges tells of the bridges under the rule, kind by kind, and of those that
// keep it but are under what is usual for the process.
func checkNarrowBridges(s *pattern.Sheet, r *Report) []Finding {
	var fs []Finding
	var unusual []NarrowBridge
	breaches := 0
	for kind := BetweenOpenings; kind <= NeckWithin; kind++ {
		var broken []NarrowBridge
		for _, b := range r.Deep.Bridges {
			switch {
			case b.Kind != kind:
			case b.Shortfall() > 0:
				broken = append(broken, b)
			default:
				unusual = append(unusual, b)
			}
		}
		if len(broken) == 0 {
			continue
		}
		breaches += len(broken)
		b := broken[0]
		f := Finding{
			Kind: KindNarrowBridges, Severity: Breach,
			What: pattern.Say("%s under the rule; the worst, %s, is %.3f mm wide over %.2f mm, %.3f mm under the %.3f mm asked for.",
				kindCount(len(broken), kind), b.sides(), b.Width, b.Length, b.Shortfall(), b.Rule),
			Why:   "Narrow metal breaks, burns or bends first.",
			Value: b.Width, Limit: b.Rule, Unit: "mm", At: bothEnds(broken),
			Mend: "Move or shrink the openings there, or lay the pattern anew with this rule.",
		}
		if kind == ToReserve {
			f.Why = "A reserve's margin is what the seat, the mark or the solder needs."
			f.Mend = "Move the opening or the reserve, or ask for a smaller margin."
		}
		fs = append(fs, f)
	}
	usual, _, p := usualLimits(s)
	if len(unusual) == 0 || burns(s, r) && usual < heatKerfs*r.Making.KerfMM { // checkHeat tells of them then
		return fs
	}
	slices.SortStableFunc(unusual, func(a, b NarrowBridge) int { return cmp.Compare(a.Width, b.Width) })
	b := unusual[0]
	f := Finding{
		Kind: KindProcessBridges, Severity: Note,
		What: pattern.Say("%s thinner than the usual least of %.2f mm (%s); the thinnest, %s, is %.2f mm wide over %.2f mm.",
			count(r.Deep.NarrowBridges-breaches, "bridge is", "bridges are"), usual, processWords(s, p), b.sides(), b.Width, b.Length),
		Why:   narrowMetal(p.Key) + " Usual limit: " + p.Source + ".",
		Value: b.Width, Limit: usual, Unit: "mm", At: bothEnds(unusual),
		Mend: "Widen the bridges, use thinner sheet, or ask whoever cuts it what he holds.",
	}
	if b.Width < far*usual-slack {
		f.Severity = Caution
	}
	if s.Rule < usual {
		f.Fixes = bridgeTo(s.Design, up(usual))
	}
	return append(fs, f)
}

func kindCount(n int, k BridgeKind) string {
	switch k {
	case BetweenOpenings:
		return count(n, "bridge between openings is", "bridges between openings are")
	case ToRim:
		return count(n, "rim at an opening is", "rims at openings are")
	case ToReserve:
		return count(n, "bridge to a reserve is", "bridges to reserves are")
	}
	return count(n, "neck within the metal is", "necks within the metal are")
}

func bothEnds(bs []NarrowBridge) []plane.Point {
	var at []plane.Point
	for _, b := range bs {
		at = append(at, b.A, b.B)
	}
	return at
}
