package project

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"fretband/pattern"
)

// Write writes the design. It writes nothing of a design that
// [pattern.Design.Check] refuses, since that could not be read again.
func Write(w io.Writer, d pattern.Design) error {
	b, err := encode(d)
	if err != nil {
		return err
	}
	_, err = w.Write(b)
	return err
}

// WriteFile writes the design to the file at path, at once or not at all: the
// bytes go to a new file in the same folder, are brought to the disk, and then
// take the old file's place. The old file's permissions are kept, a symbolic
// link stays one. A write-protected file is left alone.
func WriteFile(path string, d pattern.Design) error {
	b, err := encode(d)
	if err != nil {
		return err
	}
	path, err = target(path)
	if err != nil {
		return err
	}
	old, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		old = nil
	case err != nil:
		return err
	case old.IsDir():
		return fmt.Errorf("%s: is a folder; name a file in it", path)
	case !old.Mode().IsRegular():
		return fmt.Errorf("%s: is not an ordinary file; choose another name", path)
	case old.Mode().Perm()&0o200 == 0:
		return fmt.Errorf("%s: is write-protected; choose another name or allow writing", path)
	}
	return replace(path, b, old)
}

func encode(d pattern.Design) ([]byte, error) {
	if err := d.Check(); err != nil {
		return nil, err
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	err := e.Encode(struct {
		Fretband int `json:"fretband"`
		pattern.Design
	}{Version, d})
	return b.Bytes(), err
}

// target follows symbolic links to where the file is or will be.
func target(path string) (string, error) {
	if real, err := filepath.EvalSymlinks(path); err == nil {
		return real, nil
	}
	for range 40 {
		info, err := os.Lstat(path)
		if errors.Is(err, fs.ErrNotExist) {
			return path, nil
		}
		if err != nil {
			return "", err
		}
		if info.Mode()&fs.ModeSymlink == 0 {
			return path, nil
		}
		to, err := os.Readlink(path)
		if err != nil {
			return "", err
		}
		if !filepath.IsAbs(to) {
			to = filepath.Join(filepath.Dir(path), to)
		}
		path = to
	}
	return "", fmt.Errorf("%s: is a symbolic link that leads in a circle", path)
}

// replace puts a file with the bytes b where path is. The new file has the
// permissions of the old one, or of any new file if old is nil.
func replace(path string, b []byte, old fs.FileInfo) (err error) {
	dir := filepath.Dir(path)
	var tmp *os.File
	for i := range 1000 {
		name := filepath.Join(dir, fmt.Sprintf(".fretband-%d-%d.tmp", os.Getpid(), i))
		tmp, err = os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if !errors.Is(err, fs.ErrExist) {
			break
		}
	}
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			_ = tmp.Close()
			_ = os.Remove(tmp.Name())
		}
	}()
	if _, err = tmp.Write(b); err != nil {
		return err
	}
	if old != nil {
		if err = tmp.Chmod(old.Mode().Perm()); err != nil {
			return err
		}
	}
	// Without this a loss of power after the renaming could leave an empty file.
	if err = tmp.Sync(); err != nil {
		return err
	}
	if err = tmp.Close(); err != nil {
		return err
	}
	if err = os.Rename(tmp.Name(), path); err != nil {
		return err
	}
	// The folder's entry, where the system can; the file itself is whole either way.
	if d, openErr := os.Open(dir); openErr == nil {
		_ = d.Sync()
		_ = d.Close()
	}
	return nil
}
