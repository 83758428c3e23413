package check

import (
	"fmt"
	"math"
	"strings"

	"fretband/pattern"
	"fretband/unroll/plane"
)

// checkEngravings finds engravings that run off the blank, over the edge of a reserve, through
// openings, or over a joint that is soldered.
func checkEngravings(s *pattern.Sheet, _ *Report) []Finding {
	if len(s.Engravings) == 0 {
		return nil
	}
	blank := newArea(plane.Region{s.Flat.Outline})
	reserves := stand(s, len(s.Reserves), func(i int) plane.Loop { return s.Reserves[i].Loop })
	openings := stand(s, len(s.Openings), func(i int) plane.Loop { return s.Openings[i].Loop })
	var fs []Finding
	for _, m := range s.Engravings {
		l := newLinework(m)
		fs = append(fs, offBlank(s, l, blank)...)
		fs = append(fs, overReserves(s, l, reserves)...)
		fs = append(fs, throughOpenings(s, l, openings)...)
		fs = append(fs, overJoint(s, m)...)
	}
	return fs
}

// engravingName is what an engraving is called in a finding: by its number, and what a person
// knows it by.
func engravingName(s *pattern.Sheet, i int) string {
	m := s.Design.Engravings[i]
	switch {
	case m.Kind == pattern.TextEngraving:
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

// offBlank: what an engraving of a cuff or of any other band has beyond the edges.
func offBlank(s *pattern.Sheet, m *linework, blank *area) []Finding {
	on, out := m.within(blank)
	if on >= m.length-1e-6 {
		return nil
	}
	return []Finding{{
		Kind: KindEngravingOffTheBlank, Severity: Breach,
		What:  pattern.Say("%s runs off the blank: %.2f of its %.2f mm are on no metal.", engravingName(s, m.Engraving), m.length-on, m.length),
		Why:   "The graver would have no metal under it there.",
		Value: on, Limit: m.length, Unit: "mm", At: []plane.Point{out},
		Mend:  "Move it towards the middle, turn it or make it smaller.",
		Fixes: join(engravingInside(s, m, blank), removeEngraving(s.Design, m.Engraving)),
	}}
}

// overReserves: an engraving that lies wholly inside a reserve is at home there, as a
// signature is in its area.
func overReserves(s *pattern.Sheet, m *linework, reserves []*standing) []Finding {
	var fs []Finding
	told := -1
	for len(reserves) > 0 {
		n := 1
		for n < len(reserves) && reserves[n].of == reserves[0].of {
			n++
		}
		copies, k := reserves[:n], s.Reserves[reserves[0].of]
		reserves = reserves[n:]
		if k.Reserve == told {
			continue
		}
		margin := math.Max(0, s.Design.Reserves[k.Reserve].MarginMM)
		near, inside, at := 0.0, 0.0, plane.Point{}
		for _, c := range copies {
			if !m.box.Meets(c.box.Grow(margin)) {
				continue
			}
			if n := m.inside(c.grown(margin)); n > 0 {
				near, inside, at = near+n, inside+m.inside(c.within()), c.loop.Centroid()
			}
		}
		if near < 1e-6 || inside > m.length-1e-3 {
			continue
		}
		told = k.Reserve
		fs = append(fs, Finding{
			Kind: KindEngravingOverAReserve, Severity: Caution,
			What:  pattern.Say("%s runs into %s or its margin with %.2f of its %.2f mm.", engravingName(s, m.Engraving), reserveName(s, k.Reserve), near, m.length),
			Why:   "The engraving would cut into a stone seat or a stamp, or the graver could not reach it.",
			Value: near, Limit: 0, Unit: "mm", At: []plane.Point{at},
			Fixes: removeEngraving(s.Design, m.Engraving),
			Mend:  "Move one of them. An engraving that belongs in the reserve, such as a signature, must lie wholly inside it.",
		})
	}
	return fs
}

func throughOpenings(s *pattern.Sheet, m *linework, openings []*standing) []Finding {
	if s.Design.Engravings[m.Engraving].MarginMM >= 0 {
		return nil
	}
	var numbers []int
	var at []plane.Point
	lost := 0.0
	for _, c := range openings {
		if !m.box.Meets(c.box) || len(m.near(c.box)) == 0 {
			continue
		}
		if n := m.inside(c.within()); n > 1e-6 {
			lost += n
			if o := s.Openings[c.of]; len(numbers) == 0 || numbers[len(numbers)-1] != o.Number {
				numbers, at = append(numbers, o.Number), append(at, o.Box.Centre())
			}
		}
	}
	if lost == 0 {
		return nil
	}
	return []Finding{{
		Kind: KindEngravingThroughOpenings, Severity: Note,
		What:  pattern.Say("%s runs through %s: %.2f of its %.2f mm are on no metal.", engravingName(s, m.Engraving), openingsNamed(numbers), lost, m.length),
		Value: lost, Limit: m.length, Unit: "mm", At: at,
		Mend:  "If you mean it, engrave first and pierce afterwards. To keep the openings away, set the margin of the engraving to 0 mm or more.",
		Fixes: keepOff(s.Design, m.Engraving, 0.5),
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
func overJoint(s *pattern.Sheet, m pattern.EngravedLines) []Finding {
	b := s.Design.Band
	if !b.Soldered() {
		return nil
	}
	end := s.Flat.Length/2 - s.Flat.JointStrip
	for _, st := range m.Strokes {
		for _, e := range st.Edges() {
			for k := range 9 {
				p := e.At(float64(k) / 8)
				if x, _ := s.Flat.Where(p); math.Abs(x) > end+slack {
					return []Finding{{
						Kind: KindEngravingOverTheJoint, Severity: Note,
						What:  fmt.Sprintf("%s runs over the soldered joint.", engravingName(s, m.Engraving)),
						Why:   "Solder flows into cuts, and heat spoils them.",
						At:    []plane.Point{p},
						Mend:  "Engrave it after soldering (common practice), or move it along.",
						Fixes: engravingOffJoint(s, m),
					}}
				}
			}
		}
	}
	return nil
}
