package export

import (
	"fmt"
	"math"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll/plane"
)

// cutFacts says in plain words how the cut files are laid out. Of a single part without
// lead-ins, tabs and stock only its curves and the direction of its lines are told.
func cutFacts(s *pattern.Sheet, r *check.Report, o Options) []Fact {
	var fs []Fact
	if o.onSheet() {
		fs = append(fs, sheetFacts(s, r, o)...)
	}
	fs = append(fs, Fact{"Curves", curveWords(o)},
		Fact{"Direction", "the metal that is kept lies on the left of every cut: openings run clockwise, outlines counter-clockwise"})
	if o.copies() > 1 {
		fs = append(fs, Fact{"Order", "marks first, then part by part: its openings by their numbers, then its outline"})
	}
	if o.LeadMM > 0 {
		fs = append(fs, Fact{"Lead-ins", leadWords(s, o)})
	}
	if o.Tabs > 0 {
		fs = append(fs, Fact{"Tabs", tabWords(o)})
	}
	if o.onSheet() || o.Tabs > 0 {
		fs = append(fs, Fact{"Total", totalWords(r, o)})
	}
	return fs
}

// sheetFacts says what lies on the sheet and how. Of a sheet without room nothing is said:
// no cut file is written.
func sheetFacts(s *pattern.Sheet, r *check.Report, o Options) []Fact {
	sheet, copies, err := laidOut(s, r, o)
	if err != nil {
		return nil
	}
	return []Fact{
		{"Cut sheet", fmt.Sprintf("%s on a sheet of %s x %s mm, %s mm or more apart and from the edge of the sheet %s mm, counted from all that is cut. The origin is the sheet's lower left corner",
			howMany(len(copies), "part", "parts"), mm(sheet.W()), mm(sheet.H()), mm(o.gap()), mm(o.margin()))},
		{"Grain", grainWords(copies)},
	}
}

// laidOut returns the sheet and the places of the copies as the plan has them, from the
// outline alone where that is all that counts: openings are many.
func laidOut(s *pattern.Sheet, r *check.Report, o Options) (plane.Box, []placed, error) {
	var one []cut
	if overEnds(s) {
		p, err := newPart(s, r, o.KerfMM)
		if err != nil {
			return plane.Box{}, nil, err
		}
		for _, h := range p.openings {
			one = append(one, cut{number: h.number, loop: h.loop.Reverse()})
		}
	}
	outline, err := cutOutline(s, o.KerfMM)
	if err != nil {
		return plane.Box{}, nil, err
	}
	out, err := outlineCuts(outline, s, o)
	if err != nil {
		return plane.Box{}, nil, err
	}
	return nest(body(append(one, out...), engravings(s)), o)
}

// grainWords says how the parts lie. Sheet is rolled along its length and bends best
// across that (common practice), so that a band's length goes along the grain.
func grainWords(copies []placed) string {
	half := 0
	turn := math.Mod(copies[0].turn*180/math.Pi, 180)
	for _, c := range copies {
		if math.Abs(math.Mod(c.turn*180/math.Pi, 360)-turn) > 1 {
			half++
		}
	}
	var text string
	switch {
	case math.Abs(turn) < 1e-6:
		text = "the bands' length lies along x: have the grain of the sheet run along x"
	case math.Abs(turn-90) < 1e-6:
		text = "the parts are turned by 90 degrees to have room; the bands' length lies along y: have the grain of the sheet run along y"
	default:
		text = fmt.Sprintf("the parts are turned by %s degrees to have room, and the grain of a sheet that runs along one of its sides does not run along the bands: "+
			"they may bend unevenly, try one first", decimal(turn, 1))
	}
	if half > 0 {
		text += fmt.Sprintf("; %d of them lie turned half round besides", half)
	}
	return text
}

func curveWords(o Options) string {
	switch {
	case o.chord() > 0:
		return fmt.Sprintf("straight chords only, within %s mm of the arcs and with their ends on them, on the hollow side", decimal(o.chord(), 4))
	case o.Curves == ArcsR12:
		return "true arcs; DXF of release 12"
	}
	return "true arcs"
}

func leadWords(s *pattern.Sheet, o Options) string {
	text := fmt.Sprintf("%s mm, shorter where there is no room for it; straight through waste, from a spot that keeps its distance from every edge: "+
		"inside openings, and outside %s each outline. DXF layer %s, SVG class lead-in", mm(o.LeadMM), leadPlace(s), layerLeads)
	if o.KerfMM > 0 {
		return text + ". They end on the middle of the cut"
	}
	return text + ". No kerf is allowed for, so that they end on the finished edge: set the beam's kerf at the machine, lead-ins and all"
}

func leadPlace(s *pattern.Sheet) string {
	if s.Seamless() {
		return "below"
	}
	return "on the left of"
}

func tabWords(o Options) string {
	text := fmt.Sprintf("%s of %s mm in each outline, which is not cut there", howMany(o.Tabs, "tab", "tabs"), mm(o.tab()))
	if o.KerfMM > 0 {
		text += fmt.Sprintf(" (the line stops for %s mm, tab and kerf, for the beam takes half a kerf at either end)", mm(o.tab()+o.KerfMM))
	}
	return text + ": saw them through and file them flush. Openings have none, and their slugs fall out"
}

// totalWords sums up the cut along the finished edges, as the report has it.
func totalWords(r *check.Report, o Options) string {
	n := o.copies()
	each := r.CutLength - float64(o.Tabs)*o.tab()
	text := fmt.Sprintf("%s, %s mm of cut in all along the finished edges", howMany(n, "part", "parts"), mm(float64(n)*each))
	if o.LeadMM > 0 {
		text += ", lead-ins not counted"
	}
	return text
}

// noteLines returns facts and cautions as lines of at most width letters, for
// the media that have no paragraphs.
func noteLines(s *pattern.Sheet, r *check.Report, o Options, width int) []string {
	lines := []string{"NOT CUT: notes for the reader"}
	for _, f := range cutFileFacts(s, r, o) {
		lines = append(lines, wrap(f.String(), width)...)
	}
	for _, c := range Cautions(s, r, o) {
		lines = append(lines, wrap(c, width)...)
	}
	return lines
}

// cutFileFacts is Facts for those who cut from the file: with how it is laid out.
func cutFileFacts(s *pattern.Sheet, r *check.Report, o Options) []Fact {
	return append(partFacts(s, r, o), append(cutFacts(s, r, o), findings(r)...)...)
}
