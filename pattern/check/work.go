package check

import (
	"fmt"
	"math"
	"slices"

	"fretband/pattern"
	"fretband/unroll/plane"
)

// Making is what the cutting amounts to at the bench or the machine. Times are by the
// maker's own rates only ([pattern.Work]): what he does not give is left out.
type Making struct {
	Sawn     bool    // by hand, or how it is cut is not settled
	KerfMM   float64 // width that the blade or beam takes; 0 if it is not known
	KerfFrom string  // whose figure that is
	Length   float64 // mm cut, openings and outline
	Starts   int     // openings, each of which is drilled and threaded, or pierced by the beam
	// Pilots are the holes by drill for a band that is sawn, largest first; nil until
	// [Deepen] has measured every opening.
	Pilots []Pilot
	Blades int // that the cutting wears out, at BladeMM each; 0 without it

	CutMin, StartMin float64 // minutes of cutting, and of drilling and threading; 0 without a rate
	Cost             float64 // of that time, in the metal's currency; 0 without a price
}

// Minutes is the time of cutting, as far as the maker's rates go; 0 without any.
func (m Making) Minutes() float64 { return m.CutMin + m.StartMin }

// Pilot is how many openings are entered with one drill, for the coarsest advised
// blade that they let in.
type Pilot struct {
	Blade string
	MM    float64
	Drill string
	Count int
}

// laserKerf is about what a fine beam takes in sheet of a millimetre, mm: memory, 0.05
// to 0.15 are heard of; the shop's own figure counts.
const laserKerf = 0.1

func makingOf(s *pattern.Sheet, r *Report) Making {
	w := s.Design.Work
	m := Making{Sawn: sawn(s), Length: r.CutLength, Starts: r.Openings}
	if p := s.Process; p == "etch" || p == "cast" {
		return m // nothing follows the lines
	}
	switch {
	case w.KerfMM > 0:
		m.KerfMM, m.KerfFrom = w.KerfMM, "your own figure"
	case s.Process == "laser":
		m.KerfMM, m.KerfFrom = laserKerf, "a usual width, without a source; ask the shop"
	case s.Process == "saw":
		m.KerfMM, m.KerfFrom = r.Blade.ThickMM, "the blade's nominal thickness"
	}
	if w.BladeMM > 0 && sawn(s) {
		m.Blades = int(math.Ceil(m.Length/w.BladeMM - 1e-9))
	}
	if w.CutMMMin > 0 {
		m.CutMin = m.Length / w.CutMMMin
	}
	m.StartMin = float64(m.Starts) * w.OpeningMin
	m.Cost = m.Minutes() / 60 * w.HourPrice
	return m
}

// entry is what is known of the openings of one shape.
type entry struct {
	drill int     // index of the pilot that they let in, -1 for none
	small float64 // mm, of the largest disc in them if that is under the usual least, else 0
	slot  bool    // they are narrower than the kerf somewhere
	at    plane.Point
}

// pilotsFor lists blades from the advised one to the finest, coarsest first, each
// with its pilot hole.
func pilotsFor(advised Blade) []Pilot {
	var list []Pilot
	for _, b := range blades() {
		list = append(list, Pilot{Blade: b.Size, MM: b.PilotMM, Drill: b.Drill})
		if b.Size == advised.Size {
			break
		}
	}
	slices.Reverse(list)
	return list
}

// admits reports whether a disc of that diameter, mm, has room in the loop: its inset
// by the radius is not empty.
func admits(l plane.Loop, mm float64) bool { return len(l.Inset(mm/2-slack)) > 0 }

// slotIn finds where a loop is too narrow for a cut of that width: where the inset by
// half of it falls into several parts, or an end lies further off what the cut can
// reach than any corner does.
func slotIn(l plane.Loop, kerf float64) (plane.Point, bool) {
	in := l.Inset(kerf/2 - slack)
	if len(in) == 0 {
		return l.Centroid(), true
	}
	lost, err := plane.Not(plane.Region{l}, in.Offset(kerf/2))
	if err != nil {
		return plane.Point{}, false
	}
	// What the cut leaves of a corner of an angle a reaches k/2 / tan(a/2) along its
	// sides: two kerfs at 28 degrees. What is longer is a slot or as good as one.
	var at plane.Point
	most := 0.0
	for _, p := range lost {
		if p.Area() <= 0 {
			continue
		}
		if b := p.Bounds(); math.Hypot(b.W(), b.H()) > most {
			most, at = math.Hypot(b.W(), b.H()), b.Centre()
		}
	}
	return at, most > 2*kerf || len(in) > 1
}

