package template

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/export/sample"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll/plane"
)

// boxes returns the sizes of the pages of a PDF, points.
func boxes(file []byte) []string {
	var sizes []string
	for _, m := range regexp.MustCompile(`/MediaBox\[0 0 ([\d.]+) ([\d.]+)\]`).FindAllSubmatch(file, -1) {
		sizes = append(sizes, string(m[1])+" x "+string(m[2]))
	}
	return sizes
}

// blankOf is a sheet with a bare blank of the given size.
func blankOf(w, h float64) *pattern.Sheet {
	s, _ := sample.Cuff()
	s.Openings, s.Reserves, s.Design.Reserves = nil, nil, nil
	s.Flat.Length, s.Flat.Width = w, h
	s.Flat.Outline = plane.Rect(plane.Box{Min: plane.Pt(-w/2, -h/2), Max: plane.Pt(w/2, h/2)})
	return s
}

func TestTemplateTakesTheFewestSheets(t *testing.T) {
	_, r := sample.Cuff()
	const (
		// ISO 216 and ASME Y14.1 in points: TRADE-FACTS 12 (memory).
		a4      = "595.27559 x 841.88976"
		a4Lying = "841.88976 x 595.27559"
		a3Lying = "1190.5512 x 841.88976"
		letter  = "612 x 792"
		lying   = "792 x 612"
	)
	for _, c := range []struct {
		w, h  float64
		paper string
		pages int // with a sheet for the notes where there are several
		size  string
	}{
		{160, 30, export.A4, 1, a4Lying},
		{60, 8, export.A4, 1, a4Lying},
		{265, 30, export.A4, 1, a4Lying},
		{30, 160, export.A4, 2, a4}, // upright, and the notes on a second
		{250, 30, export.Letter, 1, lying},
		{30, 160, export.Letter, 2, letter},
		{290, 30, export.A4, 3, a4Lying}, // two of the part
		{290, 30, export.A3, 1, a3Lying},
		{600, 30, export.A4, 4, a4Lying},
		{265, 90, export.A4, 2, a4Lying},     // no room for the notes under it
		{150, 190, export.Letter, 2, letter}, // fits upright only
		{265, 140, export.A4, 2, a4Lying},    // whole without the head, which is on the second
		{265, 160, export.A4, 2, a4Lying},    // and without square and key
	} {
		s := blankOf(c.w, c.h)
		var b bytes.Buffer
		require.NoError(t, Write(&b, s, r, export.Options{Paper: c.paper}))
		got := boxes(b.Bytes())
		name := fmt.Sprintf("%g x %g on %s", c.w, c.h, c.paper)
		assert.Len(t, got, c.pages, name)
		for _, g := range got {
			assert.Equal(t, c.size, g, name)
		}
	}
}

func TestSheetsOverlapAndCoverThePart(t *testing.T) {
	for _, c := range []struct{ all, each float64 }{{100, 277}, {277, 277}, {278, 277}, {544, 277}, {545, 277}, {5000, 190}} {
		n := sheets(c.all, c.each)
		covers := func(n int) float64 { return float64(n)*c.each - float64(n-1)*overlap }
		assert.GreaterOrEqual(t, covers(n), c.all)
		if n > 1 {
			assert.Less(t, covers(n-1), c.all)
		}
	}
}

func TestNeighbouringSheetsShowTheJoinAtTheSamePlaceOfThePart(t *testing.T) {
	s := blankOf(600, 400)
	b := drawnBox(s)
	tm := paging{paper: must(export.SheetOf(export.A4)), w: 297, h: 210, copies: 1, cols: 1, rows: 1,
		area:   plane.Box{Min: plane.Pt(10, 36), Max: plane.Pt(287, 187)},
		across: 3, down: 3, content: b}
	// The middle of the overlap on each of two sheets, in the blank's frame.
	place := func(row, col int, x, y float64) plane.Point {
		return plane.Pt(x, y).Sub(tm.place(tile{row, col}, 0, 1))
	}
	right, left := tm.area.Max.X-overlap/2, tm.area.Min.X+overlap/2
	low, high := tm.area.Min.Y+overlap/2, tm.area.Max.Y-overlap/2
	assert.InDelta(t, 0, place(1, 0, right, 100).Dist(place(1, 1, left, 100)), 1e-9)
	assert.InDelta(t, 0, place(0, 1, 100, low).Dist(place(1, 1, 100, high)), 1e-9)
	// All of the part is on some sheet.
	all := plane.EmptyBox()
	for row := range 3 {
		for col := range 3 {
			v := tm.place(tile{row, col}, 0, 1)
			all = all.Union(tm.area.Move(plane.Pt(-v.X, -v.Y)))
		}
	}
	assert.True(t, all.Contains(b.Min) && all.Contains(b.Max))
}

