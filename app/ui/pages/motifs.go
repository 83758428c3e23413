package pages

import (
	"image"
	"image/color"
	"maps"
	"math"
	"slices"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/export/paint"
	"fretband/pattern"
	"fretband/pattern/motif"
	"fretband/pattern/own"
	"fretband/unroll"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// The piece of band that a picture of a motif shows, mm.
const (
	sampleLong = 42.0
	sampleHigh = 24.0
)

// motifPicture shows a field's motif as it is cut from a small piece of band.
type motifPicture struct {
	raster *canvas.Raster
	kit    *kit.Kit
	img    *image.RGBA
	fill   paint.Fill

	shown  pattern.Field // what it was made for
	tone   kit.Metal
	shapes [][]plane.Point

	ownPath string // a person's own shape, which is read once
	own     plane.Loop
}

func newMotifPicture(k *kit.Kit) *motifPicture {
	p := &motifPicture{kit: k}
	p.raster = canvas.NewRaster(p.render)
	kit.OnDress(k, p, func(p *motifPicture, _ *kit.Dress) { p.raster.Refresh() })
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
	p.raster.Refresh()
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

func (p *motifPicture) render(w, h int) image.Image {
	if p.img == nil || p.img.Rect.Dx() != w || p.img.Rect.Dy() != h {
		p.img = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	d := p.kit.Dress
	paint.Box(p.img, 0, 0, w, h, p.tone.Face)
	p.fill.Reset(w, h)
	// The whole height of the piece is in sight, its middle in the middle.
	k := float64(h) / sampleHigh
	x := func(q plane.Point) float64 { return float64(w)/2 + q.X*k }
	y := func(q plane.Point) float64 { return float64(h)/2 - q.Y*k }
	for _, s := range p.shapes {
		for i, q := range s {
			if i == 0 {
				p.fill.MoveTo(x(q), y(q))
			} else {
				p.fill.LineTo(x(q), y(q))
			}
		}
		p.fill.Close()
	}
	p.fill.Draw(p.img, d.Paper)
	return p.img
}

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
	r.box = container.New(kit.Columns{Widths: []float32{labelWidth, 0}, Gap: columnGap, Height: 36},
		k.Label("Motif", kit.Plain).Teach("The shape that repeats."),
		container.New(pictureRight{60, 28, 4}, r.button, r.picture.raster))
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

// pictureRight lays a picture of a fixed size over the right end of another object.
type pictureRight struct{ w, h, gap float32 }

// MinSize implements fyne.Layout.
func (l pictureRight) MinSize(objs []fyne.CanvasObject) fyne.Size {
	m := objs[0].MinSize()
	return fyne.NewSize(m.Width+l.w, max(m.Height, l.h+2*l.gap))
}

// Layout implements fyne.Layout.
func (l pictureRight) Layout(objs []fyne.CanvasObject, s fyne.Size) {
	objs[0].Move(fyne.Position{})
	objs[0].Resize(s)
	objs[1].Move(fyne.NewPos(s.Width-l.w-l.gap, (s.Height-l.h)/2))
	objs[1].Resize(fyne.NewSize(l.w, l.h))
}

// motifTile is one motif of the chooser: a picture and its name.
type motifTile struct {
	widget.BaseWidget
	kit           *kit.Kit
	title, tip    string
	chosen        bool
	over, focused bool
	tap           func()
	move          func(dx, dy int)

	picture *motifPicture
	frame   *canvas.Rectangle
	name    *canvas.Text
}

var (
	_ fyne.Tappable     = (*motifTile)(nil)
	_ fyne.Focusable    = (*motifTile)(nil)
	_ desktop.Hoverable = (*motifTile)(nil)
)

const (
	tileWide    = 112
	tilePicture = 62
	tileHigh    = tilePicture + 24
	tileColumns = 6
)

func newMotifTile(k *kit.Kit, title, tip string, tap func()) *motifTile {
	t := &motifTile{kit: k, title: title, tip: tip, tap: tap, picture: newMotifPicture(k), frame: canvas.NewRectangle(color.Transparent), name: canvas.NewText(title, color.Black)}
	t.frame.CornerRadius = 3
	t.name.Alignment = fyne.TextAlignCenter
	t.ExtendBaseWidget(t)
	return t
}

// Tapped implements fyne.Tappable.
func (t *motifTile) Tapped(*fyne.PointEvent) { t.kit.Tips.Leave(t); t.tap() }

// MouseIn implements desktop.Hoverable.
func (t *motifTile) MouseIn(*desktop.MouseEvent) {
	t.over = true
	t.kit.Tips.Rest(t, t.tip)
	t.Refresh()
}

// MouseMoved implements desktop.Hoverable.
func (t *motifTile) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (t *motifTile) MouseOut() { t.over = false; t.kit.Tips.Leave(t); t.Refresh() }

// FocusGained implements fyne.Focusable.
func (t *motifTile) FocusGained() { t.focused = true; t.Refresh() }

// FocusLost implements fyne.Focusable.
func (t *motifTile) FocusLost() { t.focused = false; t.Refresh() }

// TypedRune implements fyne.Focusable.
func (t *motifTile) TypedRune(rune) {}

// TypedKey implements fyne.Focusable.
func (t *motifTile) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		t.Tapped(nil)
	case fyne.KeyLeft:
		t.move(-1, 0)
	case fyne.KeyRight:
		t.move(1, 0)
	case fyne.KeyUp:
		t.move(0, -1)
	case fyne.KeyDown:
		t.move(0, 1)
	case fyne.KeyEscape:
		t.kit.Escape()
	}
}

// CreateRenderer implements fyne.Widget.
func (t *motifTile) CreateRenderer() fyne.WidgetRenderer {
	r := &motifTileRenderer{t}
	r.Refresh()
	return r
}

type motifTileRenderer struct{ t *motifTile }

func (r *motifTileRenderer) Destroy() {}
func (r *motifTileRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.t.frame, r.t.picture.raster, r.t.name}
}

