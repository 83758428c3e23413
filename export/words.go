package export

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// originWords say from where the positions are counted that the facts and findings name.
func originWords(o Options) string {
	text := "the middle of the blank; x along the band, y up; you look at the outer face"
	if o.OnSheet() {
		return "for the places named here " + text
	}
	return text
}

// SeverityWord is what a file calls a finding of more than a note.
func SeverityWord(f check.Finding) string {
	if f.Severity == check.Breach {
		return "Breach of a rule"
	}
	return "Caution"
}

// solid returns the areas that are kept solid. They are not drawn in the cut
// files, so their positions are reported.
func solid(s *pattern.Sheet) []Fact {
	const most = 8
	var fs []Fact
	for i, v := range s.Design.Reserves {
		if i == most {
			return append(fs, Fact{Label: "Kept solid", Text: fmt.Sprintf("%d more areas", len(s.Design.Reserves)-most)})
		}
		fs = append(fs, Fact{Label: "Kept solid", Text: keptText(v)})
	}
	if n := len(s.Design.Added); n > 0 {
		fs = append(fs, Fact{Label: "Added later", Text: HowMany(n, "part", "parts") + " soldered or set on the outside: openings keep clear of the seats. None of it is in the weights given here or in the files to cut or cast"})
	}
	return fs
}

// FindingFacts returns what the maker should look at, breaches first. Notes stay in
// the report.
func FindingFacts(r *check.Report) []Fact {
	const most = 12
	var fs []Fact
	left := 0
	for _, f := range r.Findings { // in the order in which they are read
		if f.Severity == check.Note {
			continue
		}
		if len(fs) == most {
			left++
			continue
		}
		text := Plain(f.What)
		label := SeverityWord(f)
		if f.Accepted != "" {
			label += ", accepted by the maker"
			text += " Reason: " + Plain(f.Accepted)
		} else if f.Mend != "" {
			text = strings.TrimRight(text, ". ") + ". " + Plain(f.Mend)
		}
		fs = append(fs, Fact{label, text, f.Broken()})
	}
	if left > 0 {
		fs = append(fs, Fact{Label: "Findings", Text: fmt.Sprintf("%d more are in the report", left)})
	}
	return fs
}

// CutBy returns the sheet cut by another process, and its report, which is made anew if it
// was for a third one. Of metal in pieces nothing is made, so it stays what it is.
func CutBy(s *pattern.Sheet, r *check.Report, process string) (*pattern.Sheet, *check.Report) {
	if s.Process == process || r.Pieces > 1 {
		return s, r
	}
	s = s.CutBy(process)
	return s, check.All(s)
}

// Cautions returns the cautions that go with a part, for every hand-over file and the
// report, but for what does not concern who receives them; without a part those of the
// work in general. They are [check.Cautions].
func Cautions(s *pattern.Sheet, r *check.Report, o Options) []string {
	to, _ := ReceiverByKey(o.For)
	var lines []string
	for _, c := range check.Cautions(s, r) {
		if !slices.Contains(to.spared, c.Topic) {
			lines = append(lines, c.Topic+": "+c.Text)
		}
	}
	return lines
}

// thinnestWords describes the narrowest place in words.
func thinnestWords(r *check.Report) string {
	b := r.Thinnest
	if b.None() {
		return "none, there is no opening"
	}
	var where string
	switch {
	case b.To == 0 && b.From == 0:
		where = "across the blank"
	case b.To == 0 || b.From == 0:
		where = fmt.Sprintf("between opening %d and the edge", b.From+b.To)
	case b.From == b.To:
		where = fmt.Sprintf("at a neck of opening %d", b.From)
	default:
		where = fmt.Sprintf("between openings %d and %d", min(b.From, b.To), max(b.From, b.To))
	}
	m := b.A.Mid(b.B)
	text := pattern.Say("%.3f mm %s, at x %s, y %s", b.Width, where, MM(m.X), MM(m.Y))
	if d := b.Shortfall(); d >= 0.0005 { // less does not show
		text += pattern.Say("; %.3f mm under its rule", d)
	}
	return text
}

