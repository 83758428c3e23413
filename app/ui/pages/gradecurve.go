package pages

import (
	"fmt"
	"math"
	"slices"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// GradeEditor edits one curve by which openings, or the rim, grow and shrink: a choice of
// curves to begin from, a drawing whose points can be dragged, and their numbers.
type GradeEditor struct {
	c     *Controls
	page  *page
	Curve app.Curve
	i     int // of the field

	box   *fyne.Container
	start *choiceRow
	Draw  *gradeCurve
	drawn fyne.CanvasObject
	cells []*NumberRow
}

func newGradeEditor(c *Controls, p *page, curve app.Curve, i, points int) *GradeEditor {
	k := c.Kit
	g := &GradeEditor{c: c, page: p, Curve: curve, i: i, start: newChoiceRow(k, c.Ed, app.GradeChoice(curve, i))}
	g.Draw = newGradeCurve(k, curve)
	g.Draw.onMove = func(j int, at, size float64) {
		ps := curve.Points(c.Ed.Now(), i)
		if j >= len(ps) {
			return
		}
		n := curve.Numbers(i, j)[1]
		n.Path = fmt.Sprintf("%s[%d]", curve.Path(i), j)
		n.Set = func(d *pattern.Design, v float64) { app.MoveGrade(d, curve, i, j, at, v) }
		c.Ed.Slide(n, size)
	}
	g.Draw.onEnd = c.Ed.Seal
	g.drawn = kit.Inset(0, 2, 0, 2, k.Framed(g.Draw))
	g.box = kit.Down(1, g.start.box, g.drawn)
	if points == 0 {
		return g
	}
	numbers := curve.Numbers(i, 0)
	g.box.Add(container.New(kit.Columns{Widths: gradeColumns, Gap: columnGap, Height: 20},
		k.Label("", kit.Caption), k.Label("Place", kit.Caption).Teach(numbers[0].Tip), k.Label("Size", kit.Caption).Teach(numbers[1].Tip),
		k.Button("Add", "One more point, where the curve has most room for it.", func() {
			g.change(func(d *pattern.Design) { app.AddGrade(d, curve, i) })
		})))
	for j := range points {
		objs := []fyne.CanvasObject{k.Label(fmt.Sprintf("   point %d", j+1), kit.Plain)}
		for _, n := range curve.Numbers(i, j) {
			cell := c.newNumberCell(p, n)
			g.cells = append(g.cells, cell)
			objs = append(objs, cell.Box)
		}
		objs = append(objs, container.New(kit.Columns{Widths: []float32{30}, Height: rowHeight}, k.Button("\u00d7", "Take this point away.", func() {
			g.change(func(d *pattern.Design) { app.RemoveGrade(d, curve, i, j) })
		})))
		g.box.Add(container.New(kit.Columns{Widths: gradeColumns, Gap: columnGap, Height: rowHeight}, objs...))
	}
	return g
}

// gradeColumns are those of the table of points.
var gradeColumns = []float32{labelWidth, entryWidth, entryWidth, 0}

// change edits the curve as one step.
func (g *GradeEditor) change(do func(*pattern.Design)) {
	g.c.Ed.Choose(app.Choice{Path: app.GradeChoice(g.Curve, g.i).Path,
		Get: func(d pattern.Design) string { return fmt.Sprint(len(g.Curve.Points(d, g.i))) },
		Set: func(d *pattern.Design, _ string) { do(d) }}, "changed")
}

func (g *GradeEditor) object() fyne.CanvasObject { return g.box }

func (g *GradeEditor) show(d pattern.Design) {
	g.start.show(d)
	ps := g.Curve.Points(d, g.i)
	kit.Show(g.drawn, len(ps) != 0)
	g.Draw.set(ps)
	for _, c := range g.cells {
		c.show(d)
	}
}

// gradeCurve draws the sizes of openings over the field, from end to end, with a
// handle on each point of the curve.
type gradeCurve struct {
	widget.BaseWidget
	kit    *kit.Kit
	curve  app.Curve
	points []pattern.Grade
	Held   int // the point being dragged, or -1
	over   int // the point under the pointer, or -1

	onMove func(j int, at, size float64)
	onEnd  func()

	picture *kit.Picture
}

var (
	_ fyne.Draggable     = (*gradeCurve)(nil)
	_ desktop.Mouseable  = (*gradeCurve)(nil)
	_ desktop.Hoverable  = (*gradeCurve)(nil)
	_ desktop.Cursorable = (*gradeCurve)(nil)
)

const (
	curveHigh = 74
	CurveRoom = 12 // about the curve, so that its handles stand free
)

func newGradeCurve(k *kit.Kit, c app.Curve) *gradeCurve {
	g := &gradeCurve{kit: k, curve: c, Held: -1, over: -1}
	g.picture = k.Picture(g.draw)
	g.ExtendBaseWidget(g)
	return g
}

// CreateRenderer implements fyne.Widget.
func (g *gradeCurve) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(g.picture.Raster)
}

// MinSize implements fyne.CanvasObject.
func (g *gradeCurve) MinSize() fyne.Size { return fyne.NewSize(100, curveHigh) }

func (g *gradeCurve) set(ps []pattern.Grade) {
	g.points = ps
	if g.over >= len(ps) {
		g.over = -1
	}
	g.picture.Refresh()
}

