package pages

import (
	"maps"
	"math"
	"slices"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/pattern/motif"
	"fretband/pattern/own"
	"fretband/unroll"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// The piece of band that a picture of a motif shows, mm.
const (
	sampleLong = 42.0
	sampleHigh = 24.0
)

// motifPicture shows a field's motif as it is cut from a small piece of band.
type motifPicture struct {
	*kit.Picture

	shown  pattern.Field // what it was made for
	tone   kit.Metal
	shapes [][]plane.Point

	ownPath string // a person's own shape, which is read once
	own     plane.Loop
}

func newMotifPicture(k *kit.Kit) *motifPicture {
	p := &motifPicture{}
	p.Picture = k.Picture(p.draw)
	return p
}

// show draws the motif of f with its own numbers, cut from a metal.
func (p *motifPicture) show(f pattern.Field, tone kit.Metal) {
	key := pattern.Field{Motif: f.Motif, Path: f.Path, Numbers: f.Numbers, Stagger: f.Stagger, GradeAlong: f.GradeAlong, GradeAcross: f.GradeAcross}
	if p.shapes != nil && key.Motif == p.shown.Motif && key.Path == p.shown.Path && key.Stagger == p.shown.Stagger && tone == p.tone && maps.Equal(key.Numbers, p.shown.Numbers) &&
		slices.Equal(key.GradeAlong, p.shown.GradeAlong) && slices.Equal(key.GradeAcross, p.shown.GradeAcross) {
		return
	}
	p.shown, p.tone = key, tone
	p.shown.Numbers = maps.Clone(key.Numbers)
	if f.Motif == motif.OwnKey {
		if p.ownPath != f.Path {
			p.ownPath = f.Path
			p.own, _ = own.Outline(f.Path) // one that can't be read is told of elsewhere
		}
		p.shapes = sampleOfOwn(p.own, key)
	} else {
		p.shapes = sampleOf(key)
	}
	p.Refresh()
}

// sampleOfOwn places a person's own shape in rows, a bridge apart at the least. To
// lay it as any other motif would take too long while a number is dragged: it may
// have some thousand edges.
func sampleOfOwn(l plane.Loop, f pattern.Field) [][]plane.Point {
	out := [][]plane.Point{}
	if len(l) == 0 {
		return out
	}
	number := func(key string, usual float64) float64 {
		if v, ok := f.Numbers[key]; ok {
			return v
		}
		return usual
	}
	rows, repeats := app.MotifSample(f.Motif, sampleLong, sampleHigh)
	pitch, row := sampleLong/float64(repeats), sampleHigh/float64(rows)
	l = l.Turn(number("turn_deg", 0) * math.Pi / 180)
	b := l.Bounds()
	l = l.Move(b.Centre().Mul(-1)).Scale(math.Min((pitch-1)/b.W(), (row-1)/b.H()) * number("size", 1))
	pts := l.Flatten(0.05)
	for r := range rows {
		for c := range repeats + 2 {
			at := plane.Pt((float64(c)-float64(repeats+1)/2)*pitch, sampleHigh/2-(float64(r)+0.5)*row)
			if r%2 == 1 {
				at.X += f.Stagger * pitch
			}
			one := make([]plane.Point, len(pts))
			for i, q := range pts {
				one[i] = q.Add(at)
			}
			out = append(out, one)
		}
	}
	return out
}

// sampleOf lays a motif on a small piece of band and returns its openings.
func sampleOf(f pattern.Field) [][]plane.Point {
	f.Rows, f.Repeats = app.MotifSample(f.Motif, 1.5*sampleLong, sampleHigh)
	s, err := pattern.Lay(pattern.Design{
		Name: "sample",
		Band: unroll.Band{Kind: unroll.Cuff, Inside: unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: 1.5*sampleLong + 27, Ratio: 1}, GapMM: 30,
			WidthMM: sampleHigh, EndWidthMM: sampleHigh, Thickness: unroll.Thickness{MM: 1}, NeutralK: 0.5},
		Metal: pattern.Metal{Alloy: "copper"},
		Rules: pattern.DesignRules{BridgeMM: 1, RimMM: 1, SmallestMM: 0.6}, Fields: []pattern.Field{f},
	})
	if err != nil {
		return [][]plane.Point{}
	}
	out := make([][]plane.Point, 0, len(s.Openings))
	for _, o := range s.Openings {
		out = append(out, o.Loop.Flatten(0.03))
	}
	return out
}

func (p *motifPicture) draw(*kit.Picture) {
	p.Ground(p.tone.Face)
	// The whole height of the piece is in sight, its middle in the middle.
	k := p.H / sampleHigh
	for _, s := range p.shapes {
		p.Loop(s, func(q plane.Point) (x, y float64) { return p.W/2 + q.X*k, p.H/2 - q.Y*k })
	}
	p.Draw(p.Dress.Paper)
}

// How high the row of the motif is, and how wide the picture in it.
const (
	motifRowHigh    = 40
	motifRowPicture = 80
)

// motifRow shows the field's motif by name and picture; a click opens all of them.
type motifRow struct {
	i       int
	box     *fyne.Container
	button  *kit.Button
	picture *motifPicture
}

func newMotifRow(k *kit.Kit, i int, open func()) *motifRow {
	r := &motifRow{i: i, picture: newMotifPicture(k)}
	r.button = k.Button("", "Choose another motif from pictures of all of them, or a shape of your own.", open).Framed()
	r.button.Left = true
	r.box = container.New(kit.Columns{Widths: []float32{labelWidth, 0}, Gap: columnGap, Height: motifRowHigh},
		k.Label("Motif", kit.Plain).Teach("The shape that repeats."),
		container.NewStack(r.button, container.NewBorder(nil, nil, nil, kit.Inset(0, 4, 4, 4, kit.Sized(motifRowPicture, motifRowHigh-8, r.picture.Raster)))))
	return r
}

func (r *motifRow) object() fyne.CanvasObject { return r.box }

func (r *motifRow) show(d pattern.Design) {
	if r.i >= len(d.Fields) {
		return
	}
	r.button.SetText(app.MotifTitle(d.Fields[r.i]))
	r.picture.show(d.Fields[r.i], kit.MetalOf(d.Metal.Alloy))
}

// Measures of the tiles of motifs.
const (
	tileWide    = 112
	tilePicture = 62
	tileColumns = 6
)

// motifKeyAt names the tile for the script that drives the window.
func motifKeyAt(k int) string {
	if ms := motif.All(); k < len(ms) {
		return ms[k].Key
	}
	return motif.OwnKey
}

// sampleOwn stands for a shape of one's own: a leaf drawn by hand.
const sampleOwn = "M0 -5 C3 -4 4 -1 2 5 C1 3.5 -0.5 3 -2 3.2 C-4 0 -3 -3.5 0 -5 Z"
