package export

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"fretband/export/pdf"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// printWords stand on every sheet of a template.
const printWords = "Print at 100 % (actual size). Do not scale or fit to page. Check the ruler and the square before sawing."

// Measures of a sheet of paper, mm: ours, but for the margin, inside which
// common printers print nothing (some 4 to 6 mm: common practice).
const (
	margin     = 10.0
	headHeight = 13.0
	footHeight = 26.0
	overlap    = 10.0 // of neighbouring sheets
	overhang   = 4.0  // of the centre lines over the blank
	endWords   = 5.0  // room under the blank for the words at its ends
)

// Places on every sheet, from its lower left corner: where a reader, or a test,
// finds the square and the ruler.
const (
	squareX, squareY, squareSide = margin, margin, 20.0
	rulerX, rulerY, rulerLength  = 40.0, 18.0, 50.0
	keyX                         = 100.0
)

var (
	edgePen    = pdf.Pen{Width: 0.15}
	outlinePen = pdf.Pen{Width: 0.2}
	markPen    = pdf.Pen{Width: 0.1}
	centrePen  = pdf.Pen{Width: 0.1, Dashes: []float64{4, 0.8, 0.6, 0.8}, Grey: 0.35}
	reservePen = pdf.Pen{Width: 0.1, Dashes: []float64{1, 0.7}}
	againPen   = pdf.Pen{Width: 0.1, Dashes: []float64{0.5, 0.5}}
	joinPen    = pdf.Pen{Width: 0.1, Dashes: []float64{2, 2}, Grey: 0.35}

	titleFont   = pdf.Font{Size: 4.6, Bold: true}
	strongFont  = pdf.Font{Size: 3.2, Bold: true}
	textFont    = pdf.Font{Size: 2.9}
	headingFont = pdf.Font{Size: 2.9, Bold: true}
	smallFont   = pdf.Font{Size: 2.3}
)

// writeTemplate writes the saw template: the finished edges at true size on as
// few sheets of paper as hold them, each with a ruler and a square by which the
// print is checked. The kerf of the cut files is not allowed for here: a saw
// goes beside the line.
func writeTemplate(w io.Writer, s *pattern.Sheet, r *check.Report, o Options) error {
	if err := o.Check(); err != nil {
		return err
	}
	t, err := newTemplate(s, r, o)
	if err != nil {
		return err
	}
	t.draw()
	_, err = t.doc.WriteTo(w)
	return err
}

// newTemplate lays the template out; nothing is drawn yet.
func newTemplate(s *pattern.Sheet, r *check.Report, o Options) (*template, error) {
	p, err := newPart(s, r, 0)
	if err != nil {
		return nil, err
	}
	doc, err := pdf.New(plain(s.Design.Name) + ", saw template")
	if err != nil {
		return nil, err
	}
	t := &template{doc: doc, sheet: s, report: r, options: o, part: p, words: map[wordIn]float64{}}
	t.marks = marks(s, func(text string, h float64) float64 { return doc.TextWidth(text, digits(h)) })
	// Where the ends of an arc lie rather than stand, there is no room beside them.
	if f := s.Flat; !f.Flared() || math.Abs(math.Cos(f.Length/2/f.Apex())) > 0.5 {
		t.labels = rowLabels(t.straightened())
	}
	t.lay()
	return t, nil
}

type template struct {
	doc     *pdf.Doc
	sheet   *pattern.Sheet
	report  *check.Report
	options Options
	part    part
	marks   []mark
	labels  []rowLabel

	paper        paper
	w, h         float64   // of the paper as it lies
	area         plane.Box // of the paper that shows the part
	content      plane.Box // of the blank's frame that has to be shown
	across, down int
	notes        []paragraph
	under        [][]noteLine // the notes, if they have room under the part
	words        map[wordIn]float64
}

