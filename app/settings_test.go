package app

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestSettingsComeBackAsTheyWereKept(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new")
	s, err := ReadSettings(dir)
	require.NoError(t, err)
	require.Equal(t, DefaultSettings(), s)
	s.Theme = "dark"
	s.Opened("/a/one.json")
	s.Opened("/b/two.json")
	s.Opened("/a/one.json")
	s.HandOver.KerfMM = 0.1
	require.NoError(t, s.Write(dir))
	got, err := ReadSettings(dir)
	require.NoError(t, err)
	require.Equal(t, s, got)
	require.Equal(t, []string{"/a/one.json", "/b/two.json"}, got.Recent)
	require.Equal(t, "/a", got.Folder)
}

func TestRecentFilesAreKeptToTen(t *testing.T) {
	var s Settings
	for i := range 25 {
		s.Opened(fmt.Sprintf("/%d.json", i))
	}
	require.Len(t, s.Recent, 10)
	require.Equal(t, "/24.json", s.Recent[0])
	s.Forget("/24.json")
	require.Equal(t, "/23.json", s.Recent[0])
}

func TestBrokenSettingsGiveTheDefaultsAndAnError(t *testing.T) {
	for _, text := range []string{"{", `{"version":99}`, `{"theme":3}`, ""} {
		dir := t.TempDir()
		require.NoError(t, os.WriteFile(filepath.Join(dir, "settings.json"), []byte(text), 0o600))
		s, err := ReadSettings(dir)
		require.Error(t, err, text)
		require.Equal(t, DefaultSettings(), s)
	}
}

func TestAbsurdSettingsAreMended(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "settings.json"), []byte(`{"version":1,"theme":"plaid","screen_dpi":-3}`), 0o600))
	s, err := ReadSettings(dir)
	require.NoError(t, err)
	require.Equal(t, "light", s.Theme)
	require.Equal(t, 96.0, s.ScreenDPI)
}
