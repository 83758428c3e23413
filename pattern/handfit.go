package pattern

import (
	"cmp"
	"math"
	"runtime"
	"slices"
	"sync"

	"fretband/unroll/plane"
)

// fit holds what was laid by hand to the rules and adds it to the sheet. Among
// themselves what was laid by hand gives alike; openings of the pattern give way to
// it, so that a shape that was drawn stays what it was drawn as.
func (h *hand) fit() {
	if len(h.laid) == 0 {
		return
	}
	r := h.Design.Rules
	loops := make([]plane.Loop, len(h.laid))
	for i, l := range h.laid {
		loops[i] = l.loop
	}
	// Openings of the pattern that are moved together stand at the very rule still,
	// up to rounding: they are not to be trimmed for that.
	made, dropped := Trim(loops, h.Ground, Rules{h.Rule - touch/2, r.CornerMM, r.SmallestMM, h.Flat.Period})
	loops = loops[:0]
	kept, told := make([]bool, len(h.laid)), map[int]bool{}
	var byHand []Opening
	for _, m := range made {
		kept[m.From] = true
		loops = append(loops, m.Loop)
		l := h.laid[m.From]
		o := Opening{Loop: m.Loop, Field: l.field, Row: l.row, Col: l.col, Shape: -1, At: m.Loop.Centroid(), Box: m.Loop.Bounds()}
		for _, i := range l.places {
			o.By = append(o.By, h.touch(i))
		}
		o.Edit = o.By[len(o.By)-1].Edit
		byHand = append(byHand, o)
	}
	c := &cutter{rule: h.Rule, corner: r.CornerMM, smallest: r.SmallestMM}
	h.giveWay(c, loops)
	h.Openings = append(h.Openings, byHand...)
	for _, d := range dropped {
		l := h.laid[d.From]
		if !kept[d.From] { // nothing at all: the edit is idle, and told as that
			for _, i := range l.places {
				if !told[i] {
					told[i] = true
					h.idle(i, "nothing can be cut there: "+d.Why)
				}
			}
			continue
		}
		d.Field, d.Row, d.Col, d.From = l.field, l.row, l.col, 0
		h.Dropped = append(h.Dropped, d)
	}
}

// boxed is a loop with the box round it.
type boxed struct {
	loop plane.Loop
	box  plane.Box
}

// giveWay cuts those openings of the pattern that lie over one of the loops or
// nearer to it than the rule, on any turn of a band that closes, and no others.
func (h *hand) giveWay(c *cutter, loops []plane.Loop) {
	turns := []float64{0}
	if p := h.Flat.Period; p > 0 {
		turns = append(turns, -p, p)
	}
	var by []boxed
	widest := 0.0
	for _, l := range loops {
		for _, dx := range turns {
			b := boxed{l.Move(plane.Pt(dx, 0)), plane.Box{}}
			b.box = b.loop.Bounds()
			widest = math.Max(widest, b.box.W())
			by = append(by, b)
		}
	}
	slices.SortStableFunc(by, func(a, b boxed) int { return cmp.Compare(a.box.Min.X, b.box.Min.X) })
	// Each worker has a run of the openings; joined in order, the result does not
	// depend on how many there are.
	runs := make([]Sheet, min(runtime.GOMAXPROCS(0), 1+len(h.Openings)/64))
	var wait sync.WaitGroup
	for k := range runs {
		wait.Add(1)
		go func() {
			defer wait.Done()
			n := len(h.Openings)
			for i := k * n / len(runs); i < (k+1)*n/len(runs); i++ {
				runs[k].cutBeside(&h.Openings[i], by, widest, c)
			}
		}()
	}
	wait.Wait()
	out := make([]Opening, 0, len(h.Openings)+len(loops))
	for _, r := range runs {
		out = append(out, r.Openings...)
		h.Dropped = append(h.Dropped, r.Dropped...)
	}
	h.Openings = out
}

// cutBeside adds what is left of an opening beside those of the loops that it lies
// over or comes too near to. They are sorted by the left ends of their boxes, which
// are at most widest.
func (s *Sheet) cutBeside(o *Opening, by []boxed, widest float64, c *cutter) {
	limit := c.rule - touch
	var near []plane.Loop
	k, _ := slices.BinarySearchFunc(by, o.Box.Min.X-limit-widest, func(b boxed, x float64) int { return cmp.Compare(b.box.Min.X, x) })
	for ; k < len(by) && by[k].box.Min.X <= o.Box.Max.X+limit; k++ {
		b := &by[k]
		if b.box.Nearer(o.Box, limit) && (b.loop.Contains(o.Loop[0].Point) || o.Loop.Contains(b.loop[0].Point) || plane.Nearest(b.loop, o.Loop).D < limit) {
			near = append(near, b.loop)
		}
	}
	if len(near) == 0 {
		s.Openings = append(s.Openings, *o)
		return
	}
	rest := plane.Region{o.Loop}
	for _, l := range near {
		less, err := plane.Not(rest, l.Outset(c.rule))
		if err != nil {
			less = nil // what can't be worked out is not cut
		}
		rest = less
	}
	made, not := c.openings(rest)
	for _, l := range made {
		p := *o
		p.Loop, p.Shape, p.At, p.Box = l, -1, l.Centroid(), l.Bounds()
		s.Openings = append(s.Openings, p)
	}
	if len(made) > 0 || slices.ContainsFunc(near, func(l plane.Loop) bool { return l.Contains(o.Loop.Centroid()) }) {
		return // something is left of it, or it lay where the other is now
	}
	d := Dropped{At: o.Loop.Centroid(), Field: o.Field, Row: o.Row, Col: o.Col, Why: "too little is left of it beside an opening laid by hand"}
	if len(not) > 0 {
		d.Why += ": " + not[0].Why
	}
	s.Dropped = append(s.Dropped, d)
}
