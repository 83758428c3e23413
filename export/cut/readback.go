package cut

import (
	"fmt"
	"math"
	"strings"

	"fretband/export"
	"fretband/unroll/plane"
)

// A cut file counts as written only after its own bytes were read back and compared
// with the cutting plan (line by line, in order, vertex by vertex), and what was
// read was judged by itself: nothing open, double, crossed or turned round, nothing
// too short to run, lead-ins in the waste, areas as in the report.

// Distances by which a file is judged, mm.
const (
	// readNear is how far a vertex or arc that was read may lie from the plan's: far
	// over the rounding of the files (0.5e-10), far under what any machine can place.
	readNear = 1e-6
	// readMean is how far an edge may lie off on the mean, which moves the area by
	// that times the perimeter: ten times the rounding of the files.
	readMean = 1e-9
	// shortestEdge is the shortest edge that may be cut or engraved.
	shortestEdge = plane.LeastCut
	// leadEnd is how near to its end a lead-in may touch the edge that it leads
	// into, as one does that runs into it smoothly.
	leadEnd = 0.01
)

// purpose is what a line in a file is for.
type purpose int

const (
	forOpening purpose = iota
	forOutline
	forEngraving
	forEngravingInside
)

func (p purpose) String() string {
	return [...]string{"an opening", "an outline", "an engraved mark", "a mark engraved inside"}[p]
}

// engraves reports whether nothing is cut there.
func (p purpose) engraves() bool { return p == forEngraving || p == forEngravingInside }

// line is one line of a file: as it was read, or as the plan wants it.
type line struct {
	as     purpose
	copy   int // from 1, 0 if the file does not say
	number int // of the opening or engraving, from 1; 0 for an outline or if the file does not say
	named  bool
	edges  plane.Chain
	closed bool
	lead   int // of the edges, the first so many are its lead-in
}

// led returns the lead-in of a line, and cut the rest: what has to be an edge of the design.
func (l line) led() plane.Chain { return l.edges[:min(l.lead, len(l.edges))] }
func (l line) cut() plane.Chain { return l.edges[min(l.lead, len(l.edges)):] }

// round reports whether what is cut goes all round something: it is closed, or a lead-in
// leads into what comes back to where it began.
func (l line) round() bool {
	es := l.cut()
	return l.closed || l.lead > 0 && len(es) > 1 && es[len(es)-1].B.Dist(es[0].A) <= readNear
}

// readBack is what a file says.
type readBack struct {
	lines []line
	tube  bool // the outlines are those of bands cut from tube
	// paper is what the lines have to lie on, if the file has a size.
	paper plane.Box
}

// check judges what was read, or says why it could not be read. Its errors are
// [export.ReadBackError] without File.
func (f *Files) check(got readBack, err error) error {
	if err != nil {
		return &export.ReadBackError{What: err.Error()}
	}
	got.tube = Tube(f.sheet, f.options)
	if err := got.compare(f.plan); err != nil {
		return err
	}
	if err := got.onPaper(); err != nil {
		return err
	}
	if err := got.fitToCut(f.plan, f.sheet, f.report, f.options); err != nil {
		return err
	}
	return got.onSheet(f.plan, f.options)
}

func (b *readBack) move(v plane.Point) {
	for _, l := range b.lines {
		for i := range l.edges {
			e := &l.edges[i]
			e.A, e.B = e.A.Add(v), e.B.Add(v)
		}
	}
	if !b.paper.Empty() {
		b.paper = b.paper.Move(v)
	}
}

// onPaper checks that all that is cut lies in the size that the file says it has. Marks
// may run past the edge of a part; the report says so.
func (b *readBack) onPaper() error {
	if b.paper.Empty() {
		return nil
	}
	paper := b.paper.Grow(0.01) // its size is written to a hundredth
	for _, l := range b.lines {
		if l.as.engraves() {
			continue
		}
		for _, e := range l.edges {
			if x := paper.Union(e.Bounds()); x != paper {
				return l.wrong("lies outside of the paper, %s x %s mm", export.MM(b.paper.W()), export.MM(b.paper.H()))
			}
		}
	}
	return nil
}

// wrong is the error that names a line.
func (l line) wrong(format string, a ...any) error {
	what := fmt.Sprintf(format, a...)
	if l.as.engraves() {
		return &export.ReadBackError{What: fmt.Sprintf("mark %d: %s", l.number, what)}
	}
	return &export.ReadBackError{Copy: max(l.copy, 1), Opening: l.number, What: what}
}

// wants lists the lines that a file of the plan has to hold, in their order.
func (p cuttingPlan) wants() []line {
	var ls []line
	for _, m := range p.engraved {
		as := forEngraving
		if m.inside {
			as = forEngravingInside
		}
		for _, s := range m.strokes {
			ls = append(ls, line{as: as, copy: m.copy, number: m.number, edges: s.Edges(), closed: s.Closed})
		}
	}
	for _, c := range p.lines {
		as := forOpening
		if c.outline() {
			as = forOutline
		}
		if c.runs == nil {
			ls = append(ls, line{as: as, copy: c.copy, number: c.number, edges: c.loop.Edges(), closed: true})
		}
		for _, r := range c.runs {
			ls = append(ls, line{as: as, copy: c.copy, number: c.number, edges: r.path(), lead: len(r.lead)})
		}
	}
	return ls
}

