package project_test

import (
	"testing"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What a newcomer sees first is a piece that could be made: every rule kept and
// nothing to caution against.
func TestGalleryDesignsCanBeMade(t *testing.T) {
	for _, name := range project.Gallery() {
		d, err := project.GalleryDesign(name)
		require.NoError(t, err)
		s, err := pattern.Lay(d)
		require.NoError(t, err, name)
		r := check.Run(s)
		assert.Greater(t, r.Openings, 20, name)
		assert.Equal(t, 1, r.Pieces, name)
		assert.GreaterOrEqual(t, r.Thinnest.Width, r.Rule-1e-3, name)
		for _, f := range r.Findings {
			assert.Equal(t, check.Note, f.Severity, "%s: %s", name, f.What)
		}
	}
}
