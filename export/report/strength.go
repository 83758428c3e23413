package report

import (
	"fmt"
	"io"
	"text/tabwriter"
	"time"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/strength"
	"fretband/unroll/plane"
)

// strengthJSON is what a band's strength is told as to programs. Figures that are not
// known are null.
type strengthJSON struct {
	Temper   string     `json:"temper"`
	Proof    *float64   `json:"proof_mpa"`
	Modulus  float64    `json:"modulus_gpa"`
	Poisson  float64    `json:"poisson"`
	Source   string     `json:"temper_source"`
	Cases    []caseJSON `json:"cases"`
	RimShare *float64   `json:"rim_share"` // null of a band without openings
	IdleArea float64    `json:"idle_mm2"`
	IdleG    float64    `json:"idle_g"`
	Freedoms int        `json:"freedoms"`
	Accuracy []string   `json:"accuracy"`
}

// caseJSON is one case: at_mm, force_n and the stresses are those of its usual load. The
// loads at yield are in the unit named: mm of way or newtons.
type caseJSON struct {
	Case        string       `json:"case"` // open, close, squeeze, tip or push
	What        string       `json:"what"`
	At          [][2]float64 `json:"at"` // where it is loaded, on the blank
	PerN        float64      `json:"mm_per_n"`
	AtMM        float64      `json:"at_mm"`
	Force       float64      `json:"force_n"`
	Peak        float64      `json:"peak_mpa"`
	P99         float64      `json:"p99_mpa"`
	PeakAt      [2]float64   `json:"peak_at"`
	Bridge      float64      `json:"bridge_mpa"` // the greatest mean over a bridge's or rim's width
	BridgeAt    [2]float64   `json:"bridge_at"`
	Unit        string       `json:"yield_unit"` // mm or n
	FirstYield  *float64     `json:"first_yield"`
	BridgeYield *float64     `json:"along_bridges_yield"`
	PlainPerN   *float64     `json:"plain_mm_per_n"`
}

// StrengthNotes say how far the figures of strength are to be trusted.
func StrengthNotes(f *strength.Figures) []string {
	stiff, peak := "2 %", "up to 20 % low, of a cuff that is rolled on 25 %; 99 % of the metal: within 5 %, of a cuff that is rolled on up to 10 % low"
	if f.Coarse {
		stiff = "6 %, of a cuff that is rolled on 10 %"
		peak = "up to 40 % low; 99 % of the metal: within 10 %, of a cuff that is rolled on up to 15 % low (coarse mesh; fretcut strength takes a fine one)"
	}
	return []string{
		"Stiffness, force and way: within " + stiff + ", by comparison with another solver.",
		"Greatest stress, at the corner of an opening: " + peak + ".",
		"First yield is that at one corner and bends nothing; a cuff takes a set when whole bridges yield.",
		"The metal is less sure than the solve: see where its proof stress and modulus are from. Past yield nothing is promised.",
		"An estimate for comparing designs, not a promise: a trial piece decides, and a trained goldsmith.",
	}
}

func strengthOf(s *pattern.Sheet, r *check.Report, f *strength.Figures) *strengthJSON {
	t := s.Design.Temper()
	j := &strengthJSON{
		Temper: t.Title, Proof: known(t.ProofMPa), Modulus: t.ModulusGPa, Poisson: pattern.Poisson(s.Design.Metal.Alloy), Source: t.Source,
		Cases: []caseJSON{}, IdleArea: f.IdleArea, IdleG: f.IdleVolume * r.Density / 1000,
		Freedoms: f.Freedoms, Accuracy: StrengthNotes(f),
	}
	if r.Openings > 0 {
		j.RimShare = &f.Rims
	}
	for _, c := range f.Cases {
		unit := "mm"
		if c.InNewtons() {
			unit = "n"
		}
		j.Cases = append(j.Cases, caseJSON{
			Case: c.Case, What: c.What, At: pairs(c.At...), PerN: c.PerN, AtMM: c.AtMM, Force: c.ForceN,
			Peak: c.Peak, P99: c.P99, PeakAt: pair(c.PeakAt), Bridge: c.Bridge, BridgeAt: pair(c.BridgeAt),
			Unit: unit, FirstYield: known(c.FirstYield), BridgeYield: known(c.BridgeYield), PlainPerN: known(c.PlainPerN),
		})
	}
	return j
}

