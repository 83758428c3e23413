package blank

import (
	"math"

	"fretband/app"
	"fretband/pattern"
	"fretband/unroll/plane"
)

// underlay is a picture to trace and where it lies.
type underlay struct {
	picture *app.Under // nil for none
	at      pattern.Underlay
}

// high returns how high it is, mm.
func (u underlay) high() float64 {
	b := u.picture.Image.Rect
	return u.at.WidthMM * float64(b.Dy()) / float64(max(1, b.Dx()))
}

// showUnderlay takes the picture of the design as it is now, if there is one.
func (b *View) showUnderlay() {
	b.Overlay.under = underlay{}
	if u := b.ed.Under(); u != nil && u.Err == nil {
		b.Overlay.under = underlay{u, b.ed.Now().Underlay}
	}
}

// dimmed is how dark black is where it lies over the drawing, of 256.
const dimmed = 150

// drawUnderlay lays the picture over metal and openings: its dark lines darken them, its white
// leaves them as they are.
func (p *sheetPainter) drawUnderlay(v viewport, u underlay) {
	if u.picture == nil {
		return
	}
	f := v.frame
	wide, high := u.at.WidthMM, u.high()
	c := plane.Pt(u.at.XMM, u.at.YMM)
	sin, cos := math.Sincos(u.at.RotationDeg * math.Pi / 180)
	reach := math.Hypot(wide, high) / 2
	x0, x1 := max(int(f.left), int(v.x(c.X-reach))), min(int(f.right), int(v.x(c.X+reach))+1)
	y0, y1 := max(int(f.top), int(v.y(c.Y+reach))), min(int(f.bottom), int(v.y(c.Y-reach))+1)
	// From a pixel of the window to one of the picture: both steps are straight.
	whole := float64(u.picture.Image.Rect.Dx()) / wide // its points to the millimetre
	img := u.picture.Reduced(max(0, int(math.Log2(whole/v.k))))
	b := img.Rect
	per := float64(b.Dx()) / wide
	for y := y0; y < y1; y++ {
		row := p.target.Pix[y*p.target.Stride:]
		for x := x0; x < x1; x++ {
			q := v.mm(float64(x)+0.5, float64(y)+0.5).Sub(c)
			i := int(math.Floor((q.X*cos + q.Y*sin + wide/2) * per))
			j := int(math.Floor((high/2 - (q.Y*cos - q.X*sin)) * per))
			if uint(i) >= uint(b.Dx()) || uint(j) >= uint(b.Dy()) {
				continue
			}
			from := img.Pix[j*img.Stride+4*i:]
			to := row[4*x:]
			for k := range 3 {
				to[k] = uint8(int(to[k]) * (256*255 - dimmed*(255-int(from[k]))) / (256 * 255))
			}
		}
	}
}

// underlayHandles are those of the picture, while its controls are open: its middle moves it,
// its right edge makes it wider.
func (b *View) underlayHandles() []handle {
	u := b.Overlay.under
	if u.picture == nil || !b.ed.TraceShown || b.ed.Page != app.HandPage {
		return nil
	}
	rotation := u.at.RotationDeg * math.Pi / 180
	c := plane.Pt(u.at.XMM, u.at.YMM)
	one := func(name, hint string, at plane.Point, do func(change func(string, ...float64), to plane.Point)) handle {
		return handle{At: at, Name: "underlay." + name, hint: hint, free: true, take: func() drag {
			change := b.ed.HoldUnderlay()
			return drag{move: func(to plane.Point) {
				do(change, to)
				b.showUnderlay()
			}, drop: func() { b.ShowHandles() }}
		}}
	}
	move := one("place", "Move the picture.", c, func(change func(string, ...float64), to plane.Point) {
		b.Overlay.Beside = pattern.Say("x %.2f   y %.2f mm", to.X, to.Y)
		change("place", to.X, to.Y)
	})
	move.round = true
	edge := c.Add(plane.Pt(u.at.WidthMM/2, 0).Turn(rotation))
	return []handle{move, one("width", "Make the picture wider or narrower.", edge, func(change func(string, ...float64), to plane.Point) {
		wide := 2 * to.Sub(c).Turn(-rotation).X
		b.Overlay.Beside = pattern.Say("%.2f mm wide", math.Max(1, wide))
		change("width", wide)
	})}
}
