// Package jobsheet writes the sheet that goes along with a job, on paper and as HTML: the
// blank and the band with their dimensions, facts, findings, cautions, and the other files
// with their checksums. Both are set alike (layout.go) and show the same figures
// (figure.go).
package jobsheet

import (
	"fmt"
	"slices"
	"strings"

	"fretband/export"
	"fretband/export/cut"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/lettering"
	"fretband/pattern/strength"
)

// File is a file that goes with a job sheet.
type File struct {
	Name, What, SHA256 string
	Bytes              int
}

// cut reports whether it is a cut file.
func (f File) cut() bool {
	return strings.HasSuffix(f.Name, ".dxf") || strings.HasSuffix(f.Name, ".svg")
}

// job is what a job sheet says.
type job struct {
	sheet           *pattern.Sheet
	report          *check.Report
	title, subtitle string
	facts           []jobEntry
	added           []jobEntry      // the table of parts
	findings        []check.Finding // more than notes, in the order in which they are read
	cautions        []jobEntry
	files           []jobEntry
}

// jobEntry is a paragraph of a job sheet: a heading, or words with a label before them.
type jobEntry struct {
	kind        jobKind
	label, text string
}

type jobKind int

const (
	jobHeading jobKind = iota
	jobFact            // its label is in a column of its own
	jobFinding
	jobReason // belongs to the finding before it
	jobCaution
	jobFile
	jobSum // belongs to the file before it
)

func newJob(s *pattern.Sheet, r *check.Report, o export.Options, files []File) job {
	r = check.Deepen(s, r)
	j := job{
		sheet: s, report: r,
		title:    export.Title(s.Design),
		subtitle: strings.Join(export.NonEmpty("Job sheet", export.ContentWords(s.Design), export.Plain(o.Date)), ", "),
	}
	facts := export.PartFacts(s, r, o)
	if slices.ContainsFunc(files, File.cut) {
		facts = slices.Concat(cut.TubeFacts(s, o), facts, cut.Facts(s, r, o))
	}
	for _, f := range append(facts, jobFacts(s, r, o)...) {
		j.facts = append(j.facts, jobEntry{jobFact, f.Label, f.Text})
	}
	if to, _ := export.ReceiverByKey(o.For); !to.Outside { // whoever only cuts or casts sets no stone
		for _, p := range r.Added {
			j.added = append(j.added, jobEntry{jobFact, fmt.Sprintf("%d. %s", p.Part+1, partWord(p.Kind)), export.AddedWords(p)})
		}
		if len(r.Added) > 0 {
			j.added = append(j.added, jobEntry{jobFact, "In all", pattern.Say("%.2f g added, %.2f g with the pierced band. Carats are estimates by size: weigh your stones, and fit each bezel to its own stone.", r.AddedGrams, r.Left+r.AddedGrams)})
		}
	}
	for _, f := range r.Findings {
		if f.Severity > check.Note {
			j.findings = append(j.findings, f)
		}
	}
	for _, c := range export.Cautions(s, r, o) {
		topic, text, _ := strings.Cut(c, ": ")
		j.cautions = append(j.cautions, jobEntry{jobCaution, topic + ":", text})
	}
	for _, f := range files {
		j.files = append(j.files,
			jobEntry{jobFile, f.Name + ":", fmt.Sprintf("%s, %d bytes, SHA-256", f.What, f.Bytes)},
			jobEntry{jobSum, "", f.SHA256})
	}
	return j
}

func partWord(kind string) string {
	return map[string]string{pattern.StonePart: "Stone", pattern.WirePart: "Wire", pattern.BeadsPart: "Beads", pattern.OtherPart: "Part"}[kind]
}

