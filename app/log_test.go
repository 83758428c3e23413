package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestALogLineSplitsAtItsSpaces(t *testing.T) {
	var b strings.Builder
	l := NewLog(&b)
	l.Event("edit", "field", "rules.bridge_mm", "old", 0.8, "new", 1.25)
	l.Event("save", "path", "/tmp/my cuff.json")
	l.Event("quit")
	require.Equal(t, "edit field=rules.bridge_mm old=0.8 new=1.25\nsave path=\"/tmp/my cuff.json\"\nquit\n", b.String())
	var none *Log
	none.Event("nothing", "a", 1)
}