// lay chooses how the paper lies and how many sheets there are.
func (t *template) lay() {
	t.paper, _ = sheetOfPaper(t.options.Paper)
	b := t.part.bounds()
	for _, l := range again(t.sheet) {
		b = b.Union(l.Bounds())
	}
	b = b.Grow(overhang)
	b.Min.Y -= endWords
	label := 0.0
	for _, l := range t.labels {
		label = max(label, t.doc.TextWidth(l.text, digits(l.height)))
	}
	b.Min.X -= label
	t.content = b

	type lie struct {
		w, h float64
	}
	lies := []lie{{t.paper.h, t.paper.w}, {t.paper.w, t.paper.h}}
	if b.H() > b.W() {
		lies[0], lies[1] = lies[1], lies[0]
	}
	fewest := 0
	for _, l := range lies {
		area := plane.Box{
			Min: plane.Pt(margin, margin+footHeight),
			Max: plane.Pt(l.w-margin, l.h-margin-headHeight),
		}
		cols, rows := sheets(b.W(), area.W()), sheets(b.H(), area.H())
		if fewest == 0 || cols*rows < fewest {
			fewest = cols * rows
			t.w, t.h, t.area, t.across, t.down = l.w, l.h, area, cols, rows
		}
	}
	t.notes = t.paragraphs()
	if fewest == 1 {
		t.under = t.fit(t.underPart())
	}
}

// sheets returns how many sheets that show `each` mm are needed for `all` mm
// when neighbours overlap.
func sheets(all, each float64) int {
	n := 1
	for float64(n)*each-float64(n-1)*overlap < all {
		n++
	}
	return n
}

// underPart returns the room under the part on a single sheet.
func (t *template) underPart() plane.Box {
	room := t.area
	room.Max.Y -= t.content.H() + 4
	return room
}

// draw draws all sheets: those of the part, then those of the notes, if these
// found no room under the part.
func (t *template) draw() {
	n := t.across * t.down
	var apart [][]noteLine
	if t.under == nil {
		apart = t.columns(columnWidth(t.area), t.area.H())
	}
	all := n + (len(apart)+1)/2
	for row := range t.down {
		for col := range t.across {
			t.doc.Page(t.w, t.h)
			t.drawPart(row, col)
			t.drawFrame(row*t.across+col+1, all, t.tile(row, col))
			t.drawJoins(row, col)
			t.drawNotes(t.underPart(), t.under)
		}
	}
	for i := 0; i < len(apart); i += 2 {
		t.doc.Page(t.w, t.h)
		t.drawFrame(n+i/2+1, all, "notes")
		t.drawNotes(t.area, apart[i:min(i+2, len(apart))])
	}
}

// tile names a sheet: rows are letters from the top, columns numbers.
func (t *template) tile(row, col int) string {
	if t.across*t.down == 1 {
		return ""
	}
	letter := ""
	for r := row; r >= 0; r = r/26 - 1 {
		letter = string(rune('A'+r%26)) + letter
	}
	return letter + strconv.Itoa(col+1)
}

// shift returns what carries the blank's frame to the page of a sheet. A single
// sheet has the part at the top; several have it in their middle.
func (t *template) shift(row, col int) plane.Point {
	w := float64(t.across)*t.area.W() - float64(t.across-1)*overlap
	h := float64(t.down)*t.area.H() - float64(t.down-1)*overlap
	left := t.content.Min.X - (w-t.content.W())/2 + float64(col)*(t.area.W()-overlap)
	top := t.content.Max.Y - float64(row)*(t.area.H()-overlap)
	if t.across*t.down > 1 {
		top += (h - t.content.H()) / 2
	}
	return plane.Pt(t.area.Min.X-left, t.area.Max.Y-top)
}

