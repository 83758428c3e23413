package check

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// checkMarks finds marks that run off the blank, over the edge of a reserve, through
// openings, or over a joint that is soldered.
func checkMarks(s *pattern.Sheet, _ *Report) []Finding {
	var fs []Finding
	for _, m := range s.Marks {
		fs = append(fs, offBlank(s, m)...)
		fs = append(fs, overReserves(s, m)...)
		fs = append(fs, throughOpenings(s, m)...)
		fs = append(fs, overJoint(s, m)...)
	}
	return fs
}

// markName is how a mark is called in a finding: by its number, and what a person
// knows it by.
func markName(s *pattern.Sheet, i int) string {
	m := s.Design.Marks[i]
	switch {
	case m.Kind == pattern.TextMark:
		return fmt.Sprintf("Mark %d (%q)", i+1, m.Text)
	case m.Note != "":
		return fmt.Sprintf("Mark %d (%s)", i+1, m.Note)
	}
	return fmt.Sprintf("Mark %d (%s)", i+1, m.Kind)
}

func reserveName(s *pattern.Sheet, i int) string {
	r := s.Design.Reserves[i]
	if r.Note != "" {
		return fmt.Sprintf("reserve %d (%s)", i+1, r.Note)
	}
	return fmt.Sprintf("reserve %d (%s)", i+1, r.Shape)
}

// offBlank: what a cuff's mark or any other has beyond the edges.
func offBlank(s *pattern.Sheet, m pattern.MarkLines) []Finding {
	all := m.Len()
	on, out := within(m, plane.Region{s.Flat.Outline})
	if on >= all-1e-6 {
		return nil
	}
	return []Finding{{
		Check: "mark off the blank", Severity: Breach,
		What:  pattern.Say("%s runs off the blank: %.2f of its %.2f mm are on no metal.", markName(s, m.Mark), all-on, all),
		Why:   "What is to be engraved there has no metal under it.",
		Value: on, Limit: all, Unit: "mm", At: []plane.Point{out},
		Mend:  "Move it towards the middle, turn it or make it smaller.",
		Fixes: join(markInside(s, m), removeMark(s.Design, m.Mark)),
	}}
}

// overReserves: a mark that lies wholly inside a reserve is at home there, as a
// signature is in its area.
func overReserves(s *pattern.Sheet, m pattern.MarkLines) []Finding {
	var fs []Finding
	all := m.Len()
	told := -1
	for _, k := range s.Reserves {
		if k.Reserve == told {
			continue
		}
		margin := s.Design.Reserves[k.Reserve].MarginMM
		near, inside, at := 0.0, 0.0, plane.Point{}
		for _, l := range s.Again(k.Loop) {
			if margin > 0 && !meets(m, l.Bounds().Grow(margin)) || margin <= 0 && !meets(m, l.Bounds()) {
				continue
			}
			round := plane.Region{l}
			if margin > 0 {
				round = l.Outset(margin)
			}
			n, _ := within(m, round)
			i, _ := within(m, plane.Region{l})
			near, inside, at = near+n, inside+i, l.Centroid()
		}
		if near < 1e-6 || inside > all-1e-3 {
			continue
		}
		told = k.Reserve
		fs = append(fs, Finding{
			Check: "mark over a reserve", Severity: Caution,
			What:  pattern.Say("%s runs into %s or its margin with %.2f of its %.2f mm.", markName(s, m.Mark), reserveName(s, k.Reserve), near, all),
			Why:   "A stone seat or a stamp would be cut into, or the line can't be reached.",
			Value: near, Limit: 0, Unit: "mm", At: []plane.Point{at},
			Fixes: removeMark(s.Design, m.Mark),
			Mend:  "Move one of them. A mark that belongs into the reserve, as a signature into its area, must lie wholly inside it.",
		})
	}
	return fs
}

