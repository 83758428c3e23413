package ui

import (
	"testing"

	"fretband/app"
	"fretband/pattern"

	"github.com/stretchr/testify/require"
)

func TestEveryMotifHasAPictureOfEnoughOpenings(t *testing.T) {
	for _, m := range append(pattern.Motifs(), pattern.Motif{Key: pattern.OwnKey}) {
		f := pattern.Field{Motif: m.Key, Stagger: app.MotifStagger(m.Key)}
		if m.Key == pattern.OwnKey {
			f.Path = sampleOwn
		}
		n := len(sampleOf(f))
		require.GreaterOrEqual(t, n, 8, m.Key)
		require.Less(t, n, 200, m.Key)
	}
}

func TestTheMotifIsChosenFromPictures(t *testing.T) {
	w, log := usual(t)
	w.controls.fields.onMotif(0)
	keepPicture(t, "motif-chooser", w.win.Canvas().Capture)
	d := w.dialogs.top()
	require.Equal(t, "Motif", d.title)
	for _, f := range d.fields {
		if f.name == "motif:hexagons" {
			f.o.(*motifTile).Tapped(nil)
		}
	}
	require.Empty(t, w.dialogs.open)
	require.Equal(t, "hexagons", w.now().Fields[0].Motif)
	require.Contains(t, log.String(), "edit field=fields[0].motif old=triangles new=hexagons")
}