func (t *template) drawPart(row, col int) {
	v := t.shift(row, col)
	seen := t.area.Move(plane.Pt(-v.X, -v.Y))
	d := t.doc

	b := t.part.outline.Bounds()
	line := func(a, c plane.Point, p pdf.Pen) { d.Line(a.Add(v), c.Add(v), p) }
	d.Chain(t.middleLine(), false, v, centrePen)
	line(plane.Pt(0, b.Min.Y-overhang), plane.Pt(0, b.Max.Y+overhang), centrePen)
	for _, m := range t.sheet.Marks {
		if t.sheet.Design.Marks[m.Mark].Kind == pattern.TextMark {
			d.Fill(m.Frame, v, 1) // nor through a name
		}
	}
	for _, r := range t.sheet.Reserves {
		for _, l := range t.sheet.Again(r.Loop) {
			if !l.Bounds().Meets(seen) {
				continue
			}
			d.Loop(l, v, reservePen)
			if r.Reserve < len(t.sheet.Design.Reserves) {
				t.reserveWords(l, plain(t.sheet.Design.Reserves[r.Reserve].Note), v)
			}
		}
	}
	for _, h := range t.part.openings {
		if h.loop.Bounds().Meets(seen) {
			d.Fill(h.loop, v, 1) // no centre line through a number
			d.Loop(h.loop, v, edgePen)
		}
	}
	for _, l := range again(t.sheet) {
		d.Fill(l, v, 1)
		d.Loop(l, v, againPen)
	}
	for _, l := range t.part.outline {
		d.Loop(l, v, outlinePen)
	}
	for _, m := range t.part.marks {
		for _, s := range m.strokes {
			d.Chain(s.Edges(), s.Closed, v, engravePen)
		}
	}
	for _, m := range t.marks {
		if !seen.Holds(m.pilot) {
			continue
		}
		if arm := m.arm(); arm > 0.05 {
			line(plane.Pt(m.pilot.X-arm, m.pilot.Y), plane.Pt(m.pilot.X+arm, m.pilot.Y), markPen)
			line(plane.Pt(m.pilot.X, m.pilot.Y-arm), plane.Pt(m.pilot.X, m.pilot.Y+arm), markPen)
		}
		if m.numbered {
			d.Text(m.at.Add(v), strconv.Itoa(m.number), digits(m.height), pdf.Centre)
		}
	}
	for _, l := range t.labels {
		p := t.labelPlace(l)
		if seen.Holds(p) {
			f := digits(l.height)
			box := plane.Box{Min: plane.Pt(p.X-d.TextWidth(l.text, f), p.Y), Max: plane.Pt(p.X, p.Y+l.height)}
			d.Fill(plane.Rect(box.Grow(0.4)), v, 1)
			d.Text(p.Add(v), l.text, f, pdf.Right)
		}
	}
	t.endWords(b, v, seen)
}

// middleLine returns the line along the middle of the blank: the arc of a flared
// one.
func (t *template) middleLine() []plane.Edge {
	f := t.sheet.Flat
	if !f.Flared() {
		b := t.part.outline.Bounds()
		return []plane.Edge{{A: plane.Pt(b.Min.X-overhang, 0), B: plane.Pt(b.Max.X+overhang, 0)}}
	}
	const n = 4
	long := f.Length/2 + overhang
	es := make([]plane.Edge, n)
	for i := range es {
		at := func(i int) plane.Point { return f.Place(long*(2*float64(i)/n-1), 0) }
		// The arc turns by its length over the apex's distance, clockwise if that
		// lies below.
		es[i] = plane.Edge{A: at(i), B: at(i + 1), Bulge: math.Tan(2 * long / f.Apex() / n / 4)}
	}
	return es
}

// straightened returns the marks with their pilot holes along and across the
// middle line.
func (t *template) straightened() []mark {
	if !t.sheet.Flat.Flared() {
		return t.marks
	}
	ms := append([]mark(nil), t.marks...)
	for i := range ms {
		ms[i].pilot = plane.Pt(t.sheet.Flat.Where(ms[i].pilot))
	}
	return ms
}

// labelPlace returns where a row's label ends: left of the blank's left end.
func (t *template) labelPlace(l rowLabel) plane.Point {
	if f := t.sheet.Flat; f.Flared() {
		return f.Place(-f.Length/2-1.5, l.y).Sub(plane.Pt(0, l.height/2))
	}
	return plane.Pt(t.part.bounds().Min.X-1.5, l.y-l.height/2)
}

// reserveWords writes what a reserve is for into it, where there is room.
func (t *template) reserveWords(l plane.Loop, words string, v plane.Point) {
	b := l.Bounds()
	for _, size := range []float64{smallFont.Size, 1.9, 1.6} {
		f := pdf.Font{Size: size}
		// Over the middle, so that a centre line through it stays to be seen; a
		// circle is narrower up there.
		const over = 0.5
		w, up := t.doc.TextWidth(words, f)/2, over+f.CapHeight()
		c := b.Centre()
		if l.Contains(plane.Pt(c.X-w-0.3, c.Y+up+0.3)) && l.Contains(plane.Pt(c.X+w+0.3, c.Y+up+0.3)) {
			if t.engravedOver(plane.Box{Min: plane.Pt(c.X-w, c.Y+over), Max: plane.Pt(c.X+w, c.Y+up)}) {
				return // the notes tell what it is for
			}
			t.doc.Text(plane.Pt(c.X, c.Y+over).Add(v), words, f, pdf.Centre)
			return
		}
	}
}

