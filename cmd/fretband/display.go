//go:build cgo

package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"runtime"
	"sync"
)

// errNoWindow is the one line for a machine that can't show a window.
var errNoWindow = errors.New("no display or no OpenGL here, so no window: make the files with \"fretcut make -out FOLDER DESIGN\"")

// checkDisplay finds that there is no screen before the toolkit does.
func checkDisplay() error {
	if runtime.GOOS != "linux" && runtime.GOOS != "freebsd" && runtime.GOOS != "openbsd" {
		return nil
	}
	if os.Getenv("DISPLAY") != "" || os.Getenv("WAYLAND_DISPLAY") != "" {
		return nil
	}
	return errNoWindow
}

// startLog takes the toolkit's log until the window is on the screen. The toolkit
// has no other way of saying that it could not make one: it writes so and waits
// for ever. Then the program ends with its own line instead.
type startLog struct {
	mu   sync.Mutex
	held bytes.Buffer
	open bool
	out  io.Writer
	fail func()
}

// creationError is what the toolkit writes when there is no OpenGL.
const creationError = "window creation error"

func (l *startLog) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.open {
		return l.out.Write(p)
	}
	if bytes.Contains(p, []byte(creationError)) {
		l.fail()
	}
	return l.held.Write(p)
}

// started lets through what was held back.
func (l *startLog) started() {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.open = true
	_, _ = l.held.WriteTo(l.out)
}

// panicked turns the toolkit's panic about a missing display into errNoWindow,
// and lets any other go on.
func (l *startLog) panicked(err *error) {
	l.mu.Lock()
	starting := !l.open
	l.mu.Unlock()
	if !starting {
		return
	}
	if r := recover(); r != nil {
		*err = fmt.Errorf("%w (%v)", errNoWindow, r)
	}
}