// jobFacts are the facts that only a job sheet has.
func jobFacts(s *pattern.Sheet, r *check.Report, o export.Options) []export.Fact {
	var fs []export.Fact
	if o.Parts() > 1 {
		fs = append(fs, export.Fact{Label: "In all", Text: copiesWords(r, o)})
	}
	if r.Cost > 0 && o.Priced() {
		fs = append(fs, export.Fact{Label: "Cost of metal", Text: pattern.Say("%.2f %s left in the band, %.2f %s plain", r.Cost, export.Plain(r.Currency), r.PlainCost, export.Plain(r.Currency))})
	}
	fs = append(fs, workFacts(s, r, o)...)
	if to, _ := export.ReceiverByKey(o.For); to.Stress { // whoever only cuts or casts does nothing about it
		fs = append(fs, strengthFacts(r)...)
		fs = append(fs, export.Fact{Label: "Least section", Text: pattern.Say("%.2f of %.2f mm across is metal, %.0f %%, at x %s", r.Net.WeakNet, r.Net.WeakFull, 100*r.Net.WeakNet/r.Net.WeakFull, export.MM(r.Net.WeakX))})
	}
	return fs
}

// strengthFacts say how the band carries load, once that has been solved.
func strengthFacts(r *check.Report) []export.Fact {
	if r.Strength == nil {
		return nil
	}
	c := r.Strength.Cases[0]
	way := "Opened"
	if c.Case == strength.Squeeze {
		way = "Squeezed"
	}
	text := pattern.Say("%s by %.2f mm a newton, unpierced by %.2f", way, c.PerN, c.PlainPerN)
	if c.BridgeYield > 0 {
		text += pattern.Say("; whole bridges yield from %.1f mm (%.0f N) on", c.BridgeYield, c.BridgeYield/c.PerN)
	}
	return []export.Fact{{Label: "Strength", Text: text + ". An estimate for comparing designs: a trial piece decides."}}
}

// workFacts are the drills and blades of a band that is sawn, and what the work takes by
// the maker's own rates.
func workFacts(s *pattern.Sheet, r *check.Report, o export.Options) []export.Fact {
	var fs []export.Fact
	m := r.Making
	var pilots []string
	for _, p := range m.Pilots {
		pilots = append(pilots, pattern.Say("%d of %.2f mm (%s), blade %s", p.Count, p.MM, export.Plain(p.Drill), p.Blade))
	}
	if len(pilots) > 0 {
		fs = append(fs, export.Fact{Label: "Pilot holes", Text: strings.Join(pilots, "; ")})
	}
	if m.Blades > 0 {
		fs = append(fs, export.Fact{Label: "Blades", Text: fmt.Sprintf("%d, at %s mm each (the maker's own rate)", m.Blades, export.MM(s.Design.Work.BladeMM))})
	}
	if m.Minutes() > 0 && o.Priced() {
		text := export.TimeText(m, "the maker's own")
		if m.Cost > 0 {
			text += pattern.Say("; %.2f %s", m.Cost, export.Plain(r.Currency))
		}
		fs = append(fs, export.Fact{Label: "Work", Text: text})
	}
	return fs
}

// copiesWords say what n parts take together.
func copiesWords(r *check.Report, o export.Options) string {
	n, c := o.Parts(), float64(o.Parts())
	text := pattern.Say("%d parts, %.2f g left of %.2f g plain, %.2f g taken out, %d openings, %s mm of cut",
		n, c*r.Left, c*r.Plain, c*r.Removed, n*r.Openings, export.MM(c*o.CutLength(r)))
	if r.Cost > 0 && o.Priced() {
		text += pattern.Say(", %.2f %s of metal", c*r.Cost, export.Plain(r.Currency))
	}
	return text
}

// jobLimits say how much of many findings is reported; 0 is all.
type jobLimits struct {
	each  int // of a kind
	kinds int
}

