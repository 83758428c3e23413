package export

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestPapersAreThoseOfTheStandards(t *testing.T) {
	const (
		iso  = "ISO 216: A0 is a square metre with sides as 1 to the root of 2, rounded to the millimetre; each size less halves the longer side, rounded down"
		asme = "ASME Y14.1 (8.5 x 11 and 11 x 17 in) and common practice (legal, 8.5 x 14 in); 25.4 mm to the inch"
	)
	side := math.Sqrt(math.Sqrt2) // of A0, m
	w, h := math.Round(1000/side), math.Round(1000*side)
	a := [][2]float64{{w, h}}
	for range 4 {
		w, h = math.Floor(h/2), w
		a = append(a, [2]float64{w, h})
	}
	rows := []struct {
		name, title string
		w, h        float64
		source      string
	}{
		{"a4", "A4", a[4][0], a[4][1], iso},
		{"letter", "Letter", 8.5 * 25.4, 11 * 25.4, asme},
		{"a3", "A3", a[3][0], a[3][1], iso},
		{"legal", "Legal", 8.5 * 25.4, 14 * 25.4, asme},
		{"tabloid", "Tabloid", 11 * 25.4, 17 * 25.4, asme},
	}
	var names []string
	for _, r := range rows {
		names = append(names, r.name)
		p, ok := SheetOf(r.name)
		assert.True(t, ok, r.name)
		assert.Equal(t, r.title, p.Title)
		assert.InDelta(t, r.w, p.W, 1e-9, "%s: %s", r.name, r.source)
		assert.InDelta(t, r.h, p.H, 1e-9, "%s: %s", r.name, r.source)
	}
	assert.Equal(t, names, Papers())
	usual, _ := SheetOf("")
	assert.Equal(t, A4, usual.Name)
	_, ok := SheetOf("foolscap")
	assert.False(t, ok)
}
