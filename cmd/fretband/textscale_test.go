//go:build cgo

package main

import (
	"os"
	"runtime"
	"testing"
)

// What a desktop says of its text is followed; what can't be one is not.
func TestTheTextScaleOfTheSystemIsFollowed(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("each system is asked in its own way")
	}
	for _, c := range []struct {
		env, gsettings string
		want           float64
	}{
		{"", "", 1}, {"", "1.0\n", 1}, {"", "1.25\n", 1.25}, {"", "2.0", 2},
		{"1.5", "1.25", 1.5}, {"0", "1.25", 1.25}, {"", "99", 1}, {"", "NaN", 1}, {"", "No such schema", 1},
	} {
		got := textScale(func(string) string { return c.env }, func(name string, _ ...string) string {
			if name != "gsettings" {
				t.Fatalf("%s is asked", name)
			}
			return c.gsettings
		})
		if got != c.want {
			t.Errorf("%q and %q: %g, not %g", c.env, c.gsettings, got, c.want)
		}
	}
	t.Setenv(toolkitScale, "")
	t.Setenv("GDK_DPI_SCALE", "1.5")
	followTextScale()
	if got := os.Getenv(toolkitScale); got != "1.5" {
		t.Errorf("the toolkit is told %q", got)
	}
	followTextScale()
	t.Setenv("GDK_DPI_SCALE", "2")
	followTextScale()
	if got := os.Getenv(toolkitScale); got != "1.5" {
		t.Errorf("what is set stays, not %q", got)
	}
}
