package jobsheet

import (
	"fmt"
	"image"
	"io"

	"fretband/export"
	"fretband/export/pdf"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll/plane"
)

var jobSmall = pdf.Font{Size: 2.4, Grey: 0.25}

// WritePDF writes the job sheet on paper: one page, or two.
func WritePDF(w io.Writer, s *pattern.Sheet, r *check.Report, o export.Options, files []File, bent *image.Gray) error {
	j := newJob(s, r, o, files)
	doc, err := pdf.New(j.title + ", job sheet")
	if err != nil {
		return err
	}
	doc.Keywords = export.TagOf(s.Design, export.TagRoom)
	j.title = inType(j.title)
	t := &jobType{doc: doc, widths: map[jobWord]float64{}}
	l := j.layOut(t, o, float64(bent.Rect.Dx())/float64(bent.Rect.Dy()), true)

	pages := 1
	if len(l.columns) == 4 && len(l.columns[2]) > 0 {
		pages = 2
	}
	top := l.paper.H - jobMargin
	for n := range pages {
		doc.Page(l.paper.W, l.paper.H)
		y := top
		if n == 0 {
			l.drawHead(doc, j)
			y -= l.top
			doc.Image(bent, plane.Pt(jobMargin, y+jobCaption+2+(l.row()-l.bentH)/2), l.bentW)
		}
		t.draw(l.columns[2*n], jobMargin, y)
		t.draw(l.columns[2*n+1], jobMargin+l.column()+jobGap, y)
		name, rest := jobWord{text: j.title}, ", "+j.subtitle
		room := l.wide - 20 - doc.TextWidth(rest, jobSmall)
		if doc.TextWidth(name.text, jobSmall) > room {
			name, _ = t.cut(name, jobSmall.Size, room)
			name.text += "..."
		}
		doc.Text(plane.Pt(jobMargin, jobMargin-4), name.text+rest, jobSmall, pdf.Left)
		doc.Text(plane.Pt(l.paper.W-jobMargin, jobMargin-4), fmt.Sprintf("page %d of %d", n+1, pages), jobSmall, pdf.Right)
	}
	_, err = doc.WriteTo(w)
	return err
}

// drawHead draws the title and the figures but for the picture, with their captions.
func (l jobLayout) drawHead(doc *pdf.Doc, j job) {
	y := l.paper.H - jobMargin
	doc.Text(plane.Pt(jobMargin, y-4.5), j.title, pdf.Font{Size: l.title, Bold: true}, pdf.Left)
	doc.Text(plane.Pt(jobMargin, y-9.5), j.subtitle, pdf.Font{Size: 3}, pdf.Left)
	y -= jobTop + l.blank.box.H()
	l.blank.draw(doc, plane.Pt(jobMargin+(l.wide-l.blank.box.W())/2, y))
	doc.Text(plane.Pt(jobMargin, y-3.4), l.blank.caption(), jobSmall, pdf.Left)
	y -= jobCaption + 2 + l.row()
	doc.Text(plane.Pt(jobMargin, y-3.4), bentCaption, jobSmall, pdf.Left)
	x := jobMargin + l.bentW + 5
	for _, f := range []figure{l.profile, l.section} {
		f.draw(doc, plane.Pt(x, y+(l.row()-f.box.H())/2))
		doc.Text(plane.Pt(x, y-3.4), f.caption(), jobSmall, pdf.Left)
		x += l.profile.box.W() + 5
	}
}

const bentCaption = "The band as worn, a picture"
