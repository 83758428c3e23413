package app

import (
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"

	"fretband/pattern/project/disk"
)

// Settings are what a person has chosen about the program, not about a design.
type Settings struct {
	Version int      `json:"version"`
	Recent  []string `json:"recent,omitempty"` // newest first
	Theme   string   `json:"theme"`            // "light" or "dark"
	// ScreenDPI is how many pixels the screen has to the inch, for true size.
	ScreenDPI float64 `json:"screen_dpi"`
	Folder    string  `json:"folder,omitempty"` // where files were last opened or saved
	// HandOver goes by the name that earlier versions gave it in the file.
	HandOver HandOver `json:"export"`
	Folded   bool     `json:"folded"` // the controls are folded away
	Width    float32  `json:"width,omitempty"`
	Height   float32  `json:"height,omitempty"`
	Panes    Panes    `json:"panes"`
}

// Panes are the sizes that a person has given the panes of the window; 0 is the usual one.
type Panes struct {
	Upper     float32 `json:"upper,omitempty"`    // height of the upper row, as a share of both
	Controls  float32 `json:"controls,omitempty"` // widths
	Figures   float32 `json:"figures,omitempty"`
	Findings  float32 `json:"findings,omitempty"`
	BentLarge bool    `json:"bent_large,omitempty"` // the bent band has the blank's place
}

const (
	settingsVersion = 1
	keptRecent      = 10
	// settingsLimit is far above any file that we write; a larger one isn't ours.
	settingsLimit = 1 << 20
)

// DefaultSettings are those of the first start. 96 pixels to the inch is what
// CSS calls the reference (1in = 96px), and what most screens claim to have.
func DefaultSettings() Settings {
	return Settings{Version: settingsVersion, Theme: "light", ScreenDPI: 96, HandOver: firstHandOver()}
}

// ReadSettings reads the settings kept in dir. A missing file gives the
// defaults; a broken one gives the defaults and the error.
func ReadSettings(dir string) (Settings, error) {
	s := DefaultSettings()
	path := settingsFile(dir)
	b, err := readUpTo(path, settingsLimit)
	if os.IsNotExist(err) {
		return s, nil
	}
	if err != nil {
		return s, err
	}
	if err := json.Unmarshal(b, &s); err != nil {
		return DefaultSettings(), fmt.Errorf("%s: %w", path, err)
	}
	if s.Version != settingsVersion {
		return DefaultSettings(), fmt.Errorf("%s: version %d: this program reads %d", path, s.Version, settingsVersion)
	}
	if s.Theme != "dark" {
		s.Theme = "light"
	}
	if !(s.ScreenDPI >= 40 && s.ScreenDPI <= 800) {
		s.ScreenDPI = DefaultSettings().ScreenDPI
	}
	if p := s.Panes; !(p.Upper >= 0 && p.Upper <= 1 && p.Controls >= 0 && p.Figures >= 0 && p.Findings >= 0) {
		s.Panes = Panes{}
	}
	s.HandOver.mend()
	return s, nil
}

// readUpTo reads as much of a file as one of our own may hold.
func readUpTo(path string, limit int64) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, limit))
}

// Write keeps the settings in dir, atomically.
func (s Settings) Write(dir string) error {
	s.Version = settingsVersion
	b, err := json.MarshalIndent(s, "", "  ")
	if err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	return disk.WriteFile(settingsFile(dir), append(b, '\n'), disk.Private)
}

// Opened puts path at the head of the recent files.
func (s *Settings) Opened(path string) {
	s.Forget(path)
	s.Recent = slices.Insert(s.Recent, 0, path)
	if len(s.Recent) > keptRecent {
		s.Recent = s.Recent[:keptRecent]
	}
	s.Folder = filepath.Dir(path)
}

// Forget takes path out of the recent files.
func (s *Settings) Forget(path string) {
	s.Recent = slices.DeleteFunc(slices.Clone(s.Recent), func(p string) bool { return p == path })
}

func settingsFile(dir string) string { return filepath.Join(dir, "settings.json") }

// ConfigDir returns the folder where this program keeps its settings and its
// recovery files.
func ConfigDir() (string, error) {
	d, err := os.UserConfigDir()
	if err != nil {
		return "", err
	}
	return filepath.Join(d, "fretband"), nil
}