// compare compares the lines with those that the plan wants, and gives them what a file does
// not say: copy, number, and how many edges their lead-in has.
func (b *readBack) compare(p cuttingPlan) error {
	want := p.wants()
	several := len(p.copies) > 1
	for i, w := range want {
		if i == len(b.lines) {
			return w.wrong("is missing: the file holds %d lines, the plan %d", len(b.lines), len(want))
		}
		if err := b.lines[i].differs(w, several); err != nil {
			return b.explain(i, want, several, err)
		}
		b.lines[i].copy, b.lines[i].number, b.lines[i].lead = w.copy, w.number, w.lead
	}
	if n := len(want); len(b.lines) > n {
		return b.explainMore(n, want, several)
	}
	return nil
}

// explain finds the reason why line i is not what the plan wants there: one that is
// missing, is twice or elsewhere; else it is what differs, err.
func (b *readBack) explain(i int, want []line, several bool, err error) error {
	has, wanted := -1, -1 // which the plan wants where line i is; where the file has what it wants here
	for j, w := range want {
		if j != i && b.lines[i].differs(w, several) == nil {
			has = j
			break
		}
	}
	for k := i + 1; k < len(b.lines); k++ {
		if b.lines[k].differs(want[i], several) == nil {
			wanted = k
			break
		}
	}
	switch {
	case has >= 0 && has < i:
		return want[has].wrong("stands twice in the file")
	case has > i && wanted > i:
		return want[i].wrong("stands after %s: the order of cutting is not the plan's", want[has].title())
	case wanted > i:
		return want[i].wrong("comes after a line that is not in the plan")
	case has > i:
		return want[i].wrong("is missing: the file holds %d lines, the plan %d", len(b.lines), len(want))
	}
	return err
}

// explainMore says what the first line after the last that the plan wants is.
func (b *readBack) explainMore(i int, want []line, several bool) error {
	for _, w := range want {
		if b.lines[i].differs(w, several) == nil {
			return w.wrong("stands twice in the file")
		}
	}
	return &export.ReadBackError{What: fmt.Sprintf("%d lines, the plan has %d", len(b.lines), len(want))}
}

func (l line) title() string {
	if l.as.engraves() {
		return fmt.Sprintf("mark %d", l.number)
	}
	return export.Whose(l.copy, l.number)
}

// differs says in what a line that was read is not the one wanted; nil if it is.
func (l line) differs(w line, several bool) error {
	switch {
	case l.as != w.as:
		return w.wrong("the file holds it as %s, it is %s", l.as, w.as)
	case l.named && (l.number != w.number || several && l.copy != w.copy):
		return w.wrong("the file names it %s", l.title())
	case len(l.edges) == 0:
		return w.wrong("has no edges")
	case l.closed && !w.closed:
		return w.wrong("is closed, but must be open")
	case !l.closed && w.closed:
		return w.wrong("is not closed")
	}
	var a, b float64
	l.lead = w.lead
	if w.round() {
		a, b = l.cut().Loop().Area(), w.cut().Loop().Area()
		if a*b < 0 && math.Abs(a+b) < 1e-3*math.Abs(b) {
			return w.wrong("runs %s, must run %s", sense(a), sense(b))
		}
	}
	perimeter, err := l.along(w)
	if err != nil {
		return err
	}
	if d := math.Abs(a - b); d > readMean*perimeter {
		return w.wrong("encloses %.10g mm², the plan's %.10g", math.Abs(a), math.Abs(b))
	}
	return nil
}

func sense(area float64) string {
	if area < 0 {
		return "clockwise"
	}
	return "counter-clockwise"
}

// along goes along both lines and returns their length. An arc of the plan may come in
// several parts, all else edge by edge.
func (l line) along(w line) (perimeter float64, err error) {
	k := 0
	for i, e := range w.edges {
		if k == len(l.edges) {
			return 0, w.wrong("ends after %d of its %d edges", i, len(w.edges))
		}
		if d := l.edges[k].A.Dist(e.A); d > readNear {
			return 0, w.wrong("vertex %d lies %.6f mm from where the plan has it", i+1, d)
		}
		first, length := k, 0.0
		for {
			f := l.edges[k]
			k++
			length += f.Len()
			if f.Bulge == 0 != (e.Bulge == 0) || f.Bulge*e.Bulge < 0 {
				return 0, w.wrong("edge %d is %s, the plan's %s", i+1, edgeKind(f), edgeKind(e))
			}
			if f.Bulge != 0 {
				if d := e.Dist(f.Mid()); d > readNear {
					return 0, w.wrong("edge %d, an arc, lies %.6f mm from where the plan has it", i+1, d)
				}
			}
			if f.B.Dist(e.B) <= readNear {
				break
			}
			if e.Bulge == 0 || k == len(l.edges) || k-first > 8 {
				vertex := i + 2
				if w.closed && i == len(w.edges)-1 {
					vertex = 1
				}
				return 0, w.wrong("vertex %d lies %.6f mm from where the plan has it", vertex, f.B.Dist(e.B))
			}
			if d := e.Dist(f.B); d > readNear {
				return 0, w.wrong("edge %d, an arc, lies %.6f mm from where the plan has it", i+1, d)
			}
		}
		if math.Abs(length-e.Len()) > 4*readNear {
			return 0, w.wrong("edge %d is %.6f mm long, the plan's %.6f mm", i+1, length, e.Len())
		}
		perimeter += length
	}
	if k != len(l.edges) {
		return 0, w.wrong("has %d edges more than the plan's", len(l.edges)-k)
	}
	return perimeter, nil
}

func edgeKind(e plane.Edge) string {
	switch {
	case e.Bulge == 0:
		return "a straight line"
	case e.Bulge < 0:
		return "a clockwise arc"
	}
	return "a counter-clockwise arc"
}

// words is a text in single words, so that line breaks do not matter.
func words(text string) string { return strings.Join(strings.Fields(text), " ") }
