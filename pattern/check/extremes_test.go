package check

import (
	"bytes"
	"fmt"
	"math"
	"math/rand"
	"strings"
	"testing"

	"fretband/pattern"
	"fretband/pattern/motif"
	"fretband/pattern/project"
	"fretband/unroll"
)

// extreme is a design at one of the limits of the format.
type extreme struct {
	name string
	make func(d *pattern.Design)
}

// gear is path data of n points round a circle, every other one further out.
func gear(n int, r float64) string {
	var b strings.Builder
	for i := range n {
		s := r * (1 - 0.3*float64(i%2))
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		fmt.Fprintf(&b, "%c%.3f %.3f", "ML"[min(i, 1)], s*cos, s*sin)
	}
	return b.String() + "Z"
}

// scattered are n places within a box of the blank, never nearer than a thousandth of
// the row.
func scattered(n int, w, h float64) []pattern.Spot {
	rng := rand.New(rand.NewSource(1))
	out := make([]pattern.Spot, n)
	for i := range out {
		out[i] = pattern.Spot{XMM: math.Round(1000*w*(rng.Float64()-0.5)) / 1000, YMM: math.Round(1000*h*(rng.Float64()-0.5)) / 1000}
	}
	return out
}

// latticed are n places in rows.
func latticed(n int, w, h float64) []pattern.Spot {
	cols := int(math.Sqrt(float64(n) * w / h))
	rows := (n + cols - 1) / cols
	out := make([]pattern.Spot, n)
	for i := range out {
		out[i] = pattern.Spot{XMM: math.Round(1000*w*((float64(i%cols)+0.5)/float64(cols)-0.5)) / 1000, YMM: math.Round(1000*h*((float64(i/cols)+0.5)/float64(rows)-0.5)) / 1000}
	}
	return out
}

