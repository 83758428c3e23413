package pattern

import (
	"encoding/json"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// filled gives every list of a structure two parts, however deep.
func filled(v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).Name != "Variants" {
				filled(v.Field(i))
			}
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		filled(v.Index(0))
		filled(v.Index(1))
	}
}

// leaves are the paths of all texts and numbers of a structure, and of its lists and groups.
func leaves(t reflect.Type, path string, tell func(path string, of reflect.Type)) {
	for i := range t.NumField() {
		name, _, _ := strings.Cut(t.Field(i).Tag.Get("json"), ",")
		at, of := strings.TrimPrefix(path+"."+name, "."), t.Field(i).Type
		tell(at, of)
		if of.Kind() == reflect.Slice {
			at, of = at+"[]", of.Elem()
		}
		if of.Kind() == reflect.Struct && of != reflect.TypeFor[Design]() {
			leaves(of, at, tell)
		}
	}
}

// written returns what encoding/json writes of a design at a path with indices.
func written(t *testing.T, d Design, path string) any {
	t.Helper()
	raw, err := json.Marshal(d)
	require.NoError(t, err)
	var v any
	require.NoError(t, json.Unmarshal(raw, &v))
	for _, key := range strings.Split(strings.NewReplacer("[", ".", "]", "").Replace(path), ".") {
		switch x := v.(type) {
		case map[string]any:
			v = x[key]
		case []any:
			var i int
			_, err := fmt.Sscan(key, &i)
			require.NoError(t, err)
			v = x[i]
		}
	}
	return v
}

// A value of a design is one line of the table: none is missing, and none that is there
// is kept elsewhere than the design file has it.
func TestTheTableHasEachValueOfADesignWhereTheFileHasIt(t *testing.T) {
	entries := map[string]*Entry{}
	for i := range table {
		e := &table[i]
		if entries[e.Path] == nil {
			entries[e.Path] = e
		}
	}
	used := map[string]bool{}
	leaves(reflect.TypeFor[Design](), "", func(path string, of reflect.Type) {
		e := entries[path]
		if !assert.NotNil(t, e, "%s is not in the table", path) {
			return
		}
		used[path] = true
		var d Design
		filled(reflect.ValueOf(&d).Elem())
		at := At{1, 1}
		switch of.Kind() {
		case reflect.Float64:
			require.NotNil(t, e.Number, path)
			*e.Number(&d, at) = 7.5
			assert.Equal(t, 7.5, written(t, d, e.PathAt(at)))
		case reflect.Int:
			require.NotNil(t, e.Whole, path)
			*e.Whole(&d, at) = 7
			assert.Equal(t, 7.0, written(t, d, e.PathAt(at)))
		case reflect.String:
			require.NotNil(t, e.Text, path)
			*e.Text(&d, at) = "seven"
			assert.Equal(t, "seven", written(t, d, e.PathAt(at)))
		case reflect.Slice:
			require.NotNil(t, e.Count, path)
			assert.Positive(t, e.Most, path)
			if path != "variants" {
				assert.Equal(t, 2, e.Count(&d, at), path)
			}
		default: // a group, or a motif's own numbers
			assert.True(t, e.Number == nil && e.Whole == nil && e.Text == nil && e.Count == nil, path)
		}
		found, back := Lookup(e.PathAt(at))
		require.NotEmpty(t, found, path)
		assert.Equal(t, path, found[0].Path)
		for k := range strings.Count(path, "[]") {
			assert.Equal(t, at[k], back[k], path)
		}
	})
	for path, e := range entries {
		question := e.Options != nil && e.Text == nil
		assert.True(t, used[path] || question, "%s is no value of a design", path)
	}
	keys := map[string]bool{}
	for i := range table {
		assert.False(t, keys[table[i].Key()], "%s is there twice", table[i].Key())
		keys[table[i].Key()] = true
	}
}

// What a person meets has a name and says what it means.
func TestEachLineOfTheTableHasItsWords(t *testing.T) {
	for i := range table {
		e := &table[i]
		if e.Group != "" {
			assert.NotEmpty(t, e.Title, "%s has no title", e.Key())
			assert.NotEmpty(t, e.Tip, "%s has no tip", e.Key())
		}
		if (e.Number != nil || e.Whole != nil) && !e.Choice() {
			assert.Less(t, e.Min, e.Max, "%s has no range", e.Key())
			assert.True(t, e.Group == "" || e.Step > 0, "%s has no step", e.Key())
			if e.Typed != nil && e.Unit == "%" {
				assert.InDelta(t, 100*e.Min, e.Typed.Min, 1e-9, e.Key())
				assert.InDelta(t, 100*e.Max, e.Typed.Max, 1e-9, e.Key())
			}
			for _, r := range []Range{e.Slider, e.RingSlider} {
				assert.True(t, r == Range{} || r.Min < r.Max && (e.Min <= r.Min || e.Optional && r.Min == 0) && r.Max <= e.Max, "%s has a slider from %g to %g", e.Key(), r.Min, r.Max)
				// What may be negative may be as much so as positive.
				assert.True(t, r.Min >= 0 || r.Min == -r.Max && e.Min == -e.Max, "%s has a lopsided slider", e.Key())
			}
		}
		if e.Text != nil && !e.Choice() && !e.Data {
			assert.Positive(t, e.Bytes, "%s has no greatest length in bytes", e.Key())
		}
	}
}
