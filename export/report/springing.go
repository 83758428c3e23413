package report

import (
	"fmt"
	"io"

	"fretband/pattern"
	"fretband/pattern/check"
)

// springJSON is the estimate of springing on, as check.Spring.
type springJSON struct {
	Open     float64    `json:"opening_mm"`
	OpenFrom string     `json:"opening_from"`
	Gap      float64    `json:"gap_straight_mm"`
	Temper   string     `json:"temper"`
	Proof    float64    `json:"proof_mpa"`   // 0 if none is known
	Modulus  float64    `json:"modulus_gpa"` // 0 if none is known; then there are no figures
	Source   string     `json:"temper_source"`
	Force    float64    `json:"force_n"`
	PerN     float64    `json:"opening_mm_per_n"`
	Stress   float64    `json:"stress_mpa"` // the greatest on the metal left
	At       [2]float64 `json:"stress_at"`
	Peak     float64    `json:"peak_mpa"` // at the edge of an opening; 0 without openings
	PeakAt   [2]float64 `json:"peak_at"`
	Raiser   float64    `json:"raiser"`
	Words    string     `json:"words"` // springs back, takes a set, do not; empty without a proof stress
	Back     float64    `json:"springs_back_from_mm"`
	Set      float64    `json:"set_mm"`
	X        []float64  `json:"x_mm"`
	Along    []float64  `json:"stress_along_mpa"` // at x_mm
	Notes    []string   `json:"notes"`
}

// springStations is how many positions along the band are written.
const springStations = 128

// springOf returns nil for a closed band, and where it has not been calculated.
func springOf(r *check.Report) *springJSON {
	if r.Deep == nil || r.Deep.Spring == nil {
		return nil
	}
	s := r.Deep.Spring
	j := &springJSON{
		Open: s.OpenMM, OpenFrom: s.How, Gap: s.GapMM,
		Temper: s.Temper.Title, Proof: s.ProofMPa, Modulus: s.Temper.ModulusGPa, Source: s.Temper.Source,
		Force: s.ForceN, PerN: s.PerN, Stress: s.StressMPa, At: [2]float64{s.At.X, s.At.Y},
		Peak: s.PeakMPa, PeakAt: [2]float64{s.PeakAt.X, s.PeakAt.Y}, Raiser: s.Raise,
		Words: s.Words, Back: s.BackMM, Set: s.SetMM, X: []float64{}, Along: []float64{}, Notes: check.SpringNotes(),
	}
	// Of each stretch the most stressed place, so that none is passed over.
	n := len(s.Stress)
	for k := 0; k < springStations && n >= springStations; k++ {
		best := k * n / springStations
		for i := best; i < (k+1)*n/springStations; i++ {
			if s.Stress[i] > s.Stress[best] {
				best = i
			}
		}
		j.X, j.Along = append(j.X, s.X[best]), append(j.Along, s.Stress[best])
	}
	return j
}

// springRows tells the estimate in a few rows of the report for people.
func springRows(r *check.Report, row func(name, format string, args ...any)) {
	j := springOf(r)
	if j == nil || j.Modulus <= 0 {
		return
	}
	words := j.Words
	if words == "" {
		words = "not judged: no proof stress known"
	}
	row("springing on", "opened by %.1f mm: %s", j.Open, words)
	row("", "%.0f MPa on the metal left at x = %.1f mm, proof stress %s", j.Stress, j.At[0], proofWords(j.Proof))
	if j.Raiser > 0 {
		row("", "cracks would start at (%.1f, %.1f), where an edge raises it up to %.1f times (by the handbook, for a lone opening)", j.PeakAt[0], j.PeakAt[1], j.Raiser)
	}
	row("", "pull %.1f N, %.2f mm a newton", j.Force, j.PerN)
	if j.Proof > 0 {
		row("", "springs back from %.1f mm", j.Back)
	}
}

func proofWords(mpa float64) string {
	if mpa <= 0 {
		return "not known"
	}
	return pattern.Say("%.0f MPa", mpa)
}

// springNotes says what the estimate assumes.
func springNotes(w io.Writer, r *check.Report) {
	j := springOf(r)
	if j == nil || j.Modulus <= 0 {
		return
	}
	fmt.Fprintf(w, "\nSpringing on: an estimate\n  Metal: %s; %s.\n  Opening: %s.\n", j.Temper, j.Source, j.OpenFrom)
	for _, n := range j.Notes {
		fmt.Fprintf(w, "  %s\n", n)
	}
}
