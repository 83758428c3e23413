package pattern

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"fretband/unroll/plane"
)

// Squares by formula: of a frame w x h about the middle of the area, the cell of row r and
// column c stands at ((c - (repeats-1)/2 + stagger in odd rows + phase) a, h/2 - (r + 1/2) h/rows),
// a = w/repeats, turned with the field and with its area. Whatever lies whole on ground
// and area, each less its margin, is an opening of (a - bridge) x (h/rows - bridge); no other
// place is, but in cells that the edge cuts. Of a mirrored field that holds for the cells on
// the right, the upper ones, and their mirror images, and for those that are their own.
func TestSquaresStandWhereTheirFormulaPutsThem(t *testing.T) {
	rng := rand.New(rand.NewSource(3))
	pick := func(lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }
	whole, cut := 0, 0
	for i := range 240 {
		f := Field{Motif: "squares", Rows: 1 + rng.Intn(4), Repeats: 3 + rng.Intn(12), Stagger: 0.5 * pick(0, 1), Phase: pick(-1, 1) * float64(rng.Intn(2)), BridgeMM: pick(1, 1.5)}
		open := i%3 > 0
		if open {
			f.RotationDeg = pick(-180, 180) * float64(rng.Intn(2))
		}
		if rng.Intn(2) == 0 {
			f.Edge = EdgeWhole
		}
		band := openBand(24)
		if !open {
			band = closedBand(160, 24)
		}
		blank := sheetOf(t, fieldsOn(band, Field{Motif: "squares", Rows: 1, Repeats: 4})).Flat
		// The frame, its middle and turn, and how far inside of the area a point lies.
		const keep = 2.0
		b, half := f.BridgeMM, blank.Length/2
		w, h, tilt := blank.Length-2*keep+b, 24-2*keep+b, 0.0
		var mid plane.Point
		inside := func(plane.Point) float64 { return math.Inf(1) }
		if !open {
			w = blank.Length
		}
		span := func(lo, hi float64, at func(plane.Point) float64) func(plane.Point) float64 {
			return func(p plane.Point) float64 { return math.Min(at(p)-lo, hi-at(p)) }
		}
		switch shape := rng.Intn(5); {
		case shape == 1 && open:
			lo, hi := pick(-70, -10), pick(0, 70)
			f.Area = Area{Shape: RunShape, FromMM: lo, ToMM: hi}
			inside = span(lo, hi, func(p plane.Point) float64 { return p.X })
			lo, hi = math.Max(lo, keep-b/2-half), math.Min(hi, half-keep+b/2)
			w, mid.X = hi-lo, (lo+hi)/2
		case shape == 2:
			lo, hi := pick(-12, -4), pick(0, 12)
			f.Area = Area{Shape: StripShape, FromMM: lo, ToMM: hi}
			inside = span(lo, hi, func(p plane.Point) float64 { return p.Y })
			lo, hi = math.Max(lo, keep-b/2-12), math.Min(hi, 12-keep+b/2)
			h, mid.Y = hi-lo, (lo+hi)/2
		case shape == 3 && open:
			f.Area = Area{Shape: RectangleShape, XMM: pick(-40, 40), YMM: pick(-3, 3), WidthMM: pick(20, 50), HeightMM: pick(8, 20), RotationDeg: pick(-90, 90)}
			w, h, tilt, mid = f.Area.WidthMM, f.Area.HeightMM, f.Area.RotationDeg*math.Pi/180, plane.Pt(f.Area.XMM, f.Area.YMM)
			inside = func(p plane.Point) float64 {
				q := p.Sub(mid).Turn(-tilt)
				return math.Min(w/2-math.Abs(q.X), h/2-math.Abs(q.Y))
			}
		case shape == 4 && open:
			d := pick(12, 30)
			f.Area = Area{Shape: CircleShape, XMM: pick(-40, 40), YMM: pick(-3, 3), WidthMM: d}
			w, h, mid = d, d, plane.Pt(f.Area.XMM, f.Area.YMM)
			inside = func(p plane.Point) float64 { return d/2 - p.Dist(mid) }
		}
		if f.RotationDeg != 0 && f.Area.Shape == StripShape {
			f.RotationDeg = 0
		}
		if open && rng.Intn(3) == 0 {
			f.Mirror = []string{MirrorAlong, MirrorAcross, MirrorBoth}[rng.Intn(3)]
		}
		along, across := f.Mirror == MirrorAlong || f.Mirror == MirrorBoth, f.Mirror == MirrorAcross || f.Mirror == MirrorBoth
		turn := f.RotationDeg * math.Pi / 180
		a, row := w/float64(f.Repeats), h/float64(f.Rows)
		if a <= b || row <= b {
			continue
		}
		name := fmt.Sprintf("design %d: %+v", i, f)
		s, err := Lay(fieldsOn(band, f))
		require.NoError(t, err, name)
		// How far inside of what may be opened a point lies.
		room := func(p plane.Point) float64 {
			in := math.Min(12-keep-math.Abs(p.Y), inside(p)-b/2)
			if open {
				in = math.Min(in, half-keep-math.Abs(p.X))
			}
			return in
		}
		cell := plane.Rect(plane.Box{Min: plane.Pt(b-a, b-row).Mul(0.5), Max: plane.Pt(a-b, row-b).Mul(0.5)})
		matched := map[int]bool{}
		unsure := false
		many := int(math.Hypot(blank.Length, 24)/math.Min(a, row)) + 2
		for r := -many; r < f.Rows+many; r++ {
			if f.RotationDeg == 0 && (r < 0 || r >= f.Rows) {
				continue
			}
			for c := -many; c < f.Repeats+many; c++ {
				if !open && (c < 0 || c >= f.Repeats) {
					continue
				}
				x := float64(c) - float64(f.Repeats-1)/2 + f.Phase
				if r%2 != 0 {
					x += f.Stagger
				}
				at := plane.Pt(x*a, h/2-(float64(r)+0.5)*row).Turn(turn)
				kept := true
				for _, v := range plane.Rect(plane.Box{Min: plane.Pt(-a, -row).Mul(0.5), Max: plane.Pt(a, row).Mul(0.5)}).Turn(turn).Move(at) {
					ownX, ownY := turn == 0 && math.Abs(at.X) < 1e-9, turn == 0 && math.Abs(at.Y) < 1e-9
					kept = kept && (!along || v.X >= 0 || ownX) && (!across || v.Y >= 0 || ownY)
				}
				if !kept {
					continue
				}
				for flips := range 4 {
					if flips&1 != 0 && !along || flips&2 != 0 && !across {
						continue
					}
					want := flipped(cell.Turn(turn).Move(at), flips&1 != 0, flips&2 != 0).Turn(tilt).Move(mid)
					if !open {
						want = want.Move(plane.Pt(-blank.Length*math.Round(want.Centroid().X/blank.Length), 0))
					}
					least := math.Inf(1)
					for _, v := range want {
						least = math.Min(least, room(v.Point))
					}
					if math.Abs(least) < 1e-6 {
						unsure = true
						continue
					}
					if least < 0 {
						continue
					}
					n := -1
					for _, turn := range []float64{0, -blank.Period, blank.Period} {
						if n < 0 {
							n = twinOf(s, want.Move(plane.Pt(turn, 0)), 1e-7)
						}
					}
					require.GreaterOrEqual(t, n, 0, "%s: no opening in row %d, column %d at %v, flips %d", name, r, c, want.Centroid(), flips)
					if flips == 0 {
						require.Equal(t, [2]int{r, c}, [2]int{s.Openings[n].Row, s.Openings[n].Col}, name)
					}
					matched[n] = true
				}
			}
		}
		whole += len(matched)
		if f.Mirror != "" {
			continue
		}
		if f.Edge == EdgeWhole && !unsure {
			require.Equal(t, len(s.Openings), len(matched), name)
		}
		for n, o := range s.Openings {
			if matched[n] {
				continue
			}
			cut++
			for _, v := range o.Loop {
				require.Greater(t, room(v.Point), -1e-6, "%s: opening %d", name, o.Number)
				q := v.Point.Sub(mid).Turn(-turn - tilt)
				r := math.Floor((h/2 - q.Y) / row)
				x := q.X/a + float64(f.Repeats-1)/2 - f.Phase
				if math.Mod(r, 2) != 0 {
					x -= f.Stagger
				}
				in := math.Min(a/2-math.Abs(x-math.Round(x))*a, row/2-math.Abs(h/2-q.Y-(r+0.5)*row)) - b/2
				require.Greater(t, in, -1e-6, "%s: opening %d reaches over its cell at %v", name, o.Number, v.Point)
			}
		}
	}
	require.Greater(t, whole, 1000)
	require.Greater(t, cut, 300)
}
