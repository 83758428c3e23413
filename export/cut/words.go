package cut

import (
	"fmt"
	"io"
	"math"
	"strings"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll/plane"
)

// Facts says in plain words how the cut files are laid out. Of a single part without
// lead-ins, tabs and stock only its curves and the direction of its lines are said.
func Facts(s *pattern.Sheet, r *check.Report, o export.Options) []export.Fact {
	var fs []export.Fact
	if o.OnSheet() {
		fs = append(fs, sheetFacts(s, r, o)...)
	}
	fs = append(fs, export.Fact{Label: "Curves", Text: curveWords(o)},
		export.Fact{Label: "Direction", Text: "the metal that is kept lies on the left of every cut: openings run clockwise, outlines counter-clockwise"})
	if o.Parts() > 1 {
		fs = append(fs, export.Fact{Label: "Order", Text: "marks first, then part by part: its openings by their numbers, then its outline"})
	}
	layer := func(inside bool, label, layer, group, more string) {
		if len(onFace(engravings(s), inside)) > 0 {
			fs = append(fs, export.Fact{Label: label, Text: fmt.Sprintf("DXF layer %s, SVG group %s in %s%s", layer, group, o.EngravedLine().Key, more)})
		}
	}
	layer(false, "Engraving layer", export.LayerEngraved, export.GroupEngraved, "")
	layer(true, "Inner face", export.LayerInside, export.GroupInside, "; drawn as seen through the metal from outside: turn the part over left to right, and mirror this layer so, before it is engraved")
	if o.LeadMM > 0 {
		fs = append(fs, export.Fact{Label: "Lead-ins", Text: leadWords(o)})
	}
	if o.Tabs > 0 {
		fs = append(fs, export.Fact{Label: "Tabs", Text: tabWords(o)})
	}
	if o.OnSheet() || o.Tabs > 0 {
		fs = append(fs, export.Fact{Label: "Total", Text: totalWords(r, o)})
	}
	return fs
}

// sheetFacts says what lies on the sheet and how. Of a sheet without room nothing is said:
// no cut file is written.
func sheetFacts(s *pattern.Sheet, r *check.Report, o export.Options) []export.Fact {
	sheet, copies, err := laidOut(s, r, o)
	if err != nil {
		return nil
	}
	if Tube(s, o) {
		return []export.Fact{{Label: "On the tube", Text: fmt.Sprintf("%s one after the other, %s mm or more apart. The origin is the lower left corner of the drawing, which is %s mm high with %s mm at either end of the tube",
			export.HowMany(len(copies), "band", "bands"), export.MM(o.Gap()), export.MM(sheet.H()), export.MM(o.Margin()))}}
	}
	return []export.Fact{
		{Label: "Cut sheet", Text: fmt.Sprintf("%s on a sheet of %s x %s mm, %s mm or more apart and from the edge of the sheet %s mm, counted from all that is cut. The origin is the sheet's lower left corner",
			export.HowMany(len(copies), "part", "parts"), export.MM(sheet.W()), export.MM(sheet.H()), export.MM(o.Gap()), export.MM(o.Margin()))},
		{Label: "Grain on the sheet", Text: grainWords(copies)},
	}
}

// laidOut returns the sheet and the positions of the copies as the plan has them, from the
// outline alone where that is all that counts: openings are many.
func laidOut(s *pattern.Sheet, r *check.Report, o export.Options) (plane.Box, []placed, error) {
	var one []cuttingLine
	if export.OverEnds(s) {
		p, err := newPart(s, r, o.KerfMM)
		if err != nil {
			return plane.Box{}, nil, err
		}
		for _, h := range p.openings {
			one = append(one, cuttingLine{number: h.number, loop: h.loop.Reverse()})
		}
	}
	outline, err := cutOutline(s, o.KerfMM)
	if err != nil {
		return plane.Box{}, nil, err
	}
	out, err := outlineLines(outline, s, o)
	if err != nil {
		return plane.Box{}, nil, err
	}
	return place(body(append(one, out...), engravings(s)), s, o)
}

