package export

import (
	"testing"

	"fretband/pattern"
	"fretband/unroll"

	"github.com/stretchr/testify/require"
)

// A picture to trace is in nothing that is made of a design, so it does not change its number.
func TestAPictureToTraceDoesNotChangeTheContentNumber(t *testing.T) {
	d := pattern.Begin(unroll.Cuff)
	traced := d
	traced.Underlay = pattern.Underlay{File: "sketch.png", WidthMM: 100}
	require.Equal(t, ContentNumber(d), ContentNumber(traced))
	other := d
	other.Band.WidthMM++
	require.NotEqual(t, ContentNumber(d), ContentNumber(other))
}
