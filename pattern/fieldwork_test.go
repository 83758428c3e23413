package pattern

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"fretband/pattern/motif"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// openBand is a round cuff whose blank is about 150 mm long.
func openBand(width float64) unroll.Band {
	return unroll.Band{
		Kind: unroll.Cuff, Inside: unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: 180, Ratio: 1}, GapMM: 28,
		Thickness: unroll.Thickness{MM: 1.2}, WidthMM: width, EndWidthMM: width, NeutralK: 0.5,
	}
}

func fieldsOn(b unroll.Band, fields ...Field) Design {
	return Design{Name: "test", Metal: Metal{Alloy: "copper"}, Band: b, Rules: DesignRules{BridgeMM: 1, RimMM: 2}, Fields: fields}
}

func sheetOf(t *testing.T, d Design) *Sheet {
	t.Helper()
	s, err := Lay(d)
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Openings) == 0 {
		t.Fatal("nothing was laid")
	}
	return s
}

// sameOpenings compares the openings of two sheets by their place and area.
func sameOpenings(a, b *Sheet, tol float64) error {
	if len(a.Openings) != len(b.Openings) {
		return fmt.Errorf("%d and %d openings", len(a.Openings), len(b.Openings))
	}
	for _, o := range a.Openings {
		if twinOf(b, o.Loop, tol) < 0 {
			return fmt.Errorf("opening %d at %v has no twin", o.Number, o.Box.Centre())
		}
	}
	return nil
}

// twinOf returns the opening of the sheet that is the loop within tol, -1 for none.
func twinOf(s *Sheet, l plane.Loop, tol float64) int {
	b := l.Bounds()
	for i, o := range s.Openings {
		if o.Box.Min.Dist(b.Min) < tol && o.Box.Max.Dist(b.Max) < tol && math.Abs(o.Loop.Area()-l.Area()) < 100*tol {
			return i
		}
	}
	return -1
}

func TestTwoRunsOfOnePitchContinueEachOther(t *testing.T) {
	for _, m := range []string{"squares", "circles", "lancets"} {
		one := Field{Motif: m, Rows: 3, Repeats: 24}
		left, right := one, one
		left.Repeats, right.Repeats = 12, 12
		left.Area = Area{Shape: RunShape, FromMM: -100}
		right.Area = Area{Shape: RunShape, ToMM: 100}
		for _, band := range []unroll.Band{openBand(24), closedBand(160, 24)} {
			flared := band
			if flared.Open() {
				flared.FlareDeg = 12
			}
			for _, b := range []unroll.Band{band, flared} {
				if !b.Open() {
					left.Area.FromMM, right.Area.ToMM = -80, 80
				}
				whole, parts := sheetOf(t, fieldsOn(b, one)), sheetOf(t, fieldsOn(b, left, right))
				// Spandrels of the lancets stand astride the border: cut there.
				if m == "lancets" {
					if n := len(parts.Openings) - len(whole.Openings); n < 0 || n > 2*3+6 {
						t.Errorf("%s: %d more openings in two runs", m, n)
					}
					continue
				}
				if err := sameOpenings(whole, parts, 1e-6); err != nil {
					t.Errorf("%s, %s, flare %g: %v", m, b.Kind, b.FlareDeg, err)
				}
			}
		}
	}
}

