package export

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"html"
	"io"
	"math"
	"strings"

	"fretband/export/pdf"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
	"fretband/unroll/plane"
)

// ContentNumber names the content of a design: the first eight digits of the
// SHA-256 (FIPS 180-4) of its file. All files that are made of one design carry the
// same number, and any change of the design changes it. It is empty for a design that
// can't be saved.
func ContentNumber(d pattern.Design) string {
	var b strings.Builder
	d.Variants = nil // they are not what is handed over
	if project.Write(&b, d) != nil {
		return "" // it can't be saved, so there is no file to be named
	}
	sum := sha256.Sum256([]byte(b.String()))
	return strings.ToUpper(hex.EncodeToString(sum[:4]))
}

func contentWords(d pattern.Design) string {
	if n := ContentNumber(d); n != "" {
		return "content number " + n
	}
	return ""
}

// FileSum is a file that goes with a job sheet.
type FileSum struct {
	Name, What, SHA256 string
	Bytes              int
}

// job is what stands on a job sheet, in its order.
type job struct {
	title, subtitle string
	facts           []Fact
	findings        []jobFinding
	cautions        []string
	files           []FileSum
	blank           figure
	profile         figure
	section         figure
	letter          float64 // of the blank's figures, mm of the part
	small           float64 // of the others'
}

type jobFinding struct{ label, what, mend, reason string }

func newJob(s *pattern.Sheet, r *check.Report, o Options) job {
	r = check.Deepen(s, r)
	j := job{
		title:    plain(s.Design.Name),
		subtitle: strings.Join(nonEmpty("Job sheet", contentWords(s.Design), plain(o.Date)), ", "),
		facts:    partFacts(s, r, o),
		cautions: Cautions(s, r, o), files: o.Files,
	}
	if r.Cost > 0 {
		j.facts = append(j.facts, Fact{"Cost of metal", fmt.Sprintf("%.2f %s left in the band, %.2f %s plain", r.Cost, plain(r.Currency), r.PlainCost, plain(r.Currency))})
	}
	j.facts = append(j.facts,
		Fact{"Least section", fmt.Sprintf("%.2f of %.2f mm of metal at x %s", r.Net.WeakNet, r.Net.WeakFull, mm(r.Net.WeakX))},
		Fact{"Bent", fmt.Sprintf("%.1f x %.1f x %.1f mm outside; least inner radius %.1f mm", r.Hang.Width, r.Hang.Height, r.Hang.Depth, r.Hang.LeastRadius)})
	for _, f := range r.Findings {
		if f.Severity == check.Note {
			continue
		}
		j.findings = append(j.findings, jobFinding{severityWord(f), plain(f.What), plain(f.Mend), plain(f.Accepted)})
	}
	b := s.Flat.Outline.Bounds()
	j.letter = math.Max(b.W()/75, 0.6)
	j.blank = blankFigure(s, r, j.letter)
	j.small = math.Max(math.Max(r.Hang.Width, r.Hang.Height)/26, 0.5)
	j.profile = profileFigure(s, j.small)
	j.section = sectionFigure(s, r, j.small)
	return j
}

func nonEmpty(words ...string) []string {
	var out []string
	for _, w := range words {
		if w != "" {
			out = append(out, w)
		}
	}
	return out
}

