package app

import (
	"math"
	"slices"

	"fretband/pattern"
)

// Curve says how the openings of a field, its bridges or the rim of the band grow and
// shrink.
type Curve int

// The curves. The rim's is the same whatever field is named with it.
const (
	AlongCurve Curve = iota
	AcrossCurve
	RimCurve
	BridgeCurve
)

// Curves lists those of a field.
func Curves() []Curve { return []Curve{AlongCurve, AcrossCurve, BridgeCurve} }

// Key returns the curve's name in the design file.
func (c Curve) Key() string {
	return [...]string{"grade_along", "grade_across", "rim_along", "bridge_along"}[c]
}

// path returns the curve's path in the table.
func (c Curve) path() string {
	if c == RimCurve {
		return "rules.rim_along"
	}
	return "fields[]." + c.Key()
}

// Path returns the curve's path in the design file, of field i.
func (c Curve) Path(i int) string {
	if c == RimCurve {
		return c.path()
	}
	return fieldPath(i, c.Key())
}

// Title returns what a person calls the curve.
func (c Curve) Title() string { return [...]string{"Along", "Across", "Rim along", "Bridges along"}[c] }

// What returns what grows and shrinks.
func (c Curve) What() string {
	switch c {
	case RimCurve:
		return "width of the rim"
	case BridgeCurve:
		return "width of bridges"
	}
	return "size of openings"
}

// Ends names where the curve begins and ends.
func (c Curve) Ends() (from, to string) {
	if c == AcrossCurve {
		return "bottom", "top"
	}
	return "left", "right"
}

// Points returns the curve's points in field i.
func (c Curve) Points(d pattern.Design, i int) []pattern.Grade {
	if !c.in(d, i) {
		return nil
	}
	return *c.of(&d, i)
}

// in reports whether the design has the curve.
func (c Curve) in(d pattern.Design, i int) bool {
	return c == RimCurve || i >= 0 && i < len(d.Fields)
}

func (c Curve) of(d *pattern.Design, i int) *[]pattern.Grade {
	switch c {
	case RimCurve:
		return &d.Rules.RimAlong
	case AcrossCurve:
		return &d.Fields[i].GradeAcross
	case BridgeCurve:
		return &d.Fields[i].BridgeAlong
	}
	return &d.Fields[i].GradeAlong
}

// gradeStep is the least distance of two points of a curve that a hand can make.
const gradeStep = 0.02

// place puts a point of the curve at a position between its neighbours.
func (c Curve) place(d *pattern.Design, at pattern.At, v float64) {
	j := at[1]
	if c == RimCurve {
		j = at[0]
	}
	ps := *c.of(d, at[0])
	ps[j].At = between(ps, j, v)
}

// Numbers returns the two numbers of point j of the curve in field i: place and size.
func (c Curve) Numbers(i, j int) []Number {
	if c == RimCurve {
		return Numbers(pattern.RimGroup, j)
	}
	return Numbers(map[Curve]pattern.Group{AlongCurve: pattern.AlongGroup, AcrossCurve: pattern.AcrossGroup, BridgeCurve: pattern.BridgesGroup}[c], i, j)
}

// between keeps the position of point j off its neighbours.
func between(ps []pattern.Grade, j int, v float64) float64 {
	lo, hi := pattern.GradeAtRange.Min, pattern.GradeAtRange.Max
	if j > 0 {
		lo = ps[j-1].At + gradeStep
	}
	if j+1 < len(ps) {
		hi = ps[j+1].At - gradeStep
	}
	if lo > hi {
		return ps[j].At
	}
	return math.Max(lo, math.Min(hi, v))
}

// GradeStart is a curve to begin from.
type GradeStart struct {
	Key, Title string
	Points     []pattern.Grade
}

// ownCurve is the key of a curve that is none of the starts.
const ownCurve = "own"

