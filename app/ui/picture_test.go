package ui

import (
	"image"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// dresses are those that a test goes through whose answers are the same in all: one will
// do, unless pictures are to be looked at.
func dresses() []string {
	if os.Getenv("FRETBAND_PICTURES") == "" {
		return []string{"light"}
	}
	return []string{"light", "dark"}
}

// keepPicture writes a picture where FRETBAND_PICTURES says, for a person to
// look at; without it nothing is written.
func keepPicture(t *testing.T, name string, picture func() image.Image) {
	t.Helper()
	dir := os.Getenv("FRETBAND_PICTURES")
	if dir == "" {
		return
	}
	require.NoError(t, os.MkdirAll(dir, 0o755))
	f, err := os.Create(filepath.Join(dir, name+".png"))
	require.NoError(t, err)
	defer f.Close()
	require.NoError(t, png.Encode(f, picture()))
}
