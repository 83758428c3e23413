package report

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
	_, err := w.Write(unsigned(b.Bytes()))
	return err
}

// unsigned takes the sign off every number of a JSON text that is nothing.
func unsigned(text []byte) []byte {
	out := make([]byte, 0, len(text))
	inside, escaped := false, false // of a string
	for i, c := range text {
		switch {
		case escaped:
			escaped = false
		case inside && c == '\\':
			escaped = true
		case c == '"':
			inside = !inside
		case c == '-' && !inside && bytes.HasPrefix(text[i:], []byte("-0")) && !bytes.ContainsAny(text[i+2:i+3], ".eE"):
			continue
		}
		out = append(out, c)
	}
	return out
}