// enter measures every opening once per shape: the pilot hole that it lets in, whether it is
// smaller than usual, and whether blade or beam comes through all of it.
func enter(s *pattern.Sheet, r *Report, pilots []Pilot, usual float64) []entry {
	known := map[int]entry{}
	out := make([]entry, len(s.Openings))
	least := usual
	for i := range s.Openings {
		o := &s.Openings[i]
		e, ok := known[o.Shape]
		if !ok || o.Shape < 0 {
			e = entry{drill: -1}
			for k, p := range pilots {
				if admits(o.Loop, p.MM) {
					e.drill = k
					break
				}
			}
			if usual > 0 && !enters(o.Loop, usual) {
				e.small = math.Max(smallDisc(o.Loop, usual, least), slack)
				least = math.Min(least, e.small)
			}
			if k := r.Making.KerfMM; k > 0 {
				e.at, e.slot = slotIn(o.Loop, k)
				e.at = e.at.Sub(o.At)
			}
			known[o.Shape] = e
		}
		e.at = e.at.Add(o.At)
		out[i] = e
	}
	return out
}

// smallDisc returns the diameter of the largest disc in an opening that is smaller than
// usual: one over least only as exactly as it takes to know whether it is far under the usual.
func smallDisc(l plane.Loop, usual, least float64) float64 {
	lo, hi := 0.0, usual
	straddles := func(mm float64) bool { return lo < mm && mm <= hi }
	for range 20 {
		if lo >= least && !straddles(usual-slack) && !straddles(far*usual-slack) && !straddles(far*usual) {
			break
		}
		if mid := (lo + hi) / 2; admits(l, mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// checkEntry finds openings that are too small for how they are cut and those that the cut
// does not come through, and counts the pilot holes by drill.
func checkEntry(s *pattern.Sheet, r *Report) []Finding {
	if r.Openings == 0 {
		return nil
	}
	_, usual, p := usualLimits(s)
	var pilots []Pilot
	if sawn(s) {
		pilots = pilotsFor(r.Blade)
	}
	in := enter(s, r, pilots, usual)
	var slots []plane.Point
	counts := make([]Pilot, len(pilots))
	copy(counts, pilots)
	r.Deep.scraps = make([]bool, len(in))
	for i, e := range in {
		if e.drill >= 0 {
			counts[e.drill].Count++
		}
		// One that is no opening at all is told as such and no more.
		r.Deep.scraps[i] = e.small > 0 && (sawn(s) && e.drill < 0 || !sawn(s) && e.small < far*usual)
		if e.slot && !r.Deep.scraps[i] {
			slots = append(slots, e.at)
		}
	}
	r.Making.Pilots = slices.DeleteFunc(counts, func(p Pilot) bool { return p.Count == 0 })
	var fs []Finding
	if f, ok := smallOpenings(s, r, in, pilots, usual, p); ok {
		fs = append(fs, f)
	}
	if len(slots) > 0 {
		verb := "are"
		if len(slots) == 1 {
			verb = "is"
		}
		k := r.Making.KerfMM
		fs = append(fs, Finding{
			Kind: KindNarrowSlot, Severity: Caution,
			What:  pattern.Say("%s %s narrower than the kerf of %.2f mm somewhere.", count(len(slots), "opening", "openings"), verb, k),
			Why:   "There the cut comes out wider than drawn, or does not reach the end. The kerf is " + r.Making.KerfFrom + ".",
			Value: float64(len(slots)), Limit: k, Unit: unit(len(slots), "opening", "openings"), At: slots,
			Mend:  "Give the openings corners of half the kerf or more, so that no part of them is narrower than the kerf.",
			Fixes: cornerTo(s.Design, up(k/2)),
		})
	}
	return fs
}

// smallOpenings tells in one finding of all openings that are too small: of those that can't
// be sawn at all, else of those that need a finer blade, else of those under the usual least
// of the process.
func smallOpenings(s *pattern.Sheet, r *Report, in []entry, pilots []Pilot, usual float64, p pattern.Process) (Finding, bool) {
	var shut, finer, small []plane.Point
	least, which := math.Inf(1), 0
	told := usual - slack
	if p.Key == "saw" { // one that lets the blade in only takes more care
		told = far*usual - slack
	}
	for i, e := range in {
		if e.small == 0 { // no blade that is advised needs more room than the usual least
			continue
		}
		at := s.Openings[i].Box.Centre()
		if e.small < told {
			small = append(small, at)
		}
		if e.small < least {
			least, which = e.small, s.Openings[i].Number
		}
		switch {
		case sawn(s) && e.drill < 0:
			shut = append(shut, at)
		case sawn(s) && e.drill > 0:
			finer = append(finer, at)
		}
	}
	openings := func(at []plane.Point) string { return count(len(at), "opening", "openings") }
	also := ""
	switch {
	case len(shut) > 0 && len(finer) > 0:
		also = pattern.Say(" %d more need a finer blade than %s.", len(finer), r.Blade.Size)
	case len(finer) > 0 && len(small) > len(finer):
		also = pattern.Say(" In all %s are much smaller than the usual %.2f mm.", openings(small), usual)
	}
	switch {
	case len(shut) > 0:
		finest := pilots[len(pilots)-1]
		return Finding{
			Kind: KindNoWayIn, Severity: Caution,
			What:  pattern.Say("%s can't be sawn: not even a %.2f mm pilot hole has room there.", openings(shut), finest.MM) + also,
			Why:   pattern.Say("The finest listed blade, %s, goes through a hole of %.2f mm (nominal sizes, without a source: makers differ).", finest.Blade, finest.MM),
			Value: float64(len(shut)), Unit: unit(len(shut), "opening", "openings"), At: shut,
			Mend:  "Make the smallest opening larger, so that they are left solid, or have them cut by laser.",
			Fixes: smallestTo(s.Design, up(finest.MM)),
		}, true
	case len(finer) > 0:
		verb := "need"
		if len(finer) == 1 {
			verb = "needs"
		}
		return Finding{
			Kind: KindFinerBlade, Severity: Note,
			What:  fmt.Sprintf("%s %s a finer blade than %s.", openings(finer), verb, r.Blade.Size) + also,
			Why:   pattern.Say("The pilot hole of %.2f mm for a %s blade has no room there.", r.Blade.PilotMM, r.Blade.Size),
			Value: float64(len(finer)), Unit: unit(len(finer), "opening", "openings"), At: finer,
			Mend:  "Saw them with the finer blade: the report lists the pilot holes by drill. Or leave them solid: make the smallest opening as large as the pilot hole.",
			Fixes: smallestTo(s.Design, up(r.Blade.PilotMM)),
		}, true
	case len(small) > 0:
		verb := "are"
		if len(small) == 1 {
			verb = "is"
		}
		much := ""
		if p.Key == "saw" {
			much = "much "
		}
		f := Finding{
			Kind: KindOpeningAndProcess, Severity: Note,
			What:  pattern.Say("%s %s %ssmaller than the usual least of %.2f mm (%s); the smallest, opening %d, takes a disc of %.2f mm.", openings(small), verb, much, usual, processWords(s, p), which, least),
			Why:   "Smaller openings do not come out clean. Usual limit: " + p.Source + ".",
			Value: least, Limit: usual, Unit: "mm", At: small,
			Mend:  "Make the openings larger with fewer rows or repeats, leave these solid, or ask whoever cuts them.",
			Fixes: smallestTo(s.Design, up(usual)),
		}
		if p.Key != "saw" && least < far*usual-slack {
			f.Severity = Caution
		}
		return f, true
	}
	return Finding{}, false
}
