package project

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// eachText calls f with every way to put another text in the place of one text or key
// of a file, set to put it there and back.
func eachText(v any, path string, f func(path string, set func(string))) {
	switch v := v.(type) {
	case map[string]any:
		for k, x := range v {
			if s, ok := x.(string); ok {
				f(join(path, k), func(t string) { v[k] = t })
				v[k] = s
			}
			eachText(x, join(path, k), f)
			var last string
			f("key "+join(path, k), func(t string) {
				delete(v, k)
				last = t
				v[t] = x
			})
			delete(v, last)
			v[k] = x
		}
	case []any:
		for i, x := range v {
			if s, ok := x.(string); ok {
				f(fmt.Sprintf("%s[%d]", path, i), func(t string) { v[i] = t })
				v[i] = s
			}
			eachText(x, fmt.Sprintf("%s[%d]", path, i), f)
		}
	}
}

// designFiles are files that together use every field.
func designFiles(t *testing.T) []string {
	t.Helper()
	files := []string{written(t, rich()), written(t, full())}
	names, err := filepath.Glob("../../testdata/forms/*.json")
	require.NoError(t, err)
	require.NotEmpty(t, names)
	for _, n := range names {
		b, err := os.ReadFile(n)
		require.NoError(t, err)
		files = append(files, string(b))
	}
	return files
}

func TestNoErrorEchoesALongTextOrBreaksItsLine(t *testing.T) {
	long := strings.Repeat("long\n", 8_000)
	tried := map[string]bool{}
	for _, file := range designFiles(t) {
		var root any
		require.NoError(t, json.Unmarshal([]byte(file), &root))
		eachText(root, "", func(path string, set func(string)) {
			if tried[path] {
				return
			}
			tried[path] = true
			set(long)
			b, err := json.Marshal(root)
			require.NoError(t, err)
			_, err = Read(strings.NewReader(string(b)))
			require.Error(t, err, path)
			require.Less(t, len(err.Error()), 1000, path)
			require.NotContains(t, err.Error(), "\n", path)
		})
	}
	require.Greater(t, len(tried), 100)
	_, err := Read(strings.NewReader(`{"` + long[:4] + strings.Repeat("x", 1<<20) + `": NaN}`))
	require.Less(t, len(err.Error()), 1000)
}

func TestTextsAreOneLineWithoutControlCharacters(t *testing.T) {
	note := regexp.MustCompile(`^(variants\[\d\]\.)?note$`)
	for _, between := range []string{"\n", "\r", "\r\n", "\t", "\v", "\f", "\x00", "\x1b", "\x7f", "\u0085", "\u009b", "\u2028", "\u2029"} {
		for _, file := range designFiles(t)[:2] {
			var root any
			require.NoError(t, json.Unmarshal([]byte(file), &root))
			eachText(root, "", func(path string, set func(string)) {
				lines := note.MatchString(path) && strings.Contains("\n\t\u2028\u2029", between)
				if strings.HasPrefix(path, "key ") || strings.HasSuffix(path, ".path") || lines {
					return // path data may be broken anywhere; a design's note has lines
				}
				set("A" + between + "b")
				b, err := json.Marshal(root)
				require.NoError(t, err)
				_, err = Read(strings.NewReader(string(b)))
				require.Error(t, err, "%s %q", path, between)
			})
		}
	}
}
