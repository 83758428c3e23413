package motif

import (
	"math"

	"fretband/pattern/own"
	"fretband/unroll/plane"
)

// OwnKey is the key of a motif made by [Own].
const OwnKey = "own"

var ownUsual = Proportions{0.75, 1.1, 0}

// Own returns a motif whose cells are the loop, which may run either way and
// stand anywhere: one to a repeat, in its own proportions, as large as a box of
// one pitch by one row lets it be. If mirrored it is its mirror image left of the
// middle of a cuff, unless the field is turned; one that is on the middle is as it was
// drawn. The error says why the loop can't be a motif.
func Own(loop plane.Loop, mirrored bool) (Motif, error) {
	if err := own.Check(loop); err != nil {
		return Motif{}, err
	}
	loop = loop.CCW()
	return Motif{
		Key:   OwnKey,
		Edges: len(loop),
		Title: "Your own",
		What:  "A shape of your own drawing, one to a repeat, as large as fits.",
		Usual: ownUsual,
		Numbers: []Number{
			{"turn_deg", "turn", "°", 0, -180, 180},
			{"size", "size", "of largest", 1, 0.1, 1},
		},
		Cells: func(f Frame) Tiling {
			var t Tiling
			a, h := f.Pitch(), f.H/float64(f.Rows)
			l := loop.Turn(f.Number("turn_deg") * math.Pi / 180)
			b := l.Bounds()
			l = l.Move(b.Centre().Mul(-1)).Scale(math.Min(a/b.W(), h/b.H()) * f.Number("size"))
			drawn := t.add(l)
			for r := -f.Over; r < f.Rows+f.Over; r++ {
				t.row(f, drawn, r, f.H/2-(float64(r)+0.5)*h, f.odd(r))
			}
			if mirrored && !f.Closed && f.Over == 0 {
				image := t.add(l.MirrorX())
				for i := range t.Cells {
					if p := &t.Cells[i]; p.At.X < -touch {
						p.Shape = image
					}
				}
			}
			return t
		},
	}, nil
}
