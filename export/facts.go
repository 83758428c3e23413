package export

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll"
)

// Fact is one line that travels with the part.
type Fact struct {
	Label, Text string
	Breach      bool // says of a rule that it is broken
}

func (f Fact) String() string { return f.Label + ": " + f.Text }

// factLine is one line of the table of facts.
type factLine struct {
	label string
	only  string   // the key of the only receiver who is told
	spare []string // keys of receivers who do not act on it
	text  func(*pattern.Sheet, *check.Report, Options) string
}

// notCast spares the caster what speaks of the flat drawing and of cutting it.
var notCast = []string{Casting}

// facts lists what papers and notes say of a part, in the order in which all of them say
// it: first what a shop rings up to ask. A line without text is left out.
var facts = []factLine{
	{"Part", "", nil, func(s *pattern.Sheet, r *check.Report, o Options) string {
		name := ""
		if s.Design.Named() {
			name = Plain(s.Design.Name)
		}
		return strings.Join(NonEmpty(name, kind(s), ContentWords(s.Design)), ", ")
	}},
	{"Metal", "", nil, func(s *pattern.Sheet, r *check.Report, o Options) string { return metal(s, r) }},
	{"Temper", "", notCast, temperWords},
	{"Thickness", "", nil, thicknessWords},
	{"Quantity", "", nil, func(s *pattern.Sheet, r *check.Report, o Options) string {
		if n := o.Parts(); n > 1 {
			return fmt.Sprintf("%d of one kind; all that is said is for each", n)
		}
		return "1"
	}},
	{"Blank", "", notCast, func(s *pattern.Sheet, r *check.Report, o Options) string {
		return fmt.Sprintf("%s x %s mm; %s", MM(r.BlankLen), MM(r.BlankWidth), drawn(s))
	}},
	{"Marking out", Bench, nil, func(s *pattern.Sheet, r *check.Report, o Options) string {
		if !MarkedOut(s, o) {
			return ""
		}
		return "opening by opening, by the patches of paper: the band is round already, and no strip of paper lies flat on it. Each patch says how many degrees round from the front it goes and how far up from the lower edge, over the outside. The drawing here is of the flat surface and does not lie on the band"
	}},
	{"Finished size", "", nil, finishedWords},
	{"Inside", "", nil, func(s *pattern.Sheet, r *check.Report, o Options) string {
		return InsideWords(s) + mandrelWords(s)
	}},
	{"Face up", "", notCast, faceWords},
	{"Kerf", "", notCast, func(s *pattern.Sheet, r *check.Report, o Options) string { return kerfWords(s, o) }},
	{"Tolerance", "", nil, toleranceWords},
	{"Pierces", "", notCast, pierceWords},
	{"Length of cut", "", notCast, func(s *pattern.Sheet, r *check.Report, o Options) string {
		return MM(o.CutLength(r)) + " mm with the outline, along the finished edges"
	}},
	{"Engraving", "", nil, engravingWords},
	{"Deburring", "", notCast, deburringWords},
	{"Grain", "", notCast, func(s *pattern.Sheet, r *check.Report, o Options) string {
		if !Bends(s) {
			return ""
		}
		return "along the band, so that it bends across the grain (common practice)"
	}},
	{"Date", "", nil, func(s *pattern.Sheet, r *check.Report, o Options) string { return Plain(o.Date) }},
	{"Solid", Casting, nil, func(s *pattern.Sheet, r *check.Report, o Options) string { return solidWords(s, r) + "; " + drawn(s) }},
	{"Shrinkage", Casting, nil, shrinkageWords},
	{"Polish allowance", Casting, nil, polishWords},
	{"Sprue", Casting, nil, sprueWords},
	{"Pattern weight", Casting, nil, patternWords},
	{"Weight", "", nil, func(s *pattern.Sheet, r *check.Report, o Options) string {
		return pattern.Say("%.2f g left of %.2f g plain; %.2f g taken out (%.1f %% open)", r.Left, r.Plain, r.Removed, 100*r.OpenShare)
	}},
	{"Bridge rule", "", nil, func(s *pattern.Sheet, r *check.Report, o Options) string {
		return fmt.Sprintf("%s mm between openings, %s mm to the edge", MM(r.Rule), MM(r.EdgeRule))
	}},
	{"Thinnest bridge", "", nil, func(s *pattern.Sheet, r *check.Report, o Options) string { return thinnestWords(r) }},
	{"On the faces", "", nil, func(s *pattern.Sheet, r *check.Report, o Options) string {
		if s.Design.Band.Making != unroll.Formed && !s.Flat.Domed() || r.Openings == 0 {
			return ""
		}
		return faces(r)
	}},
	{"Units", "", nil, func(s *pattern.Sheet, r *check.Report, o Options) string {
		if o.For == Casting {
			return "millimetres"
		}
		return "millimetres, drawn at true size (1:1)"
	}},
	{"Process", "", notCast, func(s *pattern.Sheet, r *check.Report, o Options) string { return processWords(s.Process) }},
	{"Origin", "", nil, func(s *pattern.Sheet, r *check.Report, o Options) string { return originWords(o) }},
	{"Ends", "", notCast, func(s *pattern.Sheet, r *check.Report, o Options) string { return ends(s) }},
}

