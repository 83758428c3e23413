package plane

import (
	"bufio"
	"flag"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"
)

var (
	judgeDir   = flag.String("judge", "", "folder to write cases for the judges to")
	judgePairs = flag.Int("judge-pairs", 1000, "number of pairs of regions for the judges")
)

// TestWriteCasesForJudges writes regions and our results for judge/run.sh, in
// words and hexadecimal numbers:
//
//	case NAME, steps to A, region B, areas AND OR NOT XOR (exact.txt)
//	overlay NAME, region A, region B, four regions      (flat.txt)
//	offset NAME, region, distance, region
//	nearest NAME, region of one loop, another, distance
//	neck NAME, region of one loop, its least neck, 1 if none is less
//
// where a region is "region N" and N times "loop K" and K times x, y, bulge, and
// steps are "steps N" and N times "and", "or", "not" or "xor" and a region, to be
// applied in turn to nothing: so the judge builds A from exact shapes itself.
func TestWriteCasesForJudges(t *testing.T) {
	if *judgeDir == "" {
		t.Skip("writes files for judge/run.sh, which runs it")
	}
	r := seeded(t)
	open := func(name string) (*bufio.Writer, func()) {
		f, err := os.Create(filepath.Join(*judgeDir, name))
		if err != nil {
			t.Fatal(err)
		}
		w := bufio.NewWriter(f)
		return w, func() {
			if err := w.Flush(); err != nil {
				t.Fatal(err)
			}
			if err := f.Close(); err != nil {
				t.Fatal(err)
			}
		}
	}
	exact, done := open("exact.txt")
	defer done()
	flat, done := open("flat.txt")
	defer done()
	for i := range *judgePairs {
		kind, a, b, steps := judgePair(r)
		fmt.Fprintf(exact, "case %s-%d\n", kind, i)
		if steps == nil {
			steps = []step{{opOr, a}}
		}
		fmt.Fprintf(exact, "steps %d\n", len(steps))
		for _, s := range steps {
			fmt.Fprintf(exact, "%s\n", [4]string{"and", "or", "not", "xor"}[s.op])
			writeRegion(exact, s.r)
		}
		writeRegion(exact, b)
		var res [4]Region
		var err error
		for k, f := range []func(a, b Region) (Region, error){And, Or, Not, Xor} {
			if res[k], err = f(a, b); err != nil {
				break
			}
		}
		if err != nil {
			fmt.Fprintf(exact, "error %v\n", err)
		} else {
			fmt.Fprintf(exact, "areas %x %x %x %x\n", res[0].Area(), res[1].Area(), res[2].Area(), res[3].Area())
		}
		if i%5 == 0 && err == nil {
			fmt.Fprintf(flat, "overlay %s-%d\n", kind, i)
			for _, x := range append([]Region{a, b}, res[:]...) {
				writeRegion(flat, x)
			}
		}
		if i%2 == 0 {
			d := criticalOffset(r, a)
			fmt.Fprintf(flat, "offset %s-%d\n", kind, i)
			writeRegion(flat, a)
			fmt.Fprintf(flat, "%x\n", d)
			writeRegion(flat, a.Offset(d))
		}
		if kind == "bent" || kind == "stars" {
			d := 1.0
			if ns := b[0].Necks(d); len(ns) > 0 {
				d = ns[0].D
			}
			fmt.Fprintf(flat, "neck %s-%d\n", kind, i)
			writeRegion(flat, b[:1])
			fmt.Fprintf(flat, "%x\n", d)
		}
		fmt.Fprintf(flat, "nearest %s-%d\n", kind, i)
		writeRegion(flat, a[:1])
		writeRegion(flat, b[:1])
		fmt.Fprintf(flat, "%x\n", Nearest(a[0], b[0]).D)
	}
}

