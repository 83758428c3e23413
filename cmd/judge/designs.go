// Judge makes random designs for the independent readers in this folder: every
// kind and form of band, every motif, reserves in awkward places, numbers from the mild
// to the hostile. The same seed gives the same designs.
//
// It also holds small odd designs to the program's own promises, in one process: each is
// laid, checked, planned and read back (-soak), or made for every receiver (-make).
//
// Usage:
//
//	go run ./cmd/judge [-n 60] [-seed 1] -out DIR
//	go run ./cmd/judge -soak 100000 [-seed 1] [-from 0]
//	go run ./cmd/judge -make 3000 [-seed 1] [-from 0]
package main

import (
	"errors"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"

	"fretband/pattern"
	"fretband/pattern/motif"
	"fretband/pattern/project"
	"fretband/unroll"
)

func main() {
	n := flag.Int("n", 60, "number of designs")
	seed := flag.Uint64("seed", 1, "seed of the random numbers")
	dir := flag.String("out", "", "folder for the designs")
	soaked := flag.Int("soak", 0, "number of odd designs to lay, check, plan and read back")
	made := flag.Int("make", 0, "number of odd designs to make for every receiver")
	from := flag.Int("from", 0, "the first of them")
	flag.Parse()
	if *soaked > 0 || *made > 0 {
		promise := laid
		if *made > 0 {
			promise = handed
		}
		if broken := soak(os.Stdout, *seed, *from, *soaked+*made, promise); broken > 0 {
			os.Exit(1)
		}
		return
	}
	if err := write(*dir, *n, *seed); err != nil {
		fmt.Fprintln(os.Stderr, "judge:", err)
		os.Exit(2)
	}
}

func write(dir string, n int, seed uint64) error {
	if dir == "" || n < 1 {
		return fmt.Errorf("give -out DIR and -n of at least 1")
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return err
	}
	rnd := draw{rand.New(rand.NewPCG(seed, 0)), mostOpenings}
	tries := 0
	for i := 0; i < n; tries++ {
		if tries > 20*n {
			return fmt.Errorf("only %d of %d designs were valid after %d tries", i, n, tries)
		}
		d := withSlots(rnd.withFields(rnd.design(i), seed, i), i)
		if d.Check() != nil {
			continue // a number beside its range: the readers want valid designs
		}
		var fault *unroll.FieldError
		if _, err := pattern.Lay(d); errors.As(err, &fault) && strings.HasPrefix(fault.Path, "added") {
			d.Added = nil // no room for them on this band
		}
		f, err := os.Create(filepath.Join(dir, d.Name+".json"))
		if err != nil {
			return err
		}
		if err := project.Write(f, d); err != nil {
			return err
		}
		if err := f.Close(); err != nil {
			return err
		}
		i++
	}
	fmt.Printf("designs: %d made with seed %d (%d tries)\n", n, seed, tries)
	return nil
}

// draw draws the numbers of a design of about so many openings at most.
type draw struct {
	*rand.Rand
	most int
}

// in returns a number from a to b, to a hundredth, as a person would give it.
func (r draw) in(a, b float64) float64 { return math.Round((a+(b-a)*r.Float64())*100) / 100 }

func (r draw) chance(p float64) bool { return r.Float64() < p }

// mostOpenings keeps one design from taking the readers' whole time.
const mostOpenings = 240

