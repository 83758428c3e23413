package plane

import (
	"encoding/binary"
	"math"
	"testing"
)

// fuzzLoop makes a loop of what the fuzzer has: three numbers a vertex, on a
// coarse or fine lattice so that coincidences are common.
func fuzzLoop(data []byte) (Loop, []byte) {
	if len(data) < 1 {
		return nil, nil
	}
	n := 2 + int(data[0]%10)
	data = data[1:]
	var l Loop
	for range n {
		if len(data) < 5 {
			break
		}
		x := float64(int16(binary.LittleEndian.Uint16(data))) / 256
		y := float64(int16(binary.LittleEndian.Uint16(data[2:]))) / 256
		b := float64(int8(data[4])) / 64
		if data[4]&3 == 0 {
			b = 0
		}
		if data[4]&7 == 3 {
			b = math.Tan(math.Pi / 8 * float64(int8(data[4]>>3)%5))
		}
		l = append(l, Vertex{Pt(x, y), b})
		data = data[5:]
	}
	return l, data
}

func seedCorpus(f *testing.F) {
	add := func(ls ...Loop) {
		var d []byte
		for _, l := range ls {
			d = append(d, byte(len(l)-2))
			for _, v := range l {
				d = binary.LittleEndian.AppendUint16(d, uint16(int16(v.X*256)))
				d = binary.LittleEndian.AppendUint16(d, uint16(int16(v.Y*256)))
				d = append(d, byte(int8(v.Bulge*64)))
			}
		}
		f.Add(d, 0.5)
		f.Add(d, -1.0)
	}
	add(square(4), square(4).Move(Pt(2, 2)))
	add(Circle(Pt(0, 0), 3), Circle(Pt(1, 0), 2))
	add(equilateral(6), petal())
	add(Loop{{Pt(-4, -1), 0}, {Pt(4, -1), 1}, {Pt(4, 1), 0}, {Pt(-4, 1), 1}}, square(2))
	add(Polygon(Pt(0, 0), Pt(3, 3), Pt(3, 0), Pt(0, 3)), square(1))
}

// FuzzOffset: no input panics or hangs; a simple loop gets an offset whose every
// edge is at its distance.
func FuzzOffset(f *testing.F) {
	seedCorpus(f)
	f.Fuzz(func(t *testing.T, data []byte, d float64) {
		l, _ := fuzzLoop(data)
		if math.IsNaN(d) || math.Abs(d) > 100 {
			d = 1
		}
		o := l.CCW().Inset(-d)
		if l.Check() != nil || math.Abs(d) < 1e-4 {
			return
		}
		r := Region{l.CCW()}
		wellFormed(t, "offset", o)
		for _, m := range o {
			for i := range m {
				for _, x := range [2]float64{0, 0.37} {
					p := m.Edge(i).At(x)
					if g := r.Nearest(p).D; math.Abs(g-math.Abs(d)) > 5*Snap {
						t.Fatalf("%#v by %g: edge %d of %#v is %g away", l, d, i, m, g)
					}
				}
			}
		}
		for i := range r[0] {
			e := r[0].Edge(i)
			if d > 0 && !o.Contains(e.Mid()) {
				t.Fatalf("%#v by %g: outset does not hold %v", l, d, e.Mid())
			}
			if d < 0 && o.Contains(e.Mid()) {
				t.Fatalf("%#v by %g: inset holds %v", l, d, e.Mid())
			}
		}
	})
}

// FuzzOverlay: no input panics or hangs; for simple loops the areas add up.
func FuzzOverlay(f *testing.F) {
	seedCorpus(f)
	f.Fuzz(func(t *testing.T, data []byte, _ float64) {
		a, rest := fuzzLoop(data)
		b, _ := fuzzLoop(rest)
		if a.Check() != nil || b.Check() != nil {
			_, _ = And(Region{a}, Region{b})
			_, _ = Merge([]Loop{a, b})
			return
		}
		all(t, "fuzz", Region{a.CCW()}, Region{b.CCW()})
	})
}

// FuzzNecks: no input panics; necks are as long as they say, and end on edges.
func FuzzNecks(f *testing.F) {
	seedCorpus(f)
	f.Fuzz(func(t *testing.T, data []byte, limit float64) {
		l, _ := fuzzLoop(data)
		for _, g := range l.Necks(math.Abs(limit)) {
			if l.Check() == nil && (l.Nearest(g.A).D > Snap || l.Nearest(g.B).D > Snap || math.Abs(g.A.Dist(g.B)-g.D) > Snap) {
				t.Fatalf("%#v: neck %v", l, g)
			}
		}
	})
}
