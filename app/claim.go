package app

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/gofrs/flock"
)

// ErrElsewhere says that another window, of this run or of another, has the file.
var ErrElsewhere = errors.New("open in another window")

// lockSuffix is what the names of lock files end in.
const lockSuffix = ".lock"

// claim shows other windows that this one works on something: a lock on a file of its own. The
// system releases it when the program ends, however it ends.
type claim struct {
	path string
	f    *flock.Flock
}

// takeClaim locks the file at path, which is made if it is missing, in a folder that is
// there. It fails with [ErrElsewhere] if another has it; any other error means that the
// file system has no locks or can't be written, so that other windows can't be seen.
func takeClaim(path string) (*claim, error) {
	f := flock.New(path)
	ok, err := f.TryLock()
	switch {
	case err != nil:
		_ = f.Close()
		return nil, fmt.Errorf("other windows can't be told from here, as %s can't be locked: %w", path, err)
	case !ok:
		return nil, ErrElsewhere
	}
	return &claim{path, f}, nil
}

// release gives up the claim, if there is one.
func (c *claim) release() {
	if c == nil {
		return
	}
	// Removed while it is held, so that nobody else's is taken away; some systems
	// remove no file that is open.
	err := os.Remove(c.path)
	_ = c.f.Unlock()
	if err != nil {
		_ = os.Remove(c.path)
	}
}

// claimDesign claims the design file at path, whatever link leads to it. The lock lies
// in dir, the program's own folder, so that none is left beside the designs.
func claimDesign(dir, path string) (*claim, error) {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, err
	}
	name := sha256.Sum256([]byte(realPath(path)))
	return takeClaim(filepath.Join(dir, "open-"+hex.EncodeToString(name[:8])+lockSuffix))
}

// realPath names the file at path the same whatever link leads to it.
func realPath(path string) string {
	if abs, err := filepath.Abs(path); err == nil {
		path = abs
	}
	if real, err := filepath.EvalSymlinks(path); err == nil {
		return real
	}
	// The file is not there yet; its folder is.
	if dir, err := filepath.EvalSymlinks(filepath.Dir(path)); err == nil {
		return filepath.Join(dir, filepath.Base(path))
	}
	return path
}

// content names what a file holds; "" is a file that is not there, or not known.
type content string

func contentOf(data []byte) content {
	sum := sha256.Sum256(data)
	return content(hex.EncodeToString(sum[:]))
}

// contentAt names what the file at path holds now.
func contentAt(path string) (content, error) {
	data, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return "", nil
	}
	if err != nil {
		return "", err
	}
	return contentOf(data), nil
}
