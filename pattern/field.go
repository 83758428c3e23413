package pattern

import (
	"fretband/unroll"
	"fretband/unroll/plane"
)

// layField lays field i of the design and adds its openings to the sheet's.
func (s *Sheet) layField(i int) error {
	d, f, flat := s.Design, s.Design.Fields[i], s.Flat
	motif, err := f.motif()
	if err != nil {
		return err // Check has seen to it
	}
	bridge := f.Bridge(d.Rules)
	// The frame's edges run half a bridge outside the rim's, so that after the
	// inset the outer openings stand exactly on the rim.
	bottom, top := flat.Reach()
	frame := Frame{
		W: flat.Length - 2*s.Keep + bridge, H: top - bottom - 2*s.Keep + bridge,
		Rows: f.Rows, Repeats: f.Repeats, Stagger: f.Stagger,
		Closed: flat.Period > 0,
		Number: func(key string) float64 { return motif.number(f, key) },
	}
	if frame.Closed {
		frame.W = flat.Length
	}
	if frame.W <= bridge || frame.H <= bridge {
		return nil // the rims meet: nothing can be cut
	}
	c := &cutter{rule: bridge, corner: d.Rules.CornerMM, smallest: d.Rules.SmallestMM, images: []plane.Point{{}}}
	if frame.Closed && d.Band.Joint != unroll.Seamless {
		c.images = append(c.images, plane.Pt(-flat.Period, 0), plane.Pt(flat.Period, 0))
	}
	part := &Sheet{Design: d, Flat: flat, Rule: s.Rule, Keep: s.Keep, Ground: s.Ground}
	t := motif.Cells(frame)
	if w := newWarp(part, f, frame); w != nil {
		err = part.cutWarped(t, c, w)
	} else {
		if mid := (bottom + top) / 2; mid != 0 {
			for i := range t.Places {
				t.Places[i].At.Y += mid
			}
		}
		err = part.cut(t, c)
	}
	if err != nil {
		return err
	}
	s.add(part, i)
	return nil
}

// add takes over what was laid of field i. Shapes of different fields differ.
func (s *Sheet) add(part *Sheet, i int) {
	shapes := 0
	for _, o := range s.Openings {
		shapes = max(shapes, o.Shape+1)
	}
	for _, o := range part.Openings {
		o.Field, o.Edit = i, -1
		if o.Shape >= 0 {
			o.Shape += shapes
		}
		s.Openings = append(s.Openings, o)
	}
	for _, d := range part.Dropped {
		d.Field = i
		s.Dropped = append(s.Dropped, d)
	}
}
