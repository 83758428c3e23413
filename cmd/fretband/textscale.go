//go:build cgo

package main

import (
	"context"
	"os"
	"os/exec"
	"runtime"
	"strconv"
	"strings"
	"time"
)

// followTextScale has the toolkit draw all as much larger as the system is asked to draw text,
// which the toolkit does not look for by itself. What is set for the toolkit comes first.
func followTextScale() {
	if os.Getenv(toolkitScale) != "" {
		return
	}
	if s := textScale(os.Getenv, asked); s != 1 {
		os.Setenv(toolkitScale, strconv.FormatFloat(s, 'g', 4, 64))
	}
}

const toolkitScale = "FYNE_SCALE"

// The range in which a text scale is believed; systems offer 0.5 to 3.
const (
	leastScale = 0.5
	mostScale  = 3
)

// textScale returns by how much the system's text is larger than usual, 1 where nothing says.
// It asks by env for a variable and by ask for what a program prints.
func textScale(env func(string) string, ask func(name string, args ...string) string) float64 {
	if s, ok := believed(env("GDK_DPI_SCALE")); ok {
		return s
	}
	switch runtime.GOOS {
	case "windows": // per cent, as a number of 32 bits: "TextScaleFactor    REG_DWORD    0x96"
		words := strings.Fields(ask("reg", "query", `HKCU\Software\Microsoft\Accessibility`, "/v", "TextScaleFactor"))
		if len(words) > 0 {
			if n, err := strconv.ParseInt(words[len(words)-1], 0, 32); err == nil {
				if s, ok := believed(strconv.FormatFloat(float64(n)/100, 'g', -1, 64)); ok {
					return s
				}
			}
		}
	case "linux", "freebsd", "openbsd":
		if s, ok := believed(ask("gsettings", "get", "org.gnome.desktop.interface", "text-scaling-factor")); ok {
			return s
		}
	}
	return 1
}

// believed reads a scale.
func believed(text string) (float64, bool) {
	s, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	return s, err == nil && s >= leastScale && s <= mostScale
}

// asked returns what a program prints; nothing if it is not there or takes too long.
func asked(name string, args ...string) string {
	ctx, stop := context.WithTimeout(context.Background(), 400*time.Millisecond)
	defer stop()
	out, err := exec.CommandContext(ctx, name, args...).Output()
	if err != nil {
		return ""
	}
	return string(out)
}
