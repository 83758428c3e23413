package check

import (
	"fmt"
	"math"
	"sort"

	"fretband/pattern"
	"fretband/unroll/plane"
)

// Tongue is metal held on one side only.
type Tongue struct {
	Opening int            // its number; 0 for one of the blank's own edge
	Length  float64        // mm, from the root to the farthest point
	Root    float64        // mm, the least width of the metal it hangs on
	RootAt  [2]plane.Point // ends of the root
	Tip     plane.Point    // the farthest point, of several the middle
	// TipRadius is that of the sharpest metal at the tip, mm: 0 for a corner. A tip that
	// is nowhere round or sharp is Blunt and has none.
	TipRadius float64
	Blunt     bool
}

// Catches reports whether the tip can catch cloth or skin and bend up: it is sharp
// and is farther out than it is wide at its root (free
// points snag; tips are rounded to 0.3 to 0.5 mm; common practice).
func (t Tongue) Catches() bool {
	return !t.Blunt && t.TipRadius < tipRadius-slack && t.Length > t.Root
}

// tipRadius is the least radius of a free tip, mm: common practice says 0.3 to 0.5.
const tipRadius = 0.3

// TongueWidth is the width from which on metal counts as stiff, mm: tongues are
// narrower. Twice the sheet, or the bridge rule if that is more: ours.
func TongueWidth(s *pattern.Sheet) float64 { return math.Max(2*s.Flat.Thickness, s.Rule) }

// Tongues finds the metal that is held on one side only and narrower than
// [TongueWidth], longest beside its root first.
//
// What is narrower than w is what the closing of an opening by a disc of the
// diameter w fills (Serra, "Image Analysis and Mathematical Morphology", 1982):
// discs of metal do not reach there. Each part of it ends in edges of the opening
// and in arcs where the discs are. One arc: it hangs on one side. Two or more: it
// is a bridge, but if one of them is the only way to a head that holds a disc, head
// and neck are a tongue as well. The root is the chord of the arc, or the narrowest
// neck of that part if that is less; the length is measured from the chord. Metal between two
// openings is no tongue, whatever its shape. A plain wedge, two straight sides that
// meet, is left to the check of angles.
func Tongues(s *pattern.Sheet) []Tongue {
	w := TongueWidth(s)
	var out []Tongue
	for _, group := range sameShape(s) {
		first := &s.Openings[group[0]]
		if convex(first.Loop) {
			continue
		}
		ts := tonguesOf(first.Loop, true, w)
		for _, i := range group {
			o := &s.Openings[i]
			move := o.At.Sub(first.At)
			for _, t := range ts {
				t.Opening = o.Number
				if i != group[0] {
					t.Tip, t.RootAt[0], t.RootAt[1] = t.Tip.Add(move), t.RootAt[0].Add(move), t.RootAt[1].Add(move)
				}
				out = append(out, t)
			}
		}
	}
	out = append(out, tonguesOf(s.Flat.Outline, false, w)...)
	sort.SliceStable(out, func(i, j int) bool { return out[i].Length*out[j].Root > out[j].Length*out[i].Root })
	return out
}

// sameShape groups the indexes of openings that are one loop moved; each that was
// cut to fit is by itself.
func sameShape(s *pattern.Sheet) [][]int {
	var groups [][]int
	at := map[int]int{}
	for i := range s.Openings {
		k := s.Openings[i].Shape
		if g, ok := at[k]; ok && k >= 0 {
			groups[g] = append(groups[g], i)
			continue
		}
		at[k] = len(groups)
		groups = append(groups, []int{i})
	}
	return groups
}

// convex reports whether all of a counter-clockwise loop faces away from itself.
func convex(l plane.Loop) bool {
	for i := range l {
		if l[i].Bulge < 0 || angleAt(l, i) < -1e-9 {
			return false
		}
	}
	return true
}

// angleAt is the turn at vertex i, radians, positive to the left.
func angleAt(l plane.Loop, i int) float64 {
	in := l.Edge((i + len(l) - 1) % len(l)).Tangent(1)
	out := l.Edge(i).Tangent(0)
	return math.Atan2(in.Cross(out), in.Dot(out))
}

// least area of metal that is looked at, mm^2: less is rounding in corners.
const leastTongue = 1e-3

