package export

import (
	"fretband/unroll/plane"
)

// onSheet checks that what was read keeps its margin on the sheet of the plan, and
// that copies are as far apart as asked for.
func (b *readBack) onSheet(p cutPlan, o Options) error {
	if !o.onSheet() {
		return nil
	}
	room := p.sheet.Grow(preflightNear - o.margin())
	var shapes []plane.Loop // that lie outermost: outlines and their lead-ins
	var of []line
	for _, l := range b.lines {
		if l.as != forOutline && (l.as != forLead || l.number > 0) {
			continue
		}
		s := l.shape()
		if x := s.Bounds(); room.Union(x) != room {
			return l.wrong("is nearer than %s mm to the edge of the sheet of %s x %s mm", mm(o.margin()), mm(p.sheet.W()), mm(p.sheet.H()))
		}
		shapes, of = append(shapes, s), append(of, l)
	}
	for _, x := range plane.Pairs(shapes, o.gap()-preflightNear) {
		if i, k := of[x.I], of[x.J]; i.copy != k.copy {
			return k.wrong("is %.3f mm from %s: must be %s mm or more", x.D, i.title(), mm(o.gap()))
		}
	}
	return nil
}