// writeJobHTML writes the job sheet as one HTML file that needs nothing besides and
// prints on a page or two.
func writeJobHTML(w io.Writer, s *pattern.Sheet, r *check.Report, o Options) error {
	if err := o.Check(); err != nil {
		return err
	}
	j := newJob(s, r, o)
	var b strings.Builder
	e := html.EscapeString
	fmt.Fprintf(&b, `<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"><title>%s, job sheet</title>
<style>
@page { size: A4; margin: 12mm }
body { font: 9.5pt/1.35 sans-serif; color: #000; background: #fff; max-width: 186mm; margin: 4mm auto }
h1 { font-size: 15pt; margin: 0 } h2 { font-size: 10pt; margin: 4mm 0 1mm }
p { margin: 0 0 1mm } .sub { color: #444 }
figure { margin: 3mm 0; break-inside: avoid } figcaption { color: #444; font-size: 8.5pt }
.row { display: flex; gap: 8mm; align-items: flex-end }
table { border-collapse: collapse; width: 100%% } td, th { text-align: left; vertical-align: top; padding: .4mm 2mm .4mm 0; border-top: .1mm solid #bbb }
th { width: 34mm; font-weight: 600 } .sum { font-family: monospace; font-size: 7.5pt; word-break: break-all }
.cautions { font-size: 8.5pt } tr { break-inside: avoid }
</style></head><body>
<h1>%s</h1><p class="sub">%s</p>
`, e(j.title), e(j.title), e(j.subtitle))
	fmt.Fprintf(&b, "<figure>%s<figcaption>%s, mm</figcaption></figure>\n<div class=\"row\">\n", j.blank.svg(186, 90, j.letter), e(j.blank.title))
	for _, f := range []figure{j.profile, j.section} {
		fmt.Fprintf(&b, "<figure>%s<figcaption>%s, mm</figcaption></figure>\n", f.svg(110, 62, j.small), e(f.title))
	}
	b.WriteString("</div>\n<table>\n")
	for _, f := range j.facts {
		fmt.Fprintf(&b, "<tr><th>%s</th><td>%s</td></tr>\n", e(f.Label), e(f.Text))
	}
	b.WriteString("</table>\n<h2>Findings</h2>\n")
	if len(j.findings) == 0 {
		b.WriteString("<p>Nothing that asks for anything.</p>\n")
	}
	for _, f := range j.findings {
		fmt.Fprintf(&b, "<p><b>%s:</b> %s %s</p>\n", e(f.label), e(f.what), e(f.mend))
		if f.reason != "" {
			fmt.Fprintf(&b, "<p>&emsp;Let stand by the maker: %s</p>\n", e(f.reason))
		}
	}
	b.WriteString("<h2>Cautions</h2>\n<div class=\"cautions\">\n")
	for _, c := range j.cautions {
		fmt.Fprintf(&b, "<p>%s</p>\n", e(c))
	}
	b.WriteString("</div>\n")
	if len(j.files) > 0 {
		b.WriteString("<h2>Files</h2>\n<table>\n")
		for _, f := range j.files {
			fmt.Fprintf(&b, "<tr><th>%s</th><td>%s, %d bytes<div class=\"sum\">SHA-256 %s</div></td></tr>\n", e(f.Name), e(f.What), f.Bytes, f.SHA256)
		}
		b.WriteString("</table>\n")
	}
	b.WriteString("</body></html>\n")
	_, err := io.WriteString(w, b.String())
	return err
}

// Measures of the job sheet on paper, mm: ours.
const (
	jobMargin = 14.0
	jobLabel  = 34.0
)

var (
	jobText    = pdf.Font{Size: 3.0}
	jobStrong  = pdf.Font{Size: 3.0, Bold: true}
	jobHeading = pdf.Font{Size: 3.6, Bold: true}
	jobSmall   = pdf.Font{Size: 2.5}
)

// jobPage writes downwards and begins a new page where there is no room.
type jobPage struct {
	doc  *pdf.Doc
	w, h float64
	y    float64
	n    int
	foot string
}

func (p *jobPage) begin() {
	p.n++
	p.doc.Page(p.w, p.h)
	p.y = p.h - jobMargin
	p.doc.Text(plane.Pt(jobMargin, jobMargin-6), fmt.Sprintf("%s, page %d", p.foot, p.n), jobSmall, pdf.Left)
}

func (p *jobPage) room(h float64) {
	if p.y-h < jobMargin {
		p.begin()
	}
}

func (p *jobPage) heading(text string) {
	p.room(3 * jobHeading.Size)
	p.y -= 2 * jobHeading.Size
	p.doc.Text(plane.Pt(jobMargin, p.y), text, jobHeading, pdf.Left)
	p.y -= 1.2
}

// paragraph writes text from x on, broken at words.
func (p *jobPage) paragraph(x float64, text string, f pdf.Font) {
	for _, line := range p.broken(text, f, p.w-jobMargin-x) {
		p.room(1.35 * f.Size)
		p.y -= 1.35 * f.Size
		p.doc.Text(plane.Pt(x, p.y), line, f, pdf.Left)
	}
}

