package jobsheet

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"html"
	"image"
	"image/png"
	"io"
	"strings"

	"fretband/export"
	"fretband/export/pdf"
	"fretband/pattern"
	"fretband/pattern/check"
)

// WriteHTML writes the job sheet as one HTML file that needs nothing besides and
// prints on a page or two.
func WriteHTML(w io.Writer, s *pattern.Sheet, r *check.Report, o export.Options, files []File, bent *image.Gray) error {
	var shot bytes.Buffer
	if err := (&png.Encoder{CompressionLevel: png.DefaultCompression}).Encode(&shot, bent); err != nil {
		return err
	}
	j := newJob(s, r, o, files)
	doc, err := pdf.New("") // to measure by
	if err != nil {
		return err
	}
	t := &jobType{doc: doc, widths: map[jobWord]float64{}}
	l := j.layOut(t, o, float64(bent.Rect.Dx())/float64(bent.Rect.Dy()), false)

	var out strings.Builder
	e := html.EscapeString
	fmt.Fprintf(&out, jobStyle, e(j.title), export.TagOf(s.Design, export.TagRoom), l.paper.Title, export.MM(l.wide), export.MM(l.size), export.MM(jobLabel+0.6))
	fmt.Fprintf(&out, "<h1 style=\"font-size:%smm\">%s</h1><p class=\"sub\">%s</p>\n", export.MM(l.title), e(j.title), e(j.subtitle))
	fmt.Fprintf(&out, "<figure class=\"blank\">%s<figcaption>%s</figcaption></figure>\n<div class=\"row\">\n", l.blank.svg(), e(l.blank.caption()))
	fmt.Fprintf(&out, "<figure><img alt=\"%s\" width=\"%d\" height=\"%d\" style=\"width:%smm;height:%smm\" src=\"data:image/png;base64,%s\"><figcaption>%[1]s</figcaption></figure>\n",
		e(bentCaption), bent.Rect.Dx(), bent.Rect.Dy(), export.Decimal(l.bentW, 1), export.Decimal(l.bentH, 1), base64.StdEncoding.EncodeToString(shot.Bytes()))
	for _, f := range []figure{l.profile, l.section} {
		fmt.Fprintf(&out, "<figure>%s<figcaption>%s</figcaption></figure>\n", f.svg(), e(f.caption()))
	}
	out.WriteString("</div>\n<div class=\"text\">\n")
	for _, p := range l.entries {
		class := [...]string{jobFact: "fact", jobFinding: "finding", jobReason: "reason", jobCaution: "caution", jobFile: "file", jobSum: "sum"}
		switch p.kind {
		case jobHeading:
			fmt.Fprintf(&out, "<h2>%s</h2>\n", e(p.text))
		default:
			label, whole := "", ""
			if len(p.text) < 300 {
				whole = " whole"
			}
			if p.label != "" {
				label = "<b>" + e(p.label) + "</b> "
				if p.kind == jobFact { // the label is as wide as its column
					label = strings.TrimRight(label, " ")
				}
			}
			fmt.Fprintf(&out, "<p class=\"%s%s\">%s%s</p>\n", class[p.kind], whole, label, e(p.text))
		}
	}
	out.WriteString("</div>\n</body></html>\n")
	_, err = io.WriteString(w, out.String())
	return err
}

// jobStyle is the head of the file, with title and tag. Its figures are the layout's: paper, width, size of
// letters, and of the facts' labels, width of a column.
const jobStyle = `<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"><title>%s, job sheet</title>
<meta name="generator" content="%s">
<style>
@page { size: %s; margin: 12mm }
* { box-sizing: border-box }
body { width: %smm; margin: 6mm auto; font: %smm/1.26 Arial, "Liberation Sans", Helvetica, sans-serif; color: #000; background: #fff; overflow-wrap: anywhere }
@media print { body { margin: 0 } }
h1 { line-height: 5.7mm; margin: 0 0 1mm } h2 { font-size: 1.2em; margin: .75em 0 .1em; break-after: avoid }
p { margin: 0 0 .22em; orphans: 2; widows: 2 } .sub { font-size: 3mm; margin: 0 0 3mm }
figure { margin: 0; break-inside: avoid } figcaption { color: #444; font-size: 2.4mm; line-height: 4mm } svg, img { display: block } svg { overflow: visible }
svg text { font-family: Arial, "Liberation Sans", Helvetica, sans-serif }
.blank svg { margin: 0 auto } .row { display: flex; gap: 5mm; align-items: flex-end; margin: 2mm 0; break-inside: avoid }
.text { columns: 2; column-gap: 6mm }
.fact { padding-left: %[5]sem; text-indent: -%[5]sem } .fact b { display: inline-block; width: %[5]sem; text-indent: 0; vertical-align: top }
.whole, .caution { break-inside: avoid } .reason { padding-left: 1.2em } .file { break-after: avoid; margin: 0 } .sum { font-size: .74em; padding-left: .6em; break-inside: avoid }
@media screen and (max-width: %[3]smm) { body { width: auto; margin: 4mm } .text { columns: 1 } .row { flex-wrap: wrap } svg, img { max-width: 100%%; height: auto !important } }
</style></head><body>
`
