package disk

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"github.com/gofrs/flock"
)

// set is what is written aside and waits to be moved. All its hidden files have its id in
// their names. It holds its lock while it is written. The system releases the lock when the
// program ends, however it ends, so that others can tell what was left behind.
type set struct {
	dir   string
	id    string
	moves []move
	lock  *flock.Flock
}

// Hidden names, before and after an id: of new files, of copies of what they replace, of
// the list of moves and of the lock.
const (
	hidden  = ".fretband-"
	isNew   = ".new"
	isOld   = ".old"
	isMoves = ".moves"
	isLock  = ".lock"
)

func (s *set) file(suffix string) string { return filepath.Join(s.dir, hidden+s.id+suffix) }

// begin begins a set in the folder dir, after what earlier programs left there is settled.
func begin(dir string) (*set, error) {
	settle(dir)
	for at := time.Now().UnixNano(); ; at++ {
		s := &set{dir: dir, id: strconv.FormatInt(at, 36)}
		s.lock = flock.New(s.file(isLock))
		ok, err := s.lock.TryLock()
		if err != nil {
			if _, statErr := os.Stat(s.file(isLock)); statErr != nil {
				return nil, err
			}
			return s, nil // a file system without locks: nothing there is ever settled
		}
		if ok {
			return s, nil
		}
		_ = s.lock.Close()
	}
}

// end removes everything of the set except the files in their places.
func (s *set) end() {
	for _, m := range s.moves {
		if m.aside != "" {
			_ = os.Remove(m.aside)
		}
	}
	_ = os.Remove(s.file(isMoves))
	s.release()
}

// release removes the lock while it is held, so that nobody else's is taken away; some
// systems remove no file that is open.
func (s *set) release() {
	err := os.Remove(s.file(isLock))
	_ = s.lock.Close()
	if err != nil {
		_ = os.Remove(s.file(isLock))
	}
}

// listedMove is a move as the list of moves has it: from the set's folder.
type listedMove struct{ Aside, To string }

// writeMoves brings the list of the moves to the disk: from then on the set is settled by
// finishing it. A single file needs none, since it moves at once.
func (s *set) writeMoves() error {
	if len(s.moves) < 2 {
		return nil
	}
	var list []listedMove
	for _, m := range s.moves {
		aside, err := filepath.Rel(s.dir, m.aside)
		if err != nil {
			aside = m.aside
		}
		to, err := filepath.Rel(s.dir, m.to)
		if err != nil {
			to = m.to
		}
		list = append(list, listedMove{aside, to})
	}
	data, err := json.Marshal(list)
	if err != nil {
		return err
	}
	if err := toDisk(s.file(isMoves), data, Private, false); err != nil {
		return of(s.dir, err)
	}
	syncFolder(s.dir)
	return nil
}

// settle cleans up what programs left in dir when they were killed: it moves the files of a
// set whose moves had begun, and removes any other set. It leaves alone what another
// program is still writing, and what it can't tell from that.
func settle(dir string) {
	entries, _ := os.ReadDir(dir)
	for _, e := range entries {
		id, ours := strings.CutPrefix(e.Name(), hidden)
		if !ours {
			continue
		}
		if id, ok := strings.CutSuffix(id, isLock); ok {
			s := &set{dir: dir, id: id, lock: flock.New(filepath.Join(dir, e.Name()))}
			if ok, err := s.lock.TryLock(); ok && err == nil {
				s.settle()
			}
			_ = s.lock.Close()
		}
	}
	// What came here through a link from a set in another folder has no lock here.
	// Nothing that is still being written is as old as a day.
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), hidden) || !strings.HasSuffix(e.Name(), isNew) {
			continue
		}
		if st, err := e.Info(); err == nil && time.Since(st.ModTime()) > 24*time.Hour {
			_ = os.Remove(filepath.Join(dir, e.Name()))
		}
	}
}

// settle finishes a set that was left behind, and holds its lock. If something is in the
// way, the set stays for the next time.
func (s *set) settle() {
	var list []listedMove
	// A list that is not whole was not yet acted upon.
	if data, err := os.ReadFile(s.file(isMoves)); err == nil && json.Unmarshal(data, &list) == nil {
		begun, err := os.Stat(s.file(isMoves))
		if err != nil {
			return
		}
		for _, l := range list {
			m := move{aside: s.from(l.Aside), to: s.from(l.To)}
			if _, err := os.Lstat(m.aside); err != nil {
				continue // it is in its place
			}
			stands, err := replaceable(m.to)
			switch {
			case err != nil:
				return
			case stands != nil && stands.ModTime().After(begun.ModTime()):
				_ = os.Remove(m.aside) // somebody has put another there since
			case m.do(false) != nil:
				return
			}
		}
		syncFolder(s.dir)
	}
	entries, _ := os.ReadDir(s.dir)
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), hidden+s.id+"-") {
			_ = os.Remove(filepath.Join(s.dir, e.Name()))
		}
	}
	_ = os.Remove(s.file(isMoves))
	s.release()
}

func (s *set) from(path string) string {
	if filepath.IsAbs(path) {
		return path
	}
	return filepath.Join(s.dir, path)
}
