package unroll

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// size is the inner circumference of a size that the scale knows.
func size(t *testing.T, scale, size string) float64 {
	t.Helper()
	c, err := SizeCircumference(scale, size)
	require.NoError(t, err, "%s %s", scale, size)
	return c
}

func TestISOSizesAreThoseOfTheChart(t *testing.T) {
	// Chart of ISO 8653 sizes and inner diameters in mm, Wikipedia "Ring size".
	rows := []float64{
		15.6, 15.9, 16.2, 16.6, 16.9, 17.2, 17.5, 17.8, // 49 to 56
		18.1, 18.5, 18.8, 19.1, 19.4, 19.7, 20.1, 20.4, // 57 to 64
		20.7, 21.0, 21.3, 21.6, 22.0, 22.3, 22.6, 22.9, // 65 to 72
	}
	for i, across := range rows {
		n := 49 + i
		c := size(t, "iso", strconv.Itoa(n))
		assert.InDelta(t, n, c, 1e-12, "ISO 8653: the size is the circumference")
		assert.InDelta(t, across, c/math.Pi, 0.05+1e-9, "size %d", n)
	}
}

func TestUSSizesAreThoseOfTheChart(t *testing.T) {
	const chart = "conversion chart of liquisearch.com, \"Ring Size - Systems\" (that of Wikipedia in 2012)"
	for i, r := range []struct{ inch, across, circumference float64 }{
		{0.458, 11.63, 36.5}, {0.466, 11.84, 37.2}, {0.474, 12.04, 37.8}, {0.482, 12.24, 38.5}, // 0
		{0.490, 12.45, 39.1}, {0.498, 12.65, 39.7}, {0.506, 12.85, 40.4}, {0.514, 13.06, 41.0}, // 1
		{0.522, 13.26, 41.7}, {0.530, 13.46, 42.3}, {0.538, 13.67, 42.9}, {0.546, 13.87, 43.6}, // 2
		{0.554, 14.07, 44.2}, {0.562, 14.27, 44.8}, {0.570, 14.48, 45.5}, {0.578, 14.68, 46.1}, // 3
		{0.586, 14.88, 46.8}, {0.594, 15.09, 47.4}, {0.602, 15.29, 48.0}, // 4 to 4 1/2
	} {
		c := size(t, "us", fmt.Sprint(float64(i)/4))
		assert.InDelta(t, r.inch*inchMM, c/math.Pi, 1e-9, "%v: %s", float64(i)/4, chart)
		assert.InDelta(t, r.across, c/math.Pi, 0.005+1e-9, "%v: %s", float64(i)/4, chart)
		assert.InDelta(t, r.circumference, c, 0.05+1e-9, "%v: %s", float64(i)/4, chart)
	}
	// The chart goes on in the same steps: 0.032 inch across a size.
	for quarters := 0; quarters <= 64; quarters++ {
		thousandths := 458 + 8*quarters
		c := size(t, "us", fmt.Sprint(float64(quarters)/4))
		assert.InDelta(t, float64(thousandths)*0.0254, c/math.Pi, 1e-9, "%v", float64(quarters)/4)
	}
}

func TestUKSizesAreThoseOfTheStandard(t *testing.T) {
	const (
		standard = "BS 6820 / BS EN 28653: 36.25 mm + 1.25 mm a letter from A = 1 (measurement.enacademic.com, \"ring size\")"
		memory   = "from memory: the steps go on past Z"
	)
	rows := []struct {
		size          string
		circumference float64
		source        string
	}{
		{"A", 37.5, standard}, {"B", 38.75, standard}, {"C", 40, standard}, {"D", 41.25, standard},
		{"E", 42.5, standard}, {"F", 43.75, standard}, {"G", 45, standard}, {"H", 46.25, standard},
		{"I", 47.5, standard}, {"J", 48.75, standard}, {"K", 50, standard}, {"L", 51.25, standard},
		{"M", 52.5, standard}, {"N", 53.75, standard}, {"O", 55, standard}, {"P", 56.25, standard},
		{"Q", 57.5, standard}, {"R", 58.75, standard}, {"S", 60, standard}, {"T", 61.25, standard},
		{"U", 62.5, standard}, {"V", 63.75, standard}, {"W", 65, standard}, {"X", 66.25, standard},
		{"Y", 67.5, standard}, {"Z", 68.75, standard}, {"Z+1", 70, memory}, {"Z+2", 71.25, memory},
		{"Z+3", 72.5, memory}, {"Z+4", 73.75, memory}, {"Z+5", 75, memory}, {"Z+6", 76.25, memory},
	}
	for i, r := range rows {
		assert.InDelta(t, r.circumference, size(t, "uk", r.size), 1e-9, "%s: %s", r.size, r.source)
		if len(r.size) == 1 {
			assert.Equal(t, string(rune('A'+i)), r.size, "one row for each letter")
			for part, mm := range map[string]float64{"1/4": 0.3125, "1/2": 0.625, "3/4": 0.9375} {
				assert.InDelta(t, r.circumference+mm, size(t, "uk", r.size+" "+part), 1e-9, "%s %s: %s", r.size, part, r.source)
			}
		}
	}
	assert.InDelta(t, 70.625, size(t, "uk", "Z+1.5"), 1e-9, memory)
	// The same page: C is the European size 0, 40 mm, and four letters are five sizes.
	for i, letter := range []string{"C", "G", "K", "O", "S", "W"} {
		assert.InDelta(t, size(t, "iso", strconv.Itoa(40+5*i)), size(t, "uk", letter), 1e-9)
	}
	assert.InDelta(t, size(t, "us", "7"), size(t, "uk", "N 1/2"), 0.06, "charts put US 7 beside UK N 1/2")
}