// tonguesOf finds the tongues of an opening's edge, or of the blank's own.
func tonguesOf(l plane.Loop, opening bool, w float64) []Tongue {
	self := plane.Region{l}
	var discs, thin plane.Region // what discs leave to the opening, and reach of the blank
	var err error
	metal := l
	if opening {
		discs = self.Close(w / 2)
		thin, err = plane.Not(discs, self)
		metal = l.Reverse()
	} else {
		discs = self.Open(w / 2)
		thin, err = plane.Not(self, discs)
	}
	if err != nil || len(discs) == 0 {
		return nil
	}
	// How many arcs of thin parts each loop of the discs bears.
	type part struct {
		loop  plane.Loop
		arcs  []chord
		loops []int // of discs, for each arc
	}
	var parts []part
	borne := make([]int, len(discs))
	for _, c := range thin {
		if c.Area() < leastTongue {
			continue
		}
		p := part{loop: c, arcs: discArcs(c, l)}
		for _, a := range p.arcs {
			best, k := math.Inf(1), 0
			for i, d := range discs {
				if g := d.Nearest(a.mid); g.D < best {
					best, k = g.D, i
				}
			}
			borne[k]++
			p.loops = append(p.loops, k)
		}
		parts = append(parts, p)
	}
	var necks []plane.Gap
	if opening {
		necks = l.Necks(w)
	} else {
		necks = self.Necks(w)
	}
	var out []Tongue
	for _, p := range parts {
		free := []plane.Loop{p.loop}
		root := 0
		switch {
		case len(p.arcs) == 1 && !wedge(p.loop, p.arcs[0]):
		case len(p.arcs) == 2:
			// A head is a loop of the discs that only this part leads to: of an
			// opening a hole in what it closes to, of the blank a lesser part.
			head := -1
			for i, k := range p.loops {
				lesser := opening && discs[k].Area() < 0 || !opening && discs[k].Area() < discs[p.loops[1-i]].Area()
				if borne[k] == 1 && lesser {
					head, root = k, 1-i
				}
			}
			if head < 0 {
				continue
			}
			free = append(free, discs[head])
		default:
			continue
		}
		t := Tongue{RootAt: [2]plane.Point{p.arcs[root].a, p.arcs[root].b}}
		t.Root = t.RootAt[0].Dist(t.RootAt[1])
		for _, n := range necks {
			if n.D < t.Root && p.loop.Contains(n.Mid()) {
				t.Root = n.D
			}
		}
		t.Length, t.Tip = farthestFrom(t.RootAt, free)
		if t.TipRadius = sharpestNear(metal, t.Tip, 0.525*t.Root+0.02); math.IsInf(t.TipRadius, 1) {
			t.TipRadius, t.Blunt = 0, true
		}
		out = append(out, t)
	}
	return out
}

// chord is a run of edges along discs: its ends and a position on it.
type chord struct{ a, b, mid plane.Point }

// discArcs returns the runs of a part's edges that do not lie on the edge of l.
func discArcs(c, l plane.Loop) []chord {
	// How far from the edge an arc of a disc must get, mm: far over the plane's
	// rounding, far under what is seen.
	const off = 1e-5
	far := make([]bool, len(c))
	start := -1
	for i := range c {
		e := c.Edge(i)
		for _, t := range [3]float64{0.5, 0.25, 0.75} {
			far[i] = far[i] || l.Nearest(e.At(t)).D > off
		}
		if !far[i] {
			start = i
		}
	}
	if start < 0 {
		return nil
	}
	var out []chord
	for k := 1; k <= len(c); k++ {
		i := (start + k) % len(c)
		if !far[i] {
			continue
		}
		e := c.Edge(i)
		if before := (i + len(c) - 1) % len(c); far[before] {
			run := &out[len(out)-1]
			run.b = e.B
			continue
		}
		out = append(out, chord{e.A, e.B, e.At(0.5)})
	}
	return out
}

// wedge reports whether a part is two straight sides that meet in a point.
func wedge(c plane.Loop, root chord) bool {
	n := 0
	on := false
	for k := range 2 * len(c) {
		e := c.Edge(k % len(c))
		switch {
		case e.A == root.b:
			on = true
		case e.A == root.a:
			if on {
				return n <= 2
			}
		}
		if on {
			if !e.IsLine() {
				return false
			}
			n++
		}
	}
	return false
}

