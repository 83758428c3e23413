package app

import (
	"bytes"
	"context"
	"io"
	"log/slog"

	"fretband/pattern"
)

// Log writes one event a line: its name, then key=value pairs. A nil Log, and
// one without a writer, write nothing. It may be used from any goroutine.
type Log struct{ to *slog.Logger }

// NewLog returns a log that writes to w.
func NewLog(w io.Writer) *Log {
	if w == nil {
		return nil
	}
	return &Log{slog.New(slog.NewTextHandler(bare{w}, &slog.HandlerOptions{ReplaceAttr: plainly}))}
}

// Event writes one line. A value that holds a space, an equals sign, a quote or
// a line break is quoted, so that a line splits at its spaces.
func (l *Log) Event(name string, pairs ...any) {
	if l != nil {
		l.to.Log(context.Background(), slog.LevelInfo, name, pairs...)
	}
}

// plainly leaves out time and level, and writes as many digits of a number as can be read.
func plainly(_ []string, a slog.Attr) slog.Attr {
	switch {
	case a.Key == slog.TimeKey || a.Key == slog.LevelKey:
		return slog.Attr{}
	case a.Value.Kind() == slog.KindFloat64:
		a.Value = slog.StringValue(pattern.Say("%.6g", a.Value.Float64()))
	}
	return a
}

// bare takes the key off an event's name, which is always the first in its line.
type bare struct{ io.Writer }

func (b bare) Write(line []byte) (int, error) {
	_, err := b.Writer.Write(bytes.TrimPrefix(line, []byte(slog.MessageKey+"=")))
	return len(line), err
}
