package blank

import (
	"image/color"
	"math"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/unroll/plane"
)

// drawEngraved draws engravings as graver's cuts: a dark line with a light one a
// little below it, as light falls on a groove.
func (p *sheetPainter) drawEngraved(v viewport, s *app.Scene, d *kit.Dress, selected app.Item) {
	f := v.frame
	px := math.Max(1, f.scale)
	for _, m := range s.Sheet.Engravings {
		chosen := selected == app.Item{Kind: app.EngravingItem, Index: m.Engraving}
		ink := color.NRGBA{p.tone.Edge.R, p.tone.Edge.G, p.tone.Edge.B, 255}
		light := color.NRGBA{255, 255, 255, 110}
		w := px
		if chosen {
			ink, w = d.Selected, 1.5*f.scale
		}
		for _, pass := range [2]struct {
			dy float64
			c  color.NRGBA
		}{{px, light}, {0, ink}} {
			for _, st := range m.Strokes {
				p.xy = p.xy[:0]
				for i, e := range st.Edges() {
					pts := e.Flatten(0.2 / v.k)
					if i > 0 {
						pts = pts[1:]
					}
					for _, q := range pts {
						p.xy = append(p.xy, v.x(q.X), v.y(q.Y)+pass.dy)
					}
				}
				switch {
				case len(p.xy) <= 3:
				case m.Inside: // seen through the metal
					p.brokenPath(w, 2*f.scale)
				default:
					p.fill.Path(w, false, p.xy)
				}
			}
			p.drawInside(v, pass.c)
		}
	}
}

// brokenPath adds the line through the points as dashes, on and off for so many pixels.
func (p *sheetPainter) brokenPath(w, dash float64) {
	far := 0.0
	for i := 2; i < len(p.xy); i += 2 {
		x, y := p.xy[i-2], p.xy[i-1]
		dx, dy := p.xy[i]-x, p.xy[i+1]-y
		l := math.Hypot(dx, dy)
		for at := 0.0; at < l; {
			n := math.Floor((far + at) / dash)
			next := math.Min(l, (n+1)*dash-far+1e-9)
			if math.Mod(n, 2) == 0 {
				p.fill.Line(x+dx*at/l, y+dy*at/l, x+dx*next/l, y+dy*next/l, w)
			}
			at = next
		}
		far += l
	}
}

// clearUnderLetters takes a reserve's hatch away under text, which could not be read
// on it.
func (p *sheetPainter) clearUnderLetters(v viewport, s *app.Scene) {
	for _, m := range s.Sheet.Engravings {
		k := s.Sheet.Design.Engravings[m.Engraving]
		if k.Kind != pattern.TextEngraving || k.MarginMM < 0 {
			continue
		}
		on := true // the metal, all of it
		for _, q := range m.Frame {
			on = on && s.Sheet.Flat.Outline.Contains(q.Point)
		}
		if on {
			p.loopPath(v, m.Frame.Flatten(0.2/v.k), plane.Point{}, false)
			p.drawInside(v, p.tone.Face)
		}
	}
}

// drawFrame draws the box round what is selected or pointed at, in dashes.
func (p *sheetPainter) drawFrame(v viewport, s *app.Scene, it app.Item, c color.NRGBA) {
	if s == nil || it.Kind != app.EngravingItem {
		return
	}
	for _, m := range s.Sheet.Engravings {
		if m.Engraving != it.Index || len(m.Frame) < 4 {
			continue
		}
		f := v.frame
		for i := range m.Frame {
			e := m.Frame.Edge(i)
			if e.Len() > plane.Snap {
				p.fill.Dashes(v.x(e.A.X), v.y(e.A.Y), v.x(e.B.X), v.y(e.B.Y), math.Max(1, f.scale), 4*f.scale, 3*f.scale)
			}
		}
		p.drawInside(v, c)
	}
}
