package handover

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"sync"

	"fretband/export"
	"fretband/export/jobsheet"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project/disk"
)

// Write writes the files that a receiver needs into dir, which is made if it is missing,
// as name-laser.svg and so on ([Gets]), and returns the paths. They appear all together or not at all:
// if any of them can't be made, or the disk has no room, dir is as it was. Each is read
// once more from the disk, byte by byte, before it takes its place. Job sheets list the
// others with their checksums.
//
// The openings are cut as the option says, or else as the receiver works, or else as the
// design says: findings, cautions and papers are for that ([CutFor]).
//
// Files of the same names that are made of the same design are replaced: of the design
// as it is, as it was at one of the [export.Options.Earlier] content numbers, or of one that
// has the same name, for a design keeps its name while it is worked on. Any other file
// is a stranger's and is replaced only if [export.Options.Replace] says so.
//
// Errors: a name that is no safe file name ([CheckName]), options out of range,
// [StrangersError], [export.ErrPieces], [cut.KerfError], [cut.RoomError], [export.ReadBackError] and other
// [unroll.ProgramError]s, which are no fault of the design, and those of the disk.
func Write(dir, name string, s *pattern.Sheet, r *check.Report, o export.Options, to export.Receiver) ([]string, error) {
	s, r, o = CutFor(s, r, o, to)
	formats := GetsOf(s, to, o)
	if err := CheckName(name); err != nil {
		return nil, err
	}
	if err := strangers(dir, name, formats, s.Design, o); err != nil { // before the work
		return nil, err
	}
	made, err := makeFiles(name, s, r, o, formats)
	if err != nil {
		return nil, err
	}
	if err := strangers(dir, name, formats, s.Design, o); err != nil { // come meanwhile
		return nil, err
	}
	return disk.WriteSet(dir, made)
}

// CutFor returns the sheet as whoever receives it cuts it, with the report of that, checked
// anew if the design says otherwise, and the options for him.
func CutFor(s *pattern.Sheet, r *check.Report, o export.Options, to export.Receiver) (*pattern.Sheet, *check.Report, export.Options) {
	o.For = to.Key
	s, r = export.CutBy(s, r, cmp.Or(o.Process, to.Process, s.Process))
	return s, r, o
}

// Rehearse makes files of a part as [Write] would, of any formats, reads them back and
// throws them away. Its errors are those of Write but for the disk's.
func Rehearse(s *pattern.Sheet, r *check.Report, o export.Options, formats []Format) error {
	s, r, o = CutFor(s, r, o, export.Anyone())
	_, err := makeFiles("rehearsal", s, r, o, formats)
	return err
}

// makeFiles makes files of any formats. Each is read back while the next ones are made.
func makeFiles(name string, s *pattern.Sheet, r *check.Report, o export.Options, formats []Format) ([]disk.File, error) {
	if err := o.Check(); err != nil {
		return nil, err
	}
	if r.Pieces > 1 {
		return nil, fmt.Errorf("%d pieces: %w", r.Pieces, export.ErrPieces)
	}
	p := newSet(s, r, o)
	wrong := make([]error, len(formats))
	var reading sync.WaitGroup
	defer reading.Wait()
	var made []disk.File
	for i, f := range formats {
		file := name + f.Suffix
		var b bytes.Buffer
		if err := f.write(&b, p); err != nil {
			return nil, fmt.Errorf("%s: %w", file, err)
		}
		made = append(made, disk.File{Name: file, Data: b.Bytes()})
		if f.check != nil {
			reading.Add(1)
			go func() {
				defer reading.Done()
				wrong[i] = inFile(file, f.check(b.Bytes(), p))
			}()
		}
		if !f.lists() {
			sum := sha256.Sum256(b.Bytes())
			p.files = append(p.files, jobsheet.File{Name: file, What: f.Title, SHA256: hex.EncodeToString(sum[:]), Bytes: b.Len()})
		}
	}
	reading.Wait()
	return made, cmp.Or(wrong...)
}

// inFile names the file in what is wrong with it.
func inFile(file string, err error) error {
	if err == nil {
		return nil
	}
	var r *export.ReadBackError
	if !errors.As(err, &r) {
		r = &export.ReadBackError{What: err.Error()}
	}
	r.File = file
	return r
}
