package export

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"fretband/export/sample"
	"fretband/unroll"
)

// labelsOf returns what a receiver is told, in order.
func labelsOf(t *testing.T, o Options, sealed bool) []string {
	d := sample.Form(t, "oval-cuff")
	if sealed {
		d = sample.Form(t, "round-bangle")
		d.Band.Joint, d.Band.JointMM = unroll.Seamless, 0
	}
	s, r := sample.Measured(t, d)
	var ls []string
	for _, f := range PartFacts(s, r, o) {
		if f.Label != "Note" && f.Label != "Design note" {
			ls = append(ls, f.Label)
		}
	}
	return ls
}

// The order is the same whoever receives the part: first what a shop rings up to ask.
func TestEachReceiverIsToldWhatHeActsOnInOneOrder(t *testing.T) {
	asked := []string{"Part", "Metal", "Temper", "Thickness", "Quantity", "Blank", "Finished size", "Inside", "Face up", "Kerf",
		"Tolerance", "Pierces", "Length of cut", "Engraving", "Deburring", "Grain", "Date"}
	after := []string{"Weight", "Bridge rule", "Thinnest bridge", "Units", "Process", "Origin", "Ends"}
	dated := Options{Date: "a day"}
	for _, to := range []string{"", "bench", "laser"} {
		dated.For = to
		assert.Equal(t, append(append([]string(nil), asked...), after...), labelsOf(t, dated, false), to)
	}
	dated.For = Casting
	assert.Equal(t, []string{"Part", "Metal", "Thickness", "Quantity", "Finished size", "Inside", "Tolerance", "Engraving", "Date",
		"Solid", "Shrinkage", "Polish allowance", "Sprue", "Pattern weight", "Weight", "Bridge rule", "Thinnest bridge", "Units", "Origin"},
		labelsOf(t, dated, false), "nobody who casts follows a line")
	assert.NotContains(t, labelsOf(t, Options{}, false), "Date")
	assert.NotContains(t, labelsOf(t, Options{For: LaserShop}, true), "Grain", "tube is not bent")
}

func TestOneIsAQuantity(t *testing.T) {
	s, r := sample.Cuff()
	for n, want := range map[int]string{0: "1", 1: "1", 3: "3 of one kind; all that is said is for each"} {
		for _, f := range PartFacts(s, r, Options{Copies: n}) {
			if f.Label == "Quantity" {
				assert.Equal(t, want, f.Text)
			}
		}
	}
}

func TestPatternsAreLargerAndTakeAsMuchMetalAsPublished(t *testing.T) {
	// Both steps one after the other, by arithmetic: 60 / 0.975 / 0.99.
	assert.InDelta(t, 62.16006, patternSize(60, injectedWax, waxToMetal), 1e-5)
	// Rio Grande's table of casting metal: 5 of wax in a gold of density 13.07, with a tenth
	// for the button is 71.89, for wax of 1 g/cm³.
	assert.InDelta(t, 71.89, castMetal(5, 13.07, 1), 0.01)
}