func extremes() []extreme {
	f := func(motif string, rows, repeats int, more ...func(*pattern.Field)) func(d *pattern.Design) {
		return func(d *pattern.Design) {
			x := pattern.Field{Motif: motif, Rows: rows, Repeats: repeats}
			for _, m := range more {
				m(&x)
			}
			d.Fields = []pattern.Field{x}
			d.Reserves = nil
		}
	}
	all := []extreme{}
	add := func(name string, make func(d *pattern.Design)) { all = append(all, extreme{name, make}) }
	for _, m := range motif.All() {
		if m.Key != motif.OwnKey {
			add("cells/"+m.Key, f(m.Key, 60, 500))
		}
	}
	for _, m := range []string{"triangles", "cells", "leaves"} {
		add("turned/"+m, f(m, 60, 500, func(f *pattern.Field) { f.RotationDeg = 31 }))
		add("graded/"+m, f(m, 60, 500, func(f *pattern.Field) {
			f.GradeAlong = []pattern.Grade{{At: -1, Size: 0.2}, {At: 1, Size: 5}}
			f.GradeAcross = []pattern.Grade{{At: -1, Size: 0.2}, {At: 1, Size: 5}}
		}))
		add("gradedturned/"+m, f(m, 60, 500, func(f *pattern.Field) {
			f.RotationDeg = 31
			f.Mirror = "both"
			f.GradeAlong = []pattern.Grade{{At: -1, Size: 0.2}, {At: 1, Size: 5}}
			f.GradeAcross = []pattern.Grade{{At: -1, Size: 0.2}, {At: 1, Size: 5}}
		}))
		add("follow/"+m, f(m, 60, 500, func(f *pattern.Field) { f.Follow = "width" }))
		add("fit/"+m, f(m, 60, 500, func(f *pattern.Field) { f.Edge = "fit" }))
		add("pitch/"+m, f(m, 60, 0, func(f *pattern.Field) { f.PitchMM = 0.92 }))
		add("flared/"+m, func(d *pattern.Design) {
			f(m, 60, 500)(d)
			d.Band.FlareDeg = 10
			d.Band.EndWidthMM = d.Band.WidthMM
		})
		add("bangle/"+m, func(d *pattern.Design) {
			f(m, 60, 500, func(f *pattern.Field) { f.RotationDeg = 31 })(d)
			seamlessBand(d)
		})
		add("manyfields/"+m, func(d *pattern.Design) {
			f(m, 30, 25)(d)
			for range pattern.MaxFields - 1 {
				d.Fields = append(d.Fields, d.Fields[0])
			}
			for i := range d.Fields {
				d.Fields[i].Area = pattern.Area{Shape: pattern.CircleShape, XMM: -200 + 10*float64(i), WidthMM: 50}
			}
		})
	}
	add("fields in paths", func(d *pattern.Design) {
		f("triangles", 30, 25)(d)
		for range pattern.MaxFields - 1 {
			d.Fields = append(d.Fields, d.Fields[0])
		}
		for i := range d.Fields {
			d.Fields[i].Area = pattern.Area{Shape: pattern.PathShape, XMM: -200 + 10*float64(i), Path: gear(pattern.MaxShapeEdges/pattern.MaxFields, 20)}
			d.Fields[i].BridgeMM = 0.1 + 0.001*float64(i)
		}
	})
	add("own motif", f("own", 60, 500, func(f *pattern.Field) { f.Path = gear(10, 5) }))
	add("own motif, few", f("own", 5, 30, func(f *pattern.Field) { f.Path = gear(1999, 5) }))
	for _, shape := range []string{pattern.CircleShape, pattern.OvalShape, pattern.RectangleShape, pattern.PathShape} {
		for _, size := range []float64{0.1, 3} {
			for _, form := range []string{"cuff", "bangle"} {
				add(fmt.Sprintf("reserves/%s %g %s", shape, size, form), func(d *pattern.Design) {
					if form == "bangle" {
						seamlessBand(d)
					}
					d.Reserves = nil
					for i := range pattern.MaxReserves {
						r := pattern.Reserve{Shape: shape, YMM: -60 + 120*float64(i)/pattern.MaxReserves, WidthMM: size, HeightMM: size, Count: pattern.MaxReserved / pattern.MaxReserves, MarginMM: 0.1}
						if shape == pattern.CircleShape {
							r.HeightMM = 0
						}
						if shape == pattern.PathShape {
							r.Path, r.Count = gear(5, 1), pattern.MaxShapeEdges/pattern.MaxReserves/5
						}
						d.Reserves = append(d.Reserves, r)
					}
				})
			}
		}
	}
	add("reserve of a long path", func(d *pattern.Design) {
		d.Reserves = []pattern.Reserve{{Shape: pattern.PathShape, Path: gear(pattern.MaxShapeEdges/100, 20), Count: 100, MarginMM: 0.1}}
	})
	edit := func(e pattern.Edit) func(d *pattern.Design) {
		return func(d *pattern.Design) { f("triangles", 10, 100)(d); d.Edits = []pattern.Edit{e} }
	}
	circle := pattern.Edit{Do: pattern.Add, Shape: pattern.CircleShape, WidthMM: 1}
	with := func(e pattern.Edit, at []pattern.Spot) pattern.Edit { e.At = at; return e }
	add("edits/add", edit(with(circle, latticed(2000, 460, 110))))
	add("edits/add scattered", edit(with(circle, scattered(2000, 460, 110))))
	add("edits/add at one place", edit(with(circle, make([]pattern.Spot, 2000))))
	add("edits/add large", edit(with(pattern.Edit{Do: pattern.Add, Shape: pattern.CircleShape, WidthMM: 20}, scattered(2000, 460, 110))))
	add("edits/add a long path", edit(with(pattern.Edit{Do: pattern.Add, Shape: pattern.PathShape, Path: gear(500, 20)}, scattered(10, 460, 110))))
	add("edits/add one long path", edit(with(pattern.Edit{Do: pattern.Add, Shape: pattern.PathShape, Path: gear(1999, 20)}, scattered(1, 460, 110))))
	add("edits/change", edit(with(pattern.Edit{Do: pattern.Change, MoveXMM: 0.5, Scale: 1.2}, latticed(2000, 460, 110))))
	add("edits/change all to one place", edit(with(pattern.Edit{Do: pattern.Change, Scale: 10}, latticed(2000, 460, 110))))
	add("edits/replace", edit(with(pattern.Edit{Do: pattern.Replace, Shape: pattern.OvalShape, WidthMM: 3, HeightMM: 2}, latticed(400, 460, 110))))
	add("edits/solid", edit(with(pattern.Edit{Do: pattern.LeaveSolid}, scattered(2000, 460, 110))))
	add("edits/mirrored add", edit(with(pattern.Edit{Do: pattern.Add, Shape: pattern.CircleShape, WidthMM: 1, Mirror: pattern.MirrorBoth}, latticed(1000, 460, 110))))
	add("edits/all add", func(d *pattern.Design) {
		for i := range pattern.MaxEdits {
			d.Edits = append(d.Edits, with(circle, latticed(pattern.MaxEditPositions, 460, 110)[4*i:4*i+4]))
		}
	})
	add("edits/all solid", func(d *pattern.Design) {
		for range pattern.MaxEdits {
			d.Edits = append(d.Edits, with(pattern.Edit{Do: pattern.LeaveSolid, Mirror: pattern.MirrorBoth}, scattered(1, 460, 110)))
		}
	})
	add("edits/all change", func(d *pattern.Design) {
		for range pattern.MaxEdits {
			d.Edits = append(d.Edits, with(pattern.Edit{Do: pattern.Change, MoveXMM: 0.1}, scattered(4, 460, 110)))
		}
	})
	for _, keep := range []float64{-1, 0, 1} {
		add(fmt.Sprintf("marks/text keep %g", keep), func(d *pattern.Design) {
			for i := range pattern.MaxEngravings {
				d.Engravings = append(d.Engravings, pattern.Engraving{Kind: pattern.TextEngraving, Text: strings.Repeat("8&@g", 20), HeightMM: 1, YMM: -50 + float64(i), MarginMM: keep})
			}
		})
		add(fmt.Sprintf("marks/path keep %g", keep), func(d *pattern.Design) {
			n, r := pattern.MaxEngravedEdges/pattern.MaxEngravings, 10.0
			if keep < 0 {
				n, r = 1999, 1.5
			}
			for i := range pattern.MaxEngravings {
				d.Engravings = append(d.Engravings, pattern.Engraving{Kind: pattern.PathEngraving, Path: gear(n, r), XMM: -200 + 4*float64(i), MarginMM: keep})
			}
		})
	}
	add("marks/strokes", func(d *pattern.Design) {
		for i := range pattern.MaxEngravings {
			d.Engravings = append(d.Engravings, pattern.Engraving{Kind: pattern.PathEngraving, Path: strings.Repeat("M0 0L.3 .3", 1999), XMM: -200 + 4*float64(i), MarginMM: -1})
		}
	})
	add("marks/long lines", func(d *pattern.Design) {
		f("triangles", 60, 500)(d)
		for i := range pattern.MaxEngravings {
			d.Engravings = append(d.Engravings, pattern.Engraving{Kind: pattern.PathEngraving, Path: strings.Repeat("M-220 -55L220 55", 2), YMM: 0.1 * float64(i), MarginMM: -1})
		}
	})
	add("edge points", func(d *pattern.Design) {
		for i := range 24 {
			d.Band.TopEdge = append(d.Band.TopEdge, unroll.EdgePoint{At: -1 + 2*float64(i)/23, OutMM: 5 * float64(i%2)})
			d.Band.BottomEdge = append(d.Band.BottomEdge, unroll.EdgePoint{At: -1 + 2*float64(i)/23, OutMM: 5 * float64(i%2)})
		}
	})
	add("edge points followed", func(d *pattern.Design) {
		f("triangles", 60, 500, func(f *pattern.Field) { f.Follow = "width" })(d)
		for i := range 24 {
			d.Band.TopEdge = append(d.Band.TopEdge, unroll.EdgePoint{At: -1 + 2*float64(i)/23, OutMM: 5 * float64(i%2)})
			d.Band.BottomEdge = append(d.Band.BottomEdge, unroll.EdgePoint{At: -1 + 2*float64(i)/23, OutMM: 5 * float64(i%2)})
		}
	})
	add("variants", func(d *pattern.Design) {
		f("triangles", 60, 500)(d)
		v := *d
		for range pattern.MaxVariants {
			d.Variants = append(d.Variants, v)
		}
	})
	add("accepted", func(d *pattern.Design) {
		f("triangles", 60, 500)(d)
		for i := range pattern.MaxAccepted {
			d.Accepted = append(d.Accepted, pattern.Accepted{Finding: "pilot-hole", At: pattern.Spot{XMM: float64(i)}, Reason: "so wished"})
		}
	})
	return all
}

