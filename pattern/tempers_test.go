package pattern

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Every row of the table, in its order, beside what its source prints; 0 where no source
// was found and nothing may be guessed.
func TestTempersAreThoseOfThePublishedTables(t *testing.T) {
	const (
		espi      = "ESPI Metals data page \"Silver - Sterling\": yield annealed 124 MPa"
		smithells = "Smithells Metals Reference Book, 8th ed., table 22.7"
		olin26    = "Olin Brass C26000"
		olin51    = "Olin Brass C51000"
		none      = "none found"
		memory    = "from memory"
	)
	rows := []struct {
		alloy, temper, title string
		proof                float64
		proofFrom            string
		modulus              float64
		modulusFrom          string
	}{
		{"sterling-925", "annealed", "annealed", 124, espi, 75, memory},
		{"sterling-925", "half-hard", "half hard", 0, none, 75, memory},
		{"sterling-925", "hard", "hard", 0, none, 75, memory},
		{"silver-999", "annealed", "annealed", 54, memory, 83, "Wikipedia, \"Elastic properties of the elements\" (CRC)"},
		{"gold-999", "annealed", "annealed", 20, memory, 79, "totalmateria.com"},
		{"gold-750-yellow", "annealed", "annealed", 250, memory, 90, memory},
		{"gold-750-yellow", "hard", "worked hard", 500, memory, 90, memory},
		{"platinum-950-ruthenium", "annealed", "annealed", 0, none, 190, memory},
		{"platinum-950-ruthenium", "hard", "hard", 0, none, 190, memory},
		{"copper", "annealed", "annealed", 54, smithells, 117, smithells},
		{"copper", "half-hard", "half hard", 176, smithells, 117, smithells},
		{"copper", "hard", "hard", 270, smithells, 117, smithells},
		{"brass-cuzn30", "annealed", "annealed", 145, olin26, 110, olin26},
		{"brass-cuzn30", "half-hard", "half hard", 350, olin26, 110, olin26},
		{"brass-cuzn30", "hard", "hard", 495, olin26, 110, olin26},
		{"bronze-c51000", "annealed", "annealed", 165, olin51, 110, olin51},
		{"bronze-c51000", "half-hard", "half hard", 395, olin51, 110, olin51},
		{"bronze-c51000", "hard", "hard", 560, olin51, 110, olin51},
		{"titanium-2", "annealed", "annealed", 275, "ASM/MatWeb MTU021, the least", 102, "ASM/MatWeb MTU021"},
		{"steel-316l", "annealed", "annealed", 170, memory, 193, "MatWeb type 316, annealed bar"},
		{"niobium", "annealed", "annealed", 70, memory, 105, "Wikipedia, \"Elastic properties of the elements\" (CRC)"},
		{"tantalum", "annealed", "annealed", 140, memory, 186, "enplanet.co.kr element data, tantalum"},
	}
	known := map[string][]Temper{}
	for _, r := range rows {
		known[r.alloy] = append(known[r.alloy], Temper{Key: r.temper, Title: r.title, ProofMPa: r.proof, ModulusGPa: r.modulus})
		got := Design{Metal: Metal{Alloy: r.alloy}, Wear: Wear{Temper: r.temper}}.Temper()
		published := r.proofFrom != memory && r.proofFrom != none
		assert.Equal(t, published, got.Published(), "%s %s: %s", r.alloy, r.temper, r.proofFrom)
		if published {
			assert.Contains(t, got.Source, strings.Fields(strings.TrimPrefix(r.proofFrom, "ASM/"))[0], "%s %s", r.alloy, r.temper)
		}
		if r.proofFrom == memory || r.modulusFrom == memory {
			assert.Contains(t, got.Source, "usual", "%s %s", r.alloy, r.temper)
		}
		if r.proofFrom == none {
			assert.Contains(t, got.Source, "found", "%s %s", r.alloy, r.temper)
		}
	}
	for _, a := range append(Alloys(), Alloy{Key: "moonstone"}) {
		want, ok := known[a.Key]
		if !ok { // nothing is known of it
			want = []Temper{{Key: "annealed", Title: "annealed"}}
		}
		got := Tempers(a.Key)
		for i := range got {
			got[i].Source = ""
		}
		assert.Equal(t, want, got, a.Key)
	}
}

func TestEveryAlloyHasATemperAndEveryTemperSaysWhereItsFiguresAreFrom(t *testing.T) {
	for _, a := range Alloys() {
		seen := map[string]bool{}
		for _, tm := range Tempers(a.Key) {
			assert.False(t, seen[tm.Key], a.Key)
			seen[tm.Key] = true
			if tm.ProofMPa > 0 {
				assert.Regexp(t, "published|usual", tm.Source, a.Key)
				assert.Positive(t, tm.ModulusGPa, a.Key)
			} else {
				assert.Regexp(t, "found", tm.Source, a.Key)
			}
		}
		assert.True(t, seen["annealed"], a.Key)
	}
}

func TestOwnFiguresStandInPlaceOfTheTables(t *testing.T) {
	d := Design{Metal: Metal{Alloy: "sterling-925"}, Wear: Wear{Temper: "half-hard"}}
	assert.Zero(t, d.Temper().ProofMPa, "no proof stress was found, so none is guessed")
	d.Wear.ProofMPa = 260
	got := d.Temper()
	assert.Equal(t, 260.0, got.ProofMPa)
	assert.Equal(t, 75.0, got.ModulusGPa)
	assert.Contains(t, got.Source, "your own proof stress")
	assert.False(t, got.Published())
	assert.False(t, Tempers("silver-999")[0].Published(), "its proof stress is from memory, its modulus published")
	// Of every temper the figures that are not the user's own are the table's.
	for _, a := range Alloys() {
		for _, want := range Tempers(a.Key) {
			for _, own := range []Wear{{}, {ProofMPa: 333}, {ModulusGPa: 66}, {ProofMPa: 333, ModulusGPa: 66}} {
				own.Temper = want.Key
				got := Design{Metal: Metal{Alloy: a.Key}, Wear: own}.Temper()
				proof, modulus, whose := want.ProofMPa, want.ModulusGPa, want.Source
				if own.ProofMPa > 0 {
					proof, whose = 333, "your own proof stress; for the rest: "+want.Source
				}
				if own.ModulusGPa > 0 {
					modulus, whose = 66, "your own modulus; for the rest: "+want.Source
				}
				if own.ProofMPa > 0 && own.ModulusGPa > 0 {
					whose = "your own figures"
				}
				assert.Equal(t, Temper{want.Key, want.Title, proof, modulus, whose}, got, "%s, %+v", a.Key, own)
			}
		}
	}
}
