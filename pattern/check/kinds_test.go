package check

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Design files name kinds by their keys, so that a key may not change: those of version 2
// of the format were the titles of that time, with hyphens. Kinds that are told no more
// (bridge-and-sheet, bridge-and-process, corner-and-process, pilot-hole, balance, band,
// seamless) are read all the same, and their keys are not used again.
func TestEachKindHasAKeyOfItsOwn(t *testing.T) {
	keys := keysListed(t)
	for _, old := range []string{
		"pieces", "narrow-bridges", "thinnest-bridge", "rim", "reserve", "nothing-cut", "left-solid", "by-hand",
		"opening-and-process", "process-bridges", "no-way-in", "finer-blade",
		"narrow-slot", "heat", "metal-point", "sharp-corner", "tongue", "held-piece", "weakest-way-across", "weakest-way-along",
		"springing-on", "squeezing", "springback", "bending", "gap", "ends", "doming", "faces", "stagger",
		"mark-off-the-blank", "mark-over-a-reserve", "mark-through-openings", "mark-over-the-joint",
	} {
		assert.True(t, keys[old], "%s is missing: design files may name it", old)
	}
	for _, gone := range []string{"bridge-and-sheet", "bridge-and-process", "corner-and-process", "pilot-hole", "balance", "band", "seamless"} {
		assert.False(t, keys[gone], "%s meant something else in older files", gone)
	}
}

// keysListed reads the keys of all kinds in the code and checks that each is there once.
func keysListed(t *testing.T) map[string]bool {
	t.Helper()
	keys, titles := map[string]bool{}, map[string]bool{}
	literal := regexp.MustCompile(`\bKind\{"(.*?)", "(.*?)"\}`)
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		source, err := os.ReadFile(file)
		require.NoError(t, err)
		for _, m := range literal.FindAllStringSubmatch(string(source), -1) {
			key, title := m[1], m[2]
			assert.Equal(t, "kinds.go", file, "%s: all kinds are in kinds.go", key)
			assert.Regexp(t, `^[a-z]+(-[a-z]+)*$`, key)
			assert.NotEmpty(t, title, key)
			assert.False(t, keys[key], "%s is there twice", key)
			assert.False(t, titles[title], "%s is there twice", title)
			keys[key], titles[title] = true, true
		}
	}
	return keys
}
