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
		{"not settled", "", "sterling-925", unroll.Cuff, "Laser, Saw and drill, Annealing and pickle, Edges, Polishing, Cadmium and lead, Hallmark, Estimates, Who decides"},
		{"sawn", "saw", "sterling-925", unroll.Cuff, "Saw and drill, Annealing and pickle, Edges, Polishing, Cadmium and lead, Hallmark, Estimates, Who decides"},
		{"laser, white gold, soldered", "laser", "gold-750-white", unroll.Bangle, "Laser, Soldering, Annealing and pickle, Edges, Polishing, Nickel, Cadmium and lead, Hallmark, Estimates, Who decides"},
		{"etched brass", "etch", "brass-cuzn30", unroll.Cuff, "Etching, Annealing and pickle, Edges, Polishing, Nickel, Cadmium and lead, Estimates, Who decides"},
		{"cast titanium", "cast", "titanium-2", unroll.Cuff, "Casting, Edges, Polishing, Cadmium and lead, Estimates, Who decides"},
	} {
		d := benchCuff()
		if c.kind == unroll.Bangle {
			d = benchBangle()
		}
		d.Rules.Process, d.Metal.Alloy = c.process, c.alloy
		s, err := pattern.Lay(d)
		require.NoError(t, err, c.name)
		assert.Equal(t, c.want, topics(Cautions(s, Run(s))), c.name)
	}
	set := benchCuff()
	set.Rules.Process = "saw"
	set.Added = []pattern.Added{{Kind: pattern.StonePart, Cut: "round-cabochon", Gem: "opal", WidthMM: 5, DepthMM: 2, Setting: pattern.Bezel, WallMM: 0.3, RiseMM: 1}}
	stones, err := pattern.Lay(set)
	require.NoError(t, err)
	assert.Equal(t, "Saw and drill, Soldering, Annealing and pickle, Stones, Edges, Polishing, Cadmium and lead, Hallmark, Estimates, Who decides", topics(Cautions(stones, Run(stones))), "a bezel is soldered, a stone is set")
	assert.Equal(t, "Laser, Saw and drill, Soldering, Annealing and pickle, Edges, Polishing, Nickel, Cadmium and lead, Hallmark, Estimates, Who decides", topics(Cautions(nil, nil)), "of any band")
	s, err := pattern.Lay(benchCuff())
	require.NoError(t, err)
	assert.NotContains(t, topics(Cautions(s.CutBy("saw"), Run(s))), "Laser", "how the sheet is cut counts")
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
		text := textOf(Cautions(&pattern.Sheet{Design: benchCuff()}, &Report{Alloy: a, Left: c.grams}), "Hallmark")
		assert.Contains(t, text, "United Kingdom from "+c.uk+", Finland from "+c.fi+".", "%s of %g g", c.alloy, c.grams)
		assert.Contains(t, text, "ask your assay office")
	}
}

// The standards of fineness are those of hallmarkingconvention.org, country profile United
// Kingdom: platinum 999, 950, 900, 850; gold 999, 990, 916, 750, 585, 375; palladium 999, 950,
// 500; silver 999, 958, 925, 800. 10 ct, 417, is none of them.
func TestAFinenessThatIsNoStandardIsSaidToBeNone(t *testing.T) {
	s := &pattern.Sheet{Design: benchCuff()}
	for _, a := range pattern.Alloys() {
		if a.Fineness > 0 {
			text := textOf(Cautions(s, &Report{Alloy: a, Left: 20}), "Hallmark")
			assert.Equal(t, a.Fineness == 417, strings.Contains(text, "is no standard of fineness there"), a.Key)
		}
	}
}

// Every country's every threshold.
func TestTheThresholdsAreThoseOfTheOffices(t *testing.T) {
	const (
		uk = "anchorcertacademy.net and hallmarkingconvention.org, country profile United Kingdom"
		fi = "tukes.fi, \"Mandatory marks\", and hallmarkingconvention.org, country profile Finland"
	)
	rows := []struct {
		is     threshold
		source string
	}{
		{threshold{"United Kingdom", "silver", 7.78}, uk}, {threshold{"United Kingdom", "gold", 1}, uk},
		{threshold{"United Kingdom", "palladium", 1}, uk}, {threshold{"United Kingdom", "platinum", 0.5}, uk},
		{threshold{"Finland", "silver", 10}, fi}, {threshold{"Finland", "gold", 1}, fi},
		{threshold{"Finland", "palladium", 1}, fi}, {threshold{"Finland", "platinum", 1}, fi},
	}
	require.Len(t, thresholds(), len(rows))
	for i, got := range thresholds() {
		assert.Equal(t, rows[i].is, got, rows[i].source)
	}
}

