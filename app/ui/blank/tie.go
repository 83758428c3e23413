package blank

import (
	"math"

	"fretband/app"
	"fretband/pattern"
	"fretband/unroll/plane"
)

// grabTie draws a tie with the hand, from where it was taken: as it will be laid, with its
// ends on the metal.
func (b *View) grabTie(from plane.Point) *drag {
	var e pattern.Edit
	var crosses bool
	return &drag{
		move: func(to plane.Point) {
			f, rules := b.scene.Sheet.Flat, b.scene.Sheet.Design.Rules
			b.Overlay.Hand.draft, crosses = nil, false
			if b.Overlay.Beside = "a tie, across an opening"; from.Dist(to) < leastDrawn {
				return
			}
			if e, crosses = b.ed.DrawnTie(from, to); crosses {
				b.Overlay.Beside = pattern.Say("tie %.2f mm long, %.2f mm wide", math.Hypot(e.SpanXMM, e.SpanYMM), e.TieWidth(rules))
			}
			b.Overlay.Hand.draft = pattern.TieOutline(pattern.TieLine(f, e, pattern.EditPosition{At: plane.Pt(e.At[0].XMM, e.At[0].YMM)}), e.TieWidth(rules))
		},
		drop: func() {
			b.Overlay.Hand.draft = nil
			if crosses {
				b.ed.Draw(e)
				b.doors.Moved()
			} else {
				b.ed.On.Say("No opening lies under it: drag across an opening, from metal to metal.")
			}
		},
	}
}

// tieClick begins a tie at a position, or ends the one that was begun: two clicks draw it as a
// drag does.
func (b *View) tieClick(at plane.Point) {
	if b.tie == nil {
		b.tie = b.grabTie(at)
		b.tie.move(at)
		return
	}
	t := b.tie
	b.tie = nil
	t.move(at)
	t.drop()
	b.Overlay.Beside = ""
}

// tieGiveUp forgets a tie that was begun by a click, and reports whether there was one.
func (b *View) tieGiveUp() bool {
	had := b.tie != nil
	if b.tie = nil; had {
		b.Overlay.Hand.draft, b.Overlay.Beside = nil, ""
		b.Redraw()
	}
	return had
}

// tieHandles are those of the tie that was picked last: its two ends, and its middle, which
// bends it.
func (b *View) tieHandles(s *app.Scene) []handle {
	e, p, ok := b.ed.PickedTie(b.ed.Now())
	if !ok {
		return nil
	}
	l := pattern.TieLine(s.Sheet.Flat, e, p)
	one := func(what, hint string, at plane.Point, do func(d *pattern.Design, to plane.Point)) handle {
		return handle{At: at, Name: "tie." + what, hint: hint, free: true, take: func() drag {
			change := b.ed.HoldTie(what)
			return drag{
				move: func(to plane.Point) {
					b.Overlay.Beside = change(func(d *pattern.Design) { do(d, to) })
				},
				drop: func() {
					b.ed.On.Picked()
					b.doors.Moved()
				},
			}
		}}
	}
	bow := one("bow", "Bend the tie.", l.Mid(), b.ed.TieBow)
	bow.round = true
	return []handle{
		one("from", "An end of the tie.", l.A, func(d *pattern.Design, to plane.Point) { b.ed.TieEnd(d, true, to) }),
		one("to", "An end of the tie.", l.B, func(d *pattern.Design, to plane.Point) { b.ed.TieEnd(d, false, to) }),
		bow,
	}
}
