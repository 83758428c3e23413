package app

import (
	"slices"
	"testing"

	"fretband/pattern"
	"fretband/pattern/project"
	"fretband/unroll"

	"github.com/stretchr/testify/require"
)

func shown(f func(pattern.Design) bool, d pattern.Design) bool { return f == nil || f(d) }

func allNumbers(d pattern.Design) []Number {
	ns := slices.Concat(Numbers(pattern.BandGroup), Numbers(pattern.FormGroup), Numbers(pattern.MetalGroup), append(fieldNumbers(d, 0), Numbers(pattern.RulesGroup)...))
	for i := range d.Reserves {
		ns = append(ns, Numbers(pattern.ReserveGroup, i)...)
	}
	return ns
}

// fieldNumbers are all numbers of field i.
func fieldNumbers(d pattern.Design, i int) []Number {
	ns := MotifNumbers(d, i)
	for _, g := range []pattern.Group{pattern.GridGroup, pattern.ArrangeGroup, pattern.AreaGroup, pattern.SizesGroup} {
		ns = append(ns, Numbers(g, i)...)
	}
	for _, c := range append(Curves(), RimCurve) {
		for j := range c.Points(d, i) {
			ns = append(ns, c.Numbers(i, j)...)
		}
	}
	return ns
}

func TestEveryShownNumberReadsWritesAndRefuses(t *testing.T) {
	for _, name := range project.Gallery() {
		d, err := project.GalleryDesign(name)
		require.NoError(t, err)
		for _, n := range allNumbers(d) {
			if !shown(n.Shown, d) {
				continue
			}
			require.NotEmpty(t, n.Tip, n.Path)
			before := Clone(d)
			v := n.Get(d)
			require.True(t, v >= n.Min && v <= n.Max, "%s %s: %g not in %s", name, n.Path, v, n.Allowed())
			// What is shown can be typed again and changes nothing to speak of.
			e := Clone(d)
			require.NoError(t, n.Put(&e, n.Text(d)), n.Path)
			require.InDelta(t, v, n.Get(e), 0.006, n.Path)
			// Out of range: refused, and the design stays.
			for _, typed := range []string{FormatNumber(n.Max*2+1, 6), FormatNumber(n.Min-abs(n.Min)-1, 6), "x", "1 +", ""} {
				if typed == "" && n.Empty != "" {
					continue
				}
				e := Clone(d)
				err := n.Put(&e, typed)
				require.Error(t, err, "%s %q", n.Path, typed)
				require.Contains(t, err.Error(), n.Allowed(), n.Path)
				require.True(t, Equal(d, e), n.Path)
			}
			// A slide past the end is held there.
			e = Clone(d)
			n.Slide(&e, n.Max*10+5)
			require.LessOrEqual(t, n.Get(e), n.Max, n.Path)
			require.True(t, Equal(before, d), "%s: the design that was copied has changed", n.Path)
			got, ok := NumberAt(d, n.Path)
			require.True(t, ok, n.Path)
			require.Equal(t, n.Path, got.Path)
		}
	}
}

func abs(v float64) float64 {
	if v < 0 {
		return -v
	}
	return v
}

func TestAGaugeIsKeptAsAGauge(t *testing.T) {
	d := gallery(t)
	n, ok := NumberAt(d, "band.thickness.mm")
	require.True(t, ok)
	require.NoError(t, n.Put(&d, "18 ga"))
	require.Equal(t, unroll.Thickness{BSGauge: 18}, d.Band.Thickness)
	require.Equal(t, "18 ga", n.Text(d))
	require.InDelta(t, 1.0237, n.Get(d), 1e-4) // ASTM B258
	require.Error(t, n.Put(&d, "2 ga"))
	require.NoError(t, n.Put(&d, "1/16 in"))
	require.Equal(t, unroll.Thickness{MM: 1.5875}, d.Band.Thickness)
}

func TestABandOfConstantWidthStaysOne(t *testing.T) {
	d := gallery(t)
	d.Band.EndWidthMM = d.Band.WidthMM
	n, _ := NumberAt(d, "band.width_mm")
	require.NoError(t, n.Put(&d, "21"))
	require.Equal(t, 21.0, d.Band.EndWidthMM)
	e, _ := NumberAt(d, "band.end_width_mm")
	require.NoError(t, e.Put(&d, "15"))
	require.NoError(t, n.Put(&d, "22"))
	require.Equal(t, 15.0, d.Band.EndWidthMM)
}

func TestEveryKindCanBecomeEveryOther(t *testing.T) {
	for _, name := range project.Gallery() {
		for _, kind := range []string{unroll.Cuff, unroll.Bangle, unroll.Ring} {
			d, err := project.GalleryDesign(name)
			require.NoError(t, err)
			SetKind(&d, kind)
			require.NoError(t, d.Band.Check(), "%s to %s", name, kind)
			require.Equal(t, kind, d.Band.Kind)
			for _, w := range ChoiceOf("band.inside.by").Options(d) {
				e := Clone(d)
				SetInsideBy(&e, w.Key)
				require.NoError(t, e.Band.Check(), "%s to %s by %s", name, kind, w.Key)
				_, a, _ := oval(d)
				_, b, _ := oval(e)
				switch w.Key {
				case unroll.BySides: // keeps its axes, not its circumference
				case unroll.BySize:
					for _, s := range ChoiceOf("band.inside.scale").Options(e) {
						f := Clone(e)
						ChoiceOf("band.inside.scale").Set(&f, s.Key)
						require.NoError(t, f.Band.Check(), s.Key)
					}
				default:
					require.InDelta(t, a, b, 0.05, "%s %s", kind, w.Key)
				}
			}
		}
	}
}

func TestEveryChoiceCanBeMade(t *testing.T) {
	for _, name := range project.Gallery() {
		d, err := project.GalleryDesign(name)
		require.NoError(t, err)
		cs := append(append(Choices(pattern.BandGroup), Choices(pattern.FormGroup)...), ChoiceOf("metal.alloy"), ChoiceOf("fields[].motif", 0), ChoiceOf("fields[].follow", 0))
		for _, c := range cs {
			if !shown(c.Shown, d) {
				continue
			}
			for _, o := range c.Options(d) {
				e := Clone(d)
				c.Set(&e, o.Key)
				require.Equal(t, o.Key, c.Get(e), c.Path)
				require.NoError(t, e.Check(), "%s %s %s", name, c.Path, o.Key)
			}
		}
	}
}

func TestReservesCanBeAddedAndReshaped(t *testing.T) {
	d := gallery(t)
	d.Reserves = []pattern.Reserve{NewReserve(pattern.CircleShape, d), NewReserve(pattern.RectangleShape, d)}
	require.NoError(t, d.Check())
	c := ChoiceOf("reserves[].shape", 0)
	c.Set(&d, pattern.RectangleShape)
	require.NoError(t, d.Check())
	require.Equal(t, d.Reserves[0].WidthMM, d.Reserves[0].HeightMM)
	c.Set(&d, pattern.CircleShape)
	require.NoError(t, d.Check())
}
