//go:build cgo

package main

import (
	"bytes"
	"errors"
	"testing"

	"fretband/app"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
)

func TestWhatCannotBeOpenedIsSaidInOneLine(t *testing.T) {
	for _, args := range [][]string{
		{"-size", "big"}, {"-size", "10x10"}, {"-theme", "plaid"}, {"-gallery", "nothing"}, {"a", "b"},
		{"-gallery", "harbour-cuff", "a.json"}, {"no-such-file.json"}, {"-nonsense"},
	} {
		t.Setenv("XDG_CONFIG_HOME", t.TempDir())
		t.Setenv("DISPLAY", "")
		t.Setenv("WAYLAND_DISPLAY", "")
		err := run(args)
		require.Error(t, err, "%v", args)
		require.NotErrorIs(t, err, errNoWindow, "%v", args)
		require.NotContains(t, err.Error(), "\n", "%v", args)
	}
}

func TestTheWindowIsAsLargeAsAsked(t *testing.T) {
	s, err := windowSize("1100x700", app.Settings{})
	require.NoError(t, err)
	require.Equal(t, fyne.NewSize(1100, 700), s)
	s, err = windowSize("", app.Settings{Width: 900, Height: 600})
	require.NoError(t, err)
	require.Equal(t, fyne.NewSize(900, 600), s)
}

func TestTheStartLogHoldsBackUntilTheWindowIsThere(t *testing.T) {
	var out bytes.Buffer
	failed := false
	l := &startLog{out: &out, fail: func() { failed = true }}
	_, err := l.Write([]byte("a line\n"))
	require.NoError(t, err)
	require.Empty(t, out.String())
	l.started()
	require.Equal(t, "a line\n", out.String())
	require.False(t, failed)

	l = &startLog{out: &out, fail: func() { failed = true }}
	_, err = l.Write([]byte("Fyne error: " + creationError))
	require.NoError(t, err)
	require.True(t, failed)
	err = func() (err error) {
		defer l.panicked(&err)
		panic("no display")
	}()
	require.True(t, errors.Is(err, errNoWindow))
}
