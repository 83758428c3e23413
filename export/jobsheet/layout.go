package jobsheet

import (
	"math"
	"slices"
	"strings"

	"fretband/export"
	"fretband/export/pdf"
	"fretband/unroll/plane"
)

// Measures of job sheets, mm: ours.
const (
	jobMargin  = 12.0
	jobGap     = 6.0 // between the columns of text
	jobFoot    = 5.0 // kept for the line at the foot
	jobTop     = 14.0
	jobCaption = 4.5
	// jobLeading is from line to line, as a share of the letters' size.
	jobLeading = 1.26
	// jobLabel is the column of the facts' labels, in sizes of a letter.
	jobLabel = 9.0
)

// jobPaper is the paper of a job sheet: the template's, but A4 or Letter where that
// is a larger one.
func jobPaper(o export.Options) export.Paper {
	p, _ := export.SheetOf(o.Paper)
	switch p.Name {
	case export.A3:
		p, _ = export.SheetOf(export.A4)
	case export.Tabloid, export.Legal:
		p, _ = export.SheetOf(export.Letter)
	}
	return p
}

// jobType measures words in the faces of the sheet.
type jobType struct {
	doc    *pdf.Doc
	widths map[jobWord]float64 // at a size of 1 mm
}

type jobWord struct {
	text string
	bold bool
}

func (t *jobType) width(w jobWord, size float64) float64 {
	v, ok := t.widths[w]
	if !ok {
		const at = 10
		v = t.doc.TextWidth(w.text, pdf.Font{Size: at, Bold: w.bold}) / at
		t.widths[w] = v
	}
	return v * size
}

// jobLine is one line of a column.
type jobLine []export.Placed[jobWord]

// jobPara is a paragraph broken into lines.
type jobPara struct {
	lines         []jobLine
	size, leading float64
	before        float64 // space above it, but at the top of a column
	keep          bool    // with the next one
}

func (p jobPara) high() float64 { return float64(len(p.lines)) * p.leading }

// broken breaks an entry into lines for a column.
func (t *jobType) broken(e jobEntry, size, wide float64) jobPara {
	p := jobPara{size: size, before: 0.22 * size}
	indent, first := 0.0, 0.0
	switch e.kind {
	case jobHeading:
		p.size, p.before, p.keep = 1.2*size, 0.9*size, true
		e.label, e.text = e.text, ""
	case jobFact:
		indent, first = jobLabel*size, jobLabel*size
	case jobReason, jobSum:
		indent, first = 1.2*size, 1.2*size
		p.before = 0
		if e.kind == jobSum { // so that a checksum takes one line
			p.size, indent, first = 0.8*size, 0.5*size, 0.5*size
		}
	case jobFile:
		p.keep = true
	}
	p.leading = jobLeading * p.size
	space := t.width(jobWord{"m m", false}, p.size) - 2*t.width(jobWord{"m", false}, p.size)
	breaker := export.Breaker[jobWord]{
		Width: func(w jobWord) float64 { return t.width(w, p.size) },
		Space: space, Room: wide, Indent: indent,
		Cut: func(w jobWord, room float64) (head, tail jobWord, more bool) {
			head, tail = t.cut(w, p.size, room)
			return head, tail, tail.text != ""
		},
	}
	var words []jobWord
	if e.kind != jobFact {
		for _, w := range strings.Fields(e.label) {
			words = append(words, jobWord{w, true})
		}
	}
	for _, w := range strings.Fields(e.text) {
		words = append(words, jobWord{w, false})
	}
	for _, l := range breaker.Lines(first, words) {
		p.lines = append(p.lines, l)
	}
	if e.kind == jobFact { // its label is in a column of its own
		label := jobWord{e.label, true}
		if t.width(label, p.size) > indent-space {
			label, _ = t.cut(label, p.size, indent-space)
		}
		if len(p.lines) == 0 {
			p.lines = []jobLine{nil}
		}
		p.lines[0] = append(jobLine{{Word: label}}, p.lines[0]...)
	}
	return p
}