func throughOpenings(s *pattern.Sheet, m pattern.MarkLines) []Finding {
	if s.Design.Marks[m.Mark].KeepMM >= 0 {
		return nil
	}
	var numbers []int
	var at []plane.Point
	lost := 0.0
	for _, o := range s.Openings {
		for _, l := range s.Again(o.Loop) {
			if !meets(m, l.Bounds()) {
				continue
			}
			if n, _ := within(m, plane.Region{l}); n > 1e-6 {
				lost += n
				if !slices.Contains(numbers, o.Number) {
					numbers, at = append(numbers, o.Number), append(at, o.Box.Centre())
				}
			}
		}
	}
	if lost == 0 {
		return nil
	}
	return []Finding{{
		Check: "mark through openings", Severity: Note,
		What:  pattern.Say("%s runs through %s: %.2f of its %.2f mm are on no metal.", markName(s, m.Mark), openingsNamed(numbers), lost, m.Len()),
		Value: lost, Limit: m.Len(), Unit: "mm", At: at,
		Mend:  "Nothing need be done if that is meant: engrave first, then pierce. To keep the openings away, set what the mark keeps to 0 mm or more.",
		Fixes: keepOff(s.Design, m.Mark, 0.5),
	}}
}

func openingsNamed(numbers []int) string {
	const most = 6
	var names []string
	for i, n := range numbers {
		if i == most {
			names = append(names, fmt.Sprintf("%d more", len(numbers)-most))
			break
		}
		names = append(names, fmt.Sprint(n))
	}
	if len(names) == 1 {
		return "opening " + names[0]
	}
	return "openings " + strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

// overJoint: solder flows into cuts and heat spoils them; engraving comes after
// soldering (common practice).
func overJoint(s *pattern.Sheet, m pattern.MarkLines) []Finding {
	b := s.Design.Band
	if b.Kind == unroll.Cuff || b.Joint == unroll.Seamless {
		return nil
	}
	end := s.Flat.Length/2 - s.Flat.JointKeep
	for _, st := range m.Strokes {
		for _, e := range st.Edges() {
			for k := range 9 {
				p := e.At(float64(k) / 8)
				if x, _ := s.Flat.Where(p); math.Abs(x) > end+slack {
					return []Finding{{
						Check: "mark over the joint", Severity: Note,
						What:  fmt.Sprintf("%s runs over the soldered joint.", markName(s, m.Mark)),
						Why:   "Solder flows into cuts, and heat spoils them.",
						At:    []plane.Point{p},
						Mend:  "Engrave it after soldering (common practice), or move it along.",
						Fixes: markOffJoint(s, m),
					}}
				}
			}
		}
	}
	return nil
}

func meets(m pattern.MarkLines, b plane.Box) bool {
	for _, s := range m.Strokes {
		for _, e := range s.Edges() {
			if e.Bounds().Meets(b) {
				return true
			}
		}
	}
	return false
}

// within returns how much of a mark's lines lies in the region, mm, and a place of
// them that does not: each line is cut where it meets the region's edge, and a piece
// lies where its middle does.
func within(m pattern.MarkLines, r plane.Region) (length float64, out plane.Point) {
	var edges []plane.Edge
	for _, l := range r {
		edges = append(edges, l.Edges()...)
	}
	for _, s := range m.Strokes {
		for _, e := range s.Edges() {
			ts := []float64{0, 1}
			b := e.Bounds().Grow(plane.Snap)
			for _, f := range edges {
				if f.Bounds().Meets(b) {
					for _, c := range plane.Crossings(e, f) {
						ts = append(ts, c.A)
					}
				}
			}
			slices.Sort(ts)
			for i := 1; i < len(ts); i++ {
				if ts[i] <= ts[i-1] {
					continue
				}
				mid := e.At((ts[i-1] + ts[i]) / 2)
				if r.Contains(mid) {
					length += (ts[i] - ts[i-1]) * e.Len()
				} else {
					out = mid
				}
			}
		}
	}
	return length, out
}