// engravedOver reports whether a mark is drawn where words would stand.
func (t *template) engravedOver(b plane.Box) bool {
	for _, m := range t.part.marks {
		if m.bounds().Meets(b) {
			return true
		}
	}
	return false
}

// endWords says, under the blank, what its ends and its middle become.
func (t *template) endWords(b plane.Box, v plane.Point, seen plane.Box) {
	end := endLabel(t.sheet)
	y := b.Min.Y - overhang - smallFont.CapHeight() - 0.8
	ends := y
	if t.sheet.Flat.Apex() > 0 { // the arc's ends point up
		ends = b.Max.Y + 1.2
	}
	for _, w := range []struct {
		x, y  float64
		text  string
		align pdf.Align
	}{{b.Min.X, ends, end, pdf.Left}, {0, y, "middle", pdf.Centre}, {b.Max.X, ends, end, pdf.Right}} {
		if p := plane.Pt(w.x, w.y); seen.Holds(p) && !(w.align != pdf.Centre && b.W() < 2*t.doc.TextWidth(end, smallFont)+14) {
			t.doc.Text(p.Add(v), w.text, smallFont, w.align)
		}
	}
}

// endLabel says in a few words what an end of the blank becomes.
func endLabel(s *pattern.Sheet) string {
	end, bends := "end", "; bends away from you"
	if s.Design.Band.Making == unroll.Formed {
		bends = ""
	}
	switch {
	case s.Design.Band.Kind == unroll.Cuff:
	case s.Design.Band.Joint != unroll.Seamless:
		end = "joint"
	default:
		return "both ends are one place"
	}
	return end + bends
}

// drawFrame clears the edges of the sheet of what belongs to its neighbours and
// writes head and foot.
func (t *template) drawFrame(n, all int, tile string) {
	d := t.doc
	// A millimetre more than the sheet, so that no hairline stays at its very edge.
	page := plane.Box{Max: plane.Pt(t.w, t.h)}.Grow(1)
	for _, b := range []plane.Box{
		{Min: page.Min, Max: plane.Pt(page.Max.X, t.area.Min.Y)},
		{Min: plane.Pt(page.Min.X, t.area.Max.Y), Max: page.Max},
		{Min: page.Min, Max: plane.Pt(t.area.Min.X, page.Max.Y)},
		{Min: plane.Pt(t.area.Max.X, page.Min.Y), Max: page.Max},
	} {
		d.Fill(plane.Rect(b), plane.Point{}, 1)
	}
	top, right := t.h-margin, t.w-margin
	which := fmt.Sprintf("sheet %d of %d", n, all)
	if tile != "" {
		which = fmt.Sprintf("%s: %s", which, tile)
	}
	d.Text(plane.Pt(right, top-4), which, strongFont, pdf.Right)
	title := plain(t.sheet.Design.Name) + ": saw template"
	for t.doc.TextWidth(title, titleFont) > right-margin-t.doc.TextWidth(which, strongFont)-5 {
		rs := []rune(title)
		if len(rs) < 5 {
			break
		}
		title = string(rs[:len(rs)-4]) + "..."
	}
	d.Text(plane.Pt(margin, top-4), title, titleFont, pdf.Left)
	d.Text(plane.Pt(margin, top-9), printWords, strongFont, pdf.Left)

	t.drawSquare()
	t.drawRuler()
	t.drawKey()
}

func (t *template) drawSquare() {
	b := plane.Box{Min: plane.Pt(squareX, squareY), Max: plane.Pt(squareX+squareSide, squareY+squareSide)}
	t.doc.Loop(plane.Rect(b), plane.Point{}, edgePen)
	c := b.Centre()
	t.doc.Text(plane.Pt(c.X, c.Y-0.8), "20 x 20 mm", smallFont, pdf.Centre)
}

func (t *template) drawRuler() {
	d := t.doc
	at := plane.Pt(rulerX, rulerY)
	d.Line(at, at.Add(plane.Pt(rulerLength, 0)), edgePen)
	for i := 0; i <= rulerLength; i++ {
		tick := 2.0
		switch {
		case i%10 == 0:
			tick = 5
			d.Text(at.Add(plane.Pt(float64(i), tick+0.8)), strconv.Itoa(i), smallFont, pdf.Centre)
		case i%5 == 0:
			tick = 3.2
		}
		x := at.Add(plane.Pt(float64(i), 0))
		d.Line(x, x.Add(plane.Pt(0, tick)), markPen)
	}
	d.Text(at.Add(plane.Pt(rulerLength/2, -4)), "50 mm on the print, by a steel rule", smallFont, pdf.Centre)
}