func (r draw) design(i int) pattern.Design {
	d := pattern.Design{
		Name:  fmt.Sprintf("random-%04d", i),
		Note:  "Made at random for the independent readers; not a real commission.",
		Metal: pattern.Metal{Alloy: pattern.OwnAlloy, DensityGCM3: r.in(4, 21)},
	}
	alloys := pattern.Alloys()
	if a := alloys[r.IntN(len(alloys))]; a.Key != pattern.OwnAlloy {
		d.Metal = pattern.Metal{Alloy: a.Key, PricePerG: r.in(0, 60), Currency: "EUR"}
	}
	b := &d.Band
	b.Kind = []string{unroll.Cuff, unroll.Bangle, unroll.Ring}[i%3]
	b.NeutralK = r.in(0.33, 0.5)
	b.Thickness.MM = r.in(0.6, 2)
	switch {
	case r.chance(0.2):
		b.Thickness = unroll.Thickness{BSGauge: 14 + r.IntN(10)}
	case r.chance(0.1):
		b.Thickness = unroll.Thickness{ImperialGauge: 15 + r.IntN(9)}
	}
	length := 0.0 // about
	switch b.Kind {
	case unroll.Ring:
		b.WidthMM = r.in(3, 16)
		b.Inside = []unroll.Inside{
			{By: unroll.BySize, Scale: "iso", Size: fmt.Sprint(44 + r.IntN(25))},
			{By: unroll.BySize, Scale: "us", Size: fmt.Sprint(3 + r.IntN(10))},
			{By: unroll.BySize, Scale: "uk", Size: string(rune('F' + r.IntN(20)))},
			{By: unroll.BySize, Scale: "jp", Size: fmt.Sprint(4 + r.IntN(24))},
		}[r.IntN(4)]
		length = 58
		if r.chance(0.3) {
			b.Inside = unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: r.in(45, 70), Ratio: 1}
		}
	default:
		b.WidthMM = r.in(8, 50)
		length = 190
		switch r.IntN(3) {
		case 0:
			w := r.in(52, 68)
			b.Inside = unroll.Inside{By: unroll.ByAxes, WidthMM: w, HeightMM: math.Round(w*r.in(0.7, 1)*100) / 100}
		case 1:
			b.Inside = unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: r.in(160, 210), Ratio: r.in(1, 1.4)}
		case 2:
			b.Inside = unroll.Inside{By: unroll.ByWrist, WristMM: r.in(140, 190), EaseMM: r.in(0, 20), Ratio: r.in(1, 1.4)}
		}
	}
	b.EndWidthMM = b.WidthMM
	if r.chance(0.5) {
		b.EndWidthMM = math.Round(b.WidthMM*r.in(0.5, 1.1)*100) / 100
	}
	if b.Open() {
		b.GapMM = r.in(15, 35)
		length -= b.GapMM
		if r.chance(0.7) {
			b.EndCornerMM = math.Round(b.EndWidthMM*r.in(0.05, 0.45)*100) / 100
		}
	} else {
		b.Joint = unroll.Seamless
		if r.chance(0.5) {
			b.Joint, b.JointMM = unroll.Soldered, r.in(1, 8)
		}
	}

	d.Fields = []pattern.Field{{}}
	f := &d.Fields[0]
	motifs := motif.All()
	m := motifs[(i/3)%len(motifs)]
	f.Motif = m.Key
	for _, n := range m.Numbers {
		if r.chance(0.6) {
			if f.Numbers == nil {
				f.Numbers = map[string]float64{}
			}
			f.Numbers[n.Key] = math.Min(n.Max, math.Max(n.Min, r.in(n.Min, n.Max)))
		}
	}
	d.Rules.BridgeMM = r.in(0.5, 1.6)
	d.Rules.RimMM = r.in(0, 3)
	f.Rows = 1 + r.IntN(int(math.Max(1, b.WidthMM/4)))
	f.Repeats = int(math.Max(1, length/r.in(3, 14)))
	if r.chance(0.1) { // too many for the bridge: most are dropped
		f.Repeats *= 2
	}
	f.Repeats = max(1, min(f.Repeats, r.most/f.Rows))
	if r.chance(0.6) {
		f.Stagger = r.in(0, 0.5)
	}
	if r.chance(0.7) {
		d.Rules.CornerMM = r.in(0, 0.6)
	}
	d.Rules.SmallestMM = r.in(0.3, 1.2)

	for range r.IntN(4) {
		v := pattern.Reserve{
			Shape:    pattern.CircleShape,
			XMM:      r.in(-length/2, length/2),
			YMM:      r.in(-b.WidthMM/2, b.WidthMM/2),
			WidthMM:  r.in(1, 12),
			MarginMM: r.in(0, 2),
			Note:     "at random",
		}
		if r.chance(0.5) {
			v.Shape, v.HeightMM = pattern.RectangleShape, r.in(1, 12)
		}
		d.Reserves = append(d.Reserves, v)
	}
	d = r.reservedAndEngraved(d, length)
	if r.chance(0.2) {
		d.Rules.RimAlong = r.grades()
		if r.chance(0.5) {
			f.Follow = pattern.FollowWidth
		}
	}
	if r.chance(0.75) {
		for range 10 { // until one goes together with the other numbers
			if f := r.form(d); f.Check() == nil {
				return f
			}
		}
	}
	return d
}

// withSlots adds slots by hand on either side of the seam of every seamless band,
// and a longer one over them: what is there is seen from both ends of the blank. Half
// of these bands have nothing else, so that the thinnest bridge is there.
func withSlots(d pattern.Design, i int) pattern.Design {
	f, err := unroll.Unroll(d.Band)
	if err != nil || d.Band.Open() || !d.Band.Seamless() {
		return d
	}
	if i%2 == 0 {
		d.Fields, d.Edits = []pattern.Field{}, nil
		d.Rules.SmallestMM, d.Rules.CornerMM = 0.3, 0.1
	}
	long, high := f.Length/12, f.Width/8
	gap := d.Rules.BridgeMM + 0.1*float64(i%5+1)
	over := float64(i%7-3) * long / 4 // how far the seam lies from between the first two
	slot := func(x, y, long float64) {
		x = math.Remainder(x+f.Length/2, f.Length)
		d.Edits = append(d.Edits, pattern.Edit{Do: pattern.Add, Shape: pattern.RectangleShape, WidthMM: math.Round(long*1000) / 1000, HeightMM: math.Round(high*1000) / 1000,
			At: []pattern.Spot{{XMM: math.Round(x*1000) / 1000, YMM: math.Round(y*1000) / 1000}}, Note: "beside the seam"})
	}
	slot(over-(long+gap)/2, 0, long)
	slot(over+(long+gap)/2, -high/3, long)
	slot(over, high+gap, 3*long)
	return d
}