func must[A, B any](a A, _ B) A { return a }

func TestTemplateAsksNotToBeScaledAndHasNoDate(t *testing.T) {
	s, r := sample.Cuff()
	var file bytes.Buffer
	require.NoError(t, Write(&file, s, r, export.Options{}))
	b := file.Bytes()
	assert.Contains(t, string(b), "/ViewerPreferences<</PrintScaling/None")
	assert.NotContains(t, string(b), "Date")
}

func TestTemplateShowsTheFinishedEdgeWhateverTheKerf(t *testing.T) {
	s, r := sample.Cuff()
	s.Openings[1].Loop = plane.Circle(plane.Pt(-30, 0), 0.4) // no beam of 0.9 mm gets in
	var b bytes.Buffer
	assert.NoError(t, Write(&b, s, r, export.Options{KerfMM: 0.9}))
}

func TestNotesOfAnyLengthFindRoom(t *testing.T) {
	s, r := sample.Cuff()
	s.Design.Note = strings.Repeat("word ", 400) // 2000 bytes, the most that a design may have
	for range 40 {
		r.Findings = append(r.Findings, r.Findings[0])
	}
	doc, err := newTemplate(s, r, export.Options{})
	require.NoError(t, err)
	cols := doc.columns(120, 100)
	lines := 0
	for _, c := range cols {
		for _, l := range c {
			assert.LessOrEqual(t, l.y+lineHeight, 100.0+1e-9)
			lines++
		}
	}
	want := 0
	for _, p := range doc.notes {
		for _, l := range doc.lines(p, 120) {
			want += len(l)
		}
	}
	assert.Equal(t, want, lines)
}

// The template of a flared band has its middle line along the arc, at the middle
// of the width all along.
func TestTemplateOfAFlaredBandFollowsItsArc(t *testing.T) {
	for _, name := range []string{"flared-cuff", "flared-bangle"} {
		s, r := sample.Measured(t, sample.Form(t, name))
		p, err := newTemplate(s, r, export.Options{})
		require.NoError(t, err)
		line := p.middleLine()
		long := 0.0
		for _, e := range line {
			long += e.Len()
			for _, k := range []float64{0, 0.3, 0.7, 1} {
				_, v := s.Flat.Where(e.At(k))
				assert.InDelta(t, 0, v, 1e-9, name)
			}
		}
		assert.InDelta(t, s.Flat.Length+2*overhang, long, 1e-9, name)
	}
}

// Copies do not lie over one another, each is on one sheet, and a sheet holds as many as
// fit.
func TestCopiesLieSideBySideAtTrueSize(t *testing.T) {
	_, r := sample.Cuff()
	for _, c := range []struct {
		w, h          float64
		copies, pages int // sheets of the part
	}{{160, 30, 1, 1}, {160, 30, 3, 1}, {160, 30, 9, 3}, {58, 6, 30, 2}, {290, 20, 2, 4}, {170, 150, 2, 2}} {
		name := fmt.Sprintf("%d of %g x %g", c.copies, c.w, c.h)
		tm, err := newTemplate(blankOf(c.w, c.h), r, export.Options{Copies: c.copies})
		require.NoError(t, err)
		require.Equal(t, c.pages, tm.pages(), name)
		seen := map[int]int{}
		for page := range tm.pages() {
			at, copies := tm.on(page)
			var boxes []plane.Box
			for i, n := range copies {
				seen[n]++
				b := tm.content.Move(tm.place(at, i, len(copies)))
				if !tm.tiled() {
					assert.True(t, tm.area.Grow(1e-9).Contains(b.Min) && tm.area.Grow(1e-9).Contains(b.Max), "%s: copy %d is not on its sheet", name, n)
				}
				for _, o := range boxes {
					assert.GreaterOrEqual(t, b.Dist(o), copyGap-1e-9, name)
				}
				boxes = append(boxes, b)
			}
		}
		for n := 1; n <= c.copies; n++ {
			assert.Equal(t, tm.across*tm.down, seen[n], "%s: copy %d", name, n)
		}
		assert.Len(t, seen, c.copies, name)
	}
}

