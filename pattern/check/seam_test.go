package check

import (
	"cmp"
	"fmt"
	"math"
	"math/rand"
	"reflect"
	"slices"
	"strings"
	"testing"

	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/require"
)

// slot is a rectangle added by hand.
func slot(x, y, w, h float64) pattern.Edit {
	return pattern.Edit{Do: pattern.Add, At: []pattern.Spot{{XMM: x, YMM: y}}, Shape: pattern.RectangleShape, WidthMM: w, HeightMM: h}
}

func round(x, y, d float64) pattern.Edit {
	return pattern.Edit{Do: pattern.Add, At: []pattern.Spot{{XMM: x, YMM: y}}, Shape: pattern.CircleShape, WidthMM: d}
}

func drawn(x, y float64, path string) pattern.Edit {
	return pattern.Edit{Do: pattern.Add, At: []pattern.Spot{{XMM: x, YMM: y}}, Shape: pattern.PathShape, Path: path}
}

// seamless is a design on a round seamless bangle of 120 x 20 mm.
func seamless(name string, change func(*pattern.Design)) pattern.Design {
	d := pattern.Design{
		Name: name, Band: strip(120, 20), Metal: pattern.Metal{Alloy: "copper", PricePerG: 2, Currency: "EUR"},
		Rules: pattern.DesignRules{BridgeMM: 0.2, RimMM: 1, SmallestMM: 0.3, Process: "saw"},
		Work:  pattern.Work{CutMMMin: 20, OpeningMin: 1, HourPrice: 30, BladeMM: 400},
	}
	d.Band.Inside = unroll.Inside{By: unroll.ByAxes, WidthMM: 120/math.Pi - 1, HeightMM: 120/math.Pi - 1}
	change(&d)
	return d
}