// Runs of one exact pitch whose lengths are no whole numbers of it: what stands
// clear of the borders stands as in one run over all.
func TestRunsOfAnExactPitchContinueEachOther(t *testing.T) {
	for _, b := range []unroll.Band{openBand(24), closedBand(160, 24)} {
		for _, m := range []string{"squares", "hexagons", "triangles"} {
			run := func(from, to float64) Field {
				return Field{Motif: m, Rows: 3, PitchMM: 5.3, Stagger: 0.25, Phase: 0.1, Area: Area{Shape: RunShape, FromMM: from, ToMM: to}}
			}
			whole := sheetOf(t, fieldsOn(b, run(-68, 71)))
			wide := run(7.7, 71)
			wide.BridgeMM = 1.4
			for _, parts := range [][]Field{
				{run(-68, 0), run(0, 71)}, {run(20, 71), run(-68, -33), run(-33, 20)}, {run(-68, 7.7), wide},
			} {
				s := sheetOf(t, fieldsOn(b, parts...))
				n := 0
				for _, o := range whole.Openings {
					near := false
					for _, p := range parts {
						for _, x := range []float64{p.Area.FromMM, p.Area.ToMM} {
							near = near || o.Box.Min.X < x+1.5 && o.Box.Max.X > x-1.5
						}
					}
					if c := o.Loop.Centroid(); near || c.X > 7.7 && parts[1].BridgeMM > 0 {
						continue
					}
					n++
					if twinOf(s, o.Loop, 1e-9) < 0 {
						t.Errorf("%s, %s, %d runs: opening %d at %v is not in the parts", b.Kind, m, len(parts), o.Number, o.Box.Centre())
					}
				}
				if n < 30 {
					t.Errorf("only %d openings looked at", n)
				}
			}
		}
	}
}

// Runs that adjoin are centred as one on what the blank has of them: squares stand in mirror
// images about the middle of that, from the rim or from a border.
func TestRunsThatAdjoinAreCentredOnWhatTheBlankHas(t *testing.T) {
	const border, rim = 10.0, 2.0
	run := func(from, to float64) Field {
		return Field{Motif: "squares", Rows: 3, PitchMM: 5.3, Area: Area{Shape: RunShape, FromMM: from, ToMM: to}}
	}
	for _, ends := range [][2]float64{{-150, 40}, {-30, 120}, {-150, 300}, {-30, 40}} {
		s := sheetOf(t, fieldsOn(openBand(24), run(ends[0], border), run(border, ends[1])))
		lo, hi := math.Max(ends[0], rim-s.Flat.Length/2), math.Min(ends[1], s.Flat.Length/2-rim)
		clear := func(l plane.Loop) bool {
			b := l.Bounds()
			for _, x := range []float64{lo, border, hi} {
				if b.Min.X < x+1.5 && b.Max.X > x-1.5 {
					return false
				}
			}
			return true
		}
		n := 0
		for _, o := range s.Openings {
			image := o.Loop.MirrorX().Move(plane.Pt(lo+hi, 0))
			if !clear(o.Loop) || !clear(image) {
				continue
			}
			if n++; twinOf(s, image, 1e-9) < 0 {
				t.Errorf("%v: opening %d at %v has no mirror image", ends, o.Number, o.Box.Centre())
			}
		}
		if n < 15 {
			t.Errorf("%v: only %d openings looked at", ends, n)
		}
	}
}

