// Package disk brings files to the disk whole: one file at once or not at all, and the
// files of a set together or not at all.
//
// The bytes go to new files beside those that they are to replace, are brought to the
// disk and read back, and only then take their places. What can fail for want of room
// has happened by then; if a move fails all the same, those before it are undone. A
// reader sees an old file or a new one, never half of one. If the program is killed or
// the power fails during the moves of a set, old files can be beside new ones, each of
// them whole; the next time that anything is written to that folder the moves are
// finished first ([settle]).
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
	to, err := target(path)
	if err != nil {
		return err
	}
	s, err := begin(filepath.Dir(to))
	if err != nil {
		return of(path, err)
	}
	defer s.end()
	if err := s.stage(path, data, mode); err != nil {
		return err
	}
	return s.move()
}

// WriteSet writes files into dir, which is made if it is missing, and returns their
// paths. If it fails, dir is as it was.
func WriteSet(dir string, files []File) (paths []string, err error) {
	made, err := makeFolder(dir)
	if err != nil {
		return nil, err
	}
	defer func() {
		if err != nil {
			paths = nil
			for _, d := range made {
				_ = os.Remove(d) // it may hold what others have written meanwhile, and stays then
			}
		}
	}()
	s, err := begin(dir)
	if err != nil {
		return nil, of(dir, err)
	}
	defer s.end()
	for _, f := range files {
		path := filepath.Join(dir, f.Name)
		if err := s.stage(path, f.Data, Shared); err != nil {
			return nil, err
		}
		paths = append(paths, path)
	}
	return paths, s.move()
}

// move is one file's way to its place.
type move struct {
	aside string // the new file; "" once it is in its place
	to    string // its place
	old   string // while it is being moved: a copy of what stood there, "" for nothing
}

// stage writes a file beside path and brings it to the disk.
func (s *set) stage(path string, data []byte, mode fs.FileMode) error {
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
	if old != nil {
		mode = old.Mode().Perm()
	}
	aside := filepath.Join(filepath.Dir(to), fmt.Sprintf("%s%s-%d%s", hidden, s.id, len(s.moves), isNew))
	s.moves = append(s.moves, move{aside: aside, to: to})
	if err := toDisk(aside, data, mode, old != nil); err != nil {
		return of(path, err)
	}
	return nil
}

// toDisk makes a file that was not there, brings it to the disk and reads it back. exact
// says that it gets the permissions whatever the user's mask says.
func toDisk(path string, data []byte, mode fs.FileMode, exact bool) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if exact && err == nil {
		err = f.Chmod(mode)
	}
	// Without this a loss of power after the move could leave an empty file.
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return err
	}
	onDisk, err := os.ReadFile(path)
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

// move moves the files to their places, all or none.
func (s *set) move() error {
	if err := s.writeMoves(); err != nil {
		return err
	}
	for i := range s.moves {
		if err := s.moves[i].do(len(s.moves) > 1); err != nil {
			for ; i >= 0; i-- {
				err = errors.Join(err, s.moves[i].undo())
			}
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
	for dir := range folders {
		syncFolder(dir)
	}
	return nil
}

// syncFolder brings a folder's entries to the disk, where the system can.
func syncFolder(dir string) {
	if d, err := os.Open(dir); err == nil {
		_ = d.Sync()
		_ = d.Close()
	}
}

// do moves the file to its place. With back, what stood there is kept under another
// name, so that it can be brought back.
func (m *move) do(back bool) error {
	stands, err := replaceable(m.to)
	if err != nil {
		return err
	}
	if stands != nil && back {
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

// undo brings back what stood in the file's place. Its error says where that is kept
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
