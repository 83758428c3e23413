package template

import (
	"fmt"
	"strconv"
	"strings"

	"fretband/export"
	"fretband/export/pdf"
	"fretband/pattern/check"
	"fretband/unroll/plane"
)

// paragraph is a piece of the notes: a text, or a row of a table.
type paragraph struct {
	heading bool
	text    string
	cells   []string // of a row of the drill table
	bold    bool
	breach  bool // set large, with a bar beside it
}

// leads reports whether the paragraph stays with the next one.
func (p paragraph) leads() bool { return p.heading || p.bold }

// tabGap is between two columns of the drill table, mm: ours.
const tabGap = 3.5

// drillTabs are the positions of the drill table's columns: each is as wide as its widest cell.
func (t *template) drillTabs() []float64 {
	tabs := make([]float64, 4)
	for _, p := range t.notes {
		for i := range max(0, len(p.cells)-1) {
			tabs[i+1] = max(tabs[i+1], t.doc.TextWidth(p.cells[i], headingFont)+tabGap)
		}
	}
	for i := range tabs[1:] {
		tabs[i+1] += tabs[i]
	}
	return tabs
}

func (t *template) paragraphs() []paragraph {
	var ps, findings []paragraph
	for _, f := range export.FindingFacts(t.report) {
		if f.Breach {
			ps = append(ps, paragraph{breach: true, text: f.String()})
		} else {
			findings = append(findings, paragraph{text: f.String()})
		}
	}
	ps = append(ps, paragraph{heading: true, text: "Saw and drill"})
	say := func(text string) { ps = append(ps, paragraph{text: text}) }
	for _, l := range sawAdvice(t.report) {
		say(l)
	}
	if len(t.drills)+len(t.drilled) > 0 {
		ps = append(ps, paragraph{heading: true, text: "Drill table"})
		ps = append(ps, t.drillTable()...)
	}
	if export.Bends(t.sheet) {
		ps = append(ps, paragraph{heading: true, text: "Bend"})
		say("This side is the outside of the band: glue the template on so that you see the outer face. Both ends bend away from you.")
	}
	if t.part != t.sheet {
		ps = append(ps, paragraph{heading: true, text: "Wrap"})
		for _, l := range t.wrapWords() {
			say(l)
		}
	}
	ps = append(ps, paragraph{heading: true, text: "The part"})
	o := t.options
	o.KerfMM = 0
	for _, f := range export.PartFacts(t.part, t.report, o) {
		say(f.String())
	}
	ps = append(ps, findings...)
	if t.options.KerfMM > 0 {
		say(fmt.Sprintf("The cut files allow for a kerf of %s mm; this template does not.", export.MM(t.options.KerfMM)))
	}
	ps = append(ps, paragraph{heading: true, text: "Cautions"})
	by := t.part
	if by.Process == "" { // who holds a template saws
		by = by.CutBy(export.Saw)
	}
	for _, c := range export.Cautions(by, t.report, o) {
		// The law on what is sold is the job sheet's.
		if !strings.HasPrefix(c, "Hallmark: ") && !strings.HasPrefix(c, "Cadmium and lead: ") {
			say(c)
		}
	}
	return ps
}

// breaches returns how many rules are broken that nobody has accepted.
func (t *template) breaches() int {
	n := 0
	for _, f := range t.report.Findings {
		if f.Broken() {
			n++
		}
	}
	return n
}

// drillClear is how far a drill stays from the line, mm: ours, about as far as it wanders.
const drillClear = 0.05