func TestPitchBecomesTheNearestCount(t *testing.T) {
	for _, c := range []struct {
		name    string
		band    unroll.Band
		field   Field
		repeats int
		pitch   float64
	}{
		{"closed: it closes", closedBand(160, 20), Field{PitchMM: 7}, 23, 160.0 / 23},
		{"closed: nearest", closedBand(160, 20), Field{PitchMM: 6.4, Edge: EdgeClip}, 25, 6.4},
		// The frame of a whole cuff is the blank less two rims plus a bridge.
		{"open, fit", openBand(20), Field{PitchMM: 7, Edge: EdgeFit}, 22, 0},
		{"open, clip: exact", openBand(20), Field{PitchMM: 7}, 21, 7},
		{"open, whole: exact", openBand(20), Field{PitchMM: 7, Edge: EdgeWhole}, 21, 7},
		{"a run", openBand(20), Field{PitchMM: 7, Area: Area{Shape: RunShape, FromMM: -20, ToMM: 30}}, 7, 7},
		{"a run, fit", openBand(20), Field{PitchMM: 7, Edge: EdgeFit, Area: Area{Shape: RunShape, FromMM: -20, ToMM: 30}}, 7, 50.0 / 7},
		{"a rectangle, turned", openBand(40), Field{PitchMM: 4, Edge: EdgeFit, Area: Area{Shape: RectangleShape, WidthMM: 30, HeightMM: 8, RotationDeg: 30}}, 8, 30.0 / 8},
	} {
		f := c.field
		f.Motif, f.Rows = "squares", 2
		s := sheetOf(t, fieldsOn(c.band, f))
		l := s.Layout(0)
		if c.pitch == 0 {
			c.pitch = (s.Flat.Length - 4 + 1) / float64(c.repeats)
		}
		if l.Repeats != c.repeats || math.Abs(l.PitchMM-c.pitch) > 1e-9 {
			t.Errorf("%s: %d repeats of %.6f mm, want %d of %.6f", c.name, l.Repeats, l.PitchMM, c.repeats, c.pitch)
		}
		// What was laid stands so: squares are a pitch less a bridge long.
		whole := 0
		for _, o := range s.Openings {
			// Of a field turned with its area by its length.
			long := o.Box.W()
			if f.Area.RotationDeg != 0 {
				long = o.Loop.Edge(0).Chord()
				if e := o.Loop.Edge(1).Chord(); math.Abs(e-(c.pitch-1)) < math.Abs(long-(c.pitch-1)) {
					long = e
				}
			}
			if math.Abs(long-(c.pitch-1)) < 1e-6 {
				whole++
			}
		}
		if whole != 2*c.repeats {
			t.Errorf("%s: %d of %d openings are whole, want %d", c.name, whole, len(s.Openings), 2*c.repeats)
		}
		if cut := len(s.Openings) - whole; (c.field.Edge == EdgeWhole || c.field.Edge == EdgeFit) && cut > 0 {
			t.Errorf("%s: %d are cut", c.name, cut)
		}
	}
	_, err := Lay(fieldsOn(openBand(20), Field{Motif: "squares", Rows: 60, PitchMM: 0.2}))
	if fe, ok := err.(*unroll.FieldError); !ok || fe.Path != "fields[0].pitch_mm" {
		t.Errorf("a pitch of more cells than there may be: %v", err)
	}
}

// Rows of a rectangle turned by 30 degrees run along its own side.
func TestAFieldIsTurnedWithItsArea(t *testing.T) {
	s := sheetOf(t, fieldsOn(openBand(30), Field{Motif: "squares", Rows: 2, Repeats: 5, Area: Area{Shape: RectangleShape, XMM: 10, YMM: 1, WidthMM: 25, HeightMM: 10, RotationDeg: 30}}))
	if len(s.Openings) != 10 {
		t.Fatalf("%d openings", len(s.Openings))
	}
	for _, o := range s.Openings {
		c := o.Loop.Centroid().Sub(plane.Pt(10, 1)).Turn(-math.Pi / 6)
		// Middles of squares of 5 mm about the area's middle.
		if x, y := c.X/5, c.Y/5+0.5; math.Abs(x-math.Round(x)) > 1e-9 || math.Abs(y-math.Round(y)) > 1e-9 {
			t.Errorf("opening %d stands at %v in its area", o.Number, c)
		}
		if math.Abs(o.Loop.Area()-16) > 1e-9 {
			t.Errorf("opening %d has %.9f mm²", o.Number, o.Loop.Area())
		}
	}
}

func TestOnlyWholeCellsAreCutOut(t *testing.T) {
	b := openBand(24)
	b.EndWidthMM = 16
	clip := Field{Motif: "hexagons", Rows: 4, Repeats: 24}
	whole := clip
	whole.Edge = EdgeWhole
	d := fieldsOn(b, clip)
	d.Reserves = []Reserve{{Shape: CircleShape, XMM: 11, YMM: 2, WidthMM: 7, MarginMM: 1}}
	all := sheetOf(t, d)
	d.Fields = []Field{whole}
	s := sheetOf(t, d)
	area := s.Openings[0].Loop.Area()
	for _, o := range s.Openings {
		if math.Abs(o.Loop.Area()-area) > 1e-9 {
			t.Errorf("opening %d has %.6f mm², others %.6f", o.Number, o.Loop.Area(), area)
		}
		if twinOf(all, o.Loop, 1e-9) < 0 {
			t.Errorf("opening %d is none of those that are clipped", o.Number)
		}
	}
	n := 0
	for _, o := range all.Openings {
		if math.Abs(o.Loop.Area()-area) < 1e-9 {
			n++
		}
	}
	if n != len(s.Openings) || n == len(all.Openings) {
		t.Errorf("%d whole ones of %d; %d laid", n, len(all.Openings), len(s.Openings))
	}
	if len(s.Dropped) > 0 {
		t.Errorf("cells left solid are counted as failures: %v", s.Dropped)
	}
}