// cut cuts a word where it fills a width, after at least one letter.
func (t *jobType) cut(w jobWord, size, wide float64) (head, tail jobWord) {
	rs := []rune(w.text)
	n, x := 0, 0.0
	for n < len(rs) {
		// The faces have no kerning, so that a word is as wide as its letters.
		x += t.width(jobWord{string(rs[n]), w.bold}, size)
		if x > wide && n > 0 {
			break
		}
		n++
	}
	return jobWord{string(rs[:n]), w.bold}, jobWord{string(rs[n:]), w.bold}
}

// flow fills columns of these heights one after another and reports whether everything
// fits. A paragraph that does not fit goes on in the next column: whole if it is short.
func flow(ps []jobPara, columns []float64) (filled [][]jobPara, ok bool) {
	const whole = 8 // lines
	filled = make([][]jobPara, len(columns))
	c, y := 0, 0.0
	next := func() bool { c, y = c+1, 0; return c < len(columns) }
	for i := 0; i < len(ps); i++ {
		p := ps[i]
		for {
			before := p.before
			if y == 0 {
				before = 0
			}
			need := before + p.high()
			if p.keep && i+1 < len(ps) {
				after := ps[i+1]
				if n := len(after.lines); n > whole {
					after.lines = after.lines[:3]
				}
				need += after.before + after.high()
			}
			if y+need <= columns[c]+1e-9 {
				p.before = before
				filled[c] = append(filled[c], p)
				y += before + p.high()
				break
			}
			if n := int((columns[c] - y - before) / p.leading); len(p.lines) > whole && n >= 3 {
				n = min(n, len(p.lines)-2)
				head := p
				head.lines, head.before = p.lines[:n], before
				filled[c] = append(filled[c], head)
				p.lines = p.lines[n:]
			} else if y == 0 {
				return filled, false // not even an empty column holds it
			}
			if !next() {
				return filled, false
			}
		}
	}
	return filled, true
}

// jobTry is one way of setting a job sheet.
type jobTry struct {
	pages       int
	size        float64 // of letters, mm
	blank, side float64 // height of the figures at most, mm
	limits      jobLimits
}

// jobTries are ways of setting a job sheet, of which the first that fits is used: one page
// if letters stay readable, then two, then with fewer words on findings that are of one
// kind, then on fewer kinds. 2.4 mm are 6.8 points.
func jobTries() []jobTry {
	ts := []jobTry{
		{1, 3.0, 62, 48, jobLimits{}}, {1, 2.8, 62, 48, jobLimits{}}, {1, 2.8, 48, 40, jobLimits{}}, {1, 2.6, 46, 38, jobLimits{}},
		{2, 3.0, 80, 56, jobLimits{}}, {2, 2.8, 70, 50, jobLimits{}}, {2, 2.6, 62, 46, jobLimits{}}, {2, 2.4, 56, 44, jobLimits{}},
		{2, 2.6, 62, 46, jobLimits{each: 12}}, {2, 2.6, 62, 46, jobLimits{each: 6}}, {2, 2.4, 56, 44, jobLimits{each: 12}}, {2, 2.4, 56, 44, jobLimits{each: 6}},
		{2, 2.8, 62, 48, jobLimits{each: 3}}, {2, 2.6, 62, 46, jobLimits{each: 3}}, {2, 2.4, 56, 44, jobLimits{each: 3}},
		{2, 2.6, 56, 44, jobLimits{each: 1}}, {2, 2.4, 50, 40, jobLimits{each: 1}},
	}
	for _, n := range []int{24, 16, 12, 8, 4, 2, 1} {
		ts = append(ts, jobTry{2, 2.4, 46, 38, jobLimits{each: 1, kinds: n}})
	}
	return ts
}

// jobLayout is a job sheet with everything in its place.
type jobLayout struct {
	jobTry
	paper   export.Paper
	wide    float64 // between the margins
	blank   figure
	profile figure
	section figure
	bentW   float64 // of the picture, and its height
	bentH   float64
	title   float64 // size of its letters
	entries []jobEntry
	columns [][]jobPara // two a page
	top     float64     // height of title and figures, mm
}