func pair(p plane.Point) [2]float64 { return [2]float64{p.X, p.Y} }

// known returns nil for 0.
func known(v float64) *float64 {
	if v == 0 {
		return nil
	}
	return &v
}

// StrengthJSON writes a band's strength for programs.
func StrengthJSON(w io.Writer, s *pattern.Sheet, r *check.Report, f *strength.Figures, took time.Duration) error {
	return WriteJSON(w, struct {
		Name string `json:"name"`
		*strengthJSON
		MS int64 `json:"ms"`
	}{s.Design.Name, strengthOf(s, r, f), took.Milliseconds()})
}

// Strength writes a band's strength for people.
func Strength(w io.Writer, s *pattern.Sheet, r *check.Report, f *strength.Figures) error {
	j := strengthOf(s, r, f)
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	say := func(format string, args ...any) { io.WriteString(t, pattern.Say(format, args...)) }
	say("%s, %s %s: Young's modulus %.0f GPa, proof stress %s\n", export.Title(s.Design), j.Temper, r.Alloy.Name, j.Modulus, proofWords(s.Design.Temper().ProofMPa))
	for _, c := range j.Cases {
		say("\n%s\t%s\n", c.Case, c.What)
		say("  stiffness\t%.3f mm a newton", c.PerN)
		if c.PlainPerN != nil {
			say("; unpierced %.3f, so piercing makes it %.1f times as soft", *c.PlainPerN, c.PerN / *c.PlainPerN)
		}
		if c.Force > 0 {
			say("\n  at %.1f mm\t%.1f N; 99 %% of the metal under %.0f MPa, %.0f MPa at a corner at (%.1f, %.1f)", c.AtMM, c.Force, c.P99, c.Peak, c.PeakAt[0], c.PeakAt[1])
		}
		if c.BridgeYield != nil {
			unit := "mm"
			if c.Unit == "n" {
				unit = "N"
			}
			say("\n  yields\tfrom %.1f %s at that corner, from %.1f %s across a whole bridge at (%.1f, %.1f)", *c.FirstYield, unit, *c.BridgeYield, unit, c.BridgeAt[0], c.BridgeAt[1])
		}
		say("\n")
	}
	say("\n")
	if j.RimShare != nil {
		say("rims\tcarry %.0f %% of the bending\n", 100**j.RimShare)
	}
	say("idle metal\t%.0f mm², %.2f g: loaded less than a tenth of the most loaded bridge\n\n", j.IdleArea, j.IdleG)
	for _, n := range j.Accuracy {
		say("%s\n", n)
	}
	return t.Flush()
}

func proofWords(mpa float64) string {
	if mpa <= 0 {
		return "not known"
	}
	return pattern.Say("%.0f MPa", mpa)
}

// strengthRows tells the strength in a few rows of the report for people.
func strengthRows(s *pattern.Sheet, r *check.Report, row row) {
	if r.Unsolved != nil {
		row("strength", "not solved: %v", r.Unsolved)
	}
	if r.Strength == nil {
		return
	}
	c := r.Strength.Cases[0]
	way := "opened"
	if c.Case == strength.Squeeze {
		way = "squeezed"
	}
	row("stiffness", "%s by %.3f mm a newton; unpierced by %.3f", way, c.PerN, c.PlainPerN)
	if c.BridgeYield > 0 {
		row("yields", "%s by %.1f mm (%.1f N) across a whole bridge at (%.1f, %.1f), by %.1f mm at one corner", way, c.BridgeYield, c.BridgeYield/c.PerN, c.BridgeAt.X, c.BridgeAt.Y, c.FirstYield)
	}
	if r.Openings > 0 {
		row("", "rims carry %.0f %% of the bending; %.2f g of the metal idles", 100*r.Strength.Rims, r.Strength.IdleVolume*r.Density/1000)
	}
}

// strengthNotes says where the metal's figures are from and how far the solve is to be
// trusted.
func strengthNotes(w io.Writer, s *pattern.Sheet, r *check.Report) {
	if r.Strength == nil {
		return
	}
	t := s.Design.Temper()
	fmt.Fprintf(w, "\nStrength: an estimate\n  Metal: %s; %s.\n", t.Title, t.Source)
	for _, n := range StrengthNotes(r.Strength) {
		fmt.Fprintf(w, "  %s\n", n)
	}
}
