package pattern

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Densities of pure metals, g/cm^3: Au, Ag, Cu, Pt, Co, Cr as in tmtpages.com table 4;
// the others from memory.
const (
	au, ag, cu, pt, co, cr         = 19.32, 10.49, 8.96, 21.45, 8.90, 7.19
	ir, ru, pd, ni, zn, fe, mo, sn = 22.56, 12.45, 12.02, 8.91, 7.14, 7.87, 10.22, 7.29
)

func TestAlloyDensityAgreesWithWorkedExamples(t *testing.T) {
	for _, c := range []struct {
		parts     []part
		want, tol float64
		source    string
	}{
		{[]part{{583, au}, {104, ag}, {313, cu}}, 13.329, 0.002, "tmtpages.com specific gravity, worked example, prints 13.33"},
		{[]part{{925, ag}, {75, cu}}, 10.36, 0.01, "ESPI Metals data page, sterling"},
		{[]part{{950, pt}, {50, co}}, 20.04, 0.01, "computed by hand"},
		{[]part{{1, cu}}, cu, 1e-12, "one metal is itself"},
		{nil, 0, 0, "nothing"},
	} {
		assert.InDelta(t, c.want, alloyDensity(c.parts), c.tol, c.source)
	}
}

// Stuller (2012): 4 dwt of sterling at 10.40 recast in 14 ct yellow gold weighs
// 5.02 dwt.
func TestRecastingInAnotherMetal(t *testing.T) {
	gold, _ := AlloyByKey("gold-585-yellow")
	assert.InDelta(t, 5.027, 4*gold.Density/10.40, 0.01, "Stuller")
}

// Every density is the one that its source prints, and near what its parts give: within
// 0.25 % where the parts are those of the name, within 2.5 % where they are a usual
// composition (memory). Brass, and steel more so, is denser than its parts.
func TestEveryDensityIsThatOfItsSourceAndOfItsParts(t *testing.T) {
	const (
		stuller  = "Stuller 2012, printed"
		tmt      = "tmtpages.com table 4, printed"
		computed = "its parts"
		memory   = "from memory"
		exact    = 0.0025
		usual    = 0.025
	)
	rows := []struct {
		key     string
		density float64
		source  string
		parts   []part
		share   float64 // that the density may be off what the parts give
	}{
		{"sterling-925", 10.36, "ESPI Metals, printed", []part{{925, ag}, {75, cu}}, exact},
		{"silver-999", 10.49, tmt, []part{{999, ag}, {1, cu}}, exact},
		{"gold-375-yellow", 11.1, "diamondsbyme.com, printed", []part{{375, au}, {100, ag}, {450, cu}, {75, zn}}, usual},
		{"gold-375-white", 10.7, "diamondsbyme.com, printed", []part{{375, au}, {400, cu}, {100, ni}, {125, zn}}, usual},
		{"gold-417-yellow", 11.57, stuller, []part{{417, au}, {120, ag}, {400, cu}, {63, zn}}, usual},
		{"gold-417-red", 11.59, stuller, []part{{417, au}, {30, ag}, {553, cu}}, usual},
		{"gold-417-white", 11.07, stuller, []part{{417, au}, {120, ni}, {333, cu}, {130, zn}}, usual},
		{"gold-417-green", 11.03, stuller, []part{{417, au}, {583, ag}}, 0.15}, // disputed
		{"gold-585-yellow", 13.07, stuller, []part{{583, au}, {104, ag}, {313, cu}}, usual},
		{"gold-585-red", 13.26, stuller, []part{{585, au}, {70, ag}, {345, cu}}, usual},
		{"gold-585-white", 12.61, stuller, []part{{585, au}, {120, ni}, {235, cu}, {60, zn}}, usual},
		{"gold-585-green", 14.20, stuller, []part{{585, au}, {415, ag}}, usual},
		{"gold-750-yellow", 15.58, tmt, []part{{750, au}, {125, ag}, {125, cu}}, usual},
		{"gold-750-red", 15.18, tmt, []part{{750, au}, {45, ag}, {205, cu}}, usual},
		{"gold-750-white", 14.64, tmt, []part{{750, au}, {135, ni}, {85, cu}, {30, zn}}, usual},
		{"gold-750-green", 15.90, tmt, []part{{750, au}, {250, ag}}, usual},
		{"gold-916-yellow", 17.8, computed, []part{{916, au}, {42, ag}, {42, cu}}, exact},
		{"gold-999", 19.32, tmt, []part{{999, au}, {1, ag}}, exact},
		{"platinum-900-iridium", 21.54, stuller, []part{{900, pt}, {100, ir}}, exact},
		{"platinum-950-iridium", 21.50, computed, []part{{950, pt}, {50, ir}}, exact},
		{"platinum-950-ruthenium", 20.70, computed, []part{{950, pt}, {50, ru}}, exact},
		{"platinum-950-cobalt", 20.8, stuller, []part{{950, pt}, {50, co}}, 0.04}, // disputed
		{"palladium-950-ruthenium", 12.04, computed, []part{{950, pd}, {50, ru}}, exact},
		{"copper", 8.96, tmt, nil, 0},
		{"brass-cuzn30", 8.53, "Olin Brass C26000 and data sheet CW505L of shree-extrusion.com, printed", []part{{70, cu}, {30, zn}}, usual},
		{"brass-cuzn37", 8.44, "data sheet CZ108 of rajhans.com, printed", []part{{63, cu}, {37, zn}}, 0.032},
		{"bronze-c51000", 8.86, "Olin Brass C51000, printed", []part{{95, cu}, {5, sn}}, usual},
		{"titanium-2", 4.51, "MatWeb, printed", nil, 0},
		{"steel-316l", 8.0, "MatWeb type 316, printed; boynessprings.com prints 8.0 too", []part{{685, fe}, {170, cr}, {120, ni}, {25, mo}}, 0.03},
		{"niobium", 8.57, memory, nil, 0},
		{"tantalum", 16.65, "enplanet.co.kr element data, printed; steeldata.info prints 16.654", nil, 0},
	}
	var keys []string
	for _, r := range rows {
		keys = append(keys, r.key)
		a, ok := AlloyByKey(r.key)
		require.True(t, ok, r.key)
		assert.Equal(t, r.density, a.Density, "%s: %s", r.key, r.source)
		assert.Equal(t, r.source == memory, strings.HasPrefix(a.Source, "usual"), "%s: the table says so itself", r.key)
		if len(r.parts) == 0 {
			continue
		}
		off := math.Abs(a.Density/alloyDensity(r.parts) - 1)
		assert.LessOrEqual(t, off, r.share, "%s: its parts give %.2f", r.key, alloyDensity(r.parts))
		// Printed values that no composition of the name gives are marked.
		doubtful := strings.HasPrefix(r.key, "gold-417-green") || strings.HasPrefix(r.key, "platinum-950-cobalt")
		assert.Equal(t, doubtful, strings.HasPrefix(a.Source, "DISPUTED"), r.key)
		if doubtful {
			assert.Greater(t, off, 0.03, r.key)
		}
		if a.Fineness > 0 { // the precious metal stands first
			total := 0.0
			for _, p := range r.parts {
				total += p.Share
			}
			assert.InDelta(t, float64(a.Fineness)/1000, r.parts[0].Share/total, 0.003, "%s: its fineness", r.key)
		}
	}
	for i, a := range Alloys() {
		if a.Key != OwnAlloy {
			assert.Equal(t, keys[i], a.Key, "one row for each alloy")
		}
	}
}

