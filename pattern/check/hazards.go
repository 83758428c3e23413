package check

import (
	"math"
	"slices"
	"strings"

	"fretband/pattern"
	"fretband/unroll"
)

// girth is the length of the inside from which on a band is worn on the wrist, mm; a
// shorter one is a ring: ours, between the largest rings and the smallest bracelets.
const girth = 90

// keepsShape is the least thickness, mm, of sheet that keeps its shape as a bracelet and
// as a ring: common practice, of metal as stiff as silver.
const (
	keepsShapeOnWrist  = 0.8
	keepsShapeOnFinger = 0.6
	silverModulus      = 75 // GPa
)

// checkKeepsShape tells of sheet too thin to keep its shape. Stiffness goes with the
// modulus and the cube of the thickness, so that stiffer metal may be thinner. What is
// domed is stiffer than any sheet.
func checkKeepsShape(s *pattern.Sheet, r *Report) []Finding {
	least := keepsShapeOnWrist
	if s.Flat.Inner < girth {
		least = keepsShapeOnFinger
	}
	if e := s.Design.Temper().ModulusGPa; e > 0 {
		least *= math.Cbrt(silverModulus / e)
	}
	least = up(least)
	if s.Flat.Domed() {
		return nil
	}
	return tooThin(s, r, least, Finding{
		Kind: KindThinBand,
		What: pattern.Say("Sheet of %.2f mm is thin for a band: it bends out of shape in the hand.", r.Thickness),
		Why:  pattern.Say("%.2f mm is the usual least of this metal (common practice: 0.8 mm for a bracelet, 0.6 mm for a ring, of silver).", least),
		Mend: "Take thicker sheet, or dome the band.",
	}, pattern.Say("Take sheet of %.2f mm", least))
}

// tooThin is the caution for metal thinner than a least, mm, with the mend of that title: to
// make it as thick. None where it is thick enough.
func tooThin(s *pattern.Sheet, r *Report, least float64, f Finding, mend string) []Finding {
	if r.Thickness >= least-slack {
		return nil
	}
	f.Severity, f.Value, f.Limit, f.Unit = Caution, r.Thickness, least, "mm"
	f.Fixes = bandFix(s.Design, mend, func(b *unroll.Band) { b.Thickness = unroll.Thickness{MM: least} })
	return []Finding{f}
}

// castWall is the least wall that casters usually ask for, mm: common practice; 0.40, broad
// walls 0.50, are possible (Morris & Watson).
const castWall = 0.8

// checkCastWall tells of a wall that may not fill when it is cast.
func checkCastWall(s *pattern.Sheet, r *Report) []Finding {
	if s.Process != "cast" {
		return nil
	}
	return tooThin(s, r, castWall, Finding{
		Kind: KindCastWall,
		What: pattern.Say("The wall of %.2f mm is thin for casting.", r.Thickness),
		Why:  pattern.Say("Metal freezes in a thin wall before it is full. The usual least is %.1f mm; under 0.40 mm, or 0.50 mm where it is broad, nothing is cast at all (common practice; Morris & Watson).", castWall),
		Mend: "Make it thicker, or ask the caster.",
	}, pattern.Say("Make it %.1f mm thick", castWall))
}

// fineBeam is the thickest sheet, mm, of a metal that throws the beam back which lasers for
// fine work usually cut: 0.3 to 1.5 mm (memory).
const fineBeam = 1.5

// checkBeam tells of a laser that is asked for more than is usual in a metal.
func checkBeam(s *pattern.Sheet, r *Report) []Finding {
	metal := throwsBack(r.Alloy)
	if s.Process != "laser" || metal == "" || r.Thickness <= fineBeam+slack {
		return nil
	}
	return []Finding{{
		Kind: KindBeam, Severity: Caution,
		What:  pattern.Say("Sheet of %.2f mm is thick for a laser in this metal.", r.Thickness),
		Why:   pattern.Say("%s throws the beam back: lasers for fine work usually cut up to %.1f mm of it (a usual figure, without a source).", metal, fineBeam),
		Value: r.Thickness, Limit: fineBeam, Unit: "mm",
		Mend: "Ask the shop before you send it the files, take thinner sheet, or saw it.",
	}}
}

