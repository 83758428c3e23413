package unroll

import "strconv"

// mostEchoed is how many letters of a text from outside are in a message: enough to
// find it by.
const mostEchoed = 40

// Quote returns a text from outside as messages show it: in quotes, on one line, and
// of a long one the beginning.
func Quote(s string) string {
	n := 0
	for i := range s {
		if n++; n > mostEchoed {
			return strconv.Quote(s[:i] + "…")
		}
	}
	return strconv.Quote(s)
}

// FieldError says which number of a design can't be used and what may be
// there instead. Path names the field as the design file does: "band.gap_mm".
type FieldError struct {
	Path string
	Msg  string
}

func (e *FieldError) Error() string { return e.Path + ": " + e.Msg }

// ProgramError says that the program is at fault, not the design nor its user: it found
// that a result of its own breaks a promise, and keeps it back. What says what is wrong
// and where, without an end mark. The command line ends with an exit code of its own for
// it; the reader can do nothing but report it.
type ProgramError struct{ What string }

func (e *ProgramError) Error() string {
	return e.What + "; nothing is written. The design is fine: this is a fault of Fretband. Please report it together with the design file"
}