// A phase of a whole pitch changes nothing away from a cuff's ends, and one of half
// a pitch moves all by that; on a closed band the same all round.
func TestPhaseMovesAFieldAlong(t *testing.T) {
	for _, b := range []unroll.Band{openBand(24), closedBand(160, 24)} {
		f := Field{Motif: "squares", Rows: 3, Repeats: 20, Stagger: 0.3}
		still := sheetOf(t, fieldsOn(b, f))
		pitch := still.Layout(0).PitchMM
		for _, phase := range []float64{-1, -0.25, 0.5, 1} {
			f.Phase = phase
			moved := sheetOf(t, fieldsOn(b, f))
			n := 0
			for _, o := range still.Openings {
				l := o.Loop.Move(plane.Pt(phase*pitch, 0))
				if box := l.Bounds(); o.Shape < 0 || math.Max(-box.Min.X, box.Max.X) > moved.Flat.Length/2-3 {
					continue
				}
				n++
				if twinOf(moved, l, 1e-9) < 0 {
					t.Errorf("%s, phase %g: opening %d has not moved along", b.Kind, phase, o.Number)
				}
			}
			if n < 50 {
				t.Errorf("%s: only %d openings looked at", b.Kind, n)
			}
			if !b.Open() && len(moved.Openings) != len(still.Openings) {
				t.Errorf("phase %g: %d openings, %d before", phase, len(moved.Openings), len(still.Openings))
			}
		}
	}
}

// Turned fields of a closed band: each cell near the seam has its twin one turn on,
// within 1e-9 mm, and no two are the same cell.
func TestATurnedFieldClosesRoundTheBand(t *testing.T) {
	for _, m := range motif.All() {
		if m.Irregular {
			continue
		}
		for _, turn := range []float64{-200, -90, -33, 5, 20, 45, 61, 135, 180} {
			f := Field{Motif: m.Key, Rows: 3, Repeats: 18, Stagger: 0.2, RotationDeg: turn}
			d := fieldsOn(closedBand(160, 20), f)
			flat, err := unroll.Unroll(d.Band)
			if err != nil {
				t.Fatal(err)
			}
			s := &Sheet{Design: d, Flat: flat, Rule: 1, EdgeRule: 2}
			land, _ := f.Area.land(flat)
			e := s.extent(f, m, land)
			got := s.Layout(0)
			if math.Abs(got.RotationDeg-turn) > 12 || e.size < 0.8 || e.size > 1.25 {
				t.Errorf("%s: asked for %g°, got %.3f° at %.3f of the size", m.Key, turn, got.RotationDeg, e.size)
			}
			if e.rotation == 0 {
				continue // none
			}
			shapes, one := e.cells(m.Cells(e.frame))
			// The same cells over a longer stretch.
			more := e
			more.closed, more.w = false, 2*e.w
			more.frame.Beyond += 40
			more.frame.Over += 40
			long, all := more.cells(m.Cells(more.frame))
			type spot struct{ x, y, area int64 }
			grid := func(l plane.Loop) spot {
				c := l.Centroid()
				return spot{int64(math.Round(c.X * 1e6)), int64(math.Round(c.Y * 1e6)), int64(math.Round(l.Area() * 1e4))}
			}
			at := map[spot][]plane.Loop{}
			for _, c := range all {
				l := long[c.shape].Move(c.at)
				at[grid(l)] = append(at[grid(l)], l)
			}
			find := func(l plane.Loop) bool {
				g := grid(l)
				for dx := int64(-1); dx <= 1; dx++ {
					for dy := int64(-1); dy <= 1; dy++ {
						for da := int64(-1); da <= 1; da++ {
							for _, k := range at[spot{g.x + dx, g.y + dy, g.area + da}] {
								if k.Same(l, 1e-9) {
									return true
								}
							}
						}
					}
				}
				return false
			}
			seen := map[spot]bool{}
			for _, c := range one {
				l := shapes[c.shape].Move(c.at)
				if k := grid(l); seen[k] {
					t.Errorf("%s, %g°: the cell at %v stands twice", m.Key, turn, c.at)
				} else {
					seen[k] = true
				}
				if b := l.Bounds(); b.Min.Y < -e.h/2+2 || b.Max.Y > e.h/2-2 || b.Min.X > -e.w/2+10 && b.Max.X < e.w/2-10 {
					continue
				}
				by := math.Copysign(e.w, -c.at.X)
				if !find(l) || !find(l.Move(plane.Pt(by, 0))) {
					t.Errorf("%s, %g°: the cell at %v has no twin one turn on", m.Key, turn, c.at)
					break
				}
			}
			// One turn of cells fills the turn as the plain field does.
			if len(one) < 10 {
				t.Errorf("%s, %g°: only %d cells", m.Key, turn, len(one))
			}
		}
	}
}

