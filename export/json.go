package export

import (
	"bytes"
	"encoding/json"
	"io"

	"fretband/unroll"
)

// WriteJSON writes v for programs: indented, with < and > as they are. What can't be
// encoded, as a number that is none, is an [unroll.ProgramError], and nothing of it is
// written then.
func WriteJSON(w io.Writer, v any) error {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(v); err != nil {
		return &unroll.ProgramError{What: "the JSON can't be encoded: " + err.Error()}
	}
	_, err := w.Write(b.Bytes())
	return err
}
