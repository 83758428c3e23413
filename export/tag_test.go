package export

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fretband/pattern"
	"fretband/pattern/project"
)

// Whatever the name, and however little room there is for it.
func TestATagKnowsItsDesign(t *testing.T) {
	for _, name := range []string{
		"Mooring ring", pattern.Untitled, "fretband:", "a  b c", strings.Repeat("é", 40), strings.Repeat("long ", 15), strings.Repeat("%41", 26),
	} {
		s := &pattern.Sheet{}
		d, err := project.GalleryDesign("mooring-ring")
		require.NoError(t, err)
		s.Design, s.Design.Name = d, name
		other := s.Design
		other.Rules.RimMM += 0.01
		other.Name = "Another"
		edited := other
		edited.Name = name
		for room := 27; room < 280; room += 11 {
			text := TagOf(s.Design, room)
			require.LessOrEqual(t, len(text), room)
			got, ok := ReadTag([]byte("before" + text + " behind"))
			require.True(t, ok, text)
			require.True(t, got.Of(s.Design, nil), text)
			require.False(t, got.Of(other, nil), text)
			require.True(t, got.Of(other, []string{"12345678", got.Content}), text)
			require.Equal(t, name != pattern.Untitled, got.Of(edited, nil), "%s made anew after an edit", text)
			start := strings.TrimSuffix(got.Called(), "...")
			require.True(t, strings.HasPrefix(Plain(name), start), "%q", got.Called())
			if room >= len(tagBegin)+18+3*80 {
				require.Equal(t, Plain(name), start)
			}
		}
	}
}

func TestWhatTellsOfNoDesignIsAStrangers(t *testing.T) {
	for _, text := range []string{"", "fretband:", "fretband:12345678", "fretband:12345678:9ABCDEFX:name", "PK\x03\x04"} {
		_, ok := ReadTag([]byte(text))
		require.False(t, ok, "%q", text)
	}
	got, ok := ReadTag([]byte("...fretband:12345678:9ABCDEF0:a%2"))
	require.False(t, ok, "%v", got)
}

func FuzzReadTag(f *testing.F) {
	f.Add([]byte("fretband:12345678:9ABCDEF0:name"))
	f.Add([]byte("PK\x05\x06\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00"))
	f.Fuzz(func(t *testing.T, data []byte) {
		if got, ok := ReadTag(data); ok && (len(got.Content) != 8 || len(got.nameNumber) != 8) {
			t.Fatalf("%+v", got)
		}
	})
}