// told returns the findings as paragraphs, and the positions of their numbers. It counts
// what the limits leave out.
func (j job) told(l jobLimits) (entries []jobEntry, positions []numbered) {
	groups := findingGroups(j.findings)
	left, breaches := 0, 0
	n := 0
	for i, g := range groups {
		if l.kinds > 0 && i >= l.kinds {
			left += len(g)
			for _, f := range g {
				if f.Severity == check.Breach {
					breaches++
				}
			}
			continue
		}
		for k, f := range g {
			if l.each > 0 && k == l.each && len(g) > k+1 {
				entries = append(entries, jobEntry{jobReason, "", fmt.Sprintf("And %d more of this kind: the report lists them.", len(g)-k)})
				break
			}
			n++
			text := export.Plain(f.What)
			if m := export.Plain(f.Mend); k == 0 || m != export.Plain(g[k-1].Mend) {
				text += " " + m
			}
			entries = append(entries, jobEntry{jobFinding, fmt.Sprintf("%d. %s:", n, export.SeverityWord(f)), text})
			if f.Accepted != "" && (k == 0 || f.Accepted != g[k-1].Accepted) {
				entries = append(entries, jobEntry{jobReason, "Accepted by the maker:", export.Plain(f.Accepted)})
			}
			if len(f.At) > 0 {
				positions = append(positions, numbered{n, f.At[0]})
			}
		}
	}
	if left > 0 {
		entries = append(entries, jobEntry{jobFinding, "And more:", fmt.Sprintf("%s, of which %s a rule: the report lists them.",
			export.HowMany(left, "finding", "findings"), export.HowMany(breaches, "breaks", "break"))})
	}
	return entries, positions
}

// findingGroups are the findings by kind: check, severity, and whether they are open.
func findingGroups(fs []check.Finding) [][]check.Finding {
	type kind struct {
		check    string
		severity check.Severity
		stands   bool
	}
	var groups [][]check.Finding
	at := map[kind]int{}
	for _, f := range fs {
		k := kind{f.Kind.Title, f.Severity, f.Accepted != ""}
		i, ok := at[k]
		if !ok {
			i = len(groups)
			at[k] = i
			groups = append(groups, nil)
		}
		groups[i] = append(groups[i], f)
	}
	return groups
}

// entries returns all paragraphs in order. With ownType the sheet is set in its own
// typeface, which lacks the letters of some scripts.
func (j job) entries(l jobLimits, ownType bool) ([]jobEntry, []numbered) {
	findings, positions := j.told(l)
	if len(findings) == 0 {
		findings = []jobEntry{{jobFinding, "", "Nothing that asks for anything."}}
	}
	es := append([]jobEntry(nil), j.facts...)
	if len(j.added) > 0 {
		es = append(append(es, jobEntry{kind: jobHeading, text: "Parts to solder or set on"}), j.added...)
	}
	es = append(append(es, jobEntry{kind: jobHeading, text: "Findings"}), findings...)
	es = append(append(es, jobEntry{kind: jobHeading, text: "Cautions"}), j.cautions...)
	if len(j.files) > 0 {
		es = append(append(es, jobEntry{kind: jobHeading, text: "Files"}), j.files...)
	}
	if !ownType {
		return es, positions
	}
	lacks := false
	for i := range es {
		text := inType(es[i].text)
		lacks = lacks || text != es[i].text
		es[i].text, es[i].label = text, inType(es[i].label)
	}
	if lacks {
		at := len(j.facts)
		es = append(es[:at:at], append([]jobEntry{{jobFact, "Type", "letters shown as " + noLetter + " are not in the type of this sheet; the HTML job sheet has them"}}, es[at:]...)...)
	}
	return es, positions
}

// noLetter is printed where the sheet's type lacks a letter.
const noLetter = "?"

// inType returns the text with a sign for what the sheet's type lacks.
func inType(text string) string {
	if lettering.Check(text) == nil {
		return text
	}
	return strings.Map(func(r rune) rune {
		if lettering.Check(string(r)) != nil {
			return []rune(noLetter)[0]
		}
		return r
	}, text)
}
