package plane

import (
	"bufio"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"testing"
)

// What a user waits for, each as one call. judge/speed.sh has GEOS do the same
// with the same shapes, and prints both.

// hexagon is six lines, petal (offset_test.go) eight arcs.
func hexagon() Loop {
	return Polygon(Pt(2, 0), Pt(1, 1.7), Pt(-1, 1.7), Pt(-2, 0), Pt(-1, -1.7), Pt(1, -1.7))
}

// strewn returns 1,000 of the loop in rows, each a little out of place, so that
// no two bridges are alike. A loop needs w by h.
func strewn(l Loop, w, h float64) []Loop {
	r := rand.New(rand.NewPCG(7, 7))
	var ls []Loop
	for i := range 1000 {
		at := Pt(float64(i%40)*w, float64(i/40)*h)
		ls = append(ls, l.Move(at.Add(Pt(r.Float64()-0.5, r.Float64()-0.5).Mul(0.4))))
	}
	return ls
}

func hexagons() []Loop { return strewn(hexagon(), 4.8, 4.2) }
func petals() []Loop   { return strewn(petal(), 3.2, 6.8) }

// ground is a disc; along puts 1,000 of the loop astride its edge.
var ground = Region{Circle(Pt(0, 0), 40)}

func along(l Loop) []Loop {
	var ls []Loop
	for i := range 1000 {
		ls = append(ls, l.Move(Pt(40, 0).Turn(2*math.Pi*(float64(i)+0.3)/1000)))
	}
	return ls
}

// plate is a board to be pierced by 2,000 rounded triangles.
func plate() (board Loop, openings []Loop) {
	board = Rect(Box{Pt(-4, -4), Pt(50*7, 40*7)})
	for i := range 2000 {
		openings = append(openings, roundedTriangle(6, 0.5).Move(Pt(float64(i%50)*7, float64(i/50)*7)))
	}
	return board, openings
}

// task is something to be timed: what GEOS is told of it, how we do it, and what
// should come out.
type task struct {
	name  string // of the benchmark
	kind  string // inset, clip, nearest, bridges, pierce
	by    float64
	loops []Loop
	other Loop
	do    func() float64
}

func insets(ls []Loop, d float64) float64 {
	var a float64
	for _, l := range ls {
		a += l.Inset(d).Area()
	}
	return a
}

func clips(ls []Loop) float64 {
	var a float64
	for _, l := range ls {
		r, err := And(Region{l}, ground)
		if err != nil {
			return math.NaN()
		}
		a += r.Area()
	}
	return a
}

func pierced(board Loop, openings []Loop) float64 {
	r, err := Not(Region{board}, openings)
	if err != nil {
		return math.NaN()
	}
	return r.Area()
}

func tasks() []task {
	one := []Loop{roundedTriangle(6, 0.5)}
	hs, ps, many := hexagons(), petals(), rows(20000)
	hc, pc := along(hexagon()), along(petal())
	board, openings := plate()
	return []task{
		{"InsetRoundedTriangle", "inset", 0.2, one, nil, func() float64 { return insets(one, 0.2) }},
		{"Inset1000Hexagons", "inset", 0.2, hs, nil, func() float64 { return insets(hs, 0.2) }},
		{"Inset1000Petals", "inset", 0.2, ps, nil, func() float64 { return insets(ps, 0.2) }},
		{"Clip1000Hexagons", "clip", 0, hc, ground[0], func() float64 { return clips(hc) }},
		{"Clip1000Petals", "clip", 0, pc, ground[0], func() float64 { return clips(pc) }},
		{"Pierce2000", "pierce", 0, openings, board, func() float64 { return pierced(board, openings) }},
		{"BridgesOf20000", "bridges", 1, many, nil, func() float64 { return float64(len(Pairs(many, 1))) }},
	}
}

var speedFile = flag.String("speed", "", "file to write the tasks for judge/speed.sh to")

// chordsOf returns the loop as a polygon of about n chords, by their length.
func chordsOf(l Loop, n int) []Point {
	whole := l.Len()
	var ps []Point
	for i := range l {
		e := l.Edge(i)
		k := 1
		if e.Bulge != 0 {
			k = max(1, int(math.Round(float64(n)*e.Len()/whole)))
		}
		for j := range k {
			ps = append(ps, e.At(float64(j)/float64(k)))
		}
	}
	return ps
}

// TestWriteTasksForSpeed writes what is to be done in words and numbers: "task
// NAME KIND BY RESULT COUNT", the loops, "other" and 0 or 1 loops. A loop is its
// number of points and their coordinates, about 90 chords if it has arcs.
func TestWriteTasksForSpeed(t *testing.T) {
	if *speedFile == "" {
		t.Skip("writes a file for judge/speed.sh, which runs it")
	}
	f, err := os.Create(*speedFile)
	if err != nil {
		t.Fatal(err)
	}
	w := bufio.NewWriter(f)
	write := func(l Loop) {
		ps := chordsOf(l, 90)
		fmt.Fprintf(w, "%d", len(ps))
		for _, p := range ps {
			fmt.Fprintf(w, " %.17g %.17g", p.X, p.Y)
		}
		fmt.Fprintln(w)
	}
	for _, x := range tasks() {
		fmt.Fprintf(w, "task %s %s %g %.9g %d\n", x.name, x.kind, x.by, x.do(), len(x.loops))
		for _, l := range x.loops {
			write(l)
		}
		if x.other == nil {
			fmt.Fprintln(w, "other 0")
			continue
		}
		fmt.Fprintln(w, "other 1")
		write(x.other)
	}
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
}

// run times a loop of the task's calls alone.
func run(b *testing.B, f func()) {
	b.ReportAllocs()
	b.ResetTimer()
	for range b.N {
		f()
	}
}

func BenchmarkInset1000Hexagons(b *testing.B) { benchmarkInsets(b, hexagons()) }
func BenchmarkInset1000Petals(b *testing.B)   { benchmarkInsets(b, petals()) }

func benchmarkInsets(b *testing.B, ls []Loop) {
	run(b, func() {
		for _, l := range ls {
			l.Inset(0.2)
		}
	})
}

func BenchmarkClip1000Hexagons(b *testing.B) { benchmarkClips(b, along(hexagon())) }
func BenchmarkClip1000Petals(b *testing.B)   { benchmarkClips(b, along(petal())) }

func benchmarkClips(b *testing.B, ls []Loop) {
	run(b, func() {
		for _, l := range ls {
			if _, err := And(Region{l}, ground); err != nil {
				b.Fatal(err)
			}
		}
	})
}

func BenchmarkPierce2000(b *testing.B) {
	board, openings := plate()
	run(b, func() {
		if _, err := Not(Region{board}, openings); err != nil {
			b.Fatal(err)
		}
	})
}

func BenchmarkBridgesOf1000(b *testing.B)  { benchmarkBridges(b, rows(1000)) }
func BenchmarkBridgesOf20000(b *testing.B) { benchmarkBridges(b, rows(20000)) }

func benchmarkBridges(b *testing.B, ls []Loop) {
	run(b, func() { Pairs(ls, 1) })
}
