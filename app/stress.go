package app

import (
	"fmt"
	"slices"
	"strings"

	"fretband/export/picture"
	"fretband/pattern"
	"fretband/pattern/strength"
	"fretband/unroll/plane"
)

// Stress is the picture of stress that lies over the blank: whether it is shown, of which
// case, and what there is to show. It may be of an older design than the one in sight.
type Stress struct {
	Shown bool
	// Loaded has the bent band drawn in the shape that it has under the load.
	Loaded bool
	Case   string             // key of the case that was chosen; "" is the first
	Map    *picture.StressMap // nil until there is one
	Of     *pattern.Sheet     // the design of the map, or of Err
	Err    error              // why there is no map, or no fine one
	// On is told when there is something else to show.
	On func()

	solved Solved
	mapper Newest[toMap, mapped]
}

type toMap struct {
	of  Solved
	key string
}

type mapped struct {
	of  Solved
	key string
	m   *picture.StressMap
}

// NewStress returns the stress of nothing yet, whose maps are made in the background by run
// and come back by post.
func NewStress(run, post func(func())) *Stress {
	s := &Stress{On: func() {}}
	s.mapper = Newest[toMap, mapped]{Go: run, Post: post,
		Work: func(a toMap) mapped {
			c := a.of.Figures.Cases[caseAt(a.of.Figures, a.key)]
			return mapped{a.of, a.key, picture.NewStressMap(a.of.Figures, c, a.of.Sheet.Design.Temper().ProofMPa)}
		},
		Done: func(m mapped) {
			if m.of.Figures != s.solved.Figures || m.key != s.Case {
				return // something newer is on its way
			}
			s.Map, s.Of, s.Err = m.m, m.of.Sheet, m.of.Err
			s.On()
		}}
	return s
}

// Take takes what has been solved.
func (s *Stress) Take(of Solved) {
	s.solved = of
	s.make()
}

// Choose shows another case.
func (s *Stress) Choose(key string) {
	if key != s.Case {
		s.Case = key
		s.make()
	}
}

// Show shows the stress, or hides it.
func (s *Stress) Show(on bool) {
	s.Shown = on
	s.make()
	s.On()
}

// Load draws the bent band as it is under the load, or as it is without.
func (s *Stress) Load(on bool) {
	s.Loaded = on
	s.On()
}

// LoadOn is what a band is to be drawn under, nil for no load. While the design is changed
// that is the load of the last one, so that the band does not spring back and forth.
func (s *Stress) LoadOn(sheet *pattern.Sheet) *picture.StressMap {
	if !s.Shown || !s.Loaded || s.Map == nil || s.Of.Flat.Closed() != sheet.Flat.Closed() {
		return nil
	}
	return s.Map
}

// Forget drops what there is, as with a new document.
func (s *Stress) Forget() {
	s.Map, s.Of, s.Err, s.solved = nil, nil, nil, Solved{}
	s.On()
}

func (s *Stress) make() {
	switch {
	case !s.Shown || s.solved.Sheet == nil:
	case s.solved.Figures == nil && s.solved.More:
	case s.solved.Figures == nil:
		s.Map, s.Of, s.Err = nil, s.solved.Sheet, s.solved.Err
		s.On()
	default:
		s.mapper.Ask(toMap{s.solved, s.Case})
	}
}

// Fresh reports whether the map is of a design as it is in sight.
func (s *Stress) Fresh(sheet *pattern.Sheet) bool { return s.Map != nil && s.Of == sheet }

// Options are the cases that can be shown.
func (s *Stress) Options() []Option {
	f := s.solved.Figures
	if f == nil {
		return nil
	}
	var out []Option
	for i, c := range f.Cases {
		key, n := caseKey(f, i)
		title, _, _ := strings.Cut(c.What, ":")
		title, _, _ = strings.Cut(title, ",")
		title = strings.ToUpper(title[:1]) + title[1:]
		if alike := func(o strength.CaseFigures) bool { return o.What == c.What }; n > 0 || len(f.Cases) > i+1 && slices.ContainsFunc(f.Cases[i+1:], alike) {
			title += fmt.Sprintf(" (%d)", n+1)
		}
		out = append(out, Option{Key: key, Title: title})
	}
	return append(out, Option{Key: PushTool, Title: "Push at a position..."})
}

// PushedCase is the key of the case in which a hand pushes where the user said.
const PushedCase = strength.PushedWhat + " 0"

// Chosen is the key of the case that is shown.
func (s *Stress) Chosen() string {
	f := s.solved.Figures
	if f == nil {
		return s.Case
	}
	key, _ := caseKey(f, caseAt(f, s.Case))
	return key
}

// caseKey names a case so that it is found again in the figures of another design: by what
// is done, and the how manieth of those it is.
func caseKey(f *strength.Figures, at int) (key string, n int) {
	for _, c := range f.Cases[:at] {
		if c.What == f.Cases[at].What {
			n++
		}
	}
	return fmt.Sprintf("%s %d", f.Cases[at].What, n), n
}

// caseAt is the case of a key, the first one where there is none.
func caseAt(f *strength.Figures, key string) int {
	for i := range f.Cases {
		if k, _ := caseKey(f, i); k == key {
			return i
		}
	}
	return 0
}

// At says what stress is at a position of the design in sight: nothing where there is no
// metal within near of it, mm, or while the map is of an older design.
func (s *Stress) At(sheet *pattern.Sheet, p plane.Point, near float64) string {
	if !s.Shown || !s.Fresh(sheet) {
		return ""
	}
	v, ok := s.Map.StressAt(p, near)
	if !ok {
		return ""
	}
	text := pattern.Say("%.0f MPa", v)
	if s.Map.Proof {
		text += pattern.Say(", %.0f %% of proof", 100*v/s.Map.Full)
	}
	return text
}

// why says why there is no better map. What a program may be asked can't be asked here.
func (s *Stress) why() string {
	if tooLarge(s.Err) {
		return pattern.Say("so fine a pattern needs more than the %d MB of memory allowed", s.solved.limit/1e6)
	}
	return s.Err.Error()
}

// Words say what is shown: at what load, and what is wrong with it or still to come.
func (s *Stress) Words(sheet *pattern.Sheet) string {
	switch {
	case s.Map == nil && s.Err != nil && s.Of == sheet:
		return "Not solved: " + s.why() + "."
	case s.Map == nil:
		return "Solving..."
	case !s.Fresh(sheet):
		return "Of the design before this change; solving..."
	}
	text := strings.ToUpper(s.Map.Load()[:1]) + s.Map.Load()[1:] + "."
	switch {
	case s.Err != nil:
		text += " Meshed coarsely: " + s.why() + "."
	case s.solved.More:
		text += " Meshed coarsely; the fine solve follows."
	}
	return text
}