func (p *jobPage) broken(text string, f pdf.Font, width float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		for p.doc.TextWidth(word, f) > width { // a checksum, a path
			n := len(word)
			for n > 1 && p.doc.TextWidth(word[:n], f) > width {
				n--
			}
			lines = append(lines, strings.TrimSpace(line+" "+word[:n]))
			line, word = "", word[n:]
		}
		next := strings.TrimSpace(line + " " + word)
		if p.doc.TextWidth(next, f) > width {
			lines = append(lines, line)
			next = word
		}
		line = next
	}
	return append(lines, line)
}

func (p *jobPage) fact(label, text string) {
	lines := p.broken(text, jobText, p.w-2*jobMargin-jobLabel)
	p.room(1.35 * jobText.Size * float64(len(lines)))
	p.doc.Text(plane.Pt(jobMargin, p.y-1.35*jobText.Size), label, jobStrong, pdf.Left)
	p.paragraph(jobMargin+jobLabel, text, jobText)
	p.y -= 0.5
}

// writeJobPDF writes the job sheet on paper.
func writeJobPDF(w io.Writer, s *pattern.Sheet, r *check.Report, o Options) error {
	if err := o.Check(); err != nil {
		return err
	}
	j := newJob(s, r, o)
	doc, err := pdf.New(j.title + ", job sheet")
	if err != nil {
		return err
	}
	size, _ := sheetOfPaper(o.Paper)
	p := &jobPage{doc: doc, w: size.w, h: size.h, foot: j.title + ", " + j.subtitle}
	p.begin()
	p.y -= 5
	doc.Text(plane.Pt(jobMargin, p.y), j.title, pdf.Font{Size: 5.2, Bold: true}, pdf.Left)
	p.y -= 5
	doc.Text(plane.Pt(jobMargin, p.y), j.subtitle, jobText, pdf.Left)
	p.y -= 4
	wide := p.w - 2*jobMargin
	k := j.blank.scaleFor(wide, 60)
	p.y -= j.blank.box.H() * k
	j.blank.draw(doc, plane.Pt(jobMargin, p.y), k, j.letter)
	p.y -= 4
	doc.Text(plane.Pt(jobMargin, p.y), fmt.Sprintf("%s, mm, drawn 1 : %s", j.blank.title, decimal(1/k, 2)), jobSmall, pdf.Left)
	p.y -= 3
	k = math.Min(j.profile.scaleFor(wide*0.6, 44), j.section.scaleFor(wide*0.34, 44))
	high := math.Max(j.profile.box.H(), j.section.box.H()) * k
	p.y -= high
	j.profile.draw(doc, plane.Pt(jobMargin, p.y), k, j.small)
	x := jobMargin + j.profile.box.W()*k + 10
	j.section.draw(doc, plane.Pt(x, p.y), k, j.small)
	p.y -= 4
	doc.Text(plane.Pt(jobMargin, p.y), j.profile.title+", mm", jobSmall, pdf.Left)
	doc.Text(plane.Pt(x, p.y), j.section.title+", mm", jobSmall, pdf.Left)
	p.y -= 2
	for _, f := range j.facts {
		p.fact(f.Label, f.Text)
	}
	p.heading("Findings")
	if len(j.findings) == 0 {
		p.paragraph(jobMargin, "Nothing that asks for anything.", jobText)
	}
	for _, f := range j.findings {
		p.paragraph(jobMargin, f.label+": "+f.what+" "+f.mend, jobText)
		if f.reason != "" {
			p.paragraph(jobMargin+4, "Let stand by the maker: "+f.reason, jobText)
		}
		p.y -= 0.5
	}
	p.heading("Cautions")
	for _, c := range j.cautions {
		p.paragraph(jobMargin, c, jobSmall)
	}
	if len(j.files) > 0 {
		p.heading("Files")
		for _, f := range j.files {
			p.paragraph(jobMargin, fmt.Sprintf("%s: %s, %d bytes, SHA-256 %s", f.Name, f.What, f.Bytes, f.SHA256), jobSmall)
		}
	}
	_, err = doc.WriteTo(w)
	return err
}