// The chart that shops print goes up by half a US size a letter, as far as I, and by as
// much from there: the scale's note says how far that is off.
func TestOlderUKChartsLieAsFarBesideAsTheNoteSays(t *testing.T) {
	most := 0.0
	for letter, c := range map[string]float64{ // mm, businessmanchester.co.uk, "The ultimate guide to choosing the correct ring size"
		"A": 37.8, "B": 39.1, "C": 40.4, "D": 41.7, "E": 42.9, "F": 44.2, "G": 45.5, "H": 46.8, "I": 48.0,
		"J": 48.7, "K": 50.0, "L": 51.2, "M": 52.5, "N": 53.8, "O": 55.1, "P": 56.3, "Q": 57.6, "R": 58.9,
		"S": 60.2, "T": 61.4, "U": 62.7, "V": 64.0, "W": 65.3, "X": 66.6, "Z": 68.5, // Y is misprinted
	} {
		most = max(most, math.Abs(c-size(t, "uk", letter)))
	}
	assert.InDelta(t, 0.6, most, 0.05+1e-9)
	for _, sc := range Scales() {
		if sc.Key == "uk" {
			assert.Contains(t, sc.Note, "0.6 mm")
		}
	}
}

func TestJapaneseSizesAreThoseOfTheStandard(t *testing.T) {
	const jis = "JIS S 4700: 13 mm across for size 1, 1/3 mm more a size (Wikipedia, \"Ring size\"; measurement.enacademic.com: (n + 38)/3)"
	across := 13.0
	for n := 1; n <= 30; n++ {
		assert.InDelta(t, across, size(t, "jp", strconv.Itoa(n))/math.Pi, 1e-9, "%d: %s", n, jis)
		across += 1.0 / 3
	}
	assert.InDelta(t, 39.8+1.047*30, size(t, "jp", "30"), 0.02, "enacademic.com: 39.8 + 1.047 n mm round")
}

func TestItalianSizesAreISOSizesLessForty(t *testing.T) {
	const source = "Wikipedia, \"Ring size\": the circumference less 40 mm"
	for half := 2; half <= 72; half++ {
		n := float64(half) / 2
		assert.InDelta(t, size(t, "iso", fmt.Sprint(40+n)), size(t, "it", fmt.Sprint(n)), 1e-9, "%v: %s", n, source)
	}
}

func TestBangleSizesAreThoseOfTheChart(t *testing.T) {
	const chart = "Indian bangle sizes, papilior.com" // printed from diameters in inches, to 0.1 mm or a little worse
	for _, r := range []struct {
		size                        string
		inch, across, circumference float64
	}{
		{"2-2", 2.125, 54, 169.4}, {"2-4", 2.25, 57.2, 179.6}, {"2-6", 2.375, 60.3, 189.5}, {"2-8", 2.5, 63.5, 199.4},
		{"2-10", 2.625, 66.7, 209.3}, {"2-12", 2.75, 69.9, 219.5}, {"2-14", 2.875, 73, 229.4}, {"3-0", 3, 76.3, 239.3},
	} {
		c := size(t, "bangle", r.size)
		assert.InDelta(t, r.inch*inchMM, c/math.Pi, 1e-9, "%s: %s", r.size, chart)
		assert.InDelta(t, r.across, c/math.Pi, 0.11, "%s: %s", r.size, chart)
		assert.InDelta(t, r.circumference, c, 0.2, "%s: %s", r.size, chart)
	}
	// Inches and sixteenths, jewelsify.com, "Bangle size guide".
	for sixteenths := 24; sixteenths <= 56; sixteenths++ {
		c := size(t, "bangle", fmt.Sprintf("%d-%d", sixteenths/16, sixteenths%16))
		assert.InDelta(t, float64(sixteenths)*1.5875, c/math.Pi, 1e-9, "%d/16 inch", sixteenths)
	}
}

