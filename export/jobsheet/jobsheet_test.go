package jobsheet

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"image/png"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/export/pdf"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
)

// crowded is a cuff with 40 reserves that are off the blank, long notes in several
// scripts, and a name and a note as long as they may be.
func crowded(t *testing.T) (*pattern.Sheet, *check.Report) {
	t.Helper()
	d, err := project.GalleryDesign("harbour-cuff")
	require.NoError(t, err)
	d.Name, d.Note = strings.Repeat("M", 80), strings.Repeat("note ", 400)
	d.Reserves = nil
	for i := range 40 {
		d.Reserves = append(d.Reserves, pattern.Reserve{Shape: "rectangle", XMM: -70 + 3.5*float64(i), YMM: 14, WidthMM: 3, HeightMM: 6,
			Note: strings.Repeat("印 مرحبا ", 13)})
	}
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	return s, check.All(s)
}

func jobSheets(t *testing.T, s *pattern.Sheet, r *check.Report, o export.Options) (pages int, html string) {
	t.Helper()
	bent, err := Picture(s)
	require.NoError(t, err)
	var p, h bytes.Buffer
	require.NoError(t, WritePDF(&p, s, r, o, nil, bent))
	require.NoError(t, WriteHTML(&h, s, r, o, nil, bent))
	count := regexp.MustCompile(`/Type ?/Pages.{0,200}/Count (\d+)|/Count (\d+)`).FindSubmatch(p.Bytes())
	require.NotNil(t, count)
	n, err := strconv.Atoi(string(count[1]) + string(count[2]))
	require.NoError(t, err)
	return n, h.String()
}

func TestJobSheetsTakeTwoPagesAtMost(t *testing.T) {
	s, r := crowded(t)
	for _, paper := range export.Papers() {
		pages, _ := jobSheets(t, s, r, export.Options{Paper: paper})
		assert.Equal(t, 2, pages, paper)
	}
	plain, err := project.GalleryDesign("harbour-cuff")
	require.NoError(t, err)
	s, err = pattern.Lay(plain)
	require.NoError(t, err)
	pages, html := jobSheets(t, s, check.All(s), export.Options{Copies: 3})
	assert.Equal(t, 1, pages)
	assert.Contains(t, html, "3 parts,")
}

var (
	sayMore = regexp.MustCompile(`And (\d+) more of this kind`)
	sayLeft = regexp.MustCompile(`(\d+) findings?, of which`)
)

func TestFindingsAreToldOrCounted(t *testing.T) {
	s, r := crowded(t)
	j := newJob(s, r, export.Options{}, nil)
	require.GreaterOrEqual(t, len(j.findings), 40)
	for _, l := range []jobLimits{{}, {each: 12}, {each: 3}, {each: 1}, {each: 1, kinds: 1}} {
		entries, places := j.told(l)
		told := 0
		for _, e := range entries {
			if m := sayMore.FindStringSubmatch(e.text); m != nil {
				n, _ := strconv.Atoi(m[1])
				told += n
			} else if m := sayLeft.FindStringSubmatch(e.text); m != nil {
				n, _ := strconv.Atoi(m[1])
				told += n
			} else if e.kind == jobFinding {
				told++
			}
		}
		assert.Equal(t, len(j.findings), told, "%+v", l)
		assert.LessOrEqual(t, len(places), told)
	}
}

func TestWordsStayInTheirColumn(t *testing.T) {
	s, r := crowded(t)
	doc, err := pdf.New("")
	require.NoError(t, err)
	ty := &jobType{doc: doc, widths: map[jobWord]float64{}}
	l := newJob(s, r, export.Options{}, nil).layOut(ty, export.Options{}, 1.4, true)
	most := 0.0
	for i, c := range l.columns {
		high := 0.0
		for _, p := range c {
			high += p.before + p.high()
			for _, line := range p.lines {
				for _, w := range line {
					most = math.Max(most, w.X+ty.width(w.Word, p.size))
				}
			}
		}
		room := l.paper.H - 2*jobMargin - jobFoot
		if i < 2 {
			room -= l.top
		}
		assert.LessOrEqual(t, high, room+1e-6, "column %d", i)
	}
	assert.LessOrEqual(t, most, l.column()+1e-6)
	assert.LessOrEqual(t, l.blank.box.W(), l.wide+1e-6)
	for _, w := range []string{"印", "مرحبا"} {
		assert.NotContains(t, fmt.Sprint(l.entries), w, "the sheet's type has no such letters")
	}
}

func TestTheHTMLJobSheetHoldsThePictureOfTheBentBand(t *testing.T) {
	d, err := project.GalleryDesign("tide-bangle")
	require.NoError(t, err)
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	_, html := jobSheets(t, s, check.All(s), export.Options{})
	m := regexp.MustCompile(`data:image/png;base64,([A-Za-z0-9+/=]+)`).FindStringSubmatch(html)
	require.NotNil(t, m)
	raw, err := base64.StdEncoding.DecodeString(m[1])
	require.NoError(t, err)
	img, err := png.Decode(bytes.NewReader(raw))
	require.NoError(t, err)
	assert.Equal(t, pictureWide, img.Bounds().Dx())
}

// On the HTML sheet as on paper labels have a column wide enough for the longest, and a
// screen narrower than the sheet gets one column of text.
func TestTheHTMLJobSheetHasTheMeasuresOfThePaper(t *testing.T) {
	d, err := project.GalleryDesign("harbour-cuff")
	require.NoError(t, err)
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	_, page := jobSheets(t, s, check.All(s), export.Options{})
	assert.Contains(t, page, ".fact b { display: inline-block; width: 9.6em")
	wide := regexp.MustCompile(`body { width: ([0-9.]+)mm`).FindStringSubmatch(page)
	require.NotNil(t, wide)
	assert.Contains(t, page, "(max-width: "+wide[1]+"mm)")
}
