package app

import (
	"testing"

	"fretband/pattern"
	"fretband/pattern/project"
	"fretband/pattern/target"

	"github.com/stretchr/testify/require"
)

func now(f func()) { f() }

func TestWaysToLightenAreToldWithWhatTheyCarry(t *testing.T) {
	d := plainRing(t)
	solves := 0
	var found *target.Lightened
	Lighten(d, 0, now, now, func(done, of int) {
		require.Equal(t, solves+1, done)
		require.Equal(t, target.MostSolves, of)
		solves = done
	}, func(l *target.Lightened, err error) {
		require.NoError(t, err)
		found = l
	})
	require.NotNil(t, found)
	require.Equal(t, found.Solves, solves)
	scenes := LighterScenes(found)
	require.Len(t, scenes, len(found.Ways)+1)
	require.NotNil(t, scenes[0].Report.Strength)
	require.Same(t, found.Start.Sheet, scenes[0].Sheet)
	for i, w := range found.Ways {
		require.NotEmpty(t, LighterSays(w))
		require.Equal(t, w.Figures, scenes[i+1].Report.Strength)
	}
	if !found.Worth() {
		require.Contains(t, LighterTitle(found), "Nothing worth having")
	}
	require.Contains(t, LighterTitle(&target.Lightened{}), "Nothing worth having: no way saves 2 %")
	good := target.Lighter{Choice: target.Choice{Met: true, Says: "rim 2 to 1.8 mm"}, Saved: 0.043, Holds: 1}
	require.Equal(t, "4.3 % saved: rim 2 to 1.8 mm", LighterSays(good))
	require.NotContains(t, LighterTitle(&target.Lightened{Ways: []target.Lighter{good}}), "Nothing")
	further := target.Lighter{Choice: good.Choice, Opens: 0.08, Holds: 1.02}
	require.Equal(t, "opens 8.0 % further: rim 2 to 1.8 mm", LighterSays(further))
	good.Holds = 0.93
	require.Equal(t, "4.3 % saved, holds 93 %: rim 2 to 1.8 mm", LighterSays(good))
	require.Equal(t, "Ways to 20.00 g, and what each holds", LighterTitle(&target.Lightened{Left: 20, Ways: []target.Lighter{good}}))
	require.Equal(t, "No way comes to 20.00 g", LighterTitle(&target.Lightened{Left: 20}))
}

func TestLighteningThatIsStoppedSaysNothingMore(t *testing.T) {
	d, err := project.GalleryDesign("mooring-ring")
	require.NoError(t, err)
	var later func()
	solves := 0
	stop := Lighten(d, 0, func(f func()) { later = f }, now, func(done, _ int) { solves = done }, func(*target.Lightened, error) { t.Fatal("it was stopped") })
	stop()
	later()
	require.Zero(t, solves)

	var why error
	Lighten(pattern.Design{}, 0, now, now, nil, func(_ *target.Lightened, err error) { why = err })
	require.ErrorContains(t, why, "no field")
}
