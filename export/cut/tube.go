package cut

import (
	"errors"
	"math"

	"fretband/export"
	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// Tube reports whether a laser shop cuts the band from tube that turns under the beam: a
// seamless band is no flat part. Its file is once round the tube, without a line at the ends
// of the drawing, which are one place; openings run on over them.
func Tube(s *pattern.Sheet, o export.Options) bool {
	return o.For == export.LaserShop && s.Seamless() && !s.Flat.Domed()
}

// ErrForm says that a band can be cut neither from flat sheet nor from tube.
var ErrForm = errors.New("the band is formed in the round and is no plain tube, so a laser can't cut it: hand it to the caster, " +
	"or let the design say that the band is bent from sheet (its making) and has a soldered joint")

// checkForm says what of the options or the band a laser shop can't use.
func checkForm(s *pattern.Sheet, o export.Options) error {
	switch {
	case o.For != export.LaserShop:
		return nil
	case Tube(s, o) && o.StockW > 0:
		return errors.New("sheet: this band is cut from tube, not from a sheet: give no size of a sheet")
	case Tube(s, o):
		return nil
	case s.Seamless() || s.Design.Band.Making == unroll.Formed:
		return ErrForm
	}
	return nil
}

// openAtEnds leaves out what of a tube's outline lies at the ends of the drawing: the cut is
// one run along the lower edge and one back along the upper, or several with tabs between
// them, half of them on each edge. Lead-ins come along the tube.
//
// Errors: tabs for which an edge has no positions.
func openAtEnds(c *cuttingLine, length float64, o export.Options) error {
	half := length / 2
	atEnd := func(p plane.Point, side float64) bool { return math.Abs(p.X-side*half) <= plane.Snap }
	// The lower edge starts where the line comes down the left end.
	first := 0
	for i := range c.loop {
		e := c.loop.Edge(i)
		if atEnd(e.A, -1) && !atEnd(e.B, -1) {
			first = i
		}
	}
	var whole, edge plane.Chain
	tabs := o.Tabs - o.Tabs/2
	end := func() error {
		if edge == nil {
			return nil
		}
		runs := []run{{edge: edge}}
		if tabs > 0 {
			var err error
			if runs, edge, err = tabbed(edge, tabs, o.Tab(), o.KerfMM); err != nil {
				return err
			}
		}
		c.runs, whole = append(c.runs, runs...), append(whole, edge...)
		edge, tabs = nil, o.Tabs/2
		return nil
	}
	for _, e := range begun(c.loop, first).Edges() {
		if atEnd(e.A, -1) && atEnd(e.B, -1) || atEnd(e.A, 1) && atEnd(e.B, 1) {
			if err := end(); err != nil {
				return err
			}
			whole = append(whole, e)
			continue
		}
		edge = append(edge, e)
	}
	if err := end(); err != nil {
		return err
	}
	c.loop = whole.Loop()
	if o.LeadMM > 0 {
		leadRuns(c, o.LeadMM, func(e plane.Edge) plane.Point { return plane.Pt(0, math.Copysign(1, outward(e).Y)) })
	}
	return nil
}

// place places the copies: on a sheet of metal ([nest]), or one after the other along a tube.
//
// Errors: a [RoomError].
func place(body []plane.Loop, s *pattern.Sheet, o export.Options) (plane.Box, []placed, error) {
	n := o.Parts()
	if !Tube(s, o) || n == 1 {
		return nest(body, o)
	}
	b := plane.Region(body).Bounds().Grow(o.Chord()) // as nest allows for chords of hollow arcs
	pitch := b.H() + o.Gap()
	var copies []placed
	for i := range n {
		copies = append(copies, placed{at: plane.Pt(o.Margin()-b.Min.X, o.Margin()-b.Min.Y+float64(i)*pitch)})
	}
	return plane.Box{Max: plane.Pt(b.W()+2*o.Margin(), float64(n)*pitch-o.Gap()+2*o.Margin())}, copies, nil
}

// TubeFacts says what a shop that cuts tube has to set, before all else; nothing for flat
// parts.
func TubeFacts(s *pattern.Sheet, o export.Options) []export.Fact {
	if !Tube(s, o) {
		return nil
	}
	round := s.Flat.Length
	return []export.Fact{{Label: "Tube, not flat sheet", Text: pattern.Say("once round is %.4f mm along x, %.6f degrees of turn a millimetre; y runs along the tube, wall %s mm. "+
		"Nothing is cut at the ends of the drawing: they are one place, and openings run on over them", round, 360/round, export.MM(s.Flat.Thickness))}}
}