// seamKit are designs that are all alike wherever they are turned to: what stands about
// their middle is carried over the seam by [turned].
func seamKit() []pattern.Design {
	ring := func(d *pattern.Design) { // three slots round a piece of metal
		for i := range 3 {
			l := sector(plane.Point{}, 6.4, 7.6, 0.3+float64(i)*2*math.Pi/3, 0.3+float64(i+1)*2*math.Pi/3, 0.9+0.1*float64(i))
			d.Edits = append(d.Edits, drawn(l.Bounds().Centre().X, l.Bounds().Centre().Y, svg(l)))
		}
	}
	kit := []pattern.Design{
		seamless("two slots side by side", func(d *pattern.Design) {
			d.Edits = []pattern.Edit{slot(-2.15, 0, 4, 3), slot(2.15, 1, 4, 3), slot(30, 0, 5, 2)}
		}),
		seamless("a long slot over short ones", func(d *pattern.Design) {
			d.Edits = []pattern.Edit{slot(0, 2, 16, 2), slot(-5, -0.3, 1.5, 2), slot(1, -0.4, 2, 2), slot(4.5, -0.45, 1, 2)}
		}),
		seamless("a slot most of the way round", func(d *pattern.Design) {
			d.Edits = []pattern.Edit{slot(0, 4, 113, 2), slot(10, 1.6, 50, 2), slot(-56, 0, 2, 1)}
		}),
		seamless("a slot at each edge and one across", func(d *pattern.Design) {
			d.Edits = []pattern.Edit{slot(1, 7.9, 9, 2), slot(-3, -7.7, 7, 2), slot(0, 0, 2, 12), slot(40, 0, 1, 15)}
		}),
		seamless("a piece held by three bridges", ring),
		seamless("a half ring at the edge", func(d *pattern.Design) {
			l := plane.Loop{
				{Point: plane.Pt(math.Sqrt(99), 1)}, {Point: plane.Pt(math.Sqrt(11.5*11.5-1), 1), Bulge: math.Tan((math.Pi - 2*math.Asin(1/11.5)) / 4)},
				{Point: plane.Pt(-math.Sqrt(11.5*11.5-1), 1)}, {Point: plane.Pt(-math.Sqrt(99), 1), Bulge: -math.Tan((math.Pi - 2*math.Asin(0.1)) / 4)},
			}
			d.Edits = []pattern.Edit{drawn(0, -10+6.25, svg(l))}
		}),
		seamless("a tongue and a neck", func(d *pattern.Design) {
			d.Edits = []pattern.Edit{
				drawn(1, 1, "M-5-3H5V3H1.1V-1.5H0V3H-5z"),
				drawn(17, -2, "M-4-2H4V2H-4V0.35H2V-0.35H-4z"),
			}
		}),
		seamless("fields in a shape and a run, with a reserve and marks", func(d *pattern.Design) {
			d.Rules.BridgeMM, d.Rules.CornerMM = 0.7, 0.2
			d.Fields = []pattern.Field{
				{Motif: "circles", Rows: 3, Repeats: 6, Stagger: 0.5, Area: pattern.Area{Shape: pattern.RectangleShape, XMM: -8, YMM: 0.5, WidthMM: 22, HeightMM: 14}},
				{Motif: "triangles", Rows: 2, PitchMM: 5.1, Area: pattern.Area{Shape: pattern.RunShape, FromMM: 4, ToMM: 33}, BridgeMM: 0.9},
			}
			d.Reserves = []pattern.Reserve{
				{Shape: pattern.CircleShape, XMM: 3, YMM: 1, WidthMM: 5, MarginMM: 0.6},
				{Shape: pattern.RectangleShape, XMM: 24, YMM: -4, WidthMM: 4, HeightMM: 3, MarginMM: 0.3, Count: 3, SpacingMM: 12},
			}
			d.Engravings = []pattern.Engraving{
				{Kind: pattern.LineEngraving, XMM: 2, YMM: -7, LengthMM: 12, RotationDeg: 10, MarginMM: 0.4},
				{Kind: pattern.TextEngraving, XMM: -1, YMM: 6.5, Text: "925", HeightMM: 1.6, MarginMM: -1},
			}
			d.Edits = []pattern.Edit{slot(-20.5, 3, 2.2, 6), {Do: pattern.Change, At: []pattern.Spot{{XMM: 12.3, YMM: 3}}, Scale: 0.8}}
		}),
		seamless("openings close to a reserve", func(d *pattern.Design) {
			d.Reserves = []pattern.Reserve{{Shape: pattern.OvalShape, WidthMM: 6, HeightMM: 4, MarginMM: 0.5}}
			d.Fields = []pattern.Field{{Motif: "squares", Rows: 4, PitchMM: 4, Area: pattern.Area{Shape: pattern.OvalShape, WidthMM: 26, HeightMM: 15}}}
			d.Fields[0].BridgeMM, d.Rules.BridgeMM = 0.5, 0.4
			d.Edits = []pattern.Edit{round(-22, 0, 4), round(-18.41, 2, 4)} // thinner than the many alike
		}),
	}
	ties := func(d *pattern.Design) {
		d.Edits = []pattern.Edit{
			slot(0, 0, 30, 13), slot(40, 0, 10, 11),
			{Do: pattern.Tie, At: []pattern.Spot{{XMM: -9, YMM: -7}, {XMM: 4, YMM: -7}}, SpanXMM: 3, SpanYMM: 14, BowMM: 1.5, WidthMM: 1.4},
			{Do: pattern.Tie, At: []pattern.Spot{{XMM: -15.5, YMM: 1}}, SpanXMM: 9, SpanYMM: -0.5},
			{Do: pattern.Tie, At: []pattern.Spot{{XMM: 39, YMM: 0}}, SpanXMM: 3, SpanYMM: 1, WidthMM: 1},
		}
	}
	kit = append(kit, seamless("ties across slots, some on others", ties))
	rounds := func(d *pattern.Design) {
		d.Edits = []pattern.Edit{round(-2.3, 1, 5), round(2.2, -1, 4), round(0.4, 7.3, 3), slot(30, 0, 5, 2)}
	}
	formed := seamless("formed", rounds)
	formed.Band.Making, formed.Band.Drawn = unroll.Formed, unroll.OuterFace
	domed := seamless("domed", rounds)
	domed.Band.Dome, domed.Band.DomeRadiusMM, domed.Band.DomeFlat = unroll.Outward, 40, unroll.EqualArea
	return append(kit, formed, domed)
}

// clearPieces are the designs of the kit in which one piece hangs on clearly less than
// any other. In the others [FindAttachedParts], which is not sure to find the least, may find
// another of several from another place.
var clearPieces = map[string]bool{
	"a long slot over short ones": true, "a slot most of the way round": true, "a piece held by three bridges": true,
	"a half ring at the edge": true, "formed": true, "domed": true,
}

// svg writes a loop as path data of an SVG, whose y runs down.
func svg(l plane.Loop) string {
	var b strings.Builder
	for i := range l {
		e := l.Edge(i)
		if i == 0 {
			fmt.Fprintf(&b, "M%.15g,%.15g", e.A.X, -e.A.Y)
		}
		if e.IsLine() {
			fmt.Fprintf(&b, "L%.15g,%.15g", e.B.X, -e.B.Y)
			continue
		}
		large, sweep := 0, 0
		if math.Abs(e.Sweep()) > math.Pi {
			large = 1
		}
		if e.Bulge < 0 {
			sweep = 1
		}
		fmt.Fprintf(&b, "A%.15g %.15g 0 %d %d %.15g,%.15g", e.Radius(), e.Radius(), large, sweep, e.B.X, -e.B.Y)
	}
	return b.String() + "z"
}

