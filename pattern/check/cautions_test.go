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

// Thresholds of the United Kingdom: silver 7.78 g, gold 1 g, palladium 1 g, platinum
// 0.5 g; an article that weighs less is exempt (anchorcertacademy.net,
// hallmarkingconvention.org).
func TestTheHallmarkGoesByTheFinishedWeight(t *testing.T) {
	for _, c := range []struct {
		alloy string
		grams float64
		says  string
	}{
		{"sterling-925", 7.0, "may be sold unmarked"}, {"sterling-925", 7.7, "too near to say"}, {"sterling-925", 8.3, "must be hallmarked"},
		{"gold-375-yellow", 0.9, "may be sold unmarked"}, {"gold-999", 1.2, "must be hallmarked"},
		{"palladium-950-ruthenium", 0.9, "may be sold unmarked"}, {"platinum-950-cobalt", 0.6, "must be hallmarked"},
	} {
		a, _ := pattern.AlloyByKey(c.alloy)
		text := textOf(Cautions(benchCuff(), &Report{Alloy: a, Left: c.grams}, ""), "Hallmark")
		assert.Contains(t, text, c.says, "%s of %g g", c.alloy, c.grams)
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