// drillTable says which openings are entered with which drill.
func (t *template) drillTable() []paragraph {
	ps := []paragraph{{cells: []string{"Blade", "Drill at least", "at most", "Openings"}, bold: true}}
	ps = append(ps, t.holeRows()...)
	if len(t.drills) == 0 {
		return ps
	}
	finer, shut := false, false
	for _, g := range t.drills {
		row := []string{"none", "no listed blade gets in", "", ranges(g.Openings)}
		if g.Blade != "" {
			row[0], row[1] = g.Blade, strings.Replace(export.Plain(g.Drill), ", or metric", " or", 1)
			if most, ok := check.LargestDrill(t.roomOf(g.Openings)); ok && most.NumberMM >= g.MM {
				row[2] = "no. " + strconv.Itoa(most.Number)
			} else {
				row[2] = "just fits"
			}
			finer = finer || g.Blade != t.report.Blade.Size
		} else {
			shut = true
		}
		row[3] = export.HowMany(g.Count, "opening", "openings") + ": " + row[3]
		ps = append(ps, paragraph{cells: row})
	}
	ps = append(ps, paragraph{text: fmt.Sprintf("At least: lets the blade's diagonal in. At most: the largest number drill up to no. 40 that stays %s mm inside every line. "+
		"Drill numbers by ANSI/ASME B94.11M.", export.MM(drillClear))})
	if finer {
		ps = append(ps, paragraph{text: fmt.Sprintf("Openings of the rows below the first one shown for blade %s are too small for it: change to the finer blade named. A finer blade goes wherever a coarser one does: to change blades less often, take the finest of several rows for all of them.", t.report.Blade.Size)})
	}
	if shut {
		ps = append(ps, paragraph{text: "Openings without a blade can't be sawn: make them larger, leave them solid, or have them cut by laser."})
	}
	return ps
}

// roomOf returns the diameter of the largest circle that has room, clear of the line, in
// each of the openings.
func (t *template) roomOf(numbers []int) float64 {
	least := t.pilotMarks[numbers[0]-1].room
	for _, n := range numbers {
		least = min(least, t.pilotMarks[n-1].room)
	}
	return 2 * (least - drillClear)
}

// ranges writes ascending numbers in ranges, the first of them if there are many.
func ranges(numbers []int) string {
	const most = 60
	var words []string
	for i := 0; i < len(numbers); {
		j := i
		for j+1 < len(numbers) && numbers[j+1] == numbers[j]+1 {
			j++
		}
		if len(words) == most {
			return strings.Join(words, ", ") + fmt.Sprintf(" and %d more", len(numbers)-i)
		}
		w := strconv.Itoa(numbers[i])
		if j > i {
			w += "-" + strconv.Itoa(numbers[j])
		}
		words = append(words, w)
		i = j + 1
	}
	return strings.Join(words, ", ")
}

// Measures of the notes, mm: ours.
const (
	columnGap  = 8.0
	lineHeight = 3.4
	paraGap    = 0.6
	breachBar  = 4.0 // room for the bar before what breaks a rule
)

// noteLine is a line of the notes in its column, x from the left and y from the top.
type noteLine struct {
	x, y float64
	text string
	font pdf.Font
	bar  bool // before it, of what breaks a rule
}

// lines breaks a paragraph into lines, one under the other; cells of a row
// stand in one line.
func (t *template) lines(p paragraph, width float64) [][]noteLine {
	font := textFont
	switch {
	case p.leads():
		font = headingFont
	case p.breach:
		font = strongFont
		width -= breachBar
	}
	if p.cells == nil {
		var out [][]noteLine
		for _, l := range t.breakLine(p.text, font, width) {
			line := noteLine{text: l, font: font}
			if p.breach {
				line.x, line.bar = breachBar, true
			}
			out = append(out, []noteLine{line})
		}
		return out
	}
	last, drillTabs := len(p.cells)-1, t.drillTabs()
	var first []noteLine
	for i, c := range p.cells[:last] {
		first = append(first, noteLine{x: drillTabs[i], text: c, font: font})
	}
	out := [][]noteLine{first}
	for i, l := range t.breakLine(p.cells[last], font, width-drillTabs[last]) {
		if i > 0 {
			out = append(out, nil)
		}
		out[i] = append(out[i], noteLine{x: drillTabs[last], text: l, font: font})
	}
	return out
}