func TestMirroredFieldsAreTheirOwnMirrorImages(t *testing.T) {
	for _, m := range append(motif.All(), motif.Motif{Key: motif.OwnKey}) {
		for _, mirror := range []string{MirrorAlong, MirrorAcross, MirrorBoth} {
			for _, b := range []unroll.Band{openBand(24), closedBand(160, 24)} {
				f := Field{Motif: m.Key, Rows: 3, Repeats: 12, Stagger: 0.3, Phase: 0.2, RotationDeg: 25, Mirror: mirror, GradeAlong: []Grade{{-1, 1}, {0.5, 2}}}
				if m.Key == motif.OwnKey {
					f.Path = "M0 0 L3 0 A2 2 0 0 1 3 4 L0 4 L1 2 Z"
				}
				d := fieldsOn(b, f)
				d.Rules.BridgeMM, d.Rules.SmallestMM = 0.4, 0.2
				s := sheetOf(t, d)
				for _, o := range s.Openings {
					if x := o.Box.Centre().X; math.Abs(x) > s.Flat.Length/2+1e-6 {
						t.Errorf("%s, %s, mirrored %s: opening %d lies one turn on, at %g", m.Key, b.Kind, mirror, o.Number, x)
					}
					l := o.Loop
					if mirror != MirrorAcross {
						l = l.MirrorX()
					}
					if mirror != MirrorAlong {
						l = l.MirrorY()
					}
					tol := 1e-9
					if o.Shape < 0 {
						tol = 1e-6 // cut by the ground
					}
					found := false
					for _, turn := range []float64{0, s.Flat.Period, -s.Flat.Period} {
						found = found || twinOf(s, l.Move(plane.Pt(turn, 0)), tol) >= 0
					}
					if !found {
						t.Errorf("%s, %s, mirrored %s: opening %d at %v has no mirror image", m.Key, b.Kind, mirror, o.Number, o.Box.Centre())
						break
					}
				}
			}
		}
	}
	// Their very numbers, where nothing is cut.
	s := sheetOf(t, fieldsOn(openBand(24), Field{Motif: "sails", Rows: 2, PitchMM: 9, RotationDeg: 30, Mirror: MirrorAlong, Edge: EdgeWhole}))
	for _, o := range s.Openings {
		if !slices.ContainsFunc(s.Openings, func(p Opening) bool { return p.Loop.MirrorX().Same(o.Loop, 0) }) {
			t.Errorf("opening %d is not a mirror image to the last bit", o.Number)
		}
	}
}