// Title returns what papers and pictures call a design: its name, or what it is while it has
// none.
func Title(d pattern.Design) string {
	if d.Named() {
		return Plain(d.Name)
	}
	switch d.Band.Kind {
	case unroll.Ring:
		return "Ring"
	case unroll.Bangle:
		return "Bangle"
	}
	return "Cuff"
}

// kind names the band. A closed one is known by its kind alone: the blank of a
// closed flared band has ends that meet by turning, and no period.
func kind(s *pattern.Sheet) string {
	form := ""
	switch {
	case s.Flat.Flared():
		form = "flared "
	case s.Flat.Domed():
		form = "domed "
	}
	switch s.Design.Band.Kind {
	case unroll.Cuff:
		return "open " + form + "cuff"
	case unroll.Bangle:
		return "closed " + form + "bangle"
	case unroll.Ring:
		return "closed " + form + "ring"
	}
	return form + "band"
}

// drawn says which surface the drawing shows at its true size.
func drawn(s *pattern.Sheet) string {
	if s.Design.Band.Making != unroll.Formed {
		return "length taken on the neutral surface"
	}
	return fmt.Sprintf("drawn on %s of the band as formed, walls square to it", DrawnFace(s))
}

func sheetOrMetal(s *pattern.Sheet) string {
	if s.Design.Band.Making == unroll.Formed {
		return "metal"
	}
	return "sheet"
}

// faces says what openings and the thinnest bridge have become on the two faces
// of a band for which that is not the flat sheet's.
func faces(r *check.Report) string {
	f := r.Faces
	text := fmt.Sprintf("openings %s mm² inside, %s mm² outside", MM(f.InnerCut), MM(f.OuterCut))
	if !r.Thinnest.None() {
		text += pattern.Say("; thinnest bridge %.3f mm inside, %.3f mm outside", f.InnerBridge, f.OuterBridge)
	}
	return text
}

// DrawnFace names the surface that the drawing of a formed band shows. The middle
// one lies where the neutral surface would (see unroll.Band.Drawn).
func DrawnFace(s *pattern.Sheet) string {
	switch k := s.Design.Band.NeutralK; s.Design.Band.Drawn {
	case unroll.InnerFace, unroll.OuterFace:
		return "the " + s.Design.Band.Drawn + " face"
	default:
		if k == 0.5 {
			return "the middle face"
		}
		return fmt.Sprintf("the surface at %s of the thickness over the inner face", Decimal(k, 3))
	}
}

// kerfWords say on which side of the line the cut goes.
func kerfWords(s *pattern.Sheet, o Options) string {
	switch {
	case o.KerfMM > 0:
		return fmt.Sprintf("%s mm, already allowed for: run the line without compensation", MM(o.KerfMM))
	case s.Process == Saw:
		return "none: the lines are the finished edge; saw in the waste and file to the line"
	case s.Process == Laser:
		return "none: the lines are the finished edge; set the beam's kerf at the machine"
	}
	return "none: the lines are the finished edge; set the beam's kerf at the machine, or saw in the waste"
}

func processWords(process string) string {
	switch process {
	case "":
		return "not fixed: saw or beam"
	case Saw:
		return "piercing saw, by hand; openings first, outline last"
	case Laser:
		return "laser; openings first, outline last"
	}
	if p, ok := pattern.ProcessByKey(process); ok {
		return strings.ToLower(p.Title)
	}
	return Plain(process)
}

// ends say what becomes of the two ends of the blank.
func ends(s *pattern.Sheet) string {
	bend := ""
	if s.Design.Band.Making == unroll.Formed {
		bend = "; cut or cast as formed, not bent from this drawing"
	}
	switch {
	case s.Design.Band.Open():
		return fmt.Sprintf("open cuff, gap %s mm along the inside", MM(s.Flat.GapInner)) + bend
	case !s.Design.Band.Seamless():
		return fmt.Sprintf("closed band: the two ends meet and are joined; the last %s mm at each end stay solid", MM(s.Flat.JointStrip)) + bend
	case OverEnds(s):
		return "seamless band: both ends of the drawing are one place, and openings run over it. They are drawn whole, past the end. " +
			"Do not cut this from flat sheet: it is for tube, or for a casting pattern"
	}
	return "seamless band: both ends of the drawing are one place. For tube or a casting pattern; " +
		"cut from flat sheet it would need a joint, for which no solid strip is kept"
}