// grainWords says how the parts lie. Sheet is rolled along its length and bends best
// across that (common practice), so that a band's length goes along the grain.
func grainWords(copies []placed) string {
	half := 0
	rotation := math.Mod(copies[0].rotation*180/math.Pi, 180)
	for _, c := range copies {
		if math.Abs(math.Mod(c.rotation*180/math.Pi, 360)-rotation) > 1 {
			half++
		}
	}
	var text string
	switch {
	case math.Abs(rotation) < 1e-6:
		text = "the bands' length lies along x: have the grain of the sheet run along x"
	case math.Abs(rotation-90) < 1e-6:
		text = "the parts are turned by 90 degrees to have room; the bands' length lies along y: have the grain of the sheet run along y"
	default:
		text = fmt.Sprintf("the parts are turned by %s degrees to have room, and the grain of a sheet that runs along one of its sides does not run along the bands: "+
			"they may bend unevenly, try one first", export.Decimal(rotation, 1))
	}
	if half > 0 {
		text += fmt.Sprintf("; %d of them lie turned half round besides", half)
	}
	return text
}

func curveWords(o export.Options) string {
	switch {
	case o.Chord() > 0:
		return fmt.Sprintf("straight chords only, within %s mm of the arcs and with their ends on them, on the hollow side", export.Decimal(o.Chord(), 4))
	case o.Curves == export.ArcsR12:
		return "true arcs; DXF of release 12"
	}
	return "true arcs"
}

func leadWords(o export.Options) string {
	text := fmt.Sprintf("%s mm, shorter where there is no room for it; straight through waste, from a spot that keeps its distance from every edge: "+
		"inside openings, and outside of outlines. Each is the first stretch of the line that it leads into: pierce at its beginning, once a line", export.MM(o.LeadMM))
	if o.KerfMM > 0 {
		return text + ". They end on the middle of the cut"
	}
	return text + ". No kerf is allowed for, so that they end on the finished edge: set the beam's kerf at the machine, lead-ins and all"
}

func tabWords(o export.Options) string {
	text := fmt.Sprintf("%s of %s mm in each outline, which is not cut there", export.HowMany(o.Tabs, "tab", "tabs"), export.MM(o.Tab()))
	if o.KerfMM > 0 {
		text += fmt.Sprintf(" (the line stops for %s mm, tab and kerf, for the beam takes half a kerf at either end)", export.MM(o.Tab()+o.KerfMM))
	}
	return text + ": saw them through and file them flush. Openings have none, and their slugs fall out"
}

// totalWords sums up the cut along the finished edges, as the report has it.
func totalWords(r *check.Report, o export.Options) string {
	n := o.Parts()
	text := fmt.Sprintf("%s, %s mm of cut in all along the finished edges", export.HowMany(n, "part", "parts"), export.MM(float64(n)*o.CutLength(r)))
	if o.LeadMM > 0 {
		text += ", lead-ins not counted"
	}
	return text
}

// fileWords returns what a cut file says, facts and cautions, a paragraph each.
func fileWords(s *pattern.Sheet, r *check.Report, o export.Options) []string {
	var lines []string
	for _, f := range fileFacts(s, r, o) {
		lines = append(lines, f.String())
	}
	return append(lines, export.Cautions(s, r, o)...)
}

// fileFacts is Facts for those who cut from the file: with how it is laid out.
func fileFacts(s *pattern.Sheet, r *check.Report, o export.Options) []export.Fact {
	return append(append(TubeFacts(s, o), export.PartFacts(s, r, o)...), append(Facts(s, r, o), export.FindingFacts(r)...)...)
}

// WriteNote writes what a shop has to know of the cut files as plain text.
func WriteNote(w io.Writer, s *pattern.Sheet, r *check.Report, o export.Options) error {
	var b strings.Builder
	for _, f := range fileFacts(s, r, o) {
		fmt.Fprintln(&b, f.String())
	}
	fmt.Fprintf(&b, "\nCautions\n")
	for _, c := range export.Cautions(s, r, o) {
		fmt.Fprintln(&b, c)
	}
	fmt.Fprintf(&b, "\n%s\n", export.TagOf(s.Design, export.TagRoom))
	_, err := io.WriteString(w, b.String())
	return err
}

// wrap breaks text into lines of at most width letters, at spaces where it can.
// Lines after the first are indented by two spaces.
func wrap(text string, width int) []string {
	b := export.Breaker[string]{
		Width: func(w string) float64 { return float64(len([]rune(w))) },
		Space: 1, Room: float64(width), Indent: 2,
		Cut: func(w string, room float64) (head, tail string, more bool) {
			rs := []rune(w)
			n := max(1, int(room))
			return string(rs[:n]), string(rs[n:]), true
		},
	}
	var lines []string
	for _, l := range b.Lines(0, strings.Fields(text)) {
		line := strings.Repeat(" ", int(l[0].X))
		for k, w := range l {
			if k > 0 {
				line += " "
			}
			line += w.Word
		}
		lines = append(lines, line)
	}
	return lines
}
