package check

import (
	"strings"
	"testing"

	"fretband/pattern"
	"fretband/unroll"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func topics(cs []Care) string {
	var names []string
	for _, c := range cs {
		names = append(names, c.Topic)
	}
	return strings.Join(names, ", ")
}

func TestOnlyTheCautionsThatApplyAreTold(t *testing.T) {
	for _, c := range []struct {
		name, process, alloy, kind string
		want                       string
	}{
		{"not settled", "", "sterling-925", unroll.Cuff, "Laser, Saw and drill, Edges, Cadmium and lead, Hallmark, Estimates, Who decides"},
		{"sawn", "saw", "sterling-925", unroll.Cuff, "Saw and drill, Edges, Cadmium and lead, Hallmark, Estimates, Who decides"},
		{"laser, white gold, soldered", "laser", "gold-750-white", unroll.Bangle, "Laser, Soldering, Edges, Nickel, Cadmium and lead, Hallmark, Estimates, Who decides"},
		{"etched brass", "etch", "brass-cuzn30", unroll.Cuff, "Etching, Edges, Nickel, Cadmium and lead, Estimates, Who decides"},
		{"cast titanium", "cast", "titanium-2", unroll.Cuff, "Casting, Edges, Cadmium and lead, Estimates, Who decides"},
	} {
		d := benchCuff()
		if c.kind == unroll.Bangle {
			d = benchBangle()
		}
		d.Rules.Process, d.Metal.Alloy = c.process, c.alloy
		s, err := pattern.Lay(d)
		require.NoError(t, err, c.name)
		assert.Equal(t, c.want, topics(Cautions(d, Run(s), "")), c.name)
	}
	assert.Equal(t, "Laser, Saw and drill, Soldering, Edges, Nickel, Cadmium and lead, Hallmark, Estimates, Who decides", topics(Cautions(pattern.Design{}, nil, "")), "of any band")
	assert.NotContains(t, topics(Cautions(benchCuff(), nil, "saw")), "Laser", "the files' own process counts")
}

func textOf(cs []Care, topic string) string {
	for _, c := range cs {
		if c.Topic == topic {
			return c.Text
		}
	}
	return ""
}

// Thresholds: United Kingdom silver 7.78 g, gold 1 g, palladium 1 g, platinum 0.5 g,
// less is exempt (anchorcertacademy.net); Finland silver 10 g, the others 1 g
// (tukes.fi).
func TestTheHallmarkGoesByTheFinishedWeight(t *testing.T) {
	const under, near, must = "(this is under it)", "(this is too near it to say)", "(this must be marked)"
	for _, c := range []struct {
		alloy  string
		grams  float64
		uk, fi string
	}{
		{"sterling-925", 7.0, "7.78 g of silver " + under, "10 g of silver " + under},
		{"sterling-925", 7.7, "7.78 g of silver " + near, "10 g of silver " + under},
		{"sterling-925", 8.3, "7.78 g of silver " + must, "10 g of silver " + under},
		{"silver-999", 20, "7.78 g of silver " + must, "10 g of silver " + must},
		{"gold-375-yellow", 0.9, "1 g of gold " + under, "1 g of gold " + under},
		{"gold-999", 1.2, "1 g of gold " + must, "1 g of gold " + must},
		{"palladium-950-ruthenium", 0.9, "1 g of palladium " + under, "1 g of palladium " + under},
		{"platinum-950-cobalt", 0.6, "0.5 g of platinum " + must, "1 g of platinum " + under},
	} {
		a, _ := pattern.AlloyByKey(c.alloy)
		text := textOf(Cautions(benchCuff(), &Report{Alloy: a, Left: c.grams}, ""), "Hallmark")
		assert.Contains(t, text, "United Kingdom from "+c.uk+", Finland from "+c.fi+".", "%s of %g g", c.alloy, c.grams)
		assert.Contains(t, text, "ask your assay office")
	}
}

func TestWhatThrowsTheBeamBackIsNamed(t *testing.T) {
	for key, want := range map[string]string{"sterling-925": "Silver throws", "gold-585-red": "Gold throws", "copper": "Copper throws", "titanium-2": ""} {
		a, _ := pattern.AlloyByKey(key)
		text := textOf(Cautions(benchCuff(), &Report{Alloy: a}, "laser"), "Laser")
		assert.Contains(t, text, "class 4")
		if want == "" {
			assert.NotContains(t, text, "back strongly")
		} else {
			assert.Contains(t, text, want)
		}
	}
}
