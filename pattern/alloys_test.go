package pattern

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Densities of pure metals, g/cm^3: Au, Ag, Cu, Pt as in tmtpages.com table 4;
// Ir, Ru, Co, Pd from memory.
const (
	au, ag, cu, pt = 19.32, 10.49, 8.96, 21.45
	ir, ru, co, pd = 22.56, 12.45, 8.90, 12.02
)

func TestAlloyDensityAgreesWithWorkedExamples(t *testing.T) {
	for _, c := range []struct {
		parts     []Part
		want, tol float64
		source    string
	}{
		{[]Part{{583, au}, {104, ag}, {313, cu}}, 13.329, 0.002, "tmtpages.com specific gravity, worked example, prints 13.33"},
		{[]Part{{925, ag}, {75, cu}}, 10.36, 0.01, "ESPI Metals data page, sterling"},
		{[]Part{{950, pt}, {50, co}}, 20.04, 0.01, "computed by hand"},
		{[]Part{{1, cu}}, cu, 1e-12, "one metal is itself"},
		{nil, 0, 0, "nothing"},
	} {
		assert.InDelta(t, c.want, AlloyDensity(c.parts), c.tol, c.source)
	}
}

// Stuller (2012): 4 dwt of sterling at 10.40 recast in 14 ct yellow gold weighs
// 5.02 dwt.
func TestRecastingInAnotherMetal(t *testing.T) {
	gold, _ := AlloyByKey("gold-585-yellow")
	assert.InDelta(t, 5.027, 4*gold.Density/10.40, 0.01, "Stuller")
}

func TestTheTableAgreesWithTheRuleOfParts(t *testing.T) {
	for _, c := range []struct {
		key   string
		parts []Part
		tol   float64
	}{
		{"sterling-925", []Part{{925, ag}, {75, cu}}, 0.002},
		{"gold-585-yellow", []Part{{583, au}, {104, ag}, {313, cu}}, 0.025},
		{"gold-916-yellow", []Part{{916, au}, {42, ag}, {42, cu}}, 0.002},
		{"platinum-900-iridium", []Part{{900, pt}, {100, ir}}, 0.002},
		{"platinum-950-iridium", []Part{{950, pt}, {50, ir}}, 0.002},
		{"platinum-950-ruthenium", []Part{{950, pt}, {50, ru}}, 0.002},
		{"palladium-950-ruthenium", []Part{{950, pd}, {50, ru}}, 0.002},
	} {
		a, ok := AlloyByKey(c.key)
		require.True(t, ok, c.key)
		assert.InEpsilon(t, AlloyDensity(c.parts), a.Density, c.tol, c.key)
	}
	cobalt, _ := AlloyByKey("platinum-950-cobalt")
	assert.Greater(t, cobalt.Density/AlloyDensity([]Part{{950, pt}, {50, co}}), 1.03, "the printed value and the rule are 3.7 % apart")
	assert.Contains(t, cobalt.Source, "DISPUTED")
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
		if a.Fineness > 0 {
			assert.Contains(t, strings.ReplaceAll(a.Name, " ", ""), strings.Split(a.Key, "-")[1], "the name tells the fineness")
		}
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