// form gives the band some of the forms beyond ellipse and taper.
func (r draw) form(d pattern.Design) pattern.Design {
	b := &d.Band
	round := r.in(160, 210) // a circumference
	if b.OnFinger() {
		round = r.in(45, 70)
	}
	switch across := round / math.Pi; r.IntN(6) {
	case 0:
		b.Inside = unroll.Inside{By: unroll.BySides, WidthMM: math.Round(across*110) / 100, HeightMM: math.Round(across*r.in(70, 100)) / 100}
	case 1:
		b.Inside = unroll.Inside{By: unroll.ByProfile, Profile: r.profile(across)}
	}
	switch r.IntN(4) {
	case 0:
		b.TopEdge = r.edge(b.WidthMM)
		if r.chance(0.5) {
			b.BottomEdge = r.edge(b.WidthMM)
		}
	case 1:
		if b.EndWidthMM != b.WidthMM {
			b.SwellLengthMM = r.in(15, 100)
		}
	}
	switch r.IntN(6) {
	case 0:
		b.Inside = unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: round, Ratio: 1}
		b.FlareDeg = r.in(-25, 25)
	case 1:
		b.Inside = unroll.Inside{By: unroll.ByEdges, TopMM: round, BottomMM: math.Round(round*r.in(85, 115)) / 100}
		b.EndWidthMM, b.SwellLengthMM, b.TopEdge, b.BottomEdge = b.WidthMM, 0, nil, nil
	case 2, 3:
		b.Dome = []string{unroll.Outward, unroll.Hollow}[r.IntN(2)]
		b.DomeFlat = []string{unroll.ArcLength, unroll.Conformal, unroll.EqualArea}[r.IntN(3)]
		if r.chance(0.5) {
			b.DomeRadiusMM = math.Round(r.in(0.6, 3)*b.WidthMM*100) / 100
		} else {
			b.DomeRiseMM = math.Round(r.in(0.02, 0.12)*b.WidthMM*100) / 100
		}
		if r.chance(0.5) { // a body of revolution, whose figures have closed forms
			b.Inside = unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: round, Ratio: 1}
			b.EndWidthMM, b.SwellLengthMM, b.TopEdge, b.BottomEdge = b.WidthMM, 0, nil, nil
		}
	}
	if flared := b.FlareDeg != 0 || b.Inside.By == unroll.ByEdges; flared && b.Seamless() {
		b.Joint, b.JointMM = unroll.Soldered, r.in(1, 5)
	}
	if b.Open() {
		if b.EndCornerMM > 0 {
			b.EndCornerMM = math.Round(b.EndWidthMM*r.in(0.05, 0.3)*100) / 100
		}
		if r.chance(0.5) {
			b.EndCornerMM, b.EndShape = 0, unroll.RoundEnd
			if r.chance(0.5) {
				b.EndShape, b.EndLengthMM, b.EndRadiusMM = unroll.PointEnd, math.Round(r.in(0.6, 1.5)*b.EndWidthMM*100)/100, r.in(0.5, 2)
			}
		}
		if r.chance(0.3) {
			b.GapMM, b.GapShare = 0, r.in(0.1, 0.2)
		}
	}
	if r.chance(0.4) {
		b.Making = unroll.Formed
		b.Drawn = []string{"", unroll.InnerFace, unroll.MiddleFace, unroll.OuterFace}[r.IntN(4)]
	}
	if r.chance(0.6) {
		d.Fields[0].Follow = pattern.FollowWidth
	}
	return d
}

// edge returns the points of an edge that wanders by up to a third of the width.
func (r draw) edge(width float64) []unroll.EdgePoint {
	var ps []unroll.EdgePoint
	for at := r.in(-1, -0.5); at < 1; at += r.in(0.3, 0.8) {
		ps = append(ps, unroll.EdgePoint{At: math.Round(at*100) / 100, OutMM: math.Round(r.in(-0.1, 0.3)*width*100) / 100})
	}
	return ps
}

// profile returns an inside of about the given size: flat at the front and round
// at the back, or waisted at both.
func (r draw) profile(across float64) []unroll.Piece {
	big := math.Round(across*r.in(40, 50)) / 100
	if r.chance(0.5) {
		corner := math.Round(big*r.in(30, 70)) / 100
		flat := big - corner
		return []unroll.Piece{{LengthMM: flat}, {RadiusMM: corner, AngleDeg: 90}, {RadiusMM: big, AngleDeg: 180}, {RadiusMM: corner, AngleDeg: 90}, {LengthMM: flat}}
	}
	a, hollow := r.in(95, 110), math.Round(across*r.in(30, 80))/100
	bow := math.Round(big*80) / 100
	return []unroll.Piece{{RadiusMM: hollow, AngleDeg: 90 - a}, {RadiusMM: bow, AngleDeg: 2 * a}, {RadiusMM: hollow, AngleDeg: 2 * (90 - a)}, {RadiusMM: bow, AngleDeg: 2 * a}, {RadiusMM: hollow, AngleDeg: 90 - a}}
}
