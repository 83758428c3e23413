package app

import (
	"fmt"

	"fretband/pattern"
	"fretband/unroll"
)

// Kinds of piece of a free profile.
const (
	RunPiece = "run" // a straight run
	ArcPiece = "arc"
)

func pieceKind(p unroll.Piece) string {
	if p.LengthMM != 0 || p.RadiusMM == 0 && p.AngleDeg == 0 {
		return RunPiece
	}
	return ArcPiece
}

func pieceIs(i int, kind string) func(pattern.Design) bool {
	return func(d pattern.Design) bool {
		ps := d.Band.Inside.Profile
		return i < len(ps) && pieceKind(ps[i]) == kind
	}
}

// PieceNumbers are the numbers of piece i of a free profile: the length of a
// straight run, or the radius and the angle of an arc.
func PieceNumbers(i int) []Number {
	num := func(field, title, unit, tip, kind string, r pattern.Range, step float64, at func(*unroll.Piece) *float64) Number {
		return Number{
			Path: fmt.Sprintf("band.inside.profile[%d].%s", i, field), Title: fmt.Sprintf("Piece %d, %s", i+1, title), Unit: unit, Tip: tip,
			Min: r.Min, Max: r.Max, Step: step, Places: 4,
			Get: func(d pattern.Design) float64 {
				if i < len(d.Band.Inside.Profile) {
					return *at(&d.Band.Inside.Profile[i])
				}
				return 0
			},
			Set: func(d *pattern.Design, v float64) {
				if i < len(d.Band.Inside.Profile) {
					*d = Clone(*d)
					*at(&d.Band.Inside.Profile[i]) = v
				}
			},
			Shown: pieceIs(i, kind),
		}
	}
	return []Number{
		num("length_mm", "length", "mm", "Of the straight run.", RunPiece,
			pattern.Range{Min: unroll.MinPiece, Max: unroll.MaxInside}, 0.5, func(p *unroll.Piece) *float64 { return &p.LengthMM }),
		num("radius_mm", "radius", "mm", "Of the arc, on the inner face.", ArcPiece,
			pattern.Range{Min: unroll.MinPieceRadius, Max: unroll.MaxPieceRadius}, 0.5, func(p *unroll.Piece) *float64 { return &p.RadiusMM }),
		num("angle_deg", "angle", "\u00b0", "How far the arc turns: positive bends round the wrist, negative away from it. All angles together are 360\u00b0.", ArcPiece,
			pattern.Range{Min: -360, Max: 360}, 1, func(p *unroll.Piece) *float64 { return &p.AngleDeg }),
	}
}

// PieceChoice chooses what piece i is. An arc begins as the straight run was
// long, and the other way round.
func PieceChoice(i int) Choice {
	return Choice{
		Path: fmt.Sprintf("band.inside.profile[%d]", i), Title: fmt.Sprintf("Piece %d", i+1), Tip: "A straight run or an arc. Pieces follow each other from the front round the band, without corners.",
		Options: func(pattern.Design) []Option { return []Option{{RunPiece, "Straight"}, {ArcPiece, "Arc"}} },
		Get: func(d pattern.Design) string {
			if i >= len(d.Band.Inside.Profile) {
				return ""
			}
			return pieceKind(d.Band.Inside.Profile[i])
		},
		Set: func(d *pattern.Design, key string) {
			if i >= len(d.Band.Inside.Profile) || key == pieceKind(d.Band.Inside.Profile[i]) {
				return
			}
			*d = Clone(*d)
			p := &d.Band.Inside.Profile[i]
			if key == ArcPiece {
				*p = unroll.Piece{RadiusMM: 20, AngleDeg: 20}
			} else {
				*p = unroll.Piece{LengthMM: 5}
			}
		},
	}
}

// AddPiece puts a short straight run after piece i and returns its index, -1
// where there are as many as there may be.
func AddPiece(d *pattern.Design, i int) int {
	*d = Clone(*d)
	ps := d.Band.Inside.Profile
	if len(ps) >= unroll.MaxPieces {
		return -1
	}
	i = max(-1, min(i, len(ps)-1)) + 1
	d.Band.Inside.Profile = append(ps[:i:i], append([]unroll.Piece{{LengthMM: 2}}, ps[i:]...)...)
	return i
}

// RemovePiece takes piece i away.
func RemovePiece(d *pattern.Design, i int) {
	*d = Clone(*d)
	if ps := d.Band.Inside.Profile; i >= 0 && i < len(ps) {
		d.Band.Inside.Profile = append(ps[:i:i], ps[i+1:]...)
	}
}

// CloseProfile changes the pieces as little as closes the profile and says what
// it did.
func CloseProfile(d *pattern.Design) (string, error) {
	ps, most, err := unroll.ClosePieces(d.Band.Inside.Profile)
	if err != nil {
		return "", err
	}
	*d = Clone(*d)
	d.Band.Inside.Profile = ps
	return fmt.Sprintf("The pieces were changed by up to %s mm.", FormatNumber(most, 2)), nil
}