// lettered says which texts are engraved.
func lettered(s *pattern.Sheet) []string {
	var texts []string
	for _, m := range s.Design.Engravings {
		if m.Kind == pattern.TextEngraving {
			where := ""
			if m.Side == pattern.InsideFace {
				where = ", inside"
			}
			texts = append(texts, fmt.Sprintf("\"%s\", capitals %s mm%s", Plain(m.Text), MM(m.HeightMM), where))
		}
	}
	const most = 6
	if n := len(texts); n > most {
		texts = append(texts[:most], fmt.Sprintf("%d more", n-most))
	}
	return texts
}

func HowMany(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}

func NonEmpty(words ...string) []string {
	var out []string
	for _, w := range words {
		if w != "" {
			out = append(out, w)
		}
	}
	return out
}

// OverEnds reports whether an opening runs past an end of the blank, as it may
// on a seamless band, where both ends are one place.
func OverEnds(s *pattern.Sheet) bool { return len(Again(s)) > 0 }

// Again returns the openings that run past an end of the blank, moved to where
// they come in again at the other end.
func Again(s *pattern.Sheet) plane.Region {
	var ls plane.Region
	for _, o := range s.Openings {
		ls = append(ls, s.Again(o.Loop)[1:]...)
	}
	return ls
}

// TimeText tells the time by the maker's own rates, in the words of whose they are, and
// what of the work they cover.
func TimeText(m check.Making, whose string) string {
	switch {
	case m.Minutes() == 0:
		return "no rate given"
	case m.StartMin == 0:
		return Duration(m.CutMin) + " of cutting alone, by " + whose + " rate"
	case m.CutMin == 0:
		return Duration(m.StartMin) + " of drilling and threading alone, by " + whose + " rate"
	}
	return fmt.Sprintf("%s by %s rates: cutting %s, starting %s", Duration(m.Minutes()), whose, Duration(m.CutMin), Duration(m.StartMin))
}

// Duration writes minutes as a person reads them.
func Duration(v float64) string {
	if v < 90 {
		return pattern.Say("%.0f min", v)
	}
	return fmt.Sprintf("%d h %02d min", int(math.Round(v))/60, int(math.Round(v))%60)
}

// keptText says what a reserve is and where: its shape, size, turn and row.
func keptText(r pattern.Reserve) string {
	var text string
	switch r.Shape {
	case pattern.CircleShape:
		text = fmt.Sprintf("circle %s mm across", MM(r.WidthMM))
	case pattern.PathShape:
		text = "drawn shape"
		if r.WidthMM > 0 {
			text += fmt.Sprintf(" %s x %s mm", MM(r.WidthMM), MM(r.HeightMM))
		}
	default:
		text = fmt.Sprintf("%s %s x %s mm", r.Shape, MM(r.WidthMM), MM(r.HeightMM))
	}
	if r.RotationDeg != 0 && r.Shape != pattern.CircleShape {
		text += fmt.Sprintf(" turned %s degrees", MM(r.RotationDeg))
	}
	if r.Count > 1 {
		text = fmt.Sprintf("%d in a row (each %s),", r.Count, text)
		if r.SpacingMM > 0 {
			text += fmt.Sprintf(" %s mm from middle to middle,", MM(r.SpacingMM))
		} else {
			text += " spread evenly,"
		}
		text += " about"
	} else {
		text += " at"
	}
	text += fmt.Sprintf(" x %s, y %s", MM(r.XMM), MM(r.YMM))
	if n := Plain(r.Note); n != "" {
		text = n + ", " + text
	}
	return text
}

// Names under which engraving is kept apart from all that is cut: the DXF's layer and the
// SVG's group.
const (
	LayerEngraved = "ENGRAVE_NOT_CUT"
	GroupEngraved = "engrave-not-cut"
	// Of the inner face: drawn as seen through the metal.
	LayerInside = "ENGRAVE_INSIDE_NOT_CUT"
	GroupInside = "engrave-inside-not-cut"
)
