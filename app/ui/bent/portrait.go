package bent

import (
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/pattern/view3d"
)

// Portrait bends a band, which takes a while, and returns what draws it small, as large as
// the picture takes it; nil if it can't be bent.
func Portrait(s *pattern.Sheet) func(*kit.Picture) {
	b := Bend(ToBend{Sheet: s})
	if b.Err != nil {
		return nil
	}
	var v view3d.View
	return func(p *kit.Picture) {
		w, h := int(p.W), int(p.H)
		l := lookOf(p.Dress)
		l.Ground, l.Metal = p.Dress.Panel, b.tone.Polish
		c := b.rest.Fit(view3d.Views()[0].Camera, w, h)
		p.Img = v.Draw(p.Img, w, h, b.rest, c, l)
	}
}

// lookOf is how bands look in a dress.
func lookOf(d *kit.Dress) view3d.Look {
	l := view3d.Light()
	if d.Dark() {
		l = view3d.Dark()
	}
	l.Ground, l.Hovered, l.Ink = d.Paper, d.Selected, d.Rule
	return l
}