// GradeStarts are the curves to begin from; the first has all alike.
func GradeStarts(c Curve) []GradeStart {
	from, to := c.Ends()
	ends := "ends"
	if c == RimCurve {
		return []GradeStart{
			{"even", "All alike", nil},
			{"middle", "Wider in the middle", []pattern.Grade{{At: -1, Size: 0.6}, {At: 0, Size: 1}, {At: 1, Size: 0.6}}},
			{"ends", "Wider at the ends", []pattern.Grade{{At: -1, Size: 1}, {At: 0, Size: 0.6}, {At: 1, Size: 1}}},
		}
	}
	if c == BridgeCurve {
		return []GradeStart{
			{"even", "All alike", nil},
			{"middle", "Wider in the middle", []pattern.Grade{{At: -1, Size: 1}, {At: 0, Size: 1.5}, {At: 1, Size: 1}}},
			{"ends", "Wider at the ends", []pattern.Grade{{At: -1, Size: 1.5}, {At: 0, Size: 1}, {At: 1, Size: 1.5}}},
		}
	}
	if c == AcrossCurve {
		ends = "edges"
	}
	return []GradeStart{
		{"even", "All alike", nil},
		{"middle", "Larger in the middle", []pattern.Grade{{At: -1, Size: 0.5}, {At: 0, Size: 1}, {At: 1, Size: 0.5}}},
		{"ends", "Larger at the " + ends, []pattern.Grade{{At: -1, Size: 1}, {At: 0, Size: 0.5}, {At: 1, Size: 1}}},
		{"rising", "From " + from + " to " + to, []pattern.Grade{{At: -1, Size: 0.5}, {At: 1, Size: 1}}},
		{"falling", "From " + to + " to " + from, []pattern.Grade{{At: -1, Size: 1}, {At: 1, Size: 0.5}}},
	}
}

// GradeChoice chooses the curve that field i starts from.
func GradeChoice(c Curve, i int) Choice {
	key := func(d pattern.Design) string {
		ps := c.Points(d, i)
		for _, s := range GradeStarts(c) {
			if slices.Equal(s.Points, ps) {
				return s.Key
			}
		}
		return ownCurve
	}
	list := pattern.ByPath(c.path())[0]
	return Choice{
		Path: c.Path(i), Title: list.Title, Tip: list.Tip,
		Options: func(d pattern.Design) []Option {
			var os []Option
			for _, s := range GradeStarts(c) {
				os = append(os, Option{Key: s.Key, Title: s.Title})
			}
			if key(d) == ownCurve {
				os = append(os, Option{Key: ownCurve, Title: "By your own curve"})
			}
			return os
		},
		Get: key,
		Set: func(d *pattern.Design, k string) {
			if !c.in(*d, i) {
				return
			}
			for _, s := range GradeStarts(c) {
				if s.Key == k {
					*d = Clone(*d)
					*c.of(d, i) = slices.Clone(s.Points)
				}
			}
		},
		Shown: func(d pattern.Design) bool { return c.in(d, i) },
	}
}

// AddGrade puts a point where a curve of field i has most room, as large as the
// curve is there in a straight line, and returns its index; -1 where there is no
// room.
func AddGrade(d *pattern.Design, c Curve, i int) int {
	ps := c.Points(*d, i)
	if !c.in(*d, i) || len(ps) >= pattern.MaxGrades {
		return -1
	}
	// Beyond the outer points the size stays as theirs.
	type gap struct {
		index    int
		at, size float64
		room     float64
	}
	best := gap{room: -1}
	take := func(g gap) {
		if g.room > best.room+1e-9 {
			best = g
		}
	}
	switch n := len(ps); n {
	case 0:
		best = gap{0, 0, 1, 1}
	default:
		take(gap{0, -1, ps[0].Size, ps[0].At + 1})
		take(gap{n, 1, ps[n-1].Size, 1 - ps[n-1].At})
		for k := 1; k < n; k++ {
			a, b := ps[k-1], ps[k]
			take(gap{k, (a.At + b.At) / 2, (a.Size + b.Size) / 2, (b.At - a.At) / 2})
		}
	}
	if best.room < gradeStep {
		return -1
	}
	*d = Clone(*d)
	p := c.of(d, i)
	*p = slices.Insert(*p, best.index, pattern.Grade{At: thousandths(best.at), Size: thousandths(best.size)})
	return best.index
}

// RemoveGrade takes point j of a curve of field i away.
func RemoveGrade(d *pattern.Design, c Curve, i, j int) {
	if ps := c.Points(*d, i); j >= 0 && j < len(ps) {
		*d = Clone(*d)
		p := c.of(d, i)
		*p = slices.Delete(*p, j, j+1)
	}
}

// MoveGrade puts point j of a curve of field i at a position and a size, kept between
// its neighbours and in its limits. A point at an end stays there.
func MoveGrade(d *pattern.Design, c Curve, i, j int, at, size float64) {
	if j < 0 || j >= len(c.Points(*d, i)) || math.IsNaN(at) || math.IsNaN(size) {
		return
	}
	*d = Clone(*d)
	ps := c.Points(*d, i)
	if was := ps[j].At; was != -1 && was != 1 {
		ps[j].At = between(ps, j, math.Round(at*100)/100)
	}
	ps[j].Size = pattern.GradeRange.Clamp(math.Round(size*50) / 50)
}

func thousandths(v float64) float64 { return math.Round(v*1000) / 1000 }

func lower(s string) string {
	if s == "" || s[0] < 'A' || s[0] > 'Z' {
		return s
	}
	return string(s[0]-'A'+'a') + s[1:]
}