// Where a scale ends is ours, except where letters or a standard end it.
func TestScalesEndWhereTheySay(t *testing.T) {
	for _, c := range []struct {
		scale    string
		in, over []string
	}{
		{"iso", []string{"38", "76"}, []string{"37.9", "76.1"}},
		{"us", []string{"0", "16"}, []string{"16.25", "3.3"}},
		{"uk", []string{"A", "Z", "Z+6", "A 3/4"}, []string{"Z+6.5", "Z+0", "Z+1.25", "A 1", "A 0", "A 1/3", "B+1", "a-1", "@", "[", "AA"}},
		{"jp", []string{"1", "30"}, []string{"0", "31", "4.5"}},
		{"it", []string{"1", "36", "14.5"}, []string{"0.5", "36.5", "14.25"}},
		{"bangle", []string{"1-8", "3-8", "2-15", "2-0"}, []string{"1-7", "3-9", "2-16", "2", "2-", "-4", "2-4-4"}},
	} {
		for _, s := range c.in {
			_, err := SizeCircumference(c.scale, s)
			assert.NoError(t, err, "%s %s", c.scale, s)
		}
		for _, s := range c.over {
			_, err := SizeCircumference(c.scale, s)
			assert.Error(t, err, "%s %s", c.scale, s)
		}
	}
}

func TestSizesMayBeSpeltInTheUsualWays(t *testing.T) {
	for _, c := range []struct{ scale, plain, spelt string }{
		{"uk", "N 1/2", "N½"}, {"uk", "N 1/2", "n 1/2"}, {"uk", "N 1/2", " N1/2 "}, {"uk", "N 1/2", "N.5"},
		{"us", "7.5", "7 1/2"}, {"us", "7.5", "7½"}, {"us", "7.5", "7,5"}, {"us", "7.25", "7 ¼"}, {"us", ".5", "1/2"},
		{"iso", "54.5", "54,5"}, {"bangle", "2-4", "2 - 4"}, {"bangle", "2-4", "2–4"}, {"uk", "Z+1", "z +1"},
	} {
		want, err := SizeCircumference(c.scale, c.plain)
		require.NoError(t, err)
		got, err := SizeCircumference(c.scale, c.spelt)
		require.NoError(t, err, c.spelt)
		assert.Equal(t, want, got, c.spelt)
	}
}

func TestEveryScaleReadsItsOwnExamples(t *testing.T) {
	for _, sc := range Scales() {
		assert.NotEmpty(t, sc.Source)
		assert.Contains(t, []string{Ring, Bangle}, sc.Kind)
		for _, example := range strings.Split(sc.Example, ", ") {
			c, err := SizeCircumference(sc.Key, example)
			require.NoError(t, err)
			assert.Greater(t, c, float64(MinCircumference))
			assert.Less(t, c, float64(MaxCircumference))
		}
	}
}

func TestUnclearSizesAreRefusedWithAQuestion(t *testing.T) {
	for _, c := range []struct{ scale, size, part string }{
		{"", "7", "which is meant"},
		{"", "7", `"us" (17.3 mm across), "jp" (15.0 mm across)`},
		{"gauge", "54", `must be one of "iso", "us", "uk", "jp", "it", "bangle"`},
		{"us", "54", `which scale is meant? It is a size on "iso"`},
		{"us", "N", `"uk"`},
		{"uk", "7", `"us"`},
		{"uk", "N1", `is "N1" meant as "N 1/2" or as "N+1"?`},
		{"us", "17.5", "inner diameter in mm?"},
		{"iso", "17.3", "inner diameter in mm?"},
		{"bangle", "2.4", `meant as inches or as "2-4"?`},
		{"uk", "1.2", `meant as inches or as "1-2"?`},
		{"uk", "3.9", `meant as inches or as "3-9"?`},
		{"uk", "12", "inner diameter in mm?"},
		{"iso", "29.9", "inner diameter in mm?"},
		{"us", "7.3", "quarters"},
		{"us", "-1", "not a size"},
		{"us", "1e1", "not a size"},
		{"us", "", "not a size"},
		{"uk", "Ñ", "not a size"},
		{"uk", "Z+7", "not a size"},
		{"uk", "A+1", "not a size"},
		{"iso", "9999999999999", "not a size"},
		{"iso", "NaN", "not a size"},
	} {
		_, err := SizeCircumference(c.scale, c.size)
		require.Error(t, err, "%q %q", c.scale, c.size)
		assert.Contains(t, err.Error(), c.part)
	}
}

// What is too large or too small for inches, or for a finger's diameter, is no question.
func TestOnlyLikelyMeaningsAreAskedFor(t *testing.T) {
	for _, size := range []string{"0.9", "1", "4", "5", "11.9", "30", "31"} {
		assert.Empty(t, sizeQuestion(size), size)
	}
	for _, size := range []string{"1.1", "3.9", "12", "29.9", "N1"} {
		assert.NotEmpty(t, sizeQuestion(size), size)
	}
}
