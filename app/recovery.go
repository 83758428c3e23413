package app

import (
	"bytes"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"sort"
	"strconv"
	"strings"
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
	// Unsure says that the file system has no locks, so the work may be of a window that
	// is still open.
	Unsure bool
	onDisk content // of that file when it was last read or written
	file   string
	claim  *claim
}

// recoveryNote is what a recovery file holds: the design file as it would have
// been saved, and where it belongs.
type recoveryNote struct {
	Path   string          `json:"path,omitempty"`
	OnDisk content         `json:"on_disk,omitempty"`
	At     time.Time       `json:"at"`
	File   json.RawMessage `json:"file"`
}

const (
	recoveryPrefix = "unsaved-"
	recoverySuffix = ".json"
	// recoveryLimit is the largest recovery file that is read.
	recoveryLimit = 16 << 20
)

// Recovery keeps the unsaved work of one window in a file of its own, so that two
// windows never overwrite each other's. A lock beside it says that the window is there;
// the system gives that back when the program ends, however it ends.
type Recovery struct {
	dir   string
	file  string // "" until there is something to keep
	claim *claim
	lock  func(path string) (*claim, error)
}

// NewRecovery keeps its file in dir.
func NewRecovery(dir string) *Recovery { return &Recovery{dir: dir, lock: takeClaim} }

// Write writes the document's design, whole or not at all.
func (r *Recovery) Write(d *Document) error {
	var file bytes.Buffer
	if err := project.Write(&file, d.Now()); err != nil {
		return err
	}
	b, err := json.MarshalIndent(recoveryNote{Path: d.Path, OnDisk: d.onDisk, At: time.Now(), File: file.Bytes()}, "", "  ")
	if err != nil {
		return err
	}
	if err := os.MkdirAll(r.dir, 0o755); err != nil {
		return err
	}
	r.begin()
	return disk.WriteFile(r.file, b, disk.Private)
}

// begin finds a name that no other window has. Without locks the work is kept all the
// same: to offer it once too often is better than not to have it.
func (r *Recovery) begin() {
	if r.file != "" {
		return
	}
	for at := time.Now().UnixNano(); ; at++ {
		name := filepath.Join(r.dir, recoveryPrefix+strconv.FormatInt(at, 36))
		var err error
		if r.claim, err = r.lock(name + lockSuffix); !errors.Is(err, ErrElsewhere) {
			r.file = name + recoverySuffix
			return
		}
	}
}

// Clear removes the file: the work is saved, or was given up.
func (r *Recovery) Clear() error {
	if r.file == "" {
		return nil
	}
	if err := os.Remove(r.file); err != nil && !errors.Is(err, os.ErrNotExist) {
		return err
	}
	return nil
}

// Close removes the file and ends the lock: the window is closed.
func (r *Recovery) Close() error {
	err := r.Clear()
	r.claim.release()
	r.claim, r.file = nil, ""
	return err
}

// LeftBehind lists the unsaved work of windows that are no more, newest first, and
// keeps other windows from offering it as well until it is discarded or given back.
// Files that can't be read are passed over and left where they are.
func LeftBehind(dir string) []Recovered { return leftBehind(dir, takeClaim) }

func leftBehind(dir string, lock func(string) (*claim, error)) []Recovered {
	var found []Recovered
	entries, _ := os.ReadDir(dir)
	for _, e := range entries {
		name, ok := strings.CutPrefix(e.Name(), recoveryPrefix)
		if !ok {
			continue
		}
		base := filepath.Join(dir, recoveryPrefix+strings.TrimSuffix(strings.TrimSuffix(name, recoverySuffix), lockSuffix))
		if e.Name() == filepath.Base(base)+lockSuffix {
			removeEmptyClaim(base, lock)
			continue
		}
		if e.Name() != filepath.Base(base)+recoverySuffix {
			continue
		}
		claim, err := lock(base + lockSuffix)
		if errors.Is(err, ErrElsewhere) {
			continue
		}
		r, readErr := readRecovery(base + recoverySuffix)
		if readErr != nil {
			claim.release()
			continue
		}
		r.claim, r.Unsure = claim, err != nil
		if r.saved() {
			_ = r.Discard()
			continue
		}
		found = append(found, r)
	}
	sort.SliceStable(found, func(i, j int) bool { return found[i].At.After(found[j].At) })
	return found
}

// saved reports whether the file that the work belongs to has it already: the program
// ended after it was saved and before that was noted.
func (r Recovered) saved() bool {
	var b bytes.Buffer
	if r.Path == "" || r.Unsure || project.Write(&b, r.Design) != nil {
		return false
	}
	there, err := contentAt(r.Path)
	return err == nil && there == contentOf(b.Bytes())
}

// removeEmptyClaim removes the lock file that a window left which had kept nothing.
func removeEmptyClaim(base string, lock func(string) (*claim, error)) {
	if _, err := os.Stat(base + recoverySuffix); !errors.Is(err, os.ErrNotExist) {
		return
	}
	if claim, err := lock(base + lockSuffix); err == nil {
		claim.release()
	}
}

// Discard removes the file that the work was found in.
func (r Recovered) Discard() error {
	err := os.Remove(r.file)
	r.claim.release()
	return err
}

// GiveBack leaves the work for a later time.
func (r Recovered) GiveBack() { r.claim.release() }

func readRecovery(file string) (Recovered, error) {
	b, err := readUpTo(file, recoveryLimit)
	if err != nil {
		return Recovered{}, err
	}
	var n recoveryNote
	if err := json.Unmarshal(b, &n); err != nil {
		return Recovered{}, err
	}
	d, err := project.Read(bytes.NewReader(n.File))
	if err != nil {
		return Recovered{}, err
	}
	return Recovered{Design: d, Path: n.Path, At: n.At, onDisk: n.OnDisk, file: file}, nil
}
