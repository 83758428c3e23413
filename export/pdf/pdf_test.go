package pdf

import (
	"bytes"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/unroll/plane"
)

func page(t *testing.T, title string) []byte {
	t.Helper()
	d, err := New(title)
	require.NoError(t, err)
	for range 2 {
		d.Page(210, 297)
		d.Loop(plane.Circle(plane.Pt(100, 100), 20), plane.Pt(1, 2), Pen{Width: 0.2})
		d.Line(plane.Pt(0, 0), plane.Pt(50, 0), Pen{Width: 0.1, Dashes: []float64{2, 1}})
		d.Fill(plane.Circle(plane.Pt(50, 50), 5), plane.Point{}, 0.5)
		d.Text(plane.Pt(10, 10), "Print at 100 %", Font{Size: 3, Bold: true}, Centre)
		d.Text(plane.Pt(10, 20), "déjà", Font{Size: 3}, Right)
	}
	var b bytes.Buffer
	n, err := d.WriteTo(&b)
	require.NoError(t, err)
	require.EqualValues(t, b.Len(), n)
	return b.Bytes()
}

func TestTheSameCallsGiveTheSameBytes(t *testing.T) {
	assert.True(t, bytes.Equal(page(t, "A (title)"), page(t, "A (title)")))
}

// The table of places is read here after ISO 32000-1, 7.5.4: twenty bytes an
// entry, and each has to be where its object is.
func TestEveryObjectStandsWhereTheTableSays(t *testing.T) {
	file := page(t, "Möwe \\ ( ) title")
	at, err := strconv.Atoi(string(regexp.MustCompile(`startxref\n(\d+)\n%%EOF\n$`).FindSubmatch(file)[1]))
	require.NoError(t, err)
	table := string(file[at:])
	require.True(t, strings.HasPrefix(table, "xref\n0 "))
	head := strings.SplitAfterN(table, "\n", 3)
	n, err := strconv.Atoi(strings.TrimSpace(strings.TrimPrefix(head[1], "0 ")))
	require.NoError(t, err)
	for i := 1; i < n; i++ {
		entry := head[2][20*i : 20*i+20]
		place, err := strconv.Atoi(entry[:10])
		require.NoError(t, err)
		assert.Equal(t, " 00000 n \n", entry[10:])
		want := fmt.Sprintf("%d 0 obj", i)
		assert.Equal(t, want, string(file[place:place+len(want)]))
	}
	assert.Contains(t, table, fmt.Sprintf("/Size %d", n))
	assert.Contains(t, string(file), "/Count 2")
	assert.Contains(t, string(file), "/PrintScaling/None")
	assert.NotContains(t, string(file), "CreationDate")
}

func TestCapitalsAreAsHighAsSaid(t *testing.T) {
	d, err := New("")
	require.NoError(t, err)
	for _, f := range []Font{{Size: 10}, {Size: 10, Bold: true}} {
		assert.InDelta(t, d.face(f).Metrics().CapHeight, f.CapHeight(), 0.02)
	}
}

func TestTextWidthGrowsWithTheSize(t *testing.T) {
	d, err := New("")
	require.NoError(t, err)
	a, b := d.TextWidth("102", Font{Size: 1}), d.TextWidth("102", Font{Size: 4})
	assert.InEpsilon(t, 4, b/a, 1e-3)
	assert.Positive(t, a)
}

func TestArcsBecomeCubicsWithinATwentiethOfAMicron(t *testing.T) {
	p := loopPath(plane.Circle(plane.Pt(0, 0), 10), plane.Point{})
	data := p.ToPDF()
	var n []float64
	var at plane.Point
	for _, word := range strings.Fields(data) {
		if v, err := strconv.ParseFloat(word, 64); err == nil {
			n = append(n, v)
			continue
		}
		if word == "c" {
			for i := 1; i < 16; i++ {
				u := float64(i) / 16
				k := [4]float64{(1 - u) * (1 - u) * (1 - u), 3 * u * (1 - u) * (1 - u), 3 * u * u * (1 - u), u * u * u}
				x := k[0]*at.X + k[1]*n[0] + k[2]*n[2] + k[3]*n[4]
				y := k[0]*at.Y + k[1]*n[1] + k[2]*n[3] + k[3]*n[5]
				assert.InDelta(t, 10, math.Hypot(x, y), 5e-5)
			}
		}
		if len(n) >= 2 {
			at = plane.Pt(n[len(n)-2], n[len(n)-1])
		}
		n = nil
	}
}

func TestAFileThatCantBeFinishedIsAnError(t *testing.T) {
	d, err := New("")
	require.NoError(t, err)
	_, err = d.WriteTo(&bytes.Buffer{})
	assert.ErrorContains(t, err, "no page")
	for _, broken := range []string{"", "%PDF", "startxref\n9999\n%%EOF\n", "x\nstartxref\n1\n%%EOF\n", "xref\n0 5\nstartxref\n0\n%%EOF\n", "\nxref\n0 4\nstartxref\n1\n%%EOF\n"} {
		_, err := finish([]byte(broken), "", "")
		assert.Error(t, err, "%q", broken)
	}
}

func TestAFileWhoseTablesDoNotHoldIsRefused(t *testing.T) {
	d, err := New("title")
	require.NoError(t, err)
	for range 2 {
		d.Page(210, 297)
		d.Text(plane.Pt(20, 20), "words", Font{Size: 3}, Left)
		d.Loop(plane.Circle(plane.Pt(50, 50), 20), plane.Point{}, Pen{Width: 0.2})
	}
	var b bytes.Buffer
	_, err = d.WriteTo(&b)
	require.NoError(t, err)
	good := b.Bytes()
	require.NoError(t, Check(good))
	for from, to := range map[string]string{
		"startxref\n":   "startxref\n1",
		"%%EOF":         "%%EO",
		"/Count ":       "/Count 9",
		"0 n":           "0 f",
		" 0 obj\n":      " 0 obj\n\n",
		"/Kids[":        "/Kids[1 0 R ",
		"/Type/Catalog": "/Type/Katalog/",
		"%PDF-1":        "%PDF-7",
	} {
		bad := bytes.Replace(good, []byte(from), []byte(to), 1)
		require.NotEqual(t, good, bad, from)
		assert.Error(t, Check(bad), "%q", from)
	}
	for n := 0; n < len(good)-2; n += 1 + len(good)/50 {
		assert.Error(t, Check(good[:n]))
	}
}