// Grades of ISO 9202 (memory); 14 ct, 583, is marked 585. 10 ct, 417, is that of the
// United States' stamping act (memory).
func TestFinenessesAreThoseOfTheStandard(t *testing.T) {
	grades := map[string][]int{
		"gold": {375, 417, 585, 750, 916, 999}, "silver": {999}, "sterling": {925},
		"platinum": {900, 950}, "palladium": {950},
	}
	for _, a := range Alloys() {
		word, rest, _ := strings.Cut(a.Key, "-")
		if g, ok := grades[word]; ok {
			assert.Contains(t, g, a.Fineness, a.Key)
			assert.Contains(t, rest, strconv.Itoa(a.Fineness), "the key tells the fineness")
			assert.Contains(t, a.Name, strconv.Itoa(a.Fineness), "the name tells the fineness")
		} else {
			assert.Zero(t, a.Fineness, "%s is no precious metal", a.Key)
		}
	}
	for carat, fineness := range map[string]int{"9 ct": 375, "10 ct": 417, "14 ct": 585, "18 ct": 750, "22 ct": 916} {
		for _, a := range Alloys() {
			if strings.HasPrefix(a.Name, carat) {
				assert.Equal(t, fineness, a.Fineness, a.Name)
			}
		}
		n, err := strconv.Atoi(strings.TrimSuffix(carat, " ct"))
		require.NoError(t, err)
		assert.InDelta(t, float64(n)/24*1000, fineness, 2, "%s: n/24", carat)
	}
}

func TestEveryAlloyHasAPlainKeyASaneDensityAndASource(t *testing.T) {
	plain := regexp.MustCompile(`^[a-z]+(-[a-z0-9]+)*$`)
	seen := map[string]bool{}
	for _, a := range Alloys() {
		assert.Regexp(t, plain, a.Key)
		assert.False(t, seen[a.Key], a.Key)
		seen[a.Key] = true
		assert.NotEmpty(t, a.Name)
		assert.NotEmpty(t, a.Source)
		if a.Key == OwnAlloy {
			continue
		}
		assert.Greater(t, a.Density, 4.0)
		assert.Less(t, a.Density, 22.6, "osmium, the densest metal")
		got, ok := AlloyByKey(a.Key)
		assert.True(t, ok)
		assert.Equal(t, a, got)
	}
}

func TestTheDesignsOwnDensityCounts(t *testing.T) {
	a, d := Metal{Alloy: OwnAlloy, DensityGCM3: 9.1}.Density()
	assert.Equal(t, 9.1, d)
	assert.Equal(t, 9.1, a.Density)
	_, d = Metal{Alloy: "copper"}.Density()
	assert.Equal(t, 8.96, d)
	_, d = Metal{Alloy: "moonstone"}.Density()
	assert.Zero(t, d)
}

// part is one metal of an alloy: its share by weight, in any unit that is the
// same for all parts, and its density, g/cm^3.
type part struct{ Share, Density float64 }

// alloyDensity returns the density, g/cm^3, of parts that keep their volumes
// when melted together: the sum of the shares over the sum of share / density.
// Real alloys stray from it by some parts in a hundred. No parts give 0.
func alloyDensity(parts []part) float64 {
	var mass, volume float64
	for _, p := range parts {
		mass += p.Share
		volume += p.Share / p.Density
	}
	if volume == 0 {
		return 0
	}
	return mass / volume
}
