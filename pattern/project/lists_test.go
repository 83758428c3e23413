package project

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"fretband/pattern"

	"github.com/stretchr/testify/assert"
)

// lists returns the paths of all lists of a structure.
func lists(t reflect.Type, path string) []string {
	var out []string
	for i, tag := range tagsOf(t) {
		of, at := t.Field(i).Type, strings.TrimPrefix(path+"."+tag.name, ".")
		if of.Kind() == reflect.Slice {
			out = append(out, at)
			if of = of.Elem(); of == reflect.TypeFor[pattern.Design]() {
				continue // a variant's lists are a design's
			}
		}
		if of.Kind() == reflect.Struct {
			out = append(out, lists(of, at)...)
		}
	}
	return out
}

// No list of a design file is read beyond its limit, whatever follows in the file.
func TestAListThatIsTooLongIsRefusedBeforeTheRestIsRead(t *testing.T) {
	paths := lists(reflect.TypeFor[pattern.Design](), "")
	assert.Len(t, longest, len(paths))
	for _, path := range paths {
		most := longest[path]
		assert.Positive(t, most, "%s has no limit", path)
		for _, owner := range []string{"", "variants."} {
			file := func(n int) string {
				text := "[" + strings.Join(slices.Repeat([]string{"0"}, n), ",") + "]"
				keys := strings.Split(owner+path, ".")
				for i := len(keys) - 1; i >= 0; i-- {
					if text = fmt.Sprintf("{%q: %s}", keys[i], text); i > 0 && (keys[i-1] == "fields" || keys[i-1] == "edits" || keys[i-1] == "variants") {
						text = "[" + text + "]"
					}
				}
				return text
			}
			_, err := parse([]byte(file(most)))
			assert.NoError(t, err, path)
			_, err = parse([]byte(file(most + 1)))
			assert.EqualError(t, err, fmt.Sprintf("%s%s: at most %d may stand in this list; there are more", owner, path, most))
		}
	}
}