// column is the width of a column of text.
func (l jobLayout) column() float64 { return (l.wide - jobGap) / 2 }

// layOut finds how to set the job sheet. With ownType it is set in the typeface that is
// measured here; otherwise letters count as wide as those of the widest common face.
func (j job) layOut(t *jobType, o export.Options, aspect float64, ownType bool) jobLayout {
	spare, higher := 1.0, 1.0
	if !ownType {
		spare, higher = 1.15, 1.04
	}
	var l jobLayout
	var last jobLimits
	var positions []numbered
	for i, try := range jobTries() {
		if i == 0 || try.limits != last {
			l.entries, positions = j.entries(try.limits, ownType)
			last = try.limits
		}
		l.jobTry = try
		l.paper = jobPaper(o)
		l.wide = l.paper.W - 2*jobMargin
		l.figures(j, aspect)
		var ps []jobPara
		for _, e := range l.entries {
			ps = append(ps, t.broken(e, try.size, l.column()/spare))
		}
		page := l.paper.H - 2*jobMargin - jobFoot
		first := (page - l.top) / higher
		heights := []float64{first, first, page / higher, page / higher}[:2*try.pages]
		columns, ok := flow(ps, heights)
		if !ok {
			continue
		}
		l.columns = even(ps, heights, columns)
		break
	}
	l.title = l.titleSize(t, j.title, spare)
	l.blank = blankFigure(j.sheet, j.report, l.wide, l.jobTry.blank, positions)
	return l
}

// even makes the two columns of the last page equally long.
func even(ps []jobPara, heights []float64, columns [][]jobPara) [][]jobPara {
	n := len(heights)
	if n == 4 && len(columns[2]) == 0 {
		return columns
	}
	plane.Halve(0, heights[n-1], 12, func(high float64) bool {
		c, ok := flow(ps, slices.Concat(heights[:n-2], []float64{high, high}))
		if ok {
			columns = c
		}
		return !ok
	})
	return columns
}

// figures sets the heights of what is above the text. Only the frame of the blank is
// worked out, its openings are drawn once all is known.
func (l *jobLayout) figures(j job, aspect float64) {
	b := j.sheet.Flat.Outline.Bounds()
	l.blank = fitted("", b, l.wide, l.jobTry.blank, 2, func(f *figure) { blankFrame(f, j.sheet, j.report, b) })
	const gap = 5
	third := (l.wide - 2*gap) / 3
	l.bentW = math.Min(third+4, l.side*aspect)
	l.bentH = l.bentW / aspect
	rest := l.wide - l.bentW - 2*gap
	l.profile = profileFigure(j.sheet, rest*0.62, l.side)
	l.section = sectionFigure(j.sheet, j.report, rest*0.38, l.side)
	l.top = jobTop + l.blank.box.H() + jobCaption + 2 + l.row() + jobCaption + 2
}

// titleSize is the size in which the title takes one line, mm.
func (l jobLayout) titleSize(t *jobType, title string, spare float64) float64 {
	const usual = 5.2
	return math.Min(usual, l.wide/(t.width(jobWord{title, true}, 1)*spare*spare))
}

// row is the height of the figures beside each other.
func (l jobLayout) row() float64 {
	return math.Max(l.bentH, math.Max(l.profile.box.H(), l.section.box.H()))
}

// draw writes a column with its top at y.
func (t *jobType) draw(ps []jobPara, x, y float64) {
	for _, p := range ps {
		y -= p.before
		for _, line := range p.lines {
			y -= p.leading
			for i := 0; i < len(line); {
				// Words of one face go out as one text, so that a reader finds phrases.
				k := i + 1
				text, bold := line[i].Word.text, line[i].Word.bold
				for k < len(line) && line[k].Word.bold == bold {
					text += " " + line[k].Word.text
					k++
				}
				t.doc.Text(plane.Pt(x+line[i].X, y+0.2*p.size), text, pdf.Font{Size: p.size, Bold: bold}, pdf.Left)
				i = k
			}
		}
	}
}
