package report

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll"
)

// Text writes the report for people in short: what fits one screen.
func Text(w io.Writer, s *pattern.Sheet, r *check.Report) error { return text(w, s, r, false) }

// TextInFull writes all of it: every figure, why each finding matters, the sources of
// estimates, and the cautions word for word.
func TextInFull(w io.Writer, s *pattern.Sheet, r *check.Report) error { return text(w, s, r, true) }

// row adds a figure to the table.
type row func(name, format string, args ...any)

func text(w io.Writer, s *pattern.Sheet, r *check.Report, full bool) error {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	say := func(name, format string, args ...any) {
		fmt.Fprintf(t, "%s\t%s\n", name, pattern.Say(format, args...))
	}
	fmt.Fprintf(t, "%s\n\n", export.Title(s.Design))
	figureRows(s, r, say)
	if full {
		moreRows(s, r, say)
	}
	strengthRows(s, r, say)
	if full {
		workRows(s, r, say)
	} else {
		sawRow(r, say)
	}
	if err := t.Flush(); err != nil {
		return err
	}
	findings(w, r, full)
	if full {
		strengthNotes(w, s, r)
		return coordinatesAndCautions(w, s, r)
	}
	return cautionsInShort(w, s, r)
}

// figureRows are the figures that every reader looks for.
func figureRows(s *pattern.Sheet, r *check.Report, say row) {
	say("band", "%s, blank %.2f x %.2f mm, sheet %.2f mm", s.Design.Band.Kind, r.BlankLen, r.BlankWidth, r.Thickness)
	say("metal", "%s, %.2f g/cm³", r.Alloy.Name, r.Density)
	say("plain", "%.2f g", r.Plain)
	say("taken out", "%.2f g, open share %.1f %%", r.Removed, 100*r.OpenShare)
	say("left", "%.2f g", r.Left)
	if r.Cost > 0 {
		say("metal cost", "%.2f %s (plain %.2f)", r.Cost, r.Currency, r.PlainCost)
	}
	say("openings", "%d, left solid %d", r.Openings, r.Dropped)
	say("cut length", "%.0f mm, of it %.0f mm outline, no tabs taken off", r.CutLength, r.CutLength-r.OpenLength)
	if r.Engravings > 0 {
		say("engraved", "%s, %.1f mm of line: not cut", export.HowMany(r.Engravings, "mark", "marks"), r.EngravedLength)
	}
	for i, p := range r.Added {
		name := ""
		if i == 0 {
			name = "added"
		}
		say(name, "%s", export.AddedWords(p))
	}
	if len(r.Added) > 0 {
		say("with what is added", "%.2f g, of it %.2f g added", r.Left+r.AddedGrams, r.AddedGrams)
		if r.AddedCost > 0 {
			say("cost of what is added", "%.2f %s", r.AddedCost, r.Currency)
		}
	}
	say("bridge rule", "%.3f mm, to the edge %.3f mm", r.Rule, r.EdgeRule)
	if b := r.Thinnest; !b.None() {
		say("thinnest bridge", "%.3f mm from (%.2f, %.2f) to (%.2f, %.2f); about %.2f mm once finished", b.Width, b.A.X, b.A.Y, b.B.X, b.B.Y, r.Finished)
		say("least section", "%.1f %% of the width is metal, %.2f of %.2f mm, at x = %.1f mm", 100*r.Net.WeakNet/r.Net.WeakFull, r.Net.WeakNet, r.Net.WeakFull, r.Net.WeakX)
	}
}

// moreRows are the figures that only some ask for.
func moreRows(s *pattern.Sheet, r *check.Report, say row) {
	for _, g := range r.LeftSolid {
		say("left solid", "%d, %.1f mm²: %s", len(g.At), g.Area, g.Why)
	}
	if d := r.Deep; d != nil {
		way := func(name string, c check.WeakestPath) {
			if !c.None() {
				say(name, "%.2f mm of metal in %s, %.0f %% of the full section", c.Metal, export.HowMany(len(c.Bridges), "bridge", "bridges"), 100*c.Share())
			}
		}
		way("weakest path across", d.WeakestPaths.Across)
		way("weakest path along", d.WeakestPaths.Along)
		part := func(name string, h check.AttachedPart) {
			if !h.None() {
				say(name, "%.2f g held by %s, %.2f mm together, %.0f %% of the way round it", h.Weight, export.HowMany(len(h.Bridges), "bridge", "bridges"), h.Metal, 100*h.Round)
			}
		}
		part("least attached part", d.Attached.Inside)
		part("the same at the edge", d.Attached.AtEdge)
	}
	say("bent", "%.1f x %.1f x %.1f mm outside, least inner radius %.1f mm (%.1f times the sheet)",
		r.Hang.Width, r.Hang.Height, r.Hang.Depth, r.Hang.LeastRadius, r.Hang.LeastRadius/r.Thickness)
	if b := r.Springback; b.Round > 0 {
		say("bend it round", "%.1f mm radius: it springs open to %.1f mm (plain %s strip; metal hardened by rolling or bending more)", b.Round, b.Inside, b.Temper.Title)
		say("", "Ri/Rf = 4x³ - 3x + 1, x = Ri Y/(E T) (Kalpakjian), Y %g MPa, E %g GPa (%s)", b.Temper.ProofMPa, b.Temper.ModulusGPa, b.Temper.Source)
	}
	say("centre of gravity", "%.1f mm from the axis, %s", r.Hang.Off, r.Hang.Words())
	if c := r.Faces; c.OuterArea > 0 && r.Openings > 0 {
		say("openings on the faces", "%.2f mm² inside, %.2f mm² outside", c.InnerCut, c.OuterCut)
		if b := r.Thinnest; !b.None() {
			say("thinnest on the faces", "%.3f mm inside, %.3f mm outside", c.InnerBridge, c.OuterBridge)
		}
		say("lengths on the faces", "%.3f to %.3f of the drawing inside, %.3f to %.3f outside", c.InnerLeast, c.InnerMost, c.OuterLeast, c.OuterMost)
	}
	if d := r.Doming; d.Most > 0 {
		say("domed", "lengths differ from the drawing by up to %.1f %%; it keeps %s", 100*d.Most, d.Kept)
		if d.BlankG > 0 {
			say("", "the pierced blank, cut flat, weighs %.2f g", d.BlankG)
		}
	}
	for i, n := range s.Flat.Notes {
		name := ""
		if i == 0 {
			name = "unrolled"
		}
		say(name, "%s", n)
	}
	if s.Design.Band.Seamless() {
		say("joint", "none: openings may run over the two ends of the drawing; cut it from tube, or cast it")
	}
}

