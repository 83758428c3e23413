package app

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"syscall"
	"time"

	"fretband/pattern"
	"fretband/pattern/project"
	"fretband/pattern/project/disk"
)

// Recovered is unsaved work that a run of the program left behind.
type Recovered struct {
	Design pattern.Design
	Path   string // the file that it was being edited in, "" for none
	At     time.Time
	file   string
}

// recoveryNote is what a recovery file holds: the design file as it would have
// been saved, and where it belongs.
type recoveryNote struct {
	PID  int             `json:"pid"`
	Path string          `json:"path,omitempty"`
	At   time.Time       `json:"at"`
	File json.RawMessage `json:"file"`
}

const (
	recoveryPrefix = "unsaved-"
	// recoveryLimit is the largest recovery file that is read.
	recoveryLimit = 16 << 20
)

// Recovery keeps the unsaved work of one run in a file of its own, so that two
// windows never overwrite each other's.
type Recovery struct {
	dir, file string
}

// NewRecovery keeps its file in dir.
func NewRecovery(dir string) *Recovery {
	name := fmt.Sprintf("%s%d-%d.json", recoveryPrefix, os.Getpid(), time.Now().UnixNano())
	return &Recovery{dir: dir, file: filepath.Join(dir, name)}
}

// Keep writes the design, atomically.
func (r *Recovery) Keep(d pattern.Design, path string) error {
	var file bytes.Buffer
	if err := project.Write(&file, d); err != nil {
		return err
	}
	b, err := json.MarshalIndent(recoveryNote{PID: os.Getpid(), Path: path, At: time.Now(), File: file.Bytes()}, "", "  ")
	if err != nil {
		return err
	}
	if err := os.MkdirAll(r.dir, 0o755); err != nil {
		return err
	}
	return disk.WriteFile(r.file, b, disk.Private)
}

// Clear removes the file: the work is saved, or was given up.
func (r *Recovery) Clear() error {
	if err := os.Remove(r.file); err != nil && !errors.Is(err, os.ErrNotExist) {
		return err
	}
	return nil
}

// LeftBehind lists the unsaved work of runs that are no more, newest first.
// Files that can't be read are passed over and left where they are.
func LeftBehind(dir string) []Recovered {
	names, _ := filepath.Glob(filepath.Join(dir, recoveryPrefix+"*.json"))
	var found []Recovered
	for _, n := range names {
		if r, err := readRecovery(n); err == nil {
			found = append(found, r)
		}
	}
	sort.SliceStable(found, func(i, j int) bool { return found[i].At.After(found[j].At) })
	return found
}

// Discard removes the file that the work was found in.
func (r Recovered) Discard() error { return os.Remove(r.file) }

var errStillRunning = errors.New("still being edited")

func readRecovery(file string) (Recovered, error) {
	f, err := os.Open(file)
	if err != nil {
		return Recovered{}, err
	}
	defer f.Close()
	b, err := io.ReadAll(io.LimitReader(f, recoveryLimit))
	if err != nil {
		return Recovered{}, err
	}
	var n recoveryNote
	if err := json.Unmarshal(b, &n); err != nil {
		return Recovered{}, err
	}
	if n.PID != os.Getpid() && running(n.PID) {
		return Recovered{}, errStillRunning
	}
	d, err := project.Read(strings.NewReader(string(n.File)))
	if err != nil {
		return Recovered{}, err
	}
	return Recovered{Design: d, Path: n.Path, At: n.At, file: file}, nil
}

// running reports whether a process of that number lives.
func running(pid int) bool {
	p, err := os.FindProcess(pid) // on Windows this alone tells
	if err != nil {
		return false
	}
	defer func() { _ = p.Release() }()
	err = p.Signal(syscall.Signal(0))
	return err == nil || errors.Is(err, syscall.EPERM) || errors.Is(err, errors.ErrUnsupported)
}
