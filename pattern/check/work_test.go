package check

import (
	"math"
	"testing"

	"fretband/pattern"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// drilled is a sheet with round openings of these diameters, mm, side by side.
func drilled(t *testing.T, process string, mm ...float64) *pattern.Sheet {
	t.Helper()
	d := benchCuff()
	d.Fields, d.Rules.Process = nil, process
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	for i, w := range mm {
		l := plane.Circle(plane.Pt(-40+4*float64(i), 0), w/2)
		s.Openings = append(s.Openings, pattern.Opening{Number: i + 1, Loop: l, Shape: -1, Edit: -1, Box: l.Bounds()})
	}
	return s
}

func TestTimeIsByTheMakersOwnRatesOnly(t *testing.T) {
	s := drilled(t, "saw", 2, 2, 2)
	m := All(s).Making
	assert.Zero(t, m.Minutes(), "no rate, no time")
	assert.Zero(t, m.Blades)
	assert.Zero(t, m.Cost)
	// By hand: three circles of 2 pi mm and the outline.
	length := 6*math.Pi + s.Flat.Outline.Len()
	assert.InDelta(t, length, m.Length, 1e-9)
	s.Design.Work = pattern.Work{CutMMMin: 20, OpeningMin: 1.5, BladeMM: 100, HourPrice: 48}
	m = All(s).Making
	assert.InDelta(t, length/20, m.CutMin, 1e-9)
	assert.InDelta(t, 4.5, m.StartMin, 1e-9)
	assert.InDelta(t, (length/20+4.5)*0.8, m.Cost, 1e-9, "48 an hour is 0.80 a minute")
	assert.Equal(t, int(math.Ceil(length/100)), m.Blades)
	s.Process = "laser"
	assert.Zero(t, All(s).Making.Blades, "a beam wears out no blades")
	s.Process = "cast"
	assert.Zero(t, Run(s).Making.Minutes(), "nothing follows the lines")
}

// In sheet of 1.2 mm three teeth need 25 a centimetre: a 4/0 blade, of 26 (memory). Its
// diagonal of 0.495 mm goes through drill no. 76, 0.0200 in = 0.508 mm (ANSI/ASME
// B94.11M).
func TestPilotHolesAreCountedByDrill(t *testing.T) {
	s := drilled(t, "saw", 0.30, 0.38, 0.45, 0.52, 0.52, 3)
	r := All(s)
	require.Equal(t, "4/0", r.Blade.Size)
	sum := 0
	for i, p := range r.Making.Pilots {
		sum += p.Count
		if i > 0 {
			assert.Less(t, p.MM, r.Making.Pilots[i-1].MM, "largest first")
		}
	}
	assert.Equal(t, 5, sum, "all but the one that no blade enters")
	assert.Equal(t, Pilot{Blade: "4/0", MM: 0.508, Drill: r.Blade.Drill, Count: 3}, r.Making.Pilots[0])
	f, ok := worst(r, "no-way-in")
	require.True(t, ok)
	assert.Equal(t, 1.0, f.Value)
	assert.InDelta(t, 0, f.At[0].Dist(plane.Pt(-40, 0)), 1e-9)
	assert.Contains(t, f.What, "2 more need a finer blade than 4/0.", "one finding for one cause")
	for _, key := range []string{"finer-blade", "opening-and-process", "narrow-slot", "sharp-corner"} {
		_, ok = worst(r, key)
		assert.False(t, ok, key)
	}
	r = All(drilled(t, "saw", 0.38, 0.45, 0.52, 3))
	f, ok = worst(r, "finer-blade")
	require.True(t, ok)
	assert.Equal(t, 2.0, f.Value)
	assert.Equal(t, "openings", f.Unit)
	assert.Equal(t, "2 openings need a finer blade than 4/0. In all 3 openings are much smaller than the usual 1.20 mm.", f.What)
}

func TestASlotUnderTheKerfIsFoundWhereItIs(t *testing.T) {
	s := drilled(t, "laser", 2)
	s.Design.Work.KerfMM = 0.2
	slot := func(w float64) plane.Loop { // a hole of 2 mm with a slot of width w to the right
		l := plane.Circle(plane.Pt(10, 0), 1)
		or, err := plane.Or(plane.Region{l}, plane.Region{plane.Rect(plane.Box{Min: plane.Pt(10, -w/2), Max: plane.Pt(14, w/2)})})
		require.NoError(t, err)
		return or[0]
	}
	for _, c := range []struct {
		w     float64
		found bool
	}{{0.15, true}, {0.19, true}, {0.21, false}, {0.5, false}} {
		l := slot(c.w)
		s.Openings[0] = pattern.Opening{Number: 1, Loop: l, Shape: -1, Edit: -1, Box: l.Bounds()}
		f, ok := worst(All(s), "narrow-slot")
		require.Equal(t, c.found, ok, "%g mm", c.w)
		if ok {
			assert.Equal(t, 0.2, f.Limit)
			assert.InDelta(t, 12.5, f.At[0].X, 0.3, "the middle of the slot")
			assert.InDelta(t, 0, f.At[0].Y, 0.01)
		}
	}
}

func TestHeatGoesByKerfs(t *testing.T) {
	s := drilled(t, "laser", 3, 3, 3) // a millimetre between them
	s.Flat.Thickness = 0.6            // in which bridges of 0.6 mm are usual
	for _, c := range []struct {
		kerf  float64
		found bool
	}{{0.33, false}, {0.34, true}} {
		s.Design.Work.KerfMM = c.kerf
		f, ok := worst(All(s), "heat")
		assert.Equal(t, c.found, ok, "three kerfs of %g mm", c.kerf)
		if ok {
			assert.InDelta(t, 1, f.Value, 1e-9)
			assert.Contains(t, f.What, "2 bridges are under 3 kerfs wide")
			require.Len(t, f.At, 4)
			assert.InDelta(t, 0, f.At[0].Dist(plane.Pt(-38.5, 0))+f.At[1].Dist(plane.Pt(-37.5, 0)), 1e-9, "the first is between x = -38.5 and -37.5")
		}
	}
	_, ok := worst(All(s), "process-bridges")
	assert.False(t, ok, "one finding for one cause")
	s.Flat.Thickness, s.Rule = 1.2, 0.9
	r := All(s)
	_, heat := worst(r, "heat")
	_, thin := worst(r, "process-bridges")
	assert.Equal(t, []bool{false, true}, []bool{heat, thin}, "under the usual least are all of them")
	s.Process = "etch"
	_, ok = worst(All(s), "heat")
	assert.False(t, ok, "no beam, no heat")
}

func TestTheUsualLimitsFollowProcessAndSheet(t *testing.T) {
	for _, c := range []struct {
		process         string
		mm              float64
		bridge, opening float64
		source          string
	}{
		{"saw", 1.2, 1.2, 1.2 * 0.7, "bridges of the sheet's thickness, common practice; openings that let the blade in from 0.7 of it: ours"},
		{"saw", 0.6, 0.6, 0.6 * 0.7, "openings never under 0.6 mm, common practice"},
		{"etch", 0.5, 0.5, 0.55, "web 1.0, hole 1.1 times the thickness: metaletching.com, techetch.com"},
		{"laser", 0.8, 0.8, 0.8, "web of the thickness: smslaserfab.com"},
		{"cast", 1.2, 0.96, 1.2, "0.8 mm and more, common practice"},
	} {
		d := benchCuff()
		d.Fields, d.Rules.Process, d.Band.Thickness.MM = nil, c.process, c.mm
		// Two openings by hand, a hundredth narrower and nearer than usual.
		for _, off := range []float64{0, 0.01} {
			s, err := pattern.Lay(d)
			require.NoError(t, err)
			w := c.opening - off
			for i, x := range []float64{0, w + c.bridge - off} {
				l := plane.Circle(plane.Pt(x, 0), w/2)
				s.Openings = append(s.Openings, pattern.Opening{Number: i + 1, Loop: l, Shape: -1, Edit: -1, Box: l.Bounds()})
			}
			s.Rule = 0.1
			r := All(s)
			f, ok := worst(r, "process-bridges")
			require.Equal(t, off > 0, ok, "%s: %s", c.source, f.What)
			if ok {
				assert.InDelta(t, c.bridge, f.Limit, 1e-9, c.source)
				assert.InDelta(t, c.bridge-off, f.Value, 1e-9, c.source)
			}
			f, ok = worst(r, "opening-and-process")
			require.Equal(t, off > 0, ok, "%s: %s", c.source, f.What)
			if ok {
				if c.process != "saw" {
					assert.InDelta(t, c.opening, f.Limit, 1e-9, c.source)
				}
				assert.InDelta(t, c.opening-off, f.Value, 1e-3, c.source)
				assert.Regexp(t, "^2 openings are (much )?smaller", f.What)
			}
		}
	}
}
