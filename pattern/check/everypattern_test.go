package check

import (
	"bytes"
	"flag"
	"fmt"
	"math"
	"math/rand"
	"sync"
	"sync/atomic"
	"testing"

	"fretband/pattern"
	"fretband/pattern/motif"
	"fretband/pattern/project"
	"fretband/testdata"
	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/require"
)

var (
	everyPattern = flag.Bool("every-pattern", false, "lay every motif in 1 to 5 rows and 1 to 6 repeats on every band, not on one after the other")
	patternSeed  = flag.Int64("pattern-seed", 1, "seed of the random numbers of these patterns")
)

// namedBand is a band with a name for the test's messages.
type namedBand struct {
	name string
	band unroll.Band
}

// bandsOfAllForms are those of testdata/forms, and flared ones of all slants: cuffs,
// soldered bangles and small rings, of one width and tapered.
func bandsOfAllForms(t *testing.T) []namedBand {
	var all []namedBand
	for _, e := range testdata.Forms() {
		d, err := project.Read(bytes.NewReader(e.JSON))
		require.NoError(t, err, e.Name)
		all = append(all, namedBand{e.Name, d.Band})
	}
	round := func(mm float64) unroll.Inside {
		return unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: mm, Ratio: 1}
	}
	for _, flare := range []float64{-45, -30, -20, -5, 0.01, 10, 20, 30, 45} {
		cuff := unroll.Band{
			Kind: unroll.Cuff, Inside: round(190), GapMM: 25, Thickness: unroll.Thickness{MM: 1},
			WidthMM: 24, EndWidthMM: 24, NeutralK: 0.5, FlareDeg: flare,
		}
		bangle := cuff
		bangle.Kind, bangle.GapMM, bangle.Joint, bangle.JointMM = unroll.Bangle, 0, unroll.Soldered, 1
		ring := bangle
		ring.Kind, ring.Inside, ring.WidthMM, ring.EndWidthMM = unroll.Ring, round(54), 8, 8
		tapered := cuff
		tapered.WidthMM, tapered.EndWidthMM = 30, 12
		for _, b := range []namedBand{{"cuff", cuff}, {"bangle", bangle}, {"ring", ring}, {"tapered cuff", tapered}} {
			all = append(all, namedBand{fmt.Sprintf("%s flared by %g", b.name, flare), b.band})
		}
	}
	return all
}

// waysToLay are what a field may have besides a motif, rows and repeats.
var waysToLay = []struct {
	name string
	set  func(*pattern.Field)
}{
	{"plain", func(*pattern.Field) {}},
	{"following the width", func(f *pattern.Field) { f.Follow = pattern.FollowWidth }},
	{"turned", func(f *pattern.Field) { f.RotationDeg = 27 }},
	{"graded along", func(f *pattern.Field) { f.GradeAlong = []pattern.Grade{{At: -1, Size: 0.4}, {At: 0.2, Size: 1.5}} }},
	{"graded both ways, following the width", func(f *pattern.Field) {
		f.Follow = pattern.FollowWidth
		f.GradeAlong = []pattern.Grade{{At: -1, Size: 1}, {At: 0, Size: 3}, {At: 1, Size: 1}}
		f.GradeAcross = []pattern.Grade{{At: -1, Size: 2}, {At: 1, Size: 0.5}}
	}},
	{"mirrored", func(f *pattern.Field) { f.Mirror = pattern.MirrorBoth; f.Phase = 0.3 }},
	{"turned and mirrored, graded across", func(f *pattern.Field) {
		f.RotationDeg, f.Mirror = -70, pattern.MirrorAlong
		f.GradeAcross = []pattern.Grade{{At: -0.5, Size: 2}, {At: 1, Size: 1}}
	}},
	{"in a run", func(f *pattern.Field) {
		f.Area = pattern.Area{Shape: pattern.RunShape, FromMM: -15, ToMM: 200}
		f.Phase = 0.1
	}},
	{"whole cells only", func(f *pattern.Field) { f.Edge = pattern.EdgeWhole }},
	{"moved along", func(f *pattern.Field) { f.Phase = -0.8 }},
}