// All numbers are in the drill table, each once.
func TestTheDrillTableHasEveryOpening(t *testing.T) {
	for name, s := range sample.Gallery(t) {
		r := check.Run(s)
		tm, err := newTemplate(s, r, export.Options{})
		require.NoError(t, err)
		listed := map[int]int{}
		for _, p := range tm.drillTable() {
			if p.cells == nil || p.bold {
				continue
			}
			_, text, ok := strings.Cut(p.cells[len(p.cells)-1], ": ")
			require.True(t, ok, name)
			for _, w := range strings.Split(text, ", ") {
				a, b, is := strings.Cut(w, "-")
				from, err := strconv.Atoi(a)
				require.NoError(t, err, "%s: %q", name, text)
				to := from
				if is {
					to, err = strconv.Atoi(b)
					require.NoError(t, err)
				}
				for n := from; n <= to; n++ {
					listed[n]++
				}
			}
		}
		assert.Len(t, listed, len(s.Openings), name)
		for n, times := range listed {
			assert.Equal(t, 1, times, "%s: opening %d", name, n)
		}
	}
}

// A drill makes the round holes of a row whose ends an edge cuts off.
func TestRoundHolesAreDrilledWhoeverElseIsInTheirRow(t *testing.T) {
	s, r := sample.Measured(t, sample.Form(t, "ring"))
	for i := range s.Openings {
		o := &s.Openings[i]
		o.Shape = -1
		o.Loop = plane.Circle(o.Loop.Bounds().Centre(), 0.4)
		if i%10 < 2 { // half of it
			o.Loop = plane.Loop{{Point: o.Loop[0].Point, Bulge: o.Loop[0].Bulge}, {Point: o.Loop[1].Point}}
		}
	}
	tm, err := newTemplate(s, r, export.Options{})
	require.NoError(t, err)
	require.Len(t, tm.drilled, 1)
	assert.Equal(t, 0.8, tm.drilled[0].mm)
	assert.NotContains(t, tm.drilled[0].openings, 1)
	assert.NotContains(t, tm.drilled[0].openings, 12)
	n := len(tm.drilled[0].openings)
	for _, g := range tm.drills {
		n += g.Count
	}
	assert.Equal(t, len(s.Openings), n)
}

func TestManyRangesAreCutShortAndCounted(t *testing.T) {
	assert.Equal(t, "1-3, 5, 7-8", ranges([]int{1, 2, 3, 5, 7, 8}))
	assert.Equal(t, "", ranges(nil))
	var odd []int
	for n := 1; n < 400; n += 2 {
		odd = append(odd, n)
	}
	text := ranges(odd)
	assert.Contains(t, text, "117, 119 and 140 more")
}

func TestATemplateSaysWhatItIsOf(t *testing.T) {
	s, r := sample.Measured(t, sample.Form(t, "ring"))
	tm, err := newTemplate(s, r, export.Options{Copies: 4, Date: "a day", Paper: export.Letter})
	require.NoError(t, err)
	told := map[string]string{}
	for _, row := range tm.block {
		all := 0.0
		for _, c := range row {
			told[c.label] = c.text
			all += c.w
		}
		assert.InDelta(t, tm.w-2*margin, all, 1e-9)
	}
	assert.Equal(t, export.ContentNumber(s.Design), told["Content number"])
	assert.Contains(t, told["Size"], s.Design.Band.Inside.Size)
	assert.Equal(t, "4", told["Copies"])
	assert.Equal(t, "a day", told["Date"])
	assert.Equal(t, "1:1", told["Scale"])
	assert.Contains(t, told["Paper"], "Letter")
}

// No column ends with a heading, whatever height the columns have.
func TestNoHeadingStandsAlone(t *testing.T) {
	s, r := sample.Cuff()
	tp, err := newTemplate(s, r, export.Options{})
	require.NoError(t, err)
	headings := map[string]bool{}
	for _, p := range tp.notes {
		if p.leads() {
			headings[p.text] = true
		}
	}
	require.Greater(t, len(headings), 3)
	for h := 15.0; h < 140; h += lineHeight / 3 {
		for i, col := range tp.columns(columnWidth(tp.notesArea(), 2), h) {
			last := col[len(col)-1].text
			assert.False(t, headings[last], "columns %.1f high: column %d ends with %q", h, i+1, last)
		}
	}
}

func TestTheEndsOfABlankSayWhatBecomesOfThem(t *testing.T) {
	sample.EachForm(t, func(name string, d pattern.Design) {
		s, _ := sample.Measured(t, d)
		want := "joint; bends away from you"
		switch {
		case d.Band.Open():
			want = "end; bends away from you"
		case d.Band.Seamless():
			want = "both ends are one place"
		}
		assert.Equal(t, want, endLabel(s), name)
	})
}

// No template can be treated as that of another face, and none says that a band cast as
// formed is bent.
func TestATemplateNamesTheSurfaceThatItShows(t *testing.T) {
	for _, c := range sample.Faces {
		s, r := c.Sheet(t)
		p, err := newTemplate(s, r, export.Options{})
		require.NoError(t, err)
		var all []string
		for _, n := range p.paragraphs() {
			all = append(all, n.text)
		}
		c.Named(t, strings.Join(all, " "))
	}
}
