package app

import (
	"fmt"
	"slices"

	"fretband/pattern"
	"fretband/unroll"
)

// AddPiece puts a short straight run after piece i and returns its index, -1
// where there are as many as there may be.
func AddPiece(d *pattern.Design, i int) int {
	*d = Clone(*d)
	ps := d.Band.Inside.Profile
	if len(ps) >= unroll.MaxPieces {
		return -1
	}
	i = max(-1, min(i, len(ps)-1)) + 1
	d.Band.Inside.Profile = slices.Insert(ps, i, unroll.Piece{LengthMM: 2})
	return i
}

// RemovePiece takes piece i away.
func RemovePiece(d *pattern.Design, i int) {
	*d = Clone(*d)
	if ps := d.Band.Inside.Profile; i >= 0 && i < len(ps) {
		d.Band.Inside.Profile = slices.Delete(ps, i, i+1)
	}
}

// CloseProfile closes the profile by the least change of its pieces, and says what it
// did.
func CloseProfile(d *pattern.Design) (string, error) {
	ps, most, err := unroll.ClosePieces(d.Band.Inside.Profile)
	if err != nil {
		return "", err
	}
	*d = Clone(*d)
	d.Band.Inside.Profile = ps
	return fmt.Sprintf("The pieces were changed by up to %s mm.", FormatNumber(most, 2)), nil
}
