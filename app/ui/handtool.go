package ui

import (
	"fmt"
	"math"

	"fretband/app"
	"fretband/pattern"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
)

// takeTool has the next drag on the blank draw a single opening of that shape; the
// same again, or none, puts the tool away.
func (w *Window) takeTool(shape string) {
	m := &w.blank.marks
	if m.hand.tool == shape {
		shape = ""
	}
	m.hand.tool, m.hand.draft = shape, nil
	if shape != "" {
		w.controls.turnTo(handPageAt)
	}
	w.controls.hand.show(w.doc.Now())
	w.log.Event("tool", "shape", shape)
	w.blank.redraw()
}

// leastDrawn is the smallest box of the hand that is taken for a shape, mm: less is
// a slip.
const leastDrawn = 0.3

// grabTool draws the opening of the tool in the hand.
func (w *Window) grabTool(at plane.Point, _ fyne.KeyModifier) *hold {
	m := &w.blank.marks
	if m.hand.tool == "" || w.scene == nil {
		return nil
	}
	var e pattern.Edit
	return &hold{
		move: func(to plane.Point) {
			e = drawnIn(m.hand.tool, at, to)
			m.hand.draft = draftOf(e)
			m.beside = app.EditText(e) + " mm"
		},
		drop: func() {
			m.hand.draft = nil
			if e.WidthMM >= leastDrawn && (e.HeightMM >= leastDrawn || e.Shape == pattern.CircleShape) {
				w.draw(e)
			}
		},
	}
}

// drawnIn returns the shape in the box of two corners.
func drawnIn(shape string, a, b plane.Point) pattern.Edit {
	w, h := math.Abs(b.X-a.X), math.Abs(b.Y-a.Y)
	c := a.Mid(b)
	e := pattern.Edit{Do: pattern.Add, Shape: shape, WidthMM: hundredths(w), HeightMM: hundredths(h)}
	if shape == pattern.CircleShape {
		r := math.Max(w, h) / 2
		c = a.Add(plane.Pt(math.Copysign(r, b.X-a.X), math.Copysign(r, b.Y-a.Y)))
		e.WidthMM, e.HeightMM = hundredths(2*r), 0
	}
	e.At = []pattern.Spot{{XMM: c.X, YMM: c.Y}}
	return e
}

// draftOf returns the outline of an opening that is being drawn, as it would lie on
// a band that is not flared.
func draftOf(e pattern.Edit) plane.Loop {
	c := plane.Pt(e.At[0].XMM, e.At[0].YMM)
	switch e.Shape {
	case pattern.CircleShape:
		return plane.Circle(c, e.WidthMM/2)
	case pattern.OvalShape:
		var ps []plane.Point
		for i := range 48 {
			s, co := math.Sincos(float64(i) * math.Pi / 24)
			ps = append(ps, c.Add(plane.Pt(e.WidthMM/2*co, e.HeightMM/2*s)))
		}
		return plane.Polygon(ps...)
	}
	h := plane.Pt(e.WidthMM/2, e.HeightMM/2)
	return plane.Rect(plane.Box{Min: c.Sub(h), Max: c.Add(h)})
}

// drawAt cuts an opening of the tool's shape where the hand clicked, as large as
// the last one.
func (w *Window) drawAt(at plane.Point) {
	shape := w.blank.marks.hand.tool
	size, ok := w.hand.last[shape]
	if !ok {
		size = [2]float64{4, 2.5}
		if shape == pattern.CircleShape {
			size = [2]float64{3, 0}
		}
	}
	w.draw(pattern.Edit{Shape: shape, WidthMM: size[0], HeightMM: size[1], At: []pattern.Spot{{XMM: at.X, YMM: at.Y}}})
}

// draw cuts a single opening, picks it and puts the tool away.
func (w *Window) draw(e pattern.Edit) {
	d := w.doc.Now()
	if len(d.Edits) >= pattern.MaxEdits {
		w.controls.setProblem(fmt.Sprintf("A design holds at most %d edits by hand.", pattern.MaxEdits))
		return
	}
	if w.hand.last == nil {
		w.hand.last = map[string][2]float64{}
	}
	w.hand.last[e.Shape] = [2]float64{e.WidthMM, e.HeightMM}
	e.Mirror = w.hand.mirror
	picks := app.Draw(&d, e)
	w.blank.marks.hand.tool = ""
	w.pickThese(picks)
	w.change("", "edits", fmt.Sprint(len(d.Edits)-1), app.EditText(e), d)
	w.showPicked()
	w.tellSoon()
}