// On a line that closes, a cell that reaches over one end comes in at the other, up to the
// axis there: of a cell 3 mm long that reaches 1 mm over, that 1 mm and its mirror image.
// A field that is its own mirror image stays as it was when it is mirrored: cells astride an
// axis stay whole, and all keep their rows and, where all rows have as many, their columns.
func TestMirroringChangesNoFieldThatIsItsOwnMirrorImage(t *testing.T) {
	for _, b := range []unroll.Band{openBand(24), closedBand(160, 24)} {
		for _, m := range []string{"squares", "circles", "diamonds"} {
			for _, n := range [][2]int{{3, 11}, {4, 12}, {2, 13}} {
				f := Field{Motif: m, Rows: n[0], Repeats: n[1]}
				plain := sheetOf(t, fieldsOn(b, f))
				for _, f.Mirror = range []string{MirrorAlong, MirrorAcross, MirrorBoth} {
					s := sheetOf(t, fieldsOn(b, f))
					what := fmt.Sprintf("%s, %s, %d rows of %d, %s", b.Kind, m, n[0], n[1], f.Mirror)
					if len(s.Openings) != len(plain.Openings) {
						t.Errorf("%s: %d openings, %d without", what, len(s.Openings), len(plain.Openings))
					}
					for _, o := range plain.Openings {
						k := -1
						for _, l := range s.Again(o.Loop) { // over the seam at either end
							k = max(k, twinOf(s, l, 1e-6))
						}
						if k < 0 {
							t.Errorf("%s: opening %d at %v is gone", what, o.Number, o.Box.Centre())
						} else if w := s.Openings[k]; w.Row != o.Row || m != "diamonds" && w.Col != o.Col {
							t.Errorf("%s: opening %d is of row %d, column %d, without of %d, %d", what, o.Number, w.Row, w.Col, o.Row, o.Col)
						}
					}
				}
			}
		}
	}
}

func TestACellOverTheEndOfAClosedLineIsMirroredAboutTheSecondAxis(t *testing.T) {
	cell := plane.Rect(plane.Box{Min: plane.Pt(-1.5, -1), Max: plane.Pt(1.5, 1)})
	for _, c := range []struct {
		x    float64
		want []plane.Box
	}{
		{-9.5, []plane.Box{{Min: plane.Pt(9, -1), Max: plane.Pt(10, 1)}, {Min: plane.Pt(-10, -1), Max: plane.Pt(-9, 1)}}},
		{-8, nil}, // the other half
		{8, []plane.Box{{Min: plane.Pt(6.5, -1), Max: plane.Pt(9.5, 1)}, {Min: plane.Pt(-9.5, -1), Max: plane.Pt(-6.5, 1)}}},
	} {
		shapes, cells, err := mirrored([]plane.Loop{cell}, []fieldCell{{at: plane.Pt(c.x, 0)}}, true, false, 20)
		if err != nil {
			t.Fatal(err)
		}
		var got []plane.Box
		for _, m := range cells {
			got = append(got, flipped(shapes[m.shape], m.flipX, m.flipY).Move(m.at).Bounds())
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("at %g: %v, want %v", c.x, got, c.want)
		}
	}
}