// sawRow tells blade and pilot holes in one line.
func sawRow(r *check.Report, say row) {
	if !r.Making.Sawn {
		return
	}
	if len(r.Making.Pilots) == 0 {
		say("saw blade", "%s, pilot hole %.2f mm (%s)", r.Blade.Size, r.Blade.PilotMM, r.Blade.Drill)
		return
	}
	var holes []string
	for _, p := range r.Making.Pilots {
		holes = append(holes, pattern.Say("%s with %s of %.2f mm", p.Blade, export.HowMany(p.Count, "pilot hole", "pilot holes"), p.MM))
	}
	say("saw blade", "%s", strings.Join(holes, "; "))
}

// workRows tells the work of cutting.
func workRows(s *pattern.Sheet, r *check.Report, say row) {
	m := r.Making
	if m.Sawn {
		say("saw blade", "%s, pilot hole %.2f mm (%s)", r.Blade.Size, r.Blade.PilotMM, r.Blade.Drill)
		say("", "%s", r.Blade.Advice)
	}
	if p, ok := pattern.ProcessByKey(s.Process); ok {
		say("process", "%s", p.Title)
	}
	if m.KerfMM > 0 {
		say("kerf", "%.2f mm (%s)", m.KerfMM, m.KerfFrom)
	}
	for i, p := range m.Pilots {
		name := ""
		if i == 0 {
			name = "pilot holes"
		}
		say(name, "%d of %.2f mm (%s), blade %s", p.Count, p.MM, p.Drill, p.Blade)
	}
	if m.Blades > 0 {
		say("blades", "%d, at %g mm each (your own rate)", m.Blades, s.Design.Work.BladeMM)
	}
	if m.Minutes() > 0 {
		say("time of cutting", "%s", export.TimeText(m, "your own"))
		if m.Cost > 0 {
			say("", "%.2f %s", m.Cost, r.Currency)
		}
	}
}

// findings lists what is to be decided.
func findings(w io.Writer, r *check.Report, full bool) {
	fmt.Fprintf(w, "\nFindings\n")
	if len(r.Findings) == 0 {
		fmt.Fprintf(w, "  nothing to decide\n")
	}
	for _, f := range r.Findings {
		fmt.Fprintf(w, "  %-7s  %s\n", f.Severity, f.What)
		more := []string{f.Mend}
		if full {
			more = []string{f.Why, f.Mend}
		}
		for _, x := range more {
			if x != "" && (full || f.Accepted == "") {
				fmt.Fprintf(w, "           %s\n", x)
			}
		}
		if full {
			for _, x := range f.Fixes {
				fmt.Fprintf(w, "           - %s\n", strings.TrimSuffix(x.Title+": "+x.Cost, ": "))
			}
		}
		if f.Accepted != "" {
			fmt.Fprintf(w, "           Accepted by the maker: %s\n", export.Plain(f.Accepted))
		}
	}
}

// coordinatesAndCautions ends the report in full.
func coordinatesAndCautions(w io.Writer, s *pattern.Sheet, r *check.Report) error {
	weights := "Weights are the flat\nblank's: bending keeps the volume at the neutral surface."
	if s.Design.Band.Making == unroll.Formed {
		weights = "Weights are the\nformed band's, walls square to its surface."
	} else if s.Flat.Domed() {
		weights = "Weights are the\ndomed band's, of full thickness all over."
	}
	fmt.Fprintf(w, "\nPlaces are mm from the middle of the blank, x along, y up. %s\n\nCautions\n", weights)
	for _, c := range export.Cautions(s, r, export.Options{}) {
		if _, err := fmt.Fprintf(w, "  %s\n", c); err != nil {
			return err
		}
	}
	return nil
}

// cautionsInShort has a line for each hazard to body and health, and names the other cautions.
func cautionsInShort(w io.Writer, s *pattern.Sheet, r *check.Report) error {
	fmt.Fprintf(w, "\nCautions, in full with fretcut report -full\n")
	var others []string
	for _, c := range check.Cautions(s, r) {
		if c.Short == "" {
			others = append(others, c.Topic)
			continue
		}
		fmt.Fprintf(w, "  %s: %s\n", c.Topic, c.Short)
	}
	_, err := fmt.Fprintf(w, "  And: %s.\n", strings.Join(slices.Compact(others), "; "))
	return err
}
