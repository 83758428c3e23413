package export

import (
	"errors"
	"fmt"

	"fretband/unroll"
)

// ReadBackError says what is wrong with a file that was read back before it was
// written. No file of the set is written then. It unwraps to an [unroll.ProgramError]:
// a design whose report is clean can be made.
type ReadBackError struct {
	File    string // name, without the folder
	Copy    int    // of the part, from 1; 0 if it concerns the file as a whole
	Opening int    // from 1; 0 for an outline, or if it concerns the file as a whole
	What    string
}

func (e *ReadBackError) Error() string { return e.Unwrap().Error() }

// Unwrap returns the error as the program's own.
func (e *ReadBackError) Unwrap() error {
	where := ""
	if e.Copy > 0 {
		where = Whose(e.Copy, e.Opening) + ": "
	}
	return &unroll.ProgramError{What: fmt.Sprintf("%s: read back before writing: %s%s", e.File, where, e.What)}
}

// Whose names a cut.
func Whose(copy, number int) string {
	name := "outline"
	if number > 0 {
		name = fmt.Sprintf("opening %d", number)
	}
	if copy > 1 {
		name += fmt.Sprintf(" of copy %d", copy)
	}
	return name
}

// ErrPieces is returned for a part that would not stay in one piece.
var ErrPieces = errors.New("the metal falls into separate pieces, so no file is written: " +
	"widen the bridge or the rim, or take fewer rows, until the report counts one piece")