// Squares graded by given sizes, against the integral by hand: of sizes in a
// straight line from 1 to 3, places are exponential in the count.
func TestGradedCellsGrowAsAsked(t *testing.T) {
	g := newGrading([]Grade{{-1, 1}, {1, 3}}, false, false)
	// The curve through two points is the smooth step of a cubic with level ends:
	// 2 + (3 t - t^3)/2, whose inverse is integrated here on a fine grid.
	size := func(x float64) float64 { return 2 + (3*x-x*x*x)/2 }
	const n = 200000
	total := 0.0
	for i := range n {
		total += 2.0 / n / size(-1+(float64(i)+0.5)*2/n)
	}
	sum := 0.0
	for i := range n {
		x := -1 + (float64(i)+0.5)*2/n
		sum += 1.0 / n / size(x)
		u := -1 + 2*sum/total
		if got, slope := g.at(u); math.Abs(got-x) > 1e-6 || math.Abs(slope-size(x)*total/2) > 1e-4 {
			t.Fatalf("the place %g comes to %.9f with slope %.6f, want %.9f and %.6f", u, got, slope, x, size(x)*total/2)
		}
		sum += 1.0 / n / size(x)
	}
	for _, p := range [][]Grade{{{-1, 5}, {-0.999, 0.2}, {1, 5}}, {{0, 0.2}, {1e-6, 5}}, {{-0.5, 1}, {0.5, 3}}} {
		for _, closed := range []bool{false, true} {
			g := newGrading(p, closed, false)
			last := math.Inf(-1)
			for i := -3000; i <= 3000; i++ {
				x, slope := g.at(float64(i) / 1500)
				if x <= last || slope <= 0 {
					t.Fatalf("%v, closed %v: not rising at %g", p, closed, float64(i)/1500)
				}
				last = x
			}
			for _, u := range []float64{-1, 1} {
				if x, _ := g.at(u); math.Abs(x-u) > 1e-12 {
					t.Errorf("%v: the end %g comes to %g", p, u, x)
				}
			}
			if a, _ := g.at(0.3); closed {
				if b, _ := g.at(2.3); math.Abs(b-a-2) > 1e-12 {
					t.Errorf("%v: one turn on it is %g, not %g", p, b, a+2)
				}
			}
		}
	}
}

// Rows and repeats of a graded field fill its area, their bridges are as asked, and
// neighbours keep the mean of their bridges.
func TestGradedBridgesGoWithTheCells(t *testing.T) {
	f := Field{Motif: "squares", Rows: 1, Repeats: 15, BridgeMM: 2, GradeAlong: []Grade{{-1, 0.5}, {0, 2}, {1, 0.5}}, GradeBridge: 1}
	s := inRows(sheetOf(t, fieldsOn(closedBand(160, 20), f)))
	if len(s.Openings) != 15 {
		t.Fatalf("%d openings", len(s.Openings))
	}
	g := newGrading(f.GradeAlong, true, false)
	bridge := func(i int) float64 {
		_, size := g.at(float64(2*i-14) / 15)
		return math.Max(1, 2*size)
	}
	sum := 0.0
	for i, o := range s.Openings {
		next := s.Openings[(i+1)%15].Loop
		if i == 14 {
			next = next.Move(plane.Pt(s.Flat.Period, 0))
		}
		d := plane.Nearest(o.Loop, next).D
		if want := (bridge(i) + bridge((i+1)%15)) / 2; math.Abs(d-want) > 4*fitSlack {
			t.Errorf("openings %d and %d are %.4f mm apart, want %.4f", i+1, i+2, d, want)
		}
		sum += o.Box.W() + d
	}
	if math.Abs(sum-160) > 1e-6 {
		t.Errorf("openings and bridges go %.9f mm round a band of 160", sum)
	}
	if w := s.Openings[7].Box.W(); w < 2*s.Openings[0].Box.W() {
		t.Errorf("the middle opening is %.3f mm, one at the back %.3f", w, s.Openings[0].Box.W())
	}
}

func TestAFieldWithoutRoomIsTold(t *testing.T) {
	small := Area{Shape: CircleShape, WidthMM: 12}
	for _, c := range []struct {
		name string
		a, b Field
		say  string
	}{
		{"under a whole band", Field{}, Field{Area: small}, "right of way"},
		{"under a larger one", Field{Area: Area{Shape: RunShape, FromMM: -20, ToMM: 20}}, Field{Area: small}, "right of way"},
		{"past the ends", Field{Area: small}, Field{Area: Area{Shape: RunShape, FromMM: 100, ToMM: 120}}, "open ground"},
		{"only cut cells", Field{Area: small}, Field{PitchMM: 40, Edge: EdgeWhole, Area: Area{Shape: RunShape, FromMM: 20, ToMM: 40}}, "room"},
	} {
		for _, f := range []*Field{&c.a, &c.b} {
			f.Motif, f.Rows = "squares", 2
			if f.PitchMM == 0 {
				f.Repeats = 5
			}
		}
		s := sheetOf(t, fieldsOn(openBand(24), c.a, c.b))
		found := false
		for _, d := range s.Dropped {
			found = found || d.Field == 1 && strings.Contains(d.Why, c.say)
		}
		if !found {
			t.Errorf("%s: nothing is said of it: %v", c.name, s.Dropped)
		}
	}
}