// farthestFrom returns the greatest distance of the loops from a straight root, and
// its position: the middle of all that are as far.
func farthestFrom(root [2]plane.Point, ls []plane.Loop) (float64, plane.Point) {
	const fine = 1e-4 // mm
	line := plane.Edge{A: root[0], B: root[1]}
	var pts []plane.Point
	most := 0.0
	for _, l := range ls {
		for _, p := range l.Flatten(fine) {
			pts = append(pts, p)
			most = math.Max(most, line.Dist(p))
		}
	}
	box := plane.EmptyBox()
	for _, p := range pts {
		if line.Dist(p) > most-fine {
			box = box.Add(p)
		}
	}
	return most, box.Centre()
}

// sharpestNear returns the least radius of the metal's outward bends near p.
func sharpestNear(metal plane.Loop, p plane.Point, near float64) float64 {
	least := math.Inf(1)
	for i := range metal {
		e := metal.Edge(i)
		if metal[i].Dist(p) <= near && angleAt(metal, i) > sharpAngle {
			return 0
		}
		if e.Bulge > 0 && e.Sweep() > sharpAngle && e.Dist(p) <= near {
			least = math.Min(least, e.Radius())
		}
	}
	return least
}

// sharpAngle is the turn under which an edge counts as running on, radians: 15
// degrees (ours; a curve drawn in short lines turns less at each).
const sharpAngle = 15 * math.Pi / 180

// mostTold bounds how many findings of one kind are reported singly.
const mostTold = 12

// tongueGroups are the tongues that are longer than their root is wide, those of one shape
// together.
func tongueGroups(s *pattern.Sheet, r *Report) [][]Tongue {
	var groups [][]Tongue
	at := map[[2]int]int{}
	for _, t := range r.Deep.Tongues {
		if t.Length <= t.Root {
			continue
		}
		if t.Opening > 0 {
			if shape := s.Openings[t.Opening-1].Shape; shape >= 0 {
				key := [2]int{shape, int(math.Round(t.Length * 1e4))}
				if g, ok := at[key]; ok {
					groups[g] = append(groups[g], t)
					continue
				}
				at[key] = len(groups)
			}
		}
		groups = append(groups, []Tongue{t})
	}
	return groups
}

// checkTongues tells of tongues that catch. Of the others those are told that little bends
// for good, once that has been solved ([Strengthen]).
func checkTongues(s *pattern.Sheet, r *Report) []Finding {
	var fs []Finding
	rest := 0
	for _, g := range tongueGroups(s, r) {
		switch {
		case !g[0].Catches():
		case len(fs) == mostTold:
			rest += len(g)
		default:
			f := tongueFinding(g)
			f.Severity = Caution
			f.Why = pattern.Say("A sharp free tip longer than its root catches cloth and skin and bends up (radius under %.1f mm: common practice).", tipRadius)
			f.Mend = pattern.Say("Round its tip to %.1f mm or more (0.3 to 0.5: common practice), make it shorter than its root is wide, or join it to the metal across.", tipRadius)
			fs = append(fs, f)
		}
	}
	if rest > 0 {
		fs = append(fs, Finding{
			Kind: KindTongue, Severity: Note, What: fmt.Sprintf("%s not listed one by one.", count(rest, "more tongue is", "more tongues are")),
			Value: float64(rest), Unit: "tongues", Mend: "Mend the ones listed first.",
		})
	}
	return fs
}

// tongueFinding tells of tongues that are alike.
func tongueFinding(g []Tongue) Finding {
	t := g[0]
	where := fmt.Sprintf("in opening %d", t.Opening)
	if t.Opening == 0 {
		where = "at the edge of the blank"
	}
	if len(g) > 1 {
		where += fmt.Sprintf(" and %d more alike", len(g)-1)
	}
	f := Finding{
		Kind: KindTongue, Severity: Note,
		What:  pattern.Say("A tongue %s is held on one side only: %.2f mm long, %.2f mm wide at its root, %s.", where, t.Length, t.Root, t.tipWords()),
		Why:   "Metal held on one side bends up.",
		Value: t.Length, Limit: t.Root, Unit: "mm",
		Mend: "Make it shorter or its root wider, or join its tip to the metal across.",
	}
	for _, t := range g {
		f.At = append(f.At, t.Tip)
	}
	return f
}

func (t Tongue) tipWords() string {
	switch {
	case t.Blunt:
		return "its tip blunt"
	case t.TipRadius == 0:
		return "its tip sharp"
	}
	return pattern.Say("its tip of radius %.2f mm", t.TipRadius)
}