// Room for the three marks that an assay office must strike, each 1 mm high, a common size
// (memory), in one row with a little metal round: ours.
const (
	markHigh = 1.2 // mm
	markLong = 3.2
)

// checkMarkRoom tells of a band that must be hallmarked, where a row of marks has no room.
// A place is a reserve of rectangle or other form that is noted so, and else the rim.
func checkMarkRoom(s *pattern.Sheet, r *Report) []Finding {
	metal := preciousOf(r.Alloy)
	from := slices.IndexFunc(thresholds(), func(t threshold) bool { return t.metal == metal && r.Left >= t.grams })
	if from < 0 || r.Openings == 0 {
		return nil
	}
	f := Finding{
		Kind: KindMarkRoom, Severity: Note,
		Why:  pattern.Say("At %.1f g it must be marked to be sold as %s in some countries. A row of marks takes about %.1f x %.1f mm (usual, without a source), flat and with metal behind it.", r.Left, metal, markLong, markHigh),
		Mend: "Keep a place for the marks: a reserve of that size on the inside, or a wider rim. Ask your assay office, which also marks by laser.",
		Unit: "mm", Limit: markHigh,
	}
	for i, v := range s.Design.Reserves {
		if !strings.Contains(strings.ToLower(v.Note), "hallmark") || v.Path != "" {
			continue
		}
		w, h := v.WidthMM, v.HeightMM
		if v.Shape == pattern.CircleShape {
			h = w
		}
		if math.Min(w, h) >= markHigh-slack && math.Max(w, h) >= markLong-slack {
			return nil
		}
		f.What = pattern.Say("The place kept for the hallmark, reserve %d, is small: %.1f x %.1f mm.", i+1, w, h)
		f.Value = math.Min(w, h)
	}
	if f.What == "" {
		if s.EdgeRule >= markHigh-slack {
			return nil
		}
		f.What, f.Value = "No place is kept for a hallmark, and the rim is too narrow for one.", s.EdgeRule
	}
	return []Finding{f}
}

// handGirth is that of a hand at the knuckles, thumb apart, mm: of the 5th percentile of
// women, and how many times the wrist's it is at the middle (US Army 2012, at second hand:
// hands 173, 201 and 230 mm, wrists 142, 166 and 191).
const (
	leastHand    = 173.0
	handPerWrist = 201.0 / 166
)

// checkHand tells of a closed bracelet that passes no hand.
func checkHand(s *pattern.Sheet, r *Report) []Finding {
	b := s.Design.Band
	if b.Open() || s.Flat.Inner < girth {
		return nil
	}
	hand := leastHand
	what := pattern.Say("The inside measures %.0f mm round: hardly any grown hand passes through.", s.Flat.Inner)
	if b.Inside.By == unroll.ByWrist {
		hand = handPerWrist * b.Inside.WristMM
		what = pattern.Say("The inside measures %.0f mm round: the hand that goes with that wrist is about %.0f mm at the knuckles.", s.Flat.Inner, hand)
	}
	if s.Flat.Inner >= hand-slack {
		return nil
	}
	f := Finding{
		Kind: KindHand, Severity: Note,
		What:  what,
		Why:   "Measured over soldiers (US Army 2012, at second hand), 173 mm is the 5th percentile of women; the thumb adds to it, and a soft hand gives way. A child's hand is smaller.",
		Value: s.Flat.Inner, Limit: hand, Unit: "mm",
		Mend: "Measure round the wearer's hand with the thumb laid in and make the inside as long, or leave a gap.",
	}
	if b.Inside.By == unroll.ByWrist {
		ease := math.Ceil(hand - b.Inside.WristMM)
		f.Fixes = bandFix(s.Design, pattern.Say("Set the ease to %.0f mm", ease), func(b *unroll.Band) { b.Inside.EaseMM = ease })
	}
	return []Finding{f}
}