// columns breaks the notes into columns of the given width and height. A paragraph is not
// broken, unless it is taller than a column, and a heading stays with what it heads.
func (t *template) columns(width, height float64) [][]noteLine {
	var cols [][]noteLine
	var col []noteLine
	y := 0.0
	for i, p := range t.notes {
		if p.heading && y > 0 {
			y += 2 * paraGap
		}
		lines := t.lines(p, width)
		need := float64(len(lines)) * lineHeight
		for k := i; t.notes[k].leads() && k+1 < len(t.notes); k++ {
			need += paraGap + float64(len(t.lines(t.notes[k+1], width)))*lineHeight
		}
		if y > 0 && y+need > height {
			cols, col, y = append(cols, col), nil, 0
		}
		for _, l := range lines {
			if y > 0 && y+lineHeight > height {
				cols, col, y = append(cols, col), nil, 0
			}
			for _, piece := range l {
				piece.y = y
				col = append(col, piece)
			}
			y += lineHeight
		}
		y += paraGap
	}
	return append(cols, col)
}

// placeNotes finds room for the notes: under the part, in two or three columns as short as
// possible, or all of them on sheets of their own, so that nobody looks for the rest of half
// of them.
func (t *template) placeNotes(under plane.Box) (here, apart [][]noteLine) {
	for n := 2; n <= 3; n++ {
		for h := 10.0; h <= under.H(); h += lineHeight / 2 {
			if cols := t.columns(columnWidth(under, n), h); len(cols) <= n {
				return cols, nil
			}
		}
	}
	all := t.notesArea()
	apart = t.columns(columnWidth(all, 2), all.H())
	for h := 10.0; len(apart) == 2 && h < all.H(); h += lineHeight / 2 {
		if cols := t.columns(columnWidth(all, 2), h); len(cols) == 2 {
			return nil, cols
		}
	}
	return nil, apart
}

// columnWidth is the width of each of n columns.
func columnWidth(room plane.Box, n int) float64 {
	return (room.W() - columnGap*float64(n-1)) / float64(n)
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
		x := room.Min.X + float64(i)*(columnWidth(room, max(2, len(cols)))+columnGap)
		for _, l := range c {
			if l.bar {
				b := plane.Box{Min: plane.Pt(x, room.Max.Y-l.y-lineHeight+0.2), Max: plane.Pt(x+1.8, room.Max.Y-l.y+0.2)}
				t.doc.Fill(plane.Rect(b), plane.Point{}, 0)
			}
			t.doc.Text(plane.Pt(x+l.x, room.Max.Y-l.y-l.font.Size), l.text, l.font, pdf.Left)
		}
	}
}

// sawAdvice returns what the saw needs to know: the side of the line, the order
// of work, blade and drill. Common practice, and the report's advice on blades.
func sawAdvice(r *check.Report) []string {
	b := r.Blade
	lines := []string{
		"Drill a pilot hole at each small cross. Saw on the waste side, inside the openings and outside the outline; leave the line and file to it.",
		"Saw the openings in the order of their numbers, small before large and from the middle outwards, so that the sheet stays stiff; the outline last (common practice).",
	}
	if b.Size != "" {
		text := fmt.Sprintf("Blade %s (about %s x %s mm)", b.Size, export.MM(b.ThickMM), export.MM(b.WidthMM))
		if b.PilotMM > 0 {
			text += fmt.Sprintf("; pilot hole %s mm or more", export.MM(b.PilotMM))
		}
		if b.Drill != "" {
			text += "; " + export.Plain(b.Drill)
		}
		lines = append(lines, text+".")
	}
	if b.Advice != "" {
		lines = append(lines, export.Plain(b.Advice))
	}
	return lines
}

// breakLine breaks text into lines; those after the first are indented.
func (t *template) breakLine(text string, f pdf.Font, width float64) []string {
	const indent = "   "
	space := t.wordWidth(" ", f)
	b := export.Breaker[string]{
		Width: func(w string) float64 { return t.wordWidth(w, f) },
		Space: space, Room: width, Indent: float64(len(indent)) * space,
	}
	var lines []string
	for i, l := range b.Lines(0, strings.Fields(text)) {
		words := make([]string, len(l))
		for k, w := range l {
			words[k] = w.Word
		}
		line := strings.Join(words, " ")
		if i > 0 {
			line = indent + line
		}
		lines = append(lines, line)
	}
	return lines
}
