package app

import (
	"cmp"
	"math"
	"slices"

	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// Picked is an opening of a laid design, or a cell that is left solid, by its
// positions: those of the edits that worked on it, else one in its cell. Positions stay
// when numbers change and openings are numbered anew.
type Picked struct {
	At      []plane.Point
	Opening int // its index on the sheet, or -1
	Solid   int // index of the solid cell or tie, or -1; both are -1 for what is not there now
	// Tie is the number of its edit, from 1, if it is a tie: several may begin at one
	// position. It is 0 for all else.
	Tie int
}

// Pick returns opening i of the sheet as picked.
func Pick(s *pattern.Sheet, i int) Picked {
	o := &s.Openings[i]
	p := Picked{Opening: i, Solid: -1}
	for _, t := range o.By {
		p.At = append(p.At, t.At)
	}
	if len(o.By) == 0 {
		p.At = []plane.Point{o.Position()}
	}
	return p
}

// PickSolid returns solid cell i of the sheet as picked.
func PickSolid(s *pattern.Sheet, i int) Picked {
	return Picked{At: []plane.Point{s.Solid[i].At}, Opening: -1, Solid: i, Tie: tieOf(s.Design, s.Solid[i].Edit)}
}

// tieOf returns the number of an edit, from 1, if it is a tie, else 0.
func tieOf(d pattern.Design, edit int) int {
	if d.Edits[edit].Do == pattern.Tie {
		return edit + 1
	}
	return 0
}

// samePlace is how near two positions must be to be one, mm: a thousandth of what
// positions are rounded to.
const samePlace = 1e-5

func (p Picked) has(at plane.Point) bool {
	return slices.ContainsFunc(p.At, func(q plane.Point) bool { return q.Dist(at) < samePlace })
}

// Refind finds what was picked on a newer sheet. What is not there at present stays
// picked by its position, with neither an opening nor a solid cell: it may come back as
// numbers change.
func Refind(s *pattern.Sheet, picks []Picked) []Picked {
	if len(picks) == 0 {
		return nil
	}
	f := newFinder(s)
	var out []Picked
	seen := map[[2]int]bool{}
	for _, p := range picks {
		q, ok := f.find(p)
		if !ok {
			q.Opening, q.Solid = -1, -1
		}
		if k := [2]int{q.Opening, q.Solid}; !ok || !seen[k] {
			seen[k] = true
			out = append(out, q)
		}
	}
	return out
}

// finder finds what is picked on a sheet: first what edits worked on, by their
// positions, then the pattern's own openings.
type finder struct {
	s      *pattern.Sheet
	edited []editedPosition // by x
	plain  []int            // openings of the pattern, by the left end of their boxes
	widest float64
}

type editedPosition struct {
	at   plane.Point
	pick Picked
}

func newFinder(s *pattern.Sheet) *finder {
	f := &finder{s: s}
	for i := range s.Openings {
		o := &s.Openings[i]
		for _, t := range o.By {
			f.edited = append(f.edited, editedPosition{t.At, Picked{Opening: i, Solid: -1}})
		}
		if len(o.By) == 0 {
			f.plain = append(f.plain, i)
			f.widest = math.Max(f.widest, o.Box.W())
		}
	}
	for i, c := range s.Solid {
		f.edited = append(f.edited, editedPosition{c.At, Picked{Opening: -1, Solid: i, Tie: tieOf(s.Design, c.Edit)}})
	}
	slices.SortStableFunc(f.edited, func(a, b editedPosition) int { return cmp.Compare(a.at.X, b.at.X) })
	slices.SortStableFunc(f.plain, func(a, b int) int { return cmp.Compare(s.Openings[a].Box.Min.X, s.Openings[b].Box.Min.X) })
	return f
}

func (f *finder) find(p Picked) (Picked, bool) {
	if p.Tie > 0 {
		return f.tie(p)
	}
	for _, at := range p.At {
		k, _ := slices.BinarySearchFunc(f.edited, at.X-samePlace, func(e editedPosition, x float64) int { return cmp.Compare(e.at.X, x) })
		for ; k < len(f.edited) && f.edited[k].at.X <= at.X+samePlace; k++ {
			if e := f.edited[k]; e.at.Dist(at) < samePlace && e.pick.Tie == 0 {
				if e.pick.Solid >= 0 {
					return PickSolid(f.s, e.pick.Solid), true
				}
				return Pick(f.s, e.pick.Opening), true
			}
		}
	}
	for _, at := range p.At {
		k, _ := slices.BinarySearchFunc(f.plain, at.X-f.widest, func(i int, x float64) int { return cmp.Compare(f.s.Openings[i].Box.Min.X, x) })
		for ; k < len(f.plain) && f.s.Openings[f.plain[k]].Box.Min.X <= at.X; k++ {
			if o := &f.s.Openings[f.plain[k]]; o.Box.Contains(at) && o.Loop.Contains(at) {
				q := Pick(f.s, f.plain[k])
				if len(p.At) == 1 { // the same position still: it does not wander with the openings
					q.At = p.At
				}
				return q, true
			}
		}
	}
	return p, false
}

// tie finds a tie by its position, of several there that of the same edit.
func (f *finder) tie(p Picked) (Picked, bool) {
	found, ok := p, false
	for _, e := range f.edited {
		if e.pick.Tie > 0 && p.has(e.at) && (!ok || e.pick.Tie == p.Tie) {
			found, ok = PickSolid(f.s, e.pick.Solid), true
		}
	}
	return found, ok
}

// SameRow returns all openings in the rows of those picked; SameField all of their
// fields. Openings drawn by hand stand for themselves.
func SameRow(s *pattern.Sheet, picks []Picked) []Picked {
	return alike(s, picks, func(o *pattern.Opening) [2]int { return [2]int{o.Field, o.Row} })
}

// SameField is [SameRow] for fields.
func SameField(s *pattern.Sheet, picks []Picked) []Picked {
	return alike(s, picks, func(o *pattern.Opening) [2]int { return [2]int{o.Field, 0} })
}

func alike(s *pattern.Sheet, picks []Picked, of func(*pattern.Opening) [2]int) []Picked {
	want, has := map[[2]int]bool{}, map[int]bool{}
	for _, p := range picks {
		if p.Opening >= 0 {
			has[p.Opening] = true
			if o := &s.Openings[p.Opening]; o.Field >= 0 {
				want[of(o)] = true
			}
		}
	}
	out := slices.Clone(picks)
	for i := range s.Openings {
		if o := &s.Openings[i]; !has[i] && o.Field >= 0 && want[of(o)] {
			out = append(out, Pick(s, i))
		}
	}
	return out
}

// touched is a position of an edit of the design that works on what is picked.
type touched struct {
	edit, spot   int // spot as listed in the edit, whichever of its images it is
	flipX, flipY bool
}

// touches returns for each of the picks which positions of edits work on it, in the
// order of the edits.
func touches(d pattern.Design, f unroll.Flat, picks []Picked) [][]touched {
	all := make([][]touched, len(picks))
	if len(d.Edits) == 0 {
		return all
	}
	places := pattern.EditPositions(d, f)
	if len(picks) > fewPicks {
		slices.SortFunc(places, func(a, b pattern.EditPosition) int {
			return cmp.Or(cmp.Compare(a.At.X, b.At.X), cmp.Compare(a.Edit, b.Edit), cmp.Compare(a.Spot, b.Spot))
		})
	}
	for i, p := range picks {
		for _, at := range p.At {
			near := places
			if len(picks) > fewPicks {
				by := func(e pattern.EditPosition, x float64) int { return cmp.Compare(e.At.X, x) }
				lo, _ := slices.BinarySearchFunc(places, at.X-samePlace, by)
				hi, _ := slices.BinarySearchFunc(places, at.X+samePlace, by)
				near = places[lo:hi]
			}
			for _, e := range near {
				if tie := tieOf(d, e.Edit); tie != p.Tie || e.At.Dist(at) >= samePlace {
					continue
				}
				t := touched{e.Edit, e.Spot % len(d.Edits[e.Edit].At), e.FlipX, e.FlipY}
				if !slices.Contains(all[i], t) {
					all[i] = append(all[i], t)
				}
			}
		}
		slices.SortStableFunc(all[i], func(a, b touched) int { return a.edit - b.edit })
	}
	return all
}

// fewPicks is up to how many picks are looked for one position at a time: sorting all positions
// first takes longer.
const fewPicks = 4

// spotsOf are sets of positions of edits, to be taken away.
type spotsOf map[int]map[int]bool

func (s spotsOf) add(edit, spot int) {
	if s[edit] == nil {
		s[edit] = map[int]bool{}
	}
	s[edit][spot] = true
}

// remove takes positions away, and edits that have none left.
func (s spotsOf) remove(d *pattern.Design) {
	var kept []pattern.Edit
	for i, e := range d.Edits {
		if gone := s[i]; len(gone) > 0 {
			if _, e = split(e, gone); len(e.At) == 0 {
				continue
			}
		}
		kept = append(kept, e)
	}
	d.Edits = kept
}

func spotAt(p plane.Point) pattern.Spot { return pattern.Spot{XMM: p.X, YMM: p.Y} }

// LeaveSolid leaves the openings picked solid, as do their mirror images. What was
// done to them by hand before is given up; an opening drawn by hand is taken away.
func LeaveSolid(d *pattern.Design, f unroll.Flat, picks []Picked, mirror string) {
	*d = Clone(*d)
	var at []pattern.Spot
	gone := spotsOf{}
	for i, ts := range touches(*d, f, picks) {
		if picks[i].Tie > 0 {
			continue // it is solid, and stays
		}
		drawn := false
		for _, t := range ts {
			drawn = drawn || d.Edits[t.edit].Do == pattern.Add
			gone.add(t.edit, t.spot)
		}
		if picks[i].Opening >= 0 && !drawn {
			at = append(at, spotAt(picks[i].At[0]))
		} else {
			for _, t := range ts { // solid already: it stays
				if d.Edits[t.edit].Do == pattern.LeaveSolid {
					delete(gone[t.edit], t.spot)
				}
			}
		}
	}
	gone.remove(d)
	for len(at) > 0 {
		e := len(d.Edits) - 1
		for e >= 0 && (d.Edits[e].Do != pattern.LeaveSolid || d.Edits[e].Mirror != mirror || d.Edits[e].Note != "" || len(d.Edits[e].At) >= pattern.MaxSpots) {
			e--
		}
		if e < 0 {
			if len(d.Edits) >= pattern.MaxEdits {
				return
			}
			d.Edits = append(d.Edits, pattern.Edit{Do: pattern.LeaveSolid, Mirror: mirror})
			e = len(d.Edits) - 1
		}
		n := min(len(at), pattern.MaxSpots-len(d.Edits[e].At))
		d.Edits[e].At = append(d.Edits[e].At, at[:n]...)
		at = at[n:]
	}
}

// OpenAgain has the solid cells picked cut out again, and their mirror images; ties are
// taken away.
func OpenAgain(d *pattern.Design, f unroll.Flat, picks []Picked) {
	undo(d, f, picks, func(e pattern.Edit) bool { return e.Do == pattern.LeaveSolid || e.Do == pattern.Tie })
}

// UndoHand takes away all that was done by hand to what is picked and to the mirror
// images of it.
func UndoHand(d *pattern.Design, f unroll.Flat, picks []Picked) {
	undo(d, f, picks, func(pattern.Edit) bool { return true })
}

func undo(d *pattern.Design, f unroll.Flat, picks []Picked, which func(pattern.Edit) bool) {
	*d = Clone(*d)
	gone := spotsOf{}
	for _, ts := range touches(*d, f, picks) {
		for _, t := range ts {
			if which(d.Edits[t.edit]) {
				gone.add(t.edit, t.spot)
			}
		}
	}
	gone.remove(d)
}

// RemoveEdit takes edit i away.
func RemoveEdit(d *pattern.Design, i int) {
	*d = Clone(*d)
	if i >= 0 && i < len(d.Edits) {
		d.Edits = slices.Delete(d.Edits, i, i+1)
	}
}

// ClearIdle takes away those positions of edits that find nothing on the sheet, nor do
// any of their mirror images. The sheet is the design's own.
func ClearIdle(d *pattern.Design, s *pattern.Sheet) {
	*d = Clone(*d)
	type spot struct{ edit, spot int }
	images, idle := map[spot]int{}, map[spot]int{}
	for _, p := range pattern.EditPositions(*d, s.Flat) {
		images[spot{p.Edit, p.Spot % len(d.Edits[p.Edit].At)}]++
	}
	gone := spotsOf{}
	for _, i := range s.Idle {
		if i.Edit >= len(d.Edits) {
			continue
		}
		k := spot{i.Edit, i.Spot % len(d.Edits[i.Edit].At)}
		if idle[k]++; idle[k] == images[k] {
			gone.add(k.edit, k.spot)
		}
	}
	gone.remove(d)
}

// Draw adds a single opening, or a tie, and returns it as picked.
func Draw(d *pattern.Design, e pattern.Edit) []Picked {
	*d = Clone(*d)
	if e.Do != pattern.Tie {
		e.Do = pattern.Add
	}
	for i := range e.At {
		if e.Shape != pattern.PathShape { // whose points were drawn where they are
			e.At[i] = spotAt(plane.Pt(hundredths(e.At[i].XMM), hundredths(e.At[i].YMM)))
		}
	}
	d.Edits = append(d.Edits, e)
	var picks []Picked
	for _, p := range e.At {
		picks = append(picks, Picked{At: []plane.Point{plane.Pt(p.XMM, p.YMM)}, Opening: -1, Solid: -1, Tie: tieOf(*d, len(d.Edits)-1)})
	}
	return picks
}

func hundredths(v float64) float64 { return math.Round(v*100) / 100 }
