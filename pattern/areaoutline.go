package pattern

import "fretband/unroll/plane"

// AreaOutline returns the outline of the area of field i as it lies on the blank,
// cut off at the blank's edge: nothing for the whole band. On a closed band an area
// that runs over the seam comes in again at the other end.
func (s *Sheet) AreaOutline(i int) plane.Region {
	a, err := s.Design.Fields[i].Area.land(s.Flat)
	if err != nil || a.all {
		return nil // Lay has seen to the error
	}
	r, err := a.within(0)
	if err != nil {
		return nil
	}
	r, err = plane.And(r, plane.Region{s.Flat.Outline})
	if err != nil {
		return nil // an outline is only shown: better none than a wrong one
	}
	return r
}