// drawKey says what the lines mean.
func (t *template) drawKey() {
	type line struct {
		pen  pdf.Pen
		text string
	}
	lines := []line{
		{outlinePen, "finished edge: saw on the waste side (inside the openings, outside the outline)"},
		{markPen, "pilot hole"}, // a cross
		{centrePen, "centre line of the blank: not sawn"},
	}
	if len(t.sheet.Reserves) > 0 {
		lines = append(lines, line{reservePen, "area kept solid: not sawn"})
	}
	if len(t.part.marks) > 0 {
		lines = append(lines, line{engravePen, "thin grey line: engraved, not sawn"})
	}
	if overEnds(t.sheet) {
		lines = append(lines, line{againPen, "the same opening again, from the other end"})
	}
	if t.across*t.down > 1 {
		lines = append(lines, line{joinPen, "join here: cut one sheet along it, lay the ringed crosses on each other, tape"})
	}
	y := squareY + squareSide - 2
	step := min(4, (squareSide-2)/float64(len(lines)-1)) // all of them stand beside the square
	for i, l := range lines {
		at := plane.Pt(keyX, y-float64(i)*step)
		d, x := t.doc, at.Add(plane.Pt(4, 0.7))
		if i == 1 {
			d.Line(x.Add(plane.Pt(-pilotArm, 0)), x.Add(plane.Pt(pilotArm, 0)), l.pen)
			d.Line(x.Add(plane.Pt(0, -pilotArm)), x.Add(plane.Pt(0, pilotArm)), l.pen)
		} else {
			d.Line(at.Add(plane.Pt(0, 0.7)), at.Add(plane.Pt(8, 0.7)), l.pen)
		}
		d.Text(at.Add(plane.Pt(10, 0)), l.text, smallFont, pdf.Left)
	}
}

// drawJoins draws the lines along which sheets are joined, at the middle of the
// overlap, with two ringed crosses each that both sheets show at the same place
// of the part.
func (t *template) drawJoins(row, col int) {
	a := t.area
	cross := func(p plane.Point) {
		const arm, ring = 3.0, 1.8
		t.doc.Line(p.Add(plane.Pt(-arm, 0)), p.Add(plane.Pt(arm, 0)), edgePen)
		t.doc.Line(p.Add(plane.Pt(0, -arm)), p.Add(plane.Pt(0, arm)), edgePen)
		t.doc.Loop(plane.Circle(p, ring), plane.Point{}, markPen)
	}
	// Crosses stand this far from the ends of the line: outside the overlap of
	// the other direction, so that each belongs to one pair of sheets.
	inX, inY := 5.0, 5.0
	if t.across > 1 {
		inX += overlap
	}
	if t.down > 1 {
		inY += overlap
	}
	upright := func(x float64, words string, side pdf.Align) {
		t.doc.Line(plane.Pt(x, a.Min.Y), plane.Pt(x, a.Max.Y), joinPen)
		cross(plane.Pt(x, a.Min.Y+inY))
		cross(plane.Pt(x, a.Max.Y-inY))
		beside := 4.0
		if side == pdf.Right {
			beside = -beside
		}
		t.doc.Text(plane.Pt(x+beside, a.Max.Y-inY+1), words, smallFont, side)
	}
	level := func(y float64, words string) {
		t.doc.Line(plane.Pt(a.Min.X, y), plane.Pt(a.Max.X, y), joinPen)
		cross(plane.Pt(a.Min.X+inX, y))
		cross(plane.Pt(a.Max.X-inX, y))
		t.doc.Text(plane.Pt(a.Min.X+inX+4, y+0.7), words, smallFont, pdf.Left)
	}
	pair := func(r1, c1, r2, c2 int) string { return t.tile(r1, c1) + " joins " + t.tile(r2, c2) }
	if col > 0 {
		upright(a.Min.X+overlap/2, pair(row, col-1, row, col), pdf.Left)
	}
	if col < t.across-1 {
		upright(a.Max.X-overlap/2, pair(row, col, row, col+1), pdf.Right)
	}
	if row > 0 {
		level(a.Max.Y-overlap/2, pair(row-1, col, row, col))
	}
	if row < t.down-1 {
		level(a.Min.Y+overlap/2, pair(row, col, row+1, col))
	}
}

