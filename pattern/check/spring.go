package check

import (
	"fmt"
	"math"

	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// Spring is what happens when an open cuff is sprung on: an estimate for comparing
// designs, no promise. [SpringNotes] says what it assumes.
type Spring struct {
	// OpenMM is by how much the ends are pulled apart, and How where that is from.
	OpenMM float64
	How    string
	// GapMM is the straight way between the ends, inside.
	GapMM float64
	// ForceN opens it by OpenMM if it stays elastic, PerN is the opening, mm, for
	// each newton.
	ForceN, PerN float64
	// Stress, MPa, is that of the metal left at the positions X, mm along the band, were
	// the metal elastic without limit. StressMPa is the greatest, at the position At.
	X, Stress []float64
	StressMPa float64
	At        plane.Point
	// PeakMPa is the greatest at the edge of an opening, Raise times that beside it, by
	// the handbook for a lone opening and elastic metal: a sign of where cracks start,
	// not a stress that is ever reached.
	PeakMPa, Raise float64
	PeakAt         plane.Point
	// Temper is the one assumed for the metal; ProofMPa its proof stress, 0 if none
	// is known.
	Temper   pattern.Temper
	ProofMPa float64
	// Words say what comes of it: [SpringsBack], [TakesASet] or [DoNot]; empty if
	// no proof stress is known.
	Words string
	// BackMM is the most opening from which it springs back; SetMM how much remains of
	// OpenMM.
	BackMM, SetMM float64
}

// What comes of springing a cuff on ([Spring.Words]).
const (
	SpringsBack = "springs back"
	TakesASet   = "takes a set"
	DoNot       = "do not"
)

// Limits on the stress of the metal left, as shares of the proof stress.
const (
	// springy leaves a tenth for the scatter of sheet, temper and this estimate.
	springy = 0.9
	// worked is where yielding outweighs springing: metal strained so much at each
	// opening hardens and cracks. From two times the proof stress on, a stress that
	// goes on and off yields to and fro each time (the shakedown limit of ductile
	// metal; E. Melan 1936, memory).
	worked = 2.0
)

// wristRatio is how many times wider than deep a wrist is assumed to be if the inside
// is rounder: 1.25 to 1.35 are usual (memory).
const wristRatio = 1.3

// SpringNotes say what the estimate of springing assumes, for readers of
// its figures.
func SpringNotes() []string {
	return []string{
		"Load: two equal and opposite pulls at the middles of the two ends, straight apart, in the plane of the middle line.",
		"Reckoned as a curved bar by Castigliano's theorem along the true course, of sections as wide as the metal left. Metal beyond the ends of openings counts less (our own rule, fitted to finite elements).",
		"The middle line of a flared or domed band stands for all of it; that a domed section flattens is left out. A wide plain band is up to a tenth stiffer than said.",
		"At the edges of openings a handbook's raiser for a round hole in a bent plate is used, sharper for sharper corners; in rows of openings it is between right and twice too high.",
		"Bending and hammering harden the metal beyond its table, soldering softens it. An estimate for comparing designs, not a promise: bend a trial piece of the same sheet, and let a trained goldsmith judge.",
	}
}

// SpringOf calculates how an open cuff springs; nil for closed bands and for metal in
// pieces.
func SpringOf(s *pattern.Sheet, r *Report) *Spring {
	if !s.Design.Band.Open() || r.Pieces != 1 {
		return nil
	}
	b, gap := barOf(s, r)
	sp := &Spring{GapMM: gap, X: r.Net.X, Temper: s.Design.Temper()}
	sp.OpenMM, sp.How = openingOf(s, gap)
	sp.ProofMPa = sp.Temper.ProofMPa
	modulus := sp.Temper.ModulusGPa * 1000
	if modulus <= 0 {
		return sp
	}
	sp.PerN = b.perNewton() / modulus
	if sp.PerN > 0 { // else nothing is left to bend
		sp.ForceN = sp.OpenMM / sp.PerN
	}
	sp.Stress = make([]float64, len(b.step))
	// From the middle outwards, so that of two equal positions the same is always reported.
	for j := range sp.Stress {
		i := len(sp.Stress)/2 + j/2
		if j%2 == 1 {
			i = len(sp.Stress)/2 - 1 - j/2
		}
		sp.Stress[i] = sp.ForceN * b.stress(i)
		if sp.Stress[i] > sp.StressMPa*(1+1e-9) {
			sp.StressMPa = sp.Stress[i]
			sp.At = s.Flat.Place(sp.X[i], 0)
		}
	}
	sp.PeakMPa, sp.Raise, sp.PeakAt = mostRaised(s, func(x float64) float64 {
		i := int(math.Round((x - sp.X[0]) / (sp.X[1] - sp.X[0])))
		return sp.Stress[min(max(i, 0), len(sp.Stress)-1)]
	})
	if sp.ProofMPa <= 0 {
		return sp
	}
	switch share := sp.StressMPa / sp.ProofMPa; {
	case share <= springy:
		sp.Words = SpringsBack
	case share <= worked:
		sp.Words = TakesASet
	default:
		sp.Words = DoNot
	}
	if most := b.mostStress(); most > 0 {
		sp.BackMM = springy * sp.ProofMPa * sp.PerN / most
	}
	_, sp.SetMM = b.set(sp.OpenMM, modulus, sp.ProofMPa)
	return sp
}

// mostStress is the greatest stress, MPa, at 1 N.
func (b bar) mostStress() float64 {
	var most float64
	for i := range b.step {
		most = math.Max(most, b.stress(i))
	}
	return most
}

// barOf returns the cuff as a bar, one section at each of r.Net.X, and the straight
// width of its gap.
func barOf(s *pattern.Sheet, r *Report) (b bar, gap float64) {
	f := s.Flat
	n := len(r.Net.X)
	b = bar{
		step: make([]float64, n), arm: make([]float64, n), pull: make([]float64, n), curv: make([]float64, n),
		net: r.Net.Net, wide: SpringWidths(s, r), rise: make([]float64, n), edge: make([]float64, n), t: f.Thickness,
	}
	centre := func(x float64) (p, n plane.Point, k float64) {
		p, n, k = f.Station(x)
		return p.Add(n.Mul(f.Thickness / 2)), n, k
	}
	in := func(x float64) plane.Point { p, _, _ := f.Station(x); return p }
	a, _, _ := centre(-f.Length / 2)
	z, _, _ := centre(f.Length / 2)
	gap = in(f.Length / 2).Dist(in(-f.Length / 2))
	u := z.Sub(a).Unit()
	if gap < touching {
		// The ends face each other: apart is along the band there.
		_, n, _ := f.Station(f.Length / 2)
		u = n.Left().Mul(-1)
	}
	front, _, _ := centre(0)
	side := math.Copysign(1, u.Cross(front.Sub(a)))
	dx := f.Length / float64(n)
	for i, x := range r.Net.X {
		p, normal, k := centre(x)
		// From the surface that keeps its length to the middle of the sheet.
		b.step[i] = dx * (1 + k*f.Thickness/2) / (1 + k*f.Neutral)
		b.curv[i] = k / (1 + k*f.Thickness/2)
		b.arm[i] = side * u.Cross(p.Sub(a))
		b.pull[i] = u.Dot(normal.Left())
		b.edge[i] = f.Thickness / 2
		if f.Domed() {
			b.rise[i], b.edge[i] = domed(f, x)
		}
	}
	return b, gap
}

// touching is the gap, mm, under which the distance between a cuff's ends is rounding.
const touching = 1e-6

// domed returns the mean square height of the domed section at x over its middle and
// the distance of its farthest face from there, as of unpierced metal.
func domed(f unroll.Flat, x float64) (rise, edge float64) {
	lo, hi := f.EdgesAt(x)
	_, normal, _ := f.Station(x)
	const n = 65
	var zs [n]float64
	var mean float64
	for i := range zs {
		q := f.Bend(plane.Pt(x, lo+(hi-lo)*(float64(i)+0.5)/n), f.Thickness/2)
		zs[i] = plane.Pt(q.X, q.Y).Dot(normal)
		mean += zs[i] / n
	}
	for _, z := range zs {
		rise += (z - mean) * (z - mean) / n
		edge = math.Max(edge, math.Abs(z-mean))
	}
	return rise, edge + f.Thickness/2
}

// openingOf returns by how much the cuff is opened, mm: what the maker says, or what
// lets the narrow side of the wrist through the gap.
func openingOf(s *pattern.Sheet, gap float64) (open float64, how string) {
	if w := s.Design.Wear.OpenMM; w > 0 {
		return w, "as you say"
	}
	in := s.Design.Band.Inside
	around := s.Flat.Inner
	if in.By == unroll.ByWrist {
		around -= in.EaseMM
	}
	o := s.Flat.Oval
	ratio := math.Max(wristRatio, math.Max(o.A/o.B, o.B/o.A))
	deep := 2 * unroll.OvalOf(around, ratio).B
	return math.Max(deep-gap, 0), pattern.Say("so that the narrow side of a wrist of %.0f mm round, %.1f times as wide as deep (usual, from memory), %.0f mm, passes the gap of %.0f mm: as cuffs are commonly put on, sideways; skin that gives way asks for less", around, ratio, deep, gap)
}

// checkSpring says what comes of springing the cuff on.
func checkSpring(s *pattern.Sheet, r *Report) []Finding {
	sp := r.Deep.Spring
	if sp == nil {
		return nil
	}
	const trial = " An estimate for comparing designs, not a promise: bend a trial piece of the same sheet, and let a trained goldsmith judge."
	if sp.PerN == 0 || sp.ProofMPa <= 0 {
		missing, load := "proof stress", ""
		if sp.PerN == 0 {
			missing = "modulus and proof stress"
		} else {
			load = pattern.Say(" Opening by %.1f mm takes %.1f N and loads the metal left by %.0f MPa at most.", sp.OpenMM, sp.ForceN, sp.StressMPa)
		}
		f := Finding{
			Kind: KindSpringingOn, Severity: Note,
			What:  fmt.Sprintf("Whether the cuff springs back is not reckoned: no %s of %s, %s, is known.%s", missing, r.Alloy.Name, sp.Temper.Title, load),
			Why:   "A cuff that yields each time it is put on hardens and cracks.",
			Value: math.Round(sp.StressMPa), Unit: "MPa",
			Mend: "Give the proof stress and Young's modulus from your supplier's sheet under Wearing.",
		}
		if sp.PerN > 0 {
			f.At = []plane.Point{sp.At}
		}
		return []Finding{f}
	}
	if sp.OpenMM == 0 {
		return []Finding{{
			Kind: KindSpringingOn, Severity: Note,
			What: pattern.Say("The cuff need not be sprung on: the narrow side of the wrist passes its gap of %.0f mm.", sp.GapMM),
			Why:  "What slips on as easily slips off.",
			Mend: pattern.Say("Nothing need be done. It would spring back from openings up to %.1f mm.%s", sp.BackMM, trial),
		}}
	}
	share := sp.StressMPa / sp.ProofMPa
	f := Finding{
		Kind: KindSpringingOn, Severity: Caution, Value: math.Round(sp.StressMPa), Limit: sp.ProofMPa, Unit: "MPa", At: []plane.Point{sp.At},
	}
	state := pattern.Say("%s %s (%.0f MPa)", sp.Temper.Title, r.Alloy.Name, sp.ProofMPa)
	load := pattern.Say("%.0f MPa on the metal left at x = %.1f mm, %.2f times the proof stress of %s", sp.StressMPa, sp.At.X, share, state)
	back := pattern.Say("It springs back from openings up to %.1f mm. ", sp.BackMM)
	corner := ""
	if sp.PeakMPa > worked*sp.ProofMPa {
		corner = pattern.Say(" Cracks start at the edge of the opening at (%.1f, %.1f), where the stress is up to %.1f times as high (by the handbook, for a lone opening).", sp.PeakAt.X, sp.PeakAt.Y, sp.Raise)
	}
	switch sp.Words {
	case SpringsBack:
		f.Severity = Note
		f.What = pattern.Say("Opened by %.1f mm, the cuff springs back: %s. It takes a pull of %.1f N.", sp.OpenMM, load, sp.ForceN)
		f.Why = "Metal that stays under its proof stress can be opened again and again." + corner
		f.Mend = "Nothing need be done. " + back
	case TakesASet:
		f.What = pattern.Say("Opened by %.1f mm, the cuff takes a set, about %.0f mm of it: %s.", sp.OpenMM, sp.SetMM, load)
		f.Why = "It has to be closed by hand each time, which hardens the metal until it cracks." + corner
		f.Mend = back + "Open it less and put it on sideways, or use a harder temper, thinner sheet, a wider gap or more metal there."
	default:
		f.What = pattern.Say("Opened by %.1f mm, the cuff bends and about %.0f mm of it stay: do not. %s.", sp.OpenMM, sp.SetMM, load)
		f.Why = "Metal so strained hardens with each opening and cracks soon." + corner
		f.Mend = back + "Use a harder temper, thinner sheet, a wider gap or more metal there."
	}
	f.Mend += trial
	if f.Severity > Note {
		f.Fixes = harder(s.Design, sp)
	}
	return []Finding{f}
}

// harder offers the softest temper of the alloy's in which the cuff would spring back.
func harder(d pattern.Design, sp *Spring) []Fix {
	if d.Wear.ProofMPa > 0 { // the user's own figure counts for every temper
		return nil
	}
	for _, t := range pattern.Tempers(d.Metal.Alloy) {
		if t.ProofMPa*springy < sp.StressMPa {
			continue
		}
		d.Wear.Temper = t.Key
		return []Fix{{Title: "Take it " + t.Title, Design: d}}
	}
	return nil
}
