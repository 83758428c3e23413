package cut

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/export/sample"
)

func TestRelease12HoldsTheSameLinesAsRelease2000(t *testing.T) {
	s, r := sample.Engraved(t)
	for _, o := range []export.Options{{}, {KerfMM: 0.1}} {
		var now, old bytes.Buffer
		require.NoError(t, writeDXF(&now, s, r, o))
		o.Curves = export.ArcsR12
		require.NoError(t, writeDXF(&old, s, r, o))
		want := readDXF(t, bytes.NewReader(now.Bytes()))
		require.Greater(t, len(want), 10)
		require.Equal(t, want, readDXF(t, bytes.NewReader(old.Bytes())))
	}
}

// What release 12 has: the entities POLYLINE, VERTEX, SEQEND, LINE and TEXT; no
// handles, no subclasses, comments by group 999, seven bits, lines of at most 255 letters (the DXF
// reference of that release, by memory).
func TestRelease12HasNothingOfLaterReleases(t *testing.T) {
	s, r := sample.Engraved(t)
	s.Design.Note = "façade № 5 ^ 2³"
	var b bytes.Buffer
	require.NoError(t, writeDXF(&b, s, r, export.Options{Curves: export.ArcsR12}))
	known := map[string]bool{"SECTION": true, "ENDSEC": true, "TABLE": true, "ENDTAB": true, "LTYPE": true, "LAYER": true, "EOF": true,
		"POLYLINE": true, "VERTEX": true, "SEQEND": true, "LINE": true, "TEXT": true}
	pairs := readPairs(t, bytes.NewReader(b.Bytes()))
	open := 0
	for _, p := range pairs {
		if p.code != dxfComment {
			require.Less(t, p.code, 100, "a group of later releases")
		}
		require.NotEqual(t, 5, p.code, "a handle")
		require.LessOrEqual(t, len(p.value), 255)
		for _, c := range []byte(p.value) {
			require.Less(t, c, byte(0x7f), "not seven-bit: %s", p.value)
		}
		if p.code == 0 {
			require.True(t, known[p.value], p.value)
		}
		switch p {
		case pair{0, "POLYLINE"}:
			open++
		case pair{0, "SEQEND"}:
			open--
		}
	}
	require.Zero(t, open, "a POLYLINE without SEQEND")
	assert.NotContains(t, b.String(), `\U+`)
	assert.Contains(t, pairs, pair{dxfComment, dxfUnits})
	assert.Contains(t, pairs, pair{dxfComment, "Design note: facade ? 5 ^  23"})
}

func TestSevenBitTextSaysTheSame(t *testing.T) {
	for in, want := range map[string]string{
		"2 × 10.36 g/cm³, µg, é Ø ß Łódź": "2 x 10.36 g/cm3, ug, e O ss Lodz",
		"15° – “so”\t日":                   `15 deg - "so" ?`,
		"a^b":                             "a^ b",
	} {
		assert.Equal(t, want, sevenBit(in))
	}
	for _, row := range strings.Fields("Zürich Málaga Þór Kraków") {
		assert.NotContains(t, sevenBit(row), "?", row)
	}
}