// paragraph is a piece of the notes.
type paragraph struct {
	heading bool
	text    string
}

func (t *template) paragraphs() []paragraph {
	ps := []paragraph{{true, "Saw and drill"}}
	for _, l := range SawAdvice(t.report) {
		ps = append(ps, paragraph{false, l})
	}
	ps = append(ps, paragraph{true, "The part"})
	// The template is for the saw whatever the cut files are for.
	o := t.options
	o.KerfMM, o.Process = 0, Saw
	for _, f := range Facts(t.sheet, t.report, o) {
		ps = append(ps, paragraph{false, f.String()})
	}
	if t.options.KerfMM > 0 {
		ps = append(ps, paragraph{false, fmt.Sprintf("The cut files allow for a kerf of %s mm; this template does not.", mm(t.options.KerfMM))})
	}
	ps = append(ps, paragraph{true, "Cautions"})
	for _, c := range Cautions(t.sheet, t.report, o) {
		ps = append(ps, paragraph{false, c})
	}
	return ps
}

// Measures of the notes, mm: ours.
const (
	columnGap  = 8.0
	lineHeight = 3.9
	paraGap    = 0.9
)

// columns breaks the notes into columns of the given width, none taller than
// height. A paragraph is not broken, unless it is taller than a column, and a
// heading stays with what it heads.
func (t *template) columns(width, height float64) [][]noteLine {
	var cols [][]noteLine
	var col []noteLine
	y := 0.0
	for i, p := range t.notes {
		f := textFont
		if p.heading {
			f = headingFont
			if y > 0 {
				y += 2 * paraGap
			}
		}
		lines := t.breakLine(p.text, f, width)
		need := float64(len(lines)) * lineHeight
		if p.heading && i+1 < len(t.notes) {
			need += paraGap + lineHeight
		}
		if y > 0 && y+need > height {
			cols, col, y = append(cols, col), nil, 0
		}
		for _, l := range lines {
			if y > 0 && y+lineHeight > height {
				cols, col, y = append(cols, col), nil, 0
			}
			col = append(col, noteLine{y, l, f})
			y += lineHeight
		}
		y += paraGap
	}
	return append(cols, col)
}

// fit returns the notes in at most two columns as short as they can be, or
// nothing if the room does not hold them.
func (t *template) fit(room plane.Box) [][]noteLine {
	for h := 10.0; h <= room.H(); h += lineHeight / 2 {
		if cols := t.columns(columnWidth(room), h); len(cols) <= 2 {
			return cols
		}
	}
	return nil
}

func columnWidth(room plane.Box) float64 { return (room.W() - columnGap) / 2 }

type noteLine struct {
	y    float64
	text string
	font pdf.Font
}

func (t *template) breakLine(text string, f pdf.Font, width float64) []string {
	const indent = "   "
	space := t.wordWidth(" ", f)
	var lines []string
	line, used := "", 0.0
	for _, word := range strings.Fields(text) {
		w := t.wordWidth(word, f)
		switch {
		case line == "":
			line, used = word, w
		case used+space+w > width:
			lines = append(lines, line)
			line, used = indent+word, float64(len(indent))*space+w
		default:
			line += " " + word
			used += space + w
		}
	}
	return append(lines, line)
}

// wordWidth measures each word once: most of the notes are the same few words.
func (t *template) wordWidth(word string, f pdf.Font) float64 {
	k := wordIn{word, f}
	w, ok := t.words[k]
	if !ok {
		w = t.doc.TextWidth(word, f)
		t.words[k] = w
	}
	return w
}

type wordIn struct {
	word string
	font pdf.Font
}

func (t *template) drawNotes(room plane.Box, cols [][]noteLine) {
	for i, c := range cols {
		x := room.Min.X + float64(i)*(columnWidth(room)+columnGap)
		for _, l := range c {
			t.doc.Text(plane.Pt(x, room.Max.Y-l.y-l.font.Size), l.text, l.font, pdf.Left)
		}
	}
}