// turned returns the design carried along a closed band of that length by dx.
func turned(d pattern.Design, length, dx float64) pattern.Design {
	at := func(x float64) float64 { return math.Remainder(x+dx, length) }
	d.Fields, d.Reserves, d.Engravings, d.Edits = slices.Clone(d.Fields), slices.Clone(d.Reserves), slices.Clone(d.Engravings), slices.Clone(d.Edits)
	for i := range d.Fields {
		a := &d.Fields[i].Area
		if a.Shape == pattern.RunShape {
			mid := (a.FromMM + a.ToMM) / 2
			a.FromMM, a.ToMM = a.FromMM+at(mid)-mid, a.ToMM+at(mid)-mid
			continue
		}
		a.XMM = at(a.XMM)
	}
	for i := range d.Reserves {
		d.Reserves[i].XMM = at(d.Reserves[i].XMM)
	}
	for i := range d.Engravings {
		d.Engravings[i].XMM = at(d.Engravings[i].XMM)
	}
	for i := range d.Edits {
		spots := slices.Clone(d.Edits[i].At)
		for k := range spots {
			spots[k].XMM = at(spots[k].XMM)
		}
		d.Edits[i].At = spots
	}
	return d
}

// figuresOf lists all figures of a report but places and numbers of openings, which
// differ from turn to turn; the net section from the place x on.
func figuresOf(s *pattern.Sheet, r *Report, x float64) map[string]float64 {
	all := map[string]float64{}
	put := func(path string, v float64) { all[path] = v }
	into := func(path string, v reflect.Value) bool {
		switch v.Type() {
		case reflect.TypeFor[plane.Point](), reflect.TypeFor[unroll.Point3](), reflect.TypeFor[pattern.Design]():
			return false
		}
		name := path[strings.LastIndexByte(path, '.')+1:]
		// Several bridges may be of one width, and of them the one nearest to the middle of
		// the blank is told.
		switch name {
		case "Bridges":
			if bs, ok := v.Interface().([]Bridge); ok { // a chain round the band begins anywhere
				var widths []float64
				for _, b := range bs {
					widths = append(widths, b.Width)
				}
				slices.Sort(widths)
				for i, w := range widths {
					put(fmt.Sprintf("%s[%d]", path, i), w)
				}
				return false
			}
			list, ok := v.Interface().([]NarrowBridge)
			if !ok {
				return true
			}
			bs := slices.Clone(list) // of several that lack as much any may be first
			slices.SortFunc(bs, func(a, b NarrowBridge) int {
				lack := math.Round((a.Limit() - a.Width - b.Limit() + b.Width) * 1e4)
				return cmp.Or(-cmp.Compare(lack, 0), cmp.Compare(a.Kind, b.Kind), cmp.Compare(math.Round(a.Length*1e3), math.Round(b.Length*1e3)))
			})
			for i, b := range bs {
				put(fmt.Sprintf("%s[%d]", path, i), b.Width)
				put(fmt.Sprintf("%s[%d].Length", path, i), b.Length)
			}
			return false
		case "From", "To", "Opening", "Reserve", "Net", "Full", "X", "WeakX", "Findings":
			return path == "Net" // the section as a whole
		}
		if path == "Hang.Angle" {
			return false // by its cosine and sine, below
		}
		return true
	}
	eachNumber("", reflect.ValueOf(*r), into, put)
	n := len(r.Net.Net)
	from := int(math.Round(x / s.Flat.Length * float64(n)))
	for i := range n {
		put(fmt.Sprintf("net section %d", i), r.Net.Net[((i+from)%n+n)%n])
	}
	if r.Hang.Off > 1e-3 {
		// The drawn surface runs once round the axis; the back is where its ends meet.
		put("hang", math.Cos(r.Hang.Angle-2*math.Pi*x/s.Flat.Length))
		put("hang, side", math.Sin(r.Hang.Angle-2*math.Pi*x/s.Flat.Length))
	}
	var nearest []float64
	for i := range s.Openings {
		nearest = append(nearest, NearestBridge(s, i).Width)
	}
	slices.Sort(nearest)
	for i, w := range nearest {
		put(fmt.Sprintf("nearest bridge %d", i), w)
	}
	// Findings are told in the order of what they weigh; which of several is told apart
	// goes by their places.
	count := map[string]int{}
	for _, f := range r.Findings {
		key := fmt.Sprintf("finding %s, %v", f.Kind.Key, f.Severity)
		count[key]++
		put(fmt.Sprintf("%s: how many", key), float64(count[key]))
		for _, v := range []struct {
			name string
			x    float64
		}{{"value", f.Value}, {"limit", f.Limit}, {"places", float64(len(f.At))}} {
			all[key+" "+v.name] += v.x
		}
	}
	for _, list := range []struct {
		name string
		n    int
	}{{"tongues", len(r.Deep.Tongues)}, {"narrow bridges", r.Deep.NarrowBridges}, {"openings", len(s.Openings)}, {"dropped", len(s.Dropped)}, {"idle", len(s.Idle)}} {
		put(list.name, float64(list.n))
	}
	return all
}

