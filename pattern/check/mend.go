package check

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// mend is one way of mending a finding: the design as do changes it. do must copy a
// list of the design before changing it.
func mend(d pattern.Design, title string, do func(*pattern.Design)) []Fix {
	do(&d)
	return []Fix{{Title: title, Design: d}}
}

func join(ways ...[]Fix) []Fix { return slices.Concat(ways...) }

// up rounds up to the hundredth that is shown and typed.
func up(mm float64) float64 { return math.Round(math.Ceil(mm*100-1e-6)) / 100 }

// short writes a length without idle zeros.
func short(mm float64) string { return strconv.FormatFloat(math.Round(mm*1000)/1000, 'f', -1, 64) }

func bridgeTo(d pattern.Design, mm float64) []Fix {
	return mend(d, fmt.Sprintf("Widen the bridge to %s mm", short(mm)), func(d *pattern.Design) { d.Rules.BridgeMM = mm })
}

func smallestTo(d pattern.Design, mm float64) []Fix {
	return mend(d, fmt.Sprintf("Set the smallest opening to %s mm", short(mm)), func(d *pattern.Design) { d.Rules.SmallestMM = mm })
}

func cornerTo(d pattern.Design, mm float64) []Fix {
	return mend(d, fmt.Sprintf("Set the corners to %s mm", short(mm)), func(d *pattern.Design) { d.Rules.CornerMM = mm })
}

func staggerTo(d pattern.Design, field int, share float64) []Fix {
	return mend(d, pattern.Say("Stagger by %g", share), func(d *pattern.Design) {
		d.Fields = slices.Clone(d.Fields)
		d.Fields[field].Stagger = share
	})
}

// bandFix changes the band, if it can be unrolled then.
func bandFix(d pattern.Design, title string, do func(*unroll.Band)) []Fix {
	do(&d.Band)
	if d.Band.Check() != nil {
		return nil
	}
	return []Fix{{Title: title, Design: d}}
}

// onBlank returns how much of a loop lies on the blank, mm^2; what reaches over the
// joint of a closed band counts.
func onBlank(s *pattern.Sheet, l plane.Loop) float64 {
	blank := plane.Region{s.Flat.Outline}
	sum := 0.0
	for _, over := range s.Again(l) {
		on, err := plane.And(plane.Region{over}, blank)
		if err != nil {
			return l.Area() // what can't be measured is left out
		}
		sum += on.Area()
	}
	return sum
}

// inwards looks for the least move, mm in hundredths, that brings something onto the
// blank: straight across the band towards its middle line or, if that is not enough,
// towards the middle of the blank. holds reports whether it lies there after a move.
func inwards(s *pattern.Sheet, at plane.Point, holds func(plane.Point) bool) (plane.Point, bool) {
	x, _ := s.Flat.Where(at)
	half := s.Flat.Length / 2
	for _, to := range []plane.Point{s.Flat.Place(math.Max(-half, math.Min(half, x)), 0), {}} {
		way := to.Sub(at)
		if !holds(way) {
			continue
		}
		_, share := plane.Halve(0, 1, 14, func(m float64) bool { return !holds(way.Mul(m)) })
		// Outwards from the position, so that rounding does not take it off again.
		v := way.Mul(share)
		v = plane.Pt(math.Copysign(up(math.Abs(v.X)), v.X), math.Copysign(up(math.Abs(v.Y)), v.Y))
		if holds(v) {
			return v, true
		}
	}
	return plane.Point{}, false
}

// reserveInside moves a single reserve onto the blank.
func reserveInside(s *pattern.Sheet, i int, l plane.Loop) []Fix {
	if s.Design.Reserves[i].Count > 1 {
		return nil
	}
	v, ok := inwards(s, l.Centroid(), func(v plane.Point) bool { return onBlank(s, l.Move(v)) > l.Area()-1e-6 })
	if !ok {
		return nil
	}
	return mend(s.Design, "Move it onto the blank", func(d *pattern.Design) {
		d.Reserves = slices.Clone(d.Reserves)
		d.Reserves[i].XMM += v.X
		d.Reserves[i].YMM += v.Y
	})
}

// engravingInside moves an engraving onto the blank.
func engravingInside(s *pattern.Sheet, m *linework, blank *area) []Fix {
	v, ok := inwards(s, m.Frame.Bounds().Centre(), func(v plane.Point) bool { return m.holds(blank, v) })
	if !ok {
		return nil
	}
	return mend(s.Design, "Move it onto the blank", func(d *pattern.Design) { moveEngraving(d, m.Engraving, v) })
}

func moveEngraving(d *pattern.Design, i int, v plane.Point) {
	d.Engravings = slices.Clone(d.Engravings)
	d.Engravings[i].XMM += v.X
	d.Engravings[i].YMM += v.Y
}

// engravingOffJoint moves an engraving along until it lies beside the joint's solid strip.
func engravingOffJoint(s *pattern.Sheet, m pattern.EngravedLines) []Fix {
	if s.Flat.Flared() {
		return nil
	}
	end, b := s.Flat.Length/2-s.Flat.JointStrip, m.Frame.Bounds()
	if b.W() > 2*end {
		return nil
	}
	dx := 0.0
	if b.Max.X > end {
		dx = -up(b.Max.X - end)
	} else if b.Min.X < -end {
		dx = up(-end - b.Min.X)
	}
	return mend(s.Design, fmt.Sprintf("Move it along by %s mm", short(math.Abs(dx))), func(d *pattern.Design) { moveEngraving(d, m.Engraving, plane.Pt(dx, 0)) })
}

func removeEngraving(d pattern.Design, i int) []Fix {
	return mend(d, fmt.Sprintf("Remove mark %d", i+1), func(d *pattern.Design) {
		d.Engravings = slices.Delete(slices.Clone(d.Engravings), i, i+1)
	})
}

func keepOff(d pattern.Design, i int, mm float64) []Fix {
	return mend(d, fmt.Sprintf("Keep openings %s mm off it", short(mm)), func(d *pattern.Design) {
		d.Engravings = slices.Clone(d.Engravings)
		d.Engravings[i].MarginMM = mm
	})
}

// removeIdle removes the positions of one edit that do nothing now, and of which no
// mirror image does; the edit goes with its last position.
func removeIdle(s *pattern.Sheet, edit int) []Fix {
	n := len(s.Design.Edits[edit].At)
	images, idle := make([]int, n), make([]int, n)
	for _, p := range pattern.EditPositions(s.Design, s.Flat) {
		if p.Edit == edit {
			images[p.Spot%n]++
		}
	}
	for _, p := range s.Idle {
		if p.Edit == edit {
			idle[p.Spot%n]++
		}
	}
	var left []pattern.Spot
	for i, at := range s.Design.Edits[edit].At {
		if idle[i] < images[i] {
			left = append(left, at)
		}
	}
	if len(left) == n {
		return nil // some image of each position works
	}
	return mend(s.Design, "Remove what is idle", func(d *pattern.Design) {
		d.Edits = slices.Clone(d.Edits)
		d.Edits[edit].At = left
		if len(left) == 0 {
			d.Edits = slices.Delete(d.Edits, edit, edit+1)
		}
	})
}