func TestAFieldOfYourOwnShapeIsLaid(t *testing.T) {
	f := Field{Motif: motif.OwnKey, Path: "M0 0 L6 0 L6 2 L2 2 L2 6 L0 6 Z", Rows: 2, PitchMM: 8, Edge: EdgeFit}
	s := sheetOf(t, fieldsOn(openBand(20), f))
	if n := 2 * s.Layout(0).Repeats; len(s.Openings) != n {
		t.Errorf("%d openings, want %d; %v", len(s.Openings), n, s.Dropped)
	}
}

// BenchmarkFields lays three fields of about 2000 openings: a run of graded cells,
// a turned and mirrored run, and a medallion that has the right of way.
func BenchmarkFields(b *testing.B) {
	band := openBand(60)
	band.EndWidthMM, band.EndCornerMM = 50, 6
	d := fieldsOn(band,
		Field{Motif: "circles", Rows: 14, Repeats: 14, Stagger: 0.5, Area: Area{Shape: CircleShape, WidthMM: 40}},
		Field{Motif: "triangles", Rows: 14, Repeats: 34, Stagger: 0.5, GradeAlong: []Grade{{-1, 0.7}, {1, 1.3}}, Area: Area{Shape: RunShape, FromMM: -100, ToMM: 0}},
		Field{Motif: "hexagons", Rows: 20, Repeats: 44, RotationDeg: 15, Mirror: MirrorAcross, Area: Area{Shape: RunShape, FromMM: 0, ToMM: 100}},
	)
	d.Rules = DesignRules{BridgeMM: 0.3, RimMM: 2, CornerMM: 0.05, SmallestMM: 0.1}
	var n int
	for range b.N {
		s, err := Lay(d)
		if err != nil {
			b.Fatal(err)
		}
		n = len(s.Openings)
	}
	b.ReportMetric(float64(n), "openings")
}

// An area over the seam of a seamless band holds what one at the front does; at a
// soldered joint its openings are cut.
func TestAnAreaMayLieOverTheSeam(t *testing.T) {
	f := Field{Motif: "circles", Rows: 4, Repeats: 5, Stagger: 0.5, Area: Area{Shape: CircleShape, WidthMM: 22}}
	front := sheetOf(t, fieldsOn(closedBand(160, 30), f))
	for _, x := range []float64{80, -79, 76.3, 237} {
		f.Area.XMM = x
		s := sheetOf(t, fieldsOn(closedBand(160, 30), f))
		for _, o := range front.Openings {
			found := false
			for k := -2.0; k <= 2; k++ {
				found = found || twinOf(s, o.Loop.Move(plane.Pt(x+k*s.Flat.Period, 0)), 1e-6) >= 0
			}
			if !found {
				t.Errorf("at %g: opening %d is not there", x, o.Number)
			}
		}
		if len(s.Openings) != len(front.Openings) {
			t.Errorf("at %g: %d openings, %d at the front", x, len(s.Openings), len(front.Openings))
		}
	}
	b := closedBand(160, 30)
	b.Joint, b.JointMM = unroll.Soldered, 4
	f.Area.XMM = 80
	s := sheetOf(t, fieldsOn(b, f))
	left, right := 0, 0
	for _, o := range s.Openings {
		if o.Box.Centre().X < 0 {
			left++
		} else {
			right++
		}
		if math.Max(-o.Box.Min.X, o.Box.Max.X) > 78+1e-9 {
			t.Errorf("opening %d stands on the joint: %v", o.Number, o.Box)
		}
	}
	if left == 0 || left != right {
		t.Errorf("%d openings left of the joint, %d right", left, right)
	}
}