func seamlessBand(d *pattern.Design) {
	d.Band.Kind, d.Band.Joint, d.Band.GapMM, d.Band.EndCornerMM, d.Band.EndWidthMM = unroll.Bangle, unroll.Seamless, 0, 0, d.Band.WidthMM
}

func (x extreme) design() pattern.Design {
	d := bigDesign(2000)
	d.Band.Inside.WidthMM, d.Band.Inside.HeightMM, d.Band.WidthMM, d.Band.EndWidthMM, d.Band.EndCornerMM = 150, 150, 150, 120, 0
	d.Rules = pattern.DesignRules{BridgeMM: 0.1}
	x.make(&d)
	return d
}

// BenchmarkExtremes is what the largest designs wait for that the format admits: reading, laying and
// checking.
func BenchmarkExtremes(b *testing.B) {
	for _, x := range extremes() {
		b.Run(x.name, func(b *testing.B) {
			var file bytes.Buffer
			if err := project.Write(&file, x.design()); err != nil {
				b.Fatal(err)
			}
			openings := 0
			for range b.N {
				d, err := project.Read(bytes.NewReader(file.Bytes()))
				if err != nil {
					b.Fatal(err)
				}
				s, err := pattern.Lay(d)
				if err != nil {
					b.Fatal(err)
				}
				openings = Run(s).Openings
			}
			b.ReportMetric(float64(openings), "openings")
		})
	}
}
