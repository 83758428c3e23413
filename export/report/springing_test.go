package report

import (
	"bytes"
	"encoding/json"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
)

func TestTheReportTellsHowACuffSpringsOn(t *testing.T) {
	d, err := project.GalleryDesign("harbour-cuff")
	require.NoError(t, err)
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	r := check.All(s)
	sp := r.Deep.Spring
	var b bytes.Buffer
	require.NoError(t, JSON(&b, s, r))
	var j struct{ Springing *springJSON }
	require.NoError(t, json.Unmarshal(b.Bytes(), &j))
	require.NotNil(t, j.Springing)
	assert.Equal(t, sp.Words, j.Springing.Words)
	assert.Equal(t, sp.ForceN, j.Springing.Force)
	assert.Equal(t, sp.StressMPa, slices.Max(j.Springing.Along), "the most stressed place is among those written")
	assert.Len(t, j.Springing.X, springStations)
	b.Reset()
	require.NoError(t, Text(&b, s, r))
	for _, words := range []string{sp.Words, "proof stress 124 MPa", "ESPI", "trial piece", "Castigliano", "straight apart"} {
		assert.Contains(t, b.String(), words)
	}
}

func TestTheReportOfAClosedBandSaysNothingOfSpringing(t *testing.T) {
	d, err := project.GalleryDesign("mooring-ring")
	require.NoError(t, err)
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	r := check.All(s)
	var b bytes.Buffer
	require.NoError(t, JSON(&b, s, r))
	require.NoError(t, Text(&b, s, r))
	assert.NotContains(t, b.String(), "pringing")
}
