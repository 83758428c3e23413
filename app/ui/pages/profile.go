package pages

import (
	"fmt"
	"math"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// profileEditor edits an inside of straight runs and arcs by their numbers, under
// a small drawing of it that is there whether or not it closes.
type profileEditor struct {
	c    *Controls
	page *page
	box  *fyne.Container

	picture *kit.Picture
	drawn   unroll.PiecesDrawn

	list   *fyne.Container
	State  *kit.Passage
	closer *kit.Button
	rows   []row
	count  int // number of pieces that the list was made for
}

const profileHeight = 156

func newProfileEditor(c *Controls, p *page) *profileEditor {
	k := c.Kit
	ed := &profileEditor{c: c, page: p, count: -1}
	ed.picture = k.Picture(ed.draw)
	ed.picture.SetMinSize(fyne.NewSize(100, profileHeight))
	ed.list = kit.Down(1)
	ed.State = k.Passage("", kit.Caption, ControlsWidth-40)
	ed.closer = k.Button("Close it", "Change the pieces as little as makes the end meet the start.", ed.close).Framed()
	ed.box = kit.Down(3, kit.Inset(0, 4, 0, 2, k.Framed(ed.picture.Raster)), ed.State,
		container.New(kit.Columns{Widths: []float32{104, 104}, Gap: columnGap, Height: rowHeight}, ed.closer,
			k.Button("Add a piece", "A short straight run at the end of the profile.", func() {
				ed.change(func(d *pattern.Design) { app.AddPiece(d, len(d.Band.Inside.Profile)) })
			}).Framed()),
		container.New(kit.Columns{Widths: pieceColumns[:4], Gap: columnGap, Height: 18}, k.Label("", kit.Caption), k.Label("Piece", kit.Caption),
			k.Label("mm", kit.Caption).Teach("The length of a straight run, the radius of an arc on the inner face."),
			k.Label("Angle, \u00b0", kit.Caption).Teach("In degrees, how far an arc turns: negative bends away from the wrist.")),
		ed.list)
	return ed
}

// pieceColumns are those of the table: number, kind, two numbers, add, remove.
var pieceColumns = []float32{18, 92, 64, 64, 24, 24}

// change edits the profile as one step.
func (ed *profileEditor) change(do func(*pattern.Design)) {
	ed.c.Ed.Choose(app.Choice{Path: "band.inside.profile",
		Get: func(d pattern.Design) string { return fmt.Sprint(len(d.Band.Inside.Profile)) },
		Set: func(d *pattern.Design, _ string) { do(d) }}, "changed")
}

func (ed *profileEditor) close() {
	d := ed.c.Ed.Now()
	if _, err := app.CloseProfile(&d); err != nil {
		ed.c.say("The profile can't be closed: " + err.Error() + ".")
		return
	}
	ed.c.say("")
	ed.change(func(d *pattern.Design) { _, _ = app.CloseProfile(d) })
}

func (ed *profileEditor) object() fyne.CanvasObject { return ed.box }

func (ed *profileEditor) show(d pattern.Design) {
	if d.Band.Inside.By != unroll.ByProfile {
		ed.box.Hide()
		return
	}
	ed.box.Show()
	ps := d.Band.Inside.Profile
	if len(ps) != ed.count {
		ed.lay(len(ps))
	}
	for _, r := range ed.rows {
		r.show(d)
	}
	ed.drawn = unroll.DrawPieces(ps)
	v := kit.Caption
	if !ed.drawn.Closes() {
		v = kit.Warn
	}
	ed.State.Set(profileState(ed.drawn), v, ControlsWidth-40)
	ed.closer.SetOff(ed.drawn.Closes())
	ed.picture.Refresh()
	ed.box.Refresh()
}

// profileState says how large a profile is and whether it closes.
func profileState(d unroll.PiecesDrawn) string {
	size := pattern.Say("%.2f x %.2f mm, %.2f mm round.", d.Box.W(), d.Box.H(), d.Length)
	switch {
	case math.Abs(d.TotalAngle-360) > unroll.ClosingAngle:
		return fmt.Sprintf("The angles add up to %s\u00b0, not to 360\u00b0. %s", app.FormatNumber(d.TotalAngle, 2), size)
	case !d.Closes():
		return pattern.Say("Its end misses its start by %.2f mm. %s", d.Miss.Len(), size)
	}
	return "It closes. " + size
}

func (ed *profileEditor) lay(n int) {
	k := ed.c.Kit
	ed.c.forget("band.inside.profile[")
	ed.count, ed.rows = n, nil
	ed.c.Opened()
	ed.list.RemoveAll()
	for i := range n {
		choice := newChoiceRow(k, ed.c.Ed, app.ChoiceOf("band.inside.profile[]", i))
		choice.box = container.NewStack(k.Framed(choice.list))
		ns := app.Numbers(pattern.ProfileGroup, i)
		length, radius, angle := ed.c.newNumberCell(ed.page, ns[0]), ed.c.newNumberCell(ed.page, ns[1]), ed.c.newNumberCell(ed.page, ns[2])
		ed.rows = append(ed.rows, choice, length, radius, angle)
		ed.list.Add(container.New(kit.Columns{Widths: pieceColumns, Gap: columnGap, Height: rowHeight},
			k.Label(fmt.Sprint(i+1), kit.Plain), choice.box, container.NewStack(length.Box, radius.Box), container.NewStack(angle.Box),
			k.Button("+", "Put a short straight run after this piece.", func() { ed.change(func(d *pattern.Design) { app.AddPiece(d, i) }) }),
			k.Button("\u00d7", "Take this piece away.", func() { ed.change(func(d *pattern.Design) { app.RemovePiece(d, i) }) })))
	}
}

// draw draws the profile: the pieces in turn light and dark, each with its
// number, the front above, and what is missing at the joint.
func (ed *profileEditor) draw(p *kit.Picture) {
	d, drawn, scale := p.Dress, ed.drawn, p.Scale
	p.Ground(d.Paper)
	if len(drawn.Pieces) == 0 || drawn.Box.Empty() || p.W < 20 || p.H < 20 {
		return
	}
	room := 24 * scale
	k := math.Min((p.W-2*room)/math.Max(drawn.Box.W(), 1), (p.H-2*room)/math.Max(drawn.Box.H(), 1))
	mid := drawn.Box.Centre()
	x := func(q plane.Point) float64 { return p.W/2 + (q.X-mid.X)*k }
	y := func(q plane.Point) float64 { return p.H/2 - (q.Y-mid.Y)*k }
	face := ed.c.Kit.Faces.Size(11 * scale)
	var first, last plane.Point
	some := false
	for i, es := range drawn.Pieces {
		var xy []float64
		for _, e := range es {
			if e.Len() == 0 {
				continue
			}
			for j := range 25 {
				q := e.At(float64(j) / 24)
				xy = append(xy, x(q), y(q))
			}
			if !some {
				first, some = e.A, true
			}
			last = e.B
		}
		if len(xy) == 0 {
			continue
		}
		ink := d.Selected
		if i%2 == 1 {
			ink = d.Soft
		}
		p.Path(3*scale, false, xy)
		p.Draw(ink)
		if len(drawn.Pieces) > 20 {
			continue // their numbers would lie over each other
		}
		// The number is inside, off the middle of the piece.
		m := es[len(es)/2]
		t := 0.5
		if len(es)%2 == 0 {
			t = 0
		}
		q, n := m.At(t), m.Tangent(t).Left()
		face.Draw(p.Img, fmt.Sprint(i+1), x(q)+n.X*11*scale, y(q)-n.Y*11*scale+face.Height()/2, kit.AlignMiddle, d.Ink)
	}
	if some && !drawn.Closes() {
		p.Dashes(x(last), y(last), x(first), y(first), 1.5*scale, 4*scale, 3*scale)
		p.Draw(d.Breach)
		p.Ring(x(last), y(last), 4*scale, 1.5*scale)
		p.Draw(d.Breach)
	}
	p.Disc(x(first), y(first), 4*scale)
	p.Draw(d.Ink)
	face.Draw(p.Img, "front", x(first), y(first)-8*scale, kit.AlignMiddle, d.Soft)
}