// top is the size at the upper edge of the drawing: half as much again as the
// greatest, in steps, so that it stands still while a point is dragged a little.
func (g *gradeCurve) top() float64 {
	most := 1.0
	for _, p := range g.points {
		most = math.Max(most, p.Size)
	}
	for _, t := range []float64{1.25, 2, 3, 5} {
		if most <= t {
			return t
		}
	}
	return pattern.GradeRange.Max
}

// PointAt returns where a point of the curve is on a drawing of that size.
func (g *gradeCurve) PointAt(at, size, w, h, room float64) (x, y float64) {
	return room + (at+1)/2*(w-2*room), h - 2 - size/g.top()*(h-2-room)
}

func (g *gradeCurve) at(p fyne.Position) (at, size float64) {
	w, h := float64(g.Size().Width), float64(g.Size().Height)
	at = (float64(p.X)-CurveRoom)/(w-2*CurveRoom)*2 - 1
	size = (h - 2 - float64(p.Y)) / (h - 2 - CurveRoom) * g.top()
	return at, size
}

func (g *gradeCurve) near(p fyne.Position) int {
	best, j := 14.0, -1
	for i, q := range g.points {
		x, y := g.PointAt(q.At, q.Size, float64(g.Size().Width), float64(g.Size().Height), CurveRoom)
		if d := math.Hypot(x-float64(p.X), y-float64(p.Y)); d < best {
			best, j = d, i
		}
	}
	return j
}

// MouseDown implements desktop.Mouseable.
func (g *gradeCurve) MouseDown(e *desktop.MouseEvent) {
	if e.Button == desktop.MouseButtonPrimary {
		g.Held = g.near(e.Position)
	}
}

// MouseUp implements desktop.Mouseable.
func (g *gradeCurve) MouseUp(*desktop.MouseEvent) { g.DragEnd() }

// Dragged implements fyne.Draggable.
func (g *gradeCurve) Dragged(e *fyne.DragEvent) {
	if g.Held < 0 || g.Held >= len(g.points) || g.onMove == nil {
		return
	}
	at, size := g.at(e.Position)
	g.onMove(g.Held, math.Max(-1, math.Min(1, at)), size)
}

// DragEnd implements fyne.Draggable.
func (g *gradeCurve) DragEnd() {
	if g.Held >= 0 && g.onEnd != nil {
		g.onEnd()
	}
	g.Held = -1
	g.picture.Refresh()
}

// MouseIn implements desktop.Hoverable.
func (g *gradeCurve) MouseIn(e *desktop.MouseEvent) {
	g.MouseMoved(e)
	from, to := g.curve.Ends()
	g.kit.Tips.Rest(g, fmt.Sprintf("The %s from the %s end to the %s end. Drag the points.", g.curve.What(), from, to))
}

// MouseMoved implements desktop.Hoverable.
func (g *gradeCurve) MouseMoved(e *desktop.MouseEvent) {
	if j := g.near(e.Position); j != g.over {
		g.over = j
		g.picture.Refresh()
	}
}

// MouseOut implements desktop.Hoverable.
func (g *gradeCurve) MouseOut() {
	g.over = -1
	g.kit.Tips.Leave(g)
	g.picture.Refresh()
}

// Cursor implements desktop.Cursorable.
func (g *gradeCurve) Cursor() desktop.Cursor {
	if g.over >= 0 || g.Held >= 0 {
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}

func (g *gradeCurve) draw(p *kit.Picture) {
	d, w, h, s := p.Dress, p.W, p.H, p.Scale
	p.Ground(d.Paper)
	if len(g.points) == 0 || w < 30 || h < 20 {
		return
	}
	place := func(at, size float64) (x, y float64) { return g.PointAt(at, size, w, h, CurveRoom*s) }
	// The line of size 1, and the middle of the field.
	x0, y1 := place(-1, 1)
	x2, _ := place(1, 1)
	p.Dashes(x0, y1, x2, y1, s, 3*s, 3*s)
	mid, _ := place(0, 1)
	p.Dashes(mid, 0, mid, h, s, 3*s, 3*s)
	p.Draw(d.Line)
	const steps = 96
	size := pattern.GradeCurve(g.points)
	xy := make([]float64, 0, 2*(steps+1))
	for i := range steps + 1 {
		at := 2*float64(i)/steps - 1
		x, y := place(at, size(at))
		xy = append(xy, x, y)
	}
	p.Polygon(slices.Concat([]float64{x0, h}, xy, []float64{x2, h})...)
	p.Draw(kit.Alpha(d.Selected, 36))
	p.Path(1.5*s, false, xy)
	p.Draw(d.Selected)
	face := g.kit.Faces.Size(10 * s)
	from, to := g.curve.Ends()
	face.Draw(p.Img, from, x0, h-5*s, kit.AlignLeft, d.Soft)
	face.Draw(p.Img, to, x2, h-5*s, kit.AlignRight, d.Soft)
	for j, q := range g.points {
		x, y := place(q.At, q.Size)
		r := 4.0 * s
		if j == g.over || j == g.Held {
			r = 5.5 * s
		}
		p.Disc(x, y, r+1.5*s)
		p.Draw(d.Paper)
		p.Disc(x, y, r)
		p.Draw(d.Selected)
		if j == g.Held {
			face.Draw(p.Img, app.FormatNumber(q.Size, 2), math.Max(14*s, math.Min(w-14*s, x)), math.Max(9*s, y-9*s), kit.AlignMiddle, d.Ink)
		}
	}
}
