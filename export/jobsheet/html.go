package jobsheet

import (
	"bytes"
	_ "embed"
	"encoding/base64"
	"html"
	"html/template"
	"image"
	"image/png"
	"io"

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
	page := htmlPage{
		// Neither a tag nor a picture in base 64 has a letter that an attribute has to escape.
		Tag:   template.HTMLAttr(`content="` + export.TagOf(s.Design, export.TagRoom) + `"`),
		Title: j.title, Subtitle: j.subtitle,
		Paper: l.paper.Title, Wide: export.MM(l.wide), Size: export.MM(l.size), Label: export.MM(jobLabel + 0.6), TitleSize: export.MM(l.title),
		Blank: shown(l.blank), Figures: []htmlFigure{shown(l.profile), shown(l.section)},
		Bent: htmlPicture{bentCaption, bent.Rect.Size(), export.Decimal(l.bentW, 1), export.Decimal(l.bentH, 1),
			template.HTMLAttr(`src="data:image/png;base64,` + base64.StdEncoding.EncodeToString(shot.Bytes()) + `"`)},
	}
	for _, e := range l.entries {
		page.Entries = append(page.Entries, e.html())
	}
	var out bytes.Buffer
	if err := jobPage.Execute(&out, page); err != nil {
		return err
	}
	_, err = out.WriteTo(w)
	return err
}

//go:embed jobsheet.html
var jobHTML string

var jobPage = template.Must(template.New("").Funcs(template.FuncMap{"text": func(s string) template.HTML {
	return template.HTML(html.EscapeString(s)) // which leaves "+" alone, as the template's own does not
}}).Parse(jobHTML))

// htmlPage is what the page shows. Its lengths are mm.
type htmlPage struct {
	Tag                                 template.HTMLAttr
	Title, Subtitle                     string
	Paper, Wide, Size, Label, TitleSize string // the label in letters
	Blank                               htmlFigure
	Bent                                htmlPicture
	Figures                             []htmlFigure
	Entries                             []htmlEntry
}

type htmlFigure struct {
	SVG     template.HTML
	Caption string
}

func shown(f figure) htmlFigure { return htmlFigure{template.HTML(f.svg()), f.caption()} }

type htmlPicture struct {
	Caption    string
	Pixels     image.Point
	Wide, High string
	Source     template.HTMLAttr
}

type htmlEntry struct{ Class, Label, Gap, Text string }

func (e jobEntry) html() htmlEntry {
	h := htmlEntry{e.kind.class(), e.label, " ", e.text}
	if e.kind == jobFact { // its label is as wide as its column
		h.Gap = ""
	}
	const short = 300 // bytes: kept on one page
	if e.kind != jobHeading && len(e.text) < short {
		h.Class += " whole"
	}
	return h
}

func (k jobKind) class() string {
	return [...]string{jobHeading: "heading", jobFact: "fact", jobFinding: "finding", jobReason: "reason", jobCaution: "caution", jobFile: "file", jobSum: "sum"}[k]
}