// Facts returns what a receiver has to know of the part, most needed first. All
// figures are the report's.
func Facts(s *pattern.Sheet, r *check.Report, o Options) []Fact {
	return append(PartFacts(s, r, o), FindingFacts(r)...)
}

// PartFacts is Facts without the findings.
func PartFacts(s *pattern.Sheet, r *check.Report, o Options) []Fact {
	var fs []Fact
	for _, l := range facts {
		if l.only != "" && l.only != o.For || slices.Contains(l.spare, o.For) {
			continue
		}
		if text := l.text(s, r, o); text != "" {
			fs = append(fs, Fact{Label: l.label, Text: text})
		}
	}
	fs = append(fs, solid(s)...)
	for _, n := range s.Flat.Notes {
		fs = append(fs, Fact{Label: "Note", Text: Plain(n)})
	}
	if s.Design.Note != "" {
		fs = append(fs, Fact{Label: "Design note", Text: Plain(s.Design.Note)})
	}
	return fs
}

// AddedWords say what an added part is, how many, how large and how heavy.
func AddedWords(p check.AddedPart) string {
	text := Plain(p.Text())
	if p.Carat > 0 {
		text += pattern.Say(", about %.3f ct each", p.Carat)
	}
	if m := p.Making(); m != "" {
		text += "; " + m
	}
	if p.Kind != pattern.OtherPart && p.MetalGrams > 0 {
		text += "; " + Plain(p.Metal.Name)
	}
	if p.Count > 1 && p.Kind != pattern.WirePart {
		return text + pattern.Say("; %.3f g each, %.2f g in all", p.Each, p.Total)
	}
	return text + pattern.Say("; %.2f g", p.Total)
}

// Bends reports whether the part is bent from the flat.
func Bends(s *pattern.Sheet) bool {
	return s.Design.Band.Making != unroll.Formed && (s.Design.Band.Open() || !s.Design.Band.Seamless())
}

// RoundAlready reports whether the bench saws the band when it is round already.
func RoundAlready(s *pattern.Sheet, o Options) bool {
	return o.For == Bench && (s.Seamless() || s.Design.Band.Making == unroll.Formed)
}

// MarkedOut reports whether the bench marks the openings out one by one: on a band that is
// round already and domed or flared no strip of paper lies flat.
func MarkedOut(s *pattern.Sheet, o Options) bool {
	return RoundAlready(s, o) && (s.Flat.Domed() || s.Flat.Flared())
}

func temperWords(s *pattern.Sheet, r *check.Report, o Options) string {
	title := s.Design.Temper().Title
	if s.Design.Wear.Temper == "" {
		return title + " (the design names none)"
	}
	return title
}

func thicknessWords(s *pattern.Sheet, r *check.Report, o Options) string {
	text := MM(r.Thickness) + " mm " + sheetOrMetal(s)
	if o.For == Casting {
		text = MM(r.Thickness) + " mm"
	}
	switch t := s.Design.Band.Thickness; {
	case t.BSGauge > 0:
		text += fmt.Sprintf(", %d gauge Brown & Sharpe", t.BSGauge)
	case t.ImperialGauge > 0:
		text += fmt.Sprintf(", %d gauge SWG", t.ImperialGauge)
	}
	return text
}