// Whatever the band, the motif and the numbers: all openings lie on the ground and
// keep the rule from each other, less metal is taken out than there is, and no section
// has less than none or more than all of its width.
//
// The usual run lays every motif in all numbers of rows and repeats, each on a few
// bands in a few of the ways; with -every-pattern on all bands.
func TestEveryPatternKeepsItsPromises(t *testing.T) {
	bands := bandsOfAllForms(t)
	rng := rand.New(rand.NewSource(*patternSeed))
	t.Logf("seed %d", *patternSeed)
	each := 1
	if testing.Short() {
		each = 4
	}
	keys := []string{motif.OwnKey}
	for _, m := range motif.All() {
		keys = append(keys, m.Key)
	}
	type one struct {
		name string
		d    pattern.Design
	}
	var all []one
	turn := 0
	for k, key := range keys {
		for rows := 1; rows <= 5; rows++ {
			for repeats := 1; repeats <= 6; repeats++ {
				for i := range bands {
					// In the usual run one band for each, the next one in turn.
					if !*everyPattern && i != turn%len(bands) {
						continue
					}
					way := waysToLay[rng.Intn(len(waysToLay))]
					f := pattern.Field{Motif: key, Rows: rows, Repeats: repeats, Stagger: 0.5 * float64(rng.Intn(2))}
					if key == motif.OwnKey {
						f.Path = "M0 0 L3 0 A2 2 0 0 1 3 4 L0 4 L1 2 Z"
					}
					way.set(&f)
					b := bands[i]
					all = append(all, one{
						fmt.Sprintf("%s, %s, %d rows, %d repeats, stagger %g, %s", b.name, key, rows, repeats, f.Stagger, way.name),
						pattern.Design{
							Name: "every pattern", Band: b.band, Metal: pattern.Metal{Alloy: "sterling-925"},
							Rules: pattern.DesignRules{
								BridgeMM: 0.5 + rng.Float64(), RimMM: 1.2,
								CornerMM: 0.3 * float64(rng.Intn(2)), SmallestMM: 0.8 * float64(rng.Intn(2)),
							},
							Fields: []pattern.Field{f},
						}})
				}
				turn++
			}
		}
		turn += k // so that the bands of a motif differ from those of the next
	}
	var wait sync.WaitGroup
	var openings, failed atomic.Int64
	todo := make(chan one)
	for range 2 {
		wait.Add(1)
		go func() {
			defer wait.Done()
			for o := range todo {
				s, r, err := Lay(o.d)
				if err != nil {
					failed.Add(1)
					t.Errorf("%s: %v", o.name, err)
					continue
				}
				openings.Add(int64(len(s.Openings)))
				if err := keepsPromises(s, r); err != nil {
					failed.Add(1)
					t.Errorf("%s, bridge %g: %v", o.name, s.Rule, err)
				}
			}
		}()
	}
	for i, o := range all {
		if i%each == 0 {
			todo <- o
		}
	}
	close(todo)
	wait.Wait()
	t.Logf("%d of %d patterns break a promise; %d openings", failed.Load(), len(all), openings.Load())
	if n := openings.Load(); n < 8*int64(len(all)/each) {
		t.Errorf("only %d openings", n)
	}
}

// keepsPromises measures the slow way: every opening against the ground and every
// other one, on a band that closes also one and two turns on.
func keepsPromises(s *pattern.Sheet, r *Report) error {
	for i := range s.Openings {
		o := &s.Openings[i]
		if err := o.Loop.Check(); err != nil {
			return fmt.Errorf("opening %d: %w", o.Number, err)
		}
		for k := range o.Loop {
			for _, p := range []plane.Point{o.Loop.Edge(k).A, o.Loop.Edge(k).At(0.5)} {
				if !s.Ground.Contains(p) && s.Ground.Nearest(p).D > slack {
					return fmt.Errorf("opening %d at %v is %.6f mm off the ground", o.Number, p, s.Ground.Nearest(p).D)
				}
			}
		}
		for j := i; j < len(s.Openings); j++ {
			for turn := -2.0; turn <= 2; turn++ {
				move := plane.Pt(turn*s.Flat.Period, 0)
				if turn != 0 && s.Flat.Period == 0 || i == j && turn <= 0 {
					continue
				}
				q := &s.Openings[j]
				if !o.Box.Nearer(q.Box.Move(move), s.Rule) {
					continue
				}
				l := q.Loop.Move(move)
				if o.Loop.Contains(l[0].Point) || l.Contains(o.Loop[0].Point) {
					return fmt.Errorf("openings %d and %d lie one in the other", o.Number, q.Number)
				}
				if g := plane.Nearest(o.Loop, l); g.D < s.Rule-slack {
					return fmt.Errorf("openings %d and %d are %.6f mm apart at %v", o.Number, q.Number, g.D, g.A)
				}
			}
		}
	}
	if !(r.Removed >= 0 && r.Removed < r.Plain) {
		return fmt.Errorf("%.2f g are taken out of %.2f g", r.Removed, r.Plain)
	}
	if len(s.Openings) > 0 && !(r.Thinnest.Width >= s.Rule-slack) {
		return fmt.Errorf("thinnest bridge %.6f mm", r.Thinnest.Width)
	}
	// Arcs of a flared band are laid straight within 0.01 mm at either edge.
	const off = 0.02
	for i, n := range r.Net.Net {
		if !(n >= -off && n <= r.Net.Full[i]+off) {
			return fmt.Errorf("%.3f mm of %.3f are left at %.2f", n, r.Net.Full[i], r.Net.X[i])
		}
	}
	if math.IsNaN(r.Left) {
		return fmt.Errorf("left is no number")
	}
	return nil
}
