package export

import (
	"cmp"
	"fmt"
	"io"
	"strings"

	"fretband/pattern"
	"fretband/pattern/check"
)

// Receiver is someone who gets the files of a part.
type Receiver struct {
	Key, Title, What string
	Formats          []string // keys of [AllFormats], job sheets last
	process          string   // that he works by, if neither options nor design say
}

// Receivers lists them in the order in which a person reads them.
func Receivers() []Receiver {
	return []Receiver{
		{"bench", "The bench", "A saw template at true size and a job sheet, on paper.", []string{"template", "job-pdf", "job-html"}, Saw},
		{"laser", "The laser shop", "Cut files, a note of what they hold, and a job sheet.", []string{"dxf", "svg", "note", "job-pdf", "job-html"}, Laser},
		{"client", "The client", "Pictures of the piece.", []string{"picture-png", "picture"}, ""},
		{"casting", "The caster", "The bent band as a solid and a job sheet.", []string{"stl", "3mf", "job-pdf", "job-html"}, ""},
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

// Makes returns the formats of what the receiver gets, in the order of [Receiver.Formats].
func (v Receiver) Makes() []Format {
	all := AllFormats()
	var fs []Format
	for _, key := range v.Formats {
		for _, f := range all {
			if f.Key != key {
				continue
			}
			if f.job() { // so that one receiver's does not replace another's
				f.Suffix = "-" + v.Key + f.Suffix
			}
			fs = append(fs, f)
		}
	}
	return fs
}

// AllFormats lists every format: those of [Formats], the solids, and what else a
// receiver may get.
func AllFormats() []Format {
	shot := &bentShot{} // one picture for both job sheets of a part
	return append(append(Formats(), Solids()...),
		Format{"note", "Note to the cut files, text", "-note.txt", writeNote},
		Format{"picture-png", "Picture, PNG", "-picture.png", writePicturePNG},
		Format{"picture", "Picture, SVG", "-picture.svg", writePicture},
		Format{"job-pdf", "Job sheet, PDF", "-job.pdf", shot.writePDF},
		Format{"job-html", "Job sheet, HTML", "-job.html", shot.writeHTML},
	)
}

// HandOver writes the files that a receiver needs into dir, as [WriteAll] does, with
// a job sheet, if he gets one, that lists the others with their checksums. The process
// is the option's, or else the design's own, or else the receiver's usual one.
func HandOver(dir, name string, s *pattern.Sheet, r *check.Report, o Options, to Receiver) ([]string, error) {
	o.Process = cmp.Or(o.Process, s.Design.Rules.Process, to.process)
	return writeFormats(dir, name, s, r, o, to.Makes())
}

// writeNote writes what a shop has to know of the cut files as plain text.
func writeNote(w io.Writer, s *pattern.Sheet, r *check.Report, o Options) error {
	if err := o.Check(); err != nil {
		return err
	}
	var b strings.Builder
	for _, f := range cutFileFacts(s, r, o) {
		fmt.Fprintln(&b, f.String())
	}
	fmt.Fprintf(&b, "\nCautions\n")
	for _, c := range Cautions(s, r, o) {
		fmt.Fprintln(&b, c)
	}
	fmt.Fprintf(&b, "\n%s\n", tagOf(s.Design, tagRoom))
	_, err := io.WriteString(w, b.String())
	return err
}
