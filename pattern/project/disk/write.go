// Package disk brings files to the disk whole: one file at once or not at all, and the
// files of a set together or not at all.
//
// The bytes go to new files beside those that they are to replace, are brought to the
// disk and read back, and only then take their places. What can fail for want of room
// has happened by then; if a move fails all the same, those before it are undone. A
// reader sees an old file or a new one, never half of one. A loss of power amid the
// moves can leave old files beside new ones, each of them whole, and copies of those
// that were replaced under hidden names that end in ".old".
//
// The permissions of a file that is replaced are kept, a symbolic link stays one, and a
// file that is write-protected is left alone.
package disk

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"
)

// File is one file of a set.
type File struct {
	Name string // without a folder
	Data []byte
}

// Permissions of new files, less what the user's mask takes away.
const (
	Shared  fs.FileMode = 0o666
	Private fs.FileMode = 0o600
)

// WriteFile writes a file to path. Its folder has to be there.
func WriteFile(path string, data []byte, mode fs.FileMode) error {
	clean(filepath.Dir(path))
	var s set
	if err := s.stage(path, data, mode); err != nil {
		s.drop()
		return err
	}
	return s.move()
}

// WriteSet writes files into dir, which is made if it is missing, and returns their
// paths. If it fails, dir is as it was.
func WriteSet(dir string, files []File) ([]string, error) {
	made, err := makeFolder(dir)
	if err != nil {
		return nil, err
	}
	clean(dir)
	var s set
	var paths []string
	for _, f := range files {
		paths = append(paths, filepath.Join(dir, f.Name))
		if err = s.stage(paths[len(paths)-1], f.Data, Shared); err != nil {
			s.drop()
			break
		}
	}
	if err == nil {
		err = s.move()
	}
	if err != nil {
		for _, d := range made {
			_ = os.Remove(d) // it may hold what others have written meanwhile, and stays then
		}
		return nil, err
	}
	return paths, nil
}

// set is what is written aside and waits to be moved.
type set struct {
	moves []move
}

// move is one file's way to its place.
type move struct {
	aside string // the new file
	to    string // its place
	old   string // while it is being moved: a copy of what stood there, "" for nothing
}

// Hidden names of new files, and of copies of what they replace.
const (
	hidden = ".fretband-"
	isNew  = ".new"
	isOld  = ".old"
)

// stage writes a file beside path and brings it to the disk.
func (s *set) stage(path string, data []byte, mode fs.FileMode) (err error) {
	to, err := target(path)
	if err != nil {
		return err
	}
	for _, m := range s.moves {
		if m.to == to {
			return fmt.Errorf("%s: is a link to another file of the set; remove the link", path)
		}
	}
	old, err := replaceable(to)
	if err != nil {
		return err
	}
	f, err := createAside(filepath.Dir(to), mode)
	if err != nil {
		return of(path, err)
	}
	s.moves = append(s.moves, move{aside: f.Name(), to: to})
	defer func() {
		if err != nil {
			_ = f.Close()
			err = of(path, err)
		}
	}()
	if _, err = f.Write(data); err != nil {
		return err
	}
	if old != nil {
		if err = f.Chmod(old.Mode().Perm()); err != nil {
			return err
		}
	}
	// Without this a loss of power after the move could leave an empty file.
	if err = f.Sync(); err != nil {
		return err
	}
	if err = f.Close(); err != nil {
		return err
	}
	onDisk, err := os.ReadFile(f.Name())
	if err != nil {
		return err
	}
	if !bytes.Equal(onDisk, data) {
		return errors.New("the disk gives back something else than was written: write to another disk")
	}
	return nil
}

// replaceable says why what is at path can't be replaced by a file. It returns what
// stands there; nil for nothing.
func replaceable(path string) (fs.FileInfo, error) {
	old, err := os.Lstat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, nil
	case err != nil:
		return nil, err
	case old.IsDir():
		return nil, fmt.Errorf("%s: is a folder, where a file has to go: choose another name, or move the folder", path)
	case !old.Mode().IsRegular():
		return nil, fmt.Errorf("%s: is not an ordinary file; choose another name", path)
	case old.Mode().Perm()&0o200 == 0:
		return nil, fmt.Errorf("%s: is write-protected; choose another name or allow writing", path)
	}
	return old, nil
}

// createAside opens a new file in dir whose name nobody else has. [os.CreateTemp] would
// do, but makes files that only their owner may read, whatever the user's mask says.
func createAside(dir string, mode fs.FileMode) (f *os.File, err error) {
	for i := range 1000 {
		name := hidden + strconv.FormatInt(time.Now().UnixNano()+int64(i), 36) + isNew
		f, err = os.OpenFile(filepath.Join(dir, name), os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
		if !errors.Is(err, fs.ErrExist) {
			return f, err
		}
	}
	return nil, err
}

// clean removes what programs that were ended amid writing have left in dir. Nothing
// that is still being written is as old as a day.
func clean(dir string) {
	entries, _ := os.ReadDir(dir)
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), hidden) || !strings.HasSuffix(e.Name(), isNew) {
			continue
		}
		if st, err := e.Info(); err == nil && time.Since(st.ModTime()) > 24*time.Hour {
			_ = os.Remove(filepath.Join(dir, e.Name()))
		}
	}
}

// move moves the files to their places, all or none.
func (s *set) move() error {
	for i := range s.moves {
		if err := s.moves[i].do(); err != nil {
			for ; i >= 0; i-- {
				err = errors.Join(err, s.moves[i].undo())
			}
			s.drop()
			return err
		}
	}
	folders := map[string]bool{}
	for _, m := range s.moves {
		if m.old != "" {
			_ = os.Remove(m.old)
		}
		folders[filepath.Dir(m.to)] = true
	}
	for dir := range folders { // the folder's entries, where the system can; the files are whole either way
		if d, err := os.Open(dir); err == nil {
			_ = d.Sync()
			_ = d.Close()
		}
	}
	return nil
}

// do keeps what stands in the file's place under another name and moves the file there.
func (m *move) do() error {
	stands, err := replaceable(m.to)
	if err != nil {
		return err
	}
	if stands != nil {
		old := m.aside + isOld
		// A second name, so that a reader finds a file there at all times; the file
		// system may have none, as those of memory cards.
		if os.Link(m.to, old) != nil {
			if err := os.Rename(m.to, old); err != nil {
				return of(m.to, err)
			}
		}
		m.old = old
	}
	if err := os.Rename(m.aside, m.to); err != nil {
		return of(m.to, err)
	}
	m.aside = ""
	return nil
}

// undo brings back what stood in the file's place. Its error tells where that is kept
// if it can't be brought back.
func (m *move) undo() error {
	if m.old == "" {
		if m.aside == "" { // it was moved, and nothing had stood there
			return os.Remove(m.to)
		}
		return nil
	}
	if err := os.Rename(m.old, m.to); err != nil {
		return fmt.Errorf("%s: could not be brought back and is kept as %s: %w", m.to, m.old, reason(err))
	}
	// Of two names of one file the system leaves both (POSIX, rename).
	_ = os.Remove(m.old)
	return nil
}

// drop removes what is still written aside.
func (s *set) drop() {
	for _, m := range s.moves {
		if m.aside != "" {
			_ = os.Remove(m.aside)
		}
	}
}