func (r *motifTileRenderer) MinSize() fyne.Size { return fyne.NewSize(tileWide, tileHigh) }

func (r *motifTileRenderer) Layout(s fyne.Size) {
	t := r.t
	t.frame.Resize(s)
	t.picture.raster.Move(fyne.NewPos(4, 4))
	t.picture.raster.Resize(fyne.NewSize(s.Width-8, tilePicture-4))
	t.name.Move(fyne.NewPos(0, tilePicture+2))
	t.name.Resize(fyne.NewSize(s.Width, 18))
}

func (r *motifTileRenderer) Refresh() {
	t, d := r.t, r.t.kit.Dress
	t.name.TextSize, t.name.Color, t.name.TextStyle.Bold = 12, d.Ink, t.chosen
	t.frame.FillColor, t.frame.StrokeColor, t.frame.StrokeWidth = color.Transparent, color.Transparent, 0
	if t.chosen {
		t.frame.StrokeColor, t.frame.StrokeWidth, t.name.Color = d.Selected, 2, d.Selected
	}
	if t.over {
		t.frame.FillColor = kit.Over(nil, kit.Alpha(d.Ink, 20), d.Panel)
	}
	if t.focused {
		t.frame.FillColor = kit.Over(nil, kit.Alpha(d.Selected, 50), d.Panel)
	}
	r.Layout(t.Size())
	t.frame.Refresh()
	t.name.Refresh()
}

// motifKeyAt names the tile for the script that drives the window.
func motifKeyAt(k int) string {
	if ms := motif.All(); k < len(ms) {
		return ms[k].Key
	}
	return motif.OwnKey
}

// sampleOwn stands for a shape of one's own: a leaf drawn by hand.
const sampleOwn = "M0 -5 C3 -4 4 -1 2 5 C1 3.5 -0.5 3 -2 3.2 C-4 0 -3 -3.5 0 -5 Z"

// tileGrid lays tiles in columns.
type tileGrid struct {
	columns int
	gap     float32
}

// MinSize implements fyne.Layout.
func (l tileGrid) MinSize(objs []fyne.CanvasObject) fyne.Size {
	rows := (len(objs) + l.columns - 1) / l.columns
	return fyne.NewSize(float32(l.columns)*(tileWide+l.gap)-l.gap, float32(rows)*(tileHigh+l.gap)-l.gap)
}

// Layout implements fyne.Layout.
func (l tileGrid) Layout(objs []fyne.CanvasObject, s fyne.Size) {
	x0 := float32(math.Max(0, float64(s.Width-l.MinSize(objs).Width)/2))
	for i, o := range objs {
		o.Move(fyne.NewPos(x0+float32(i%l.columns)*(tileWide+l.gap), float32(i/l.columns)*(tileHigh+l.gap)))
		o.Resize(fyne.NewSize(tileWide, tileHigh))
	}
}
