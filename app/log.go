package app

import (
	"fmt"
	"io"
	"strings"
	"sync"

	"fretband/pattern"
)

// Log writes one event a line: its name, then key=value pairs. A nil Log, and
// one without a writer, write nothing. It may be used from any goroutine.
type Log struct {
	mu sync.Mutex
	w  io.Writer
}

// NewLog returns a log that writes to w.
func NewLog(w io.Writer) *Log { return &Log{w: w} }

// Event writes one line. A value that holds a space, an equals sign, a quote or
// a line break is quoted, so that a line splits at its spaces.
func (l *Log) Event(name string, pairs ...any) {
	if l == nil || l.w == nil {
		return
	}
	var b strings.Builder
	b.WriteString(name)
	for i := 0; i+1 < len(pairs); i += 2 {
		v := text(pairs[i+1])
		if v == "" || strings.ContainsAny(v, " =\"\n\r\t") {
			v = fmt.Sprintf("%q", v)
		}
		fmt.Fprintf(&b, " %v=%s", pairs[i], v)
	}
	b.WriteByte('\n')
	l.mu.Lock()
	defer l.mu.Unlock()
	// A log that can't be written must not stop the work.
	_, _ = io.WriteString(l.w, b.String())
}

func text(v any) string {
	if f, ok := v.(float64); ok {
		return pattern.Say("%.6g", f)
	}
	return fmt.Sprint(v)
}
