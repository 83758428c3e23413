package check

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Design files name kinds by their keys, so that a key may not change: those of version 2
// of the format were the titles of that time, with hyphens.
func TestEachKindHasAKeyOfItsOwn(t *testing.T) {
	keys, titles := map[string]bool{}, map[string]bool{}
	for _, k := range Kinds() {
		assert.Regexp(t, regexp.MustCompile(`^[a-z]+(-[a-z]+)*$`), k.Key)
		assert.NotEmpty(t, k.Title)
		assert.False(t, keys[k.Key], k.Key)
		assert.False(t, titles[k.Title], k.Title)
		keys[k.Key], titles[k.Title] = true, true
	}
	for _, old := range []string{
		"pieces", "narrow-bridges", "thinnest-bridge", "rim", "reserve", "nothing-cut", "left-solid", "by-hand", "bridge-and-sheet",
		"bridge-and-process", "opening-and-process", "corner-and-process", "process-bridges", "pilot-hole", "no-way-in", "finer-blade",
		"narrow-slot", "heat", "metal-point", "sharp-corner", "tongue", "held-piece", "weakest-way-across", "weakest-way-along",
		"springing-on", "springback", "bending", "gap", "ends", "doming", "faces", "balance", "band", "seamless", "stagger",
		"mark-off-the-blank", "mark-over-a-reserve", "mark-through-openings", "mark-over-the-joint",
	} {
		assert.True(t, keys[old], old)
	}
}
