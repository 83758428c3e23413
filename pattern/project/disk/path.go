package disk

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
)

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

// makeFolder makes dir with the folders that it lies in, as far as they are missing, and
// returns those that it made, innermost first. If it fails none is left.
func makeFolder(dir string) (made []string, err error) {
	var missing []string // innermost first
	for at := filepath.Clean(dir); ; at = filepath.Dir(at) {
		st, err := os.Stat(at)
		if err == nil && !st.IsDir() {
			return nil, fmt.Errorf("%s: is a file, where a folder has to be: choose another folder", at)
		}
		if err == nil {
			break
		}
		if to, linkErr := os.Readlink(at); linkErr == nil {
			return nil, fmt.Errorf("%s: is a link to %s, which can't be opened: make that folder, remove the link, or choose another folder", at, to)
		}
		if !errors.Is(err, fs.ErrNotExist) && !errors.Is(err, syscall.ENOTDIR) {
			return nil, err
		}
		if at == filepath.Dir(at) {
			return nil, err
		}
		missing = append(missing, at)
	}
	for i := len(missing) - 1; i >= 0; i-- {
		err := os.Mkdir(missing[i], 0o777)
		if errors.Is(err, fs.ErrExist) {
			continue // somebody else has made it meanwhile
		}
		if err != nil {
			for _, d := range made {
				_ = os.Remove(d)
			}
			return nil, err
		}
		made = append([]string{missing[i]}, made...)
	}
	return made, nil
}

// of makes an error name the file that was asked for instead of a hidden one.
func of(path string, err error) error { return fmt.Errorf("%s: %w", path, reason(err)) }

// reason returns what the system said, without the operation and the names of files.
func reason(err error) error {
	var p *fs.PathError
	var l *os.LinkError
	switch {
	case errors.As(err, &p):
		return p.Err
	case errors.As(err, &l):
		return l.Err
	}
	return err
}
