package export

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"fretband/pattern"
	"fretband/pattern/check"
)

// Receiver is someone who gets the files of a part.
type Receiver struct {
	Key, Title, What string
	Formats          []string // keys of [AllFormats]
}

// Receivers lists them in the order in which a person reads them.
func Receivers() []Receiver {
	return []Receiver{
		{"bench", "The bench", "A saw template at true size and a job sheet, on paper.", []string{"template", "job-pdf", "job-html"}},
		{"laser", "The laser shop", "Cut files with true arcs, a note of what they hold, and a job sheet.", []string{"dxf", "svg", "note", "job-pdf", "job-html"}},
		{"client", "The client", "A picture of the piece.", []string{"picture"}},
		{"casting", "The caster", "The bent band as a solid and a job sheet.", []string{"stl", "3mf", "job-pdf", "job-html"}},
	}
}

// ReceiverByKey returns the receiver of that key and whether there is one.
func ReceiverByKey(key string) (Receiver, bool) {
	for _, v := range Receivers() {
		if v.Key == key {
			return v, true
		}
	}
	return Receiver{}, false
}

// AllFormats lists every format: those of [Formats], the solids, and what else a
// receiver may get.
func AllFormats() []Format {
	return append(append(Formats(), Solids()...),
		Format{"note", "Note to the cut files, text", "-note.txt", writeNote},
		Format{"picture", "Picture, SVG", "-picture.svg", writePicture},
		Format{"job-pdf", "Job sheet, PDF", "-job.pdf", writeJobPDF},
		Format{"job-html", "Job sheet, HTML", "-job.html", writeJobHTML},
	)
}

// HandOver writes the files that a receiver needs into dir, as [WriteAll] does, with
// a job sheet, if he gets one, that lists the others with their checksums.
func HandOver(dir, name string, s *pattern.Sheet, r *check.Report, o Options, to Receiver) ([]string, error) {
	if err := CheckName(name); err != nil {
		return nil, err
	}
	if err := o.Check(); err != nil {
		return nil, err
	}
	if r.Pieces > 1 {
		return nil, fmt.Errorf("%d pieces: %w", r.Pieces, ErrPieces)
	}
	if o.Process == "" && to.Key == Laser {
		o.Process = Laser
	}
	if o.Process == "" && to.Key == "bench" {
		o.Process = Saw
	}
	known := map[string]Format{}
	for _, f := range AllFormats() {
		known[f.Key] = f
	}
	made := map[string]*bytes.Buffer{}
	o.Files = nil
	for _, job := range []bool{false, true} { // job sheets last: they tell of the others
		for _, key := range to.Formats {
			if strings.HasPrefix(key, "job-") != job {
				continue
			}
			f, b := known[key], &bytes.Buffer{}
			if err := f.Write(b, s, r, o); err != nil {
				return nil, fmt.Errorf("%s: %w", name+f.Suffix, err)
			}
			made[key] = b
		}
		for _, key := range to.Formats {
			if b := made[key]; b != nil && !job {
				sum := sha256.Sum256(b.Bytes())
				o.Files = append(o.Files, FileSum{name + known[key].Suffix, known[key].Title, hex.EncodeToString(sum[:]), b.Len()})
			}
		}
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return nil, err
	}
	var paths []string
	for _, key := range to.Formats {
		p := filepath.Join(dir, name+known[key].Suffix)
		if err := replaceFile(p, made[key].Bytes()); err != nil {
			return paths, err
		}
		paths = append(paths, p)
	}
	return paths, nil
}

// writeNote writes what a shop has to know of the cut files as plain text.
func writeNote(w io.Writer, s *pattern.Sheet, r *check.Report, o Options) error {
	if err := o.Check(); err != nil {
		return err
	}
	var b strings.Builder
	for _, f := range Facts(s, r, o) {
		fmt.Fprintln(&b, f.String())
	}
	fmt.Fprintf(&b, "\nCautions\n")
	for _, c := range Cautions(s, r, o) {
		fmt.Fprintln(&b, c)
	}
	_, err := io.WriteString(w, b.String())
	return err
}