// A seamless round bangle is the same all round: wherever the pattern is turned to, all
// figures are the same. The blank is drawn from another place then, which is all that a
// seam is.
func TestFiguresAreTheSameWhereverTheSeamIs(t *testing.T) {
	every := 1
	if testing.Short() {
		every = 3
	}
	kit := seamKit()
	for name := range clearPieces {
		require.True(t, slices.ContainsFunc(kit, func(d pattern.Design) bool { return d.Name == name }), name)
	}
	for k, d := range kit {
		t.Run(d.Name, func(t *testing.T) {
			t.Parallel()
			lay := func(d pattern.Design) (*pattern.Sheet, *Report) {
				s, err := pattern.Lay(d)
				require.NoError(t, err)
				return s, All(s)
			}
			s, r := lay(d)
			require.NotEmpty(t, s.Openings)
			require.Empty(t, s.Idle)
			want := figuresOf(s, r, 0)
			length := s.Flat.Length
			rng := rand.New(rand.NewSource(int64(k)))
			// The half of a turn puts the middle of the design on the seam; sections are the same
			// only a whole number of steps on.
			steps := []int{512, 505, 519, 490, 534, 20, -200}
			for range 6 {
				steps = append(steps, rng.Intn(1024))
			}
			for i, step := range steps {
				if i%every != 0 {
					continue
				}
				dx := float64(step) * length / 1024
				s, r := lay(turned(d, length, dx))
				got := figuresOf(s, r, dx)
				for path, w := range want {
					if !clearPieces[d.Name] && (strings.HasPrefix(path, "Deep.Attached") || strings.HasPrefix(path, "finding held-piece")) {
						continue
					}
					g, ok := got[path]
					within := 2e-5 * math.Max(1, math.Abs(w))
					if strings.HasSuffix(path, ".Length") { // ends of stretches are sought to 1e-4
						within = 2.5e-4
					}
					if !ok || !(math.Abs(g-w) <= within || g == w) {
						t.Errorf("turned by %.3f mm: %s is %.9g (%v), was %.9g", dx, path, g, ok, w)
					}
				}
				for path, g := range got {
					if strings.HasPrefix(path, "Deep.Attached") || strings.HasPrefix(path, "finding held-piece") {
						continue
					}
					if _, ok := want[path]; !ok {
						t.Errorf("turned by %.3f mm: %s is %.9g, was not told", dx, path, g)
					}
				}
			}
		})
	}
}

// 0.3 mm stands between the two slots as drawn: 2 * 2.15 mm from middle to middle, less
// their width of 4.
func TestTheBridgeBetweenSlotsOnEitherSideOfTheSeamIsFound(t *testing.T) {
	d := seamKit()[0]
	for _, dx := range []float64{60, 60 - 2.15, 60 + 2.15, 57.9, 62.1} {
		s, err := pattern.Lay(turned(d, 120, dx))
		require.NoError(t, err)
		r := All(s)
		for what, b := range map[string]Bridge{"thinnest": r.Thinnest, "between": r.Bridges.Between, "listed": r.Deep.Bridges[0].Bridge, "along": r.Deep.WeakestPaths.Along.Bridges[0]} {
			if math.Abs(b.Width-0.3) > 1e-6 && what != "along" {
				t.Errorf("turned by %g mm: %s is %g", dx, what, b.Width)
			}
			// Its two positions lie on the edges of the openings it names.
			for k, p := range [2]plane.Point{b.A, b.B} {
				l := s.Openings[[2]int{b.From, b.To}[k]-1].Loop
				off := math.Inf(1)
				for n := -1; n <= 1; n++ {
					off = math.Min(off, l.Nearest(s.Round(n).Point(p)).D)
				}
				if off > 1e-6 {
					t.Errorf("turned by %g mm: %s, end %d is %g mm off its opening", dx, what, k, off)
				}
			}
		}
	}
}
