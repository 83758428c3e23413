package blank

import (
	"fmt"
	"math"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/unroll/plane"
)

// fieldHandles are those of the rim, while the page of the pattern is open, and of the area
// of a field that was chosen by hand: the ends of a run or a strip; the middle, the size and
// the rotation of a shape. The area is outlined as well.
func (b *View) fieldHandles(s *app.Scene) []handle {
	m := &b.Overlay
	m.Area = nil
	if b.ed.Page != app.PatternPage || b.ed.Folded {
		return nil
	}
	hs := []handle{b.rimHandle(s)}
	i := b.ed.Field
	if i >= len(s.Sheet.Design.Fields) || !b.ed.FieldShown {
		return hs
	}
	for _, l := range b.areaOutline(s, i) {
		m.Area = append(m.Area, l.Flatten(0.05))
	}
	f, a := s.Sheet.Flat, s.Sheet.Design.Fields[i].Area
	path := fmt.Sprintf("fields[%d].area", i)
	take := func(name string, told func(pattern.Area) string, move func(d *pattern.Design, to plane.Point)) func() drag {
		return func() drag {
			return drag{move: func(to plane.Point) {
				d := b.ed.Now()
				if i >= len(d.Fields) {
					return
				}
				old := told(d.Fields[i].Area)
				move(&d, to)
				now := told(d.Fields[i].Area)
				b.Overlay.Beside = now
				b.ed.Change(path+name, path+name, old, now, d)
			}}
		}
	}
	// On a closed band the middle is drawn in the turn of the blank.
	switch a.Shape {
	case "":
	case pattern.RunShape:
		off := (a.FromMM+a.ToMM)/2 - f.Home((a.FromMM+a.ToMM)/2)
		for k, x := range [2]float64{a.FromMM, a.ToMM} {
			bottom, top := f.EdgesAt(math.Max(-f.Length/2, math.Min(f.Length/2, x-off)))
			hs = append(hs, handle{At: f.Place(x-off, (bottom+top)/2), Name: [2]string{path + ".from_mm", path + ".to_mm"}[k], hint: "end of the run",
				take: take([2]string{".from_mm", ".to_mm"}[k], app.AreaPositionText, func(d *pattern.Design, to plane.Point) {
					at, _ := f.Where(to)
					app.StretchArea(d, i, k == 1, at+off)
				})})
		}
	case pattern.StripShape:
		for k, y := range [2]float64{a.FromMM, a.ToMM} {
			hs = append(hs, handle{At: f.Place(0, y), Name: [2]string{path + ".from_mm", path + ".to_mm"}[k], hint: "edge of the strip",
				take: take([2]string{".from_mm", ".to_mm"}[k], app.AreaPositionText, func(d *pattern.Design, to plane.Point) {
					_, v := f.Where(to)
					app.StretchArea(d, i, k == 1, v)
				})})
		}
	default:
		off := a.XMM - f.Home(a.XMM)
		mid := plane.Pt(a.XMM-off, a.YMM)
		turn := a.RotationDeg * math.Pi / 180
		hs = append(hs, handle{At: mid, Name: path + ".middle", hint: "middle of the field", free: true,
			take: take(".middle", app.AreaPositionText, func(d *pattern.Design, to plane.Point) { app.MoveArea(d, i, to.X+off, to.Y) })})
		if a.WidthMM == 0 {
			break // a path as large as it was drawn
		}
		corner := plane.Pt(a.WidthMM/2, a.HeightMM/2)
		hs = append(hs, handle{At: mid.Add(corner.Turn(turn)), Name: path + ".size", hint: "size of the field",
			take: take(".size", app.AreaSize, func(d *pattern.Design, to plane.Point) {
				v := to.Sub(mid)
				if a.Shape == pattern.CircleShape {
					app.SizeArea(d, i, 2*v.Len(), 0)
					return
				}
				v = v.Turn(-turn)
				app.SizeArea(d, i, 2*math.Abs(v.X), 2*math.Abs(v.Y))
			})})
		if a.Shape != pattern.CircleShape {
			right := mid.Add(plane.Pt(a.WidthMM/2, 0).Turn(turn))
			hs = append(hs, handle{At: mid.Add(plane.Pt(a.WidthMM/2+turnStem, 0).Turn(turn)), stem: &right, round: true, Name: path + ".turn_deg", hint: "turn of the field",
				take: take(".turn_deg", app.AreaSize, func(d *pattern.Design, to plane.Point) {
					v := to.Sub(mid)
					app.RotateArea(d, i, math.Atan2(v.Y, v.X)*180/math.Pi)
				})})
		}
	}
	return hs
}

// turnStem is how far the handle that turns an area is outside of it, mm.
const turnStem = 4.0

// areaOutline is the outline of the area of a field, kept until the scene or the field
// changes.
type areaOutline struct {
	scene *app.Scene
	field int
	loops plane.Region
}

func (b *View) areaOutline(s *app.Scene, i int) plane.Region {
	if b.area.scene != s || b.area.field != i {
		b.area = areaOutline{s, i, s.Sheet.AreaOutline(i)}
	}
	return b.area.loops
}

// rimHandle is on the inner edge of the rim, a little right of the middle.
func (b *View) rimHandle(s *app.Scene) handle {
	f := s.Sheet.Flat
	x := f.Length * 0.06
	_, top := f.EdgesAt(x)
	along := s.Sheet.RimShare(x)
	return handle{At: f.Place(x, top-s.Sheet.RimAt(x)), Name: "rules.rim_mm", hint: "rim", quiet: true, take: func() drag {
		n, _ := app.NumberAt(b.ed.Now(), "rules.rim_mm")
		return drag{move: func(to plane.Point) {
			x, v := f.Where(to)
			_, top := f.EdgesAt(math.Max(-f.Length/2, math.Min(f.Length/2, x)))
			b.ed.Slide(n, math.Round((top-v)/along*20)/20)
			b.Overlay.Beside = "rim " + n.Text(b.ed.Now()) + " mm"
		}}
	}}
}

// drawArea outlines the area of the selected field: light and dark in turn, so that
// it shows on metal and on ground.
func (p *sheetPainter) drawArea(v viewport, d *kit.Dress, m overlay) {
	s := v.frame.scale
	for _, l := range m.Area {
		p.strokePath(v, l, plane.Point{}, 3.5*s)
		p.drawInside(v, kit.Alpha(d.Paper, 170))
		p.strokePath(v, l, plane.Point{}, 1.5*s)
		p.drawInside(v, d.Selected)
	}
}

// drawHint names the handle under the pointer.
func (p *sheetPainter) drawHint(v viewport, d *kit.Dress, m overlay) {
	if m.held >= 0 || m.OverHandle < 0 || m.OverHandle >= len(m.Handles) {
		return
	}
	if h := m.Handles[m.OverHandle]; h.hint != "" {
		p.chip(v, h.hint, v.x(h.At.X), v.y(h.At.Y)-24*v.frame.scale, d, d.Selected)
	}
}