// criticalOffset returns a distance at which something tends to happen: an arc
// shrinks to nothing, two edges meet, or nothing special.
func criticalOffset(r *rand.Rand, a Region) float64 {
	l := a[r.IntN(len(a))]
	sign := float64(1 - 2*r.IntN(2))
	near := []float64{0, 1e-12, 1e-9, 1e-8, 1e-7, 3e-7, 1e-6}[r.IntN(7)] * float64(1-2*r.IntN(2))
	switch r.IntN(4) {
	case 0:
		if d := l.Edge(r.IntN(len(l))).Radius(); d < 3 {
			return sign*d + near
		}
	case 1:
		if g := NearestEdges(l.Edge(r.IntN(len(l))), l.Edge(r.IntN(len(l)))); g.D > 0.01 && g.D < 4 {
			return sign*g.D/2 + near
		}
	case 2:
		return sign*[]float64{0.25, 0.5, 1, 1.5}[r.IntN(4)] + near
	}
	return r.NormFloat64() * 0.5
}

func writeRegion(w io.Writer, r Region) {
	fmt.Fprintf(w, "region %d\n", len(r))
	for _, l := range r {
		fmt.Fprintf(w, "loop %d\n", len(l))
		for _, v := range l {
			fmt.Fprintf(w, "%x %x %x\n", v.X, v.Y, v.Bulge)
		}
	}
}

// step is an operation on what there is so far, and another region.
type step struct {
	op op
	r  Region
}

// judgePair returns two regions and what sort of pair they are: random ones,
// and all sorts of coincidence. If the first was built of several, so are steps.
func judgePair(r *rand.Rand) (kind string, a, b Region, steps []step) {
	near := func() float64 { return math.Pow(10, -3-8*r.Float64()) }
	switch r.IntN(10) {
	case 0, 1:
		a, b = Region{star(r, 3+r.IntN(10), true)}, Region{star(r, 3+r.IntN(10), true).Move(Pt(r.NormFloat64(), r.NormFloat64()))}
		return "stars", a, b, nil
	case 2:
		return "lattice", latticeShape(r), latticeShape(r), nil
	case 7: // lattice shapes put together
		b = latticeShape(r)
		steps = []step{{opOr, latticeShape(r)}}
		a = steps[0].r
		for range 1 + r.IntN(3) {
			s := step{[]op{opOr, opNot, opXor}[r.IntN(3)], latticeShape(r)}
			var err error
			if a, err = overlay(a, s.r, s.op); err != nil || len(a) == 0 {
				return judgePair(r)
			}
			steps = append(steps, s)
		}
		return "built", a, b, steps
	case 8:
		return "bent", Region{bent(r)}, Region{bent(r).Turn(r.Float64() * 6)}, nil
	case 3: // moved by nearly nothing
		a = Region{star(r, 3+r.IntN(8), true)}
		return "hair", a, a.Move(Pt(near(), near())), nil
	case 4: // turned by nearly nothing
		a = Region{star(r, 3+r.IntN(8), true)}
		return "turn", a, Region{a[0].Turn(near())}, nil
	case 5: // an inset and its source share nothing, their tangents much
		a = Region{star(r, 3+r.IntN(8), true)}
		if b = a.Offset(-0.2 * r.Float64()); len(b) == 0 {
			b = Region{square(1)}
		}
		if r.IntN(2) == 0 {
			b = b.Move(Pt(near(), 0))
		}
		return "inset", a, b, nil
	case 6: // discs that touch, nearly touch, or nest
		p, q := 1+r.Float64()*2, 0.5+r.Float64()
		gap := []float64{0, near(), -near()}[r.IntN(3)]
		turn := r.Float64() * 6
		d := p + q + gap
		if r.IntN(2) == 0 {
			d = math.Abs(p-q) + gap
		}
		return "discs", Region{Circle(Pt(0, 0), p)}, Region{Circle(Pt(d, 0).Turn(turn), q)}, nil
	default: // a side in common
		l := star(r, 3+r.IntN(8), true)
		e := l.Edge(0)
		out := e.Tangent(0.5).Left().Mul(-2)
		f := e
		if r.IntN(2) == 0 {
			f = e.Part(0.2*r.Float64(), 0.6+0.4*r.Float64())
		}
		m := Loop{{f.B, -f.Bulge}, {f.A, 0}, {f.A.Add(out), 0}, {f.B.Add(out), 0}}
		if m.Check() != nil || m.Area() < 0 {
			return judgePair(r)
		}
		return "side", Region{l}, Region{m}, nil
	}
}