// REACH annex XVII: entry 27 (nickel: 0.5 ug/cm2 a week on
// the skin, 0.2 from posts, two years of wear when plated; tests by EN 1811),
// entry 23 (cadmium under 0.01 % by weight, ECHA), entry 63 (lead under 0.05 %,
// tukes.fi).
func TestTheLimitsOfWhatTheSkinTouchesAreThoseOfREACH(t *testing.T) {
	cs := Cautions(nil, nil)
	for _, limit := range []string{"0.5 µg/cm² a week at most", "posts in piercings 0.2", "two years"} {
		assert.Contains(t, textOf(cs, "Nickel"), limit)
	}
	assert.Contains(t, textOf(cs, "Cadmium and lead"), "under 0.01 % of cadmium and under 0.05 % of lead")
}

// What each metal of the table is taken for: which precious metal, whether it throws a
// beam back, whether it may hold nickel or be plated over it (all from memory).
func TestEveryMetalHasItsCautions(t *testing.T) {
	const no = ""
	rows := []struct{ key, precious, beam, nickel string }{
		{"sterling-925", "silver", "Silver", no}, {"silver-999", "silver", "Silver", no},
		{"gold-375-yellow", "gold", "Gold", no}, {"gold-375-white", "gold", "Gold", "may"},
		{"gold-417-yellow", "gold", "Gold", no}, {"gold-417-red", "gold", "Gold", no},
		{"gold-417-white", "gold", "Gold", "may"}, {"gold-417-green", "gold", "Gold", no},
		{"gold-585-yellow", "gold", "Gold", no}, {"gold-585-red", "gold", "Gold", no},
		{"gold-585-white", "gold", "Gold", "may"}, {"gold-585-green", "gold", "Gold", no},
		{"gold-750-yellow", "gold", "Gold", no}, {"gold-750-red", "gold", "Gold", no},
		{"gold-750-white", "gold", "Gold", "may"}, {"gold-750-green", "gold", "Gold", no},
		{"gold-916-yellow", "gold", "Gold", no}, {"gold-999", "gold", "Gold", no},
		{"platinum-900-iridium", "platinum", no, no}, {"platinum-950-iridium", "platinum", no, no},
		{"platinum-950-ruthenium", "platinum", no, no}, {"platinum-950-cobalt", "platinum", no, no},
		{"palladium-950-ruthenium", "palladium", no, no},
		{"copper", no, "Copper", "may"}, {"brass-cuzn30", no, "Brass", "may"}, {"brass-cuzn37", no, "Brass", "may"},
		{"bronze-c51000", no, "Bronze", "may"}, {"titanium-2", no, no, no}, {"steel-316l", no, no, "may"},
		{"niobium", no, no, no}, {"tantalum", no, no, no}, {pattern.OwnAlloy, no, no, "may"},
	}
	require.Len(t, pattern.Alloys(), len(rows))
	for i, a := range pattern.Alloys() {
		r := rows[i]
		require.Equal(t, r.key, a.Key)
		assert.Equal(t, r.precious, preciousOf(a), a.Key)
		assert.Equal(t, a.Fineness > 0, preciousOf(a) != "", a.Key)
		beam, _, _ := strings.Cut(throwsBack(a), ",")
		beam, _, _ = strings.Cut(beam, " ")
		assert.Equal(t, r.beam, beam, a.Key)
		assert.Equal(t, r.nickel != "", mayHoldNickel(a), a.Key)
	}
}

func TestWhatThrowsTheBeamBackIsNamed(t *testing.T) {
	for key, want := range map[string]string{"sterling-925": "Silver throws", "gold-585-red": "Gold throws", "copper": "Copper throws", "titanium-2": ""} {
		a, _ := pattern.AlloyByKey(key)
		text := textOf(Cautions(&pattern.Sheet{Design: benchCuff(), Process: "laser"}, &Report{Alloy: a}), "Laser")
		assert.Contains(t, text, "class 4")
		if want == "" {
			assert.NotContains(t, text, "back strongly")
		} else {
			assert.Contains(t, text, want)
		}
	}
}
