package main

import (
	"errors"
	"os"
	"runtime"
)

// checkDisplay says in one line that there is no screen, before the toolkit does
// so in many.
func checkDisplay() error {
	if runtime.GOOS != "linux" && runtime.GOOS != "freebsd" && runtime.GOOS != "openbsd" {
		return nil
	}
	if os.Getenv("DISPLAY") != "" || os.Getenv("WAYLAND_DISPLAY") != "" {
		return nil
	}
	return errors.New("no display here, so no window: make the files with \"fretcut make -out FOLDER DESIGN\"")
}