// finishedWords give the size of the band in its form, over everything.
func finishedWords(s *pattern.Sheet, r *check.Report, o Options) string {
	h := r.Hang
	if h.Width == 0 {
		return ""
	}
	return pattern.Say("%.1f x %.1f mm outside, %.1f mm wide", h.Width, h.Height, h.Depth)
}

// InsideWords give the size of the band as the trade does.
func InsideWords(s *pattern.Sheet) string {
	in, oval := s.Design.Band.Inside, s.Flat.Oval
	across := MM(2*oval.A) + " x " + MM(2*oval.B) + " mm inside"
	if oval.A == oval.B {
		across = MM(2*oval.A) + " mm across inside"
	}
	if in.By == unroll.BySize {
		for _, c := range unroll.Scales() {
			if c.Key == in.Scale {
				across = fmt.Sprintf("%s size %s, %s", c.Name, Plain(in.Size), across)
			}
		}
	}
	if s.Design.Band.Open() {
		across += ", gap " + MM(s.Flat.GapInner)
	}
	return across
}

// mandrelWords say which mandrel the band is bent on.
func mandrelWords(s *pattern.Sheet) string {
	switch {
	case !Bends(s):
		return ""
	case s.Flat.Oval.A == s.Flat.Oval.B:
		return "; mandrel " + MM(2*s.Flat.Oval.A) + " mm, or a little under where it springs open"
	}
	return "; oval mandrel " + MM(2*s.Flat.Oval.A) + " x " + MM(2*s.Flat.Oval.B) + " mm, or a little under where it springs open"
}

func faceWords(s *pattern.Sheet, r *check.Report, o Options) string {
	if !Bends(s) {
		return "the outside of the band is seen"
	}
	return "the outer face; the ends bend away from you"
}

// toleranceWords mark what no standard says.
func toleranceWords(s *pattern.Sheet, r *check.Report, o Options) string {
	text := "0.1 mm on sizes, if nothing else is agreed (common practice)"
	if r.Openings > 0 {
		text += "; no bridge under its rule"
	}
	return text
}

// pierceWords say how often the sheet is pierced: once an opening, once where the outline is
// begun, and once after each tab.
func pierceWords(s *pattern.Sheet, r *check.Report, o Options) string {
	if s.Process == Saw {
		return HowMany(r.Openings, "opening", "openings") + ", drilled once each"
	}
	outline := o.Tabs + 1 // it begins between two tabs
	if s.Seamless() {     // of tube, which has two edges
		outline++
		if o.Tabs == 0 {
			return fmt.Sprintf("%d a part: %s and both edges", r.Openings+outline, HowMany(r.Openings, "opening", "openings"))
		}
	}
	text := fmt.Sprintf("%d a part: %s", r.Openings+outline, HowMany(r.Openings, "opening", "openings"))
	if outline == 1 {
		return text + " and the outline"
	}
	return text + fmt.Sprintf(" and %d stretches of the outline", outline)
}

func engravingWords(s *pattern.Sheet, r *check.Report, o Options) string {
	if r.Engravings == 0 {
		return "none"
	}
	text := fmt.Sprintf("%s, %s mm of line: engrave, do not cut", HowMany(r.Engravings, "engraving", "engravings"), MM(r.EngravedLength))
	if o.For == Casting {
		text = fmt.Sprintf("%s, not in the solid: engraved after casting", HowMany(r.Engravings, "engraving", "engravings"))
	}
	inside := 0
	for _, m := range s.Engravings {
		if m.Inside {
			inside++
		}
	}
	if inside > 0 {
		text += fmt.Sprintf("; %s on the inner face, drawn as seen through the metal: turn the part over left to right first", map[bool]string{true: "all", false: strconv.Itoa(inside)}[inside == r.Engravings])
	}
	return strings.Join(append([]string{text}, lettered(s)...), "; ")
}

func deburringWords(s *pattern.Sheet, r *check.Report, o Options) string {
	if o.For == LaserShop {
		return "both faces; leave the edges sharp, the bench breaks them (common practice)"
	}
	return "both faces; break every edge that is worn or touched"
}

// metal names the alloy.
func metal(s *pattern.Sheet, r *check.Report) string {
	return pattern.Say("%s, %.2f g/cm³", Plain(cmp.Or(r.Alloy.Name, s.Design.Metal.Alloy)), r.Density)
}
