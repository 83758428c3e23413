package app

import (
	"fmt"
	"reflect"
	"sort"
	"strings"

	"fretband/pattern"
)

// Differences says in words how b differs from a, in at most so many things:
// "Rows 3 to 2, Bridge 1.2 to 1.5". Names, notes and variants do not count. It is
// empty if they are the same.
func Differences(a, b pattern.Design, most int) string {
	a.Name, a.Note, a.Variants = "", "", nil
	b.Name, b.Note, b.Variants = "", "", nil
	var list []string
	differ("", reflect.ValueOf(Clone(a)), reflect.ValueOf(Clone(b)), func(path, old, now string) {
		title := TitleOf(a, path)
		if title == path {
			title = TitleOf(b, path)
		}
		list = append(list, fmt.Sprintf("%s %s to %s", title, old, now))
	})
	if n := len(list) - most; n > 0 {
		list = append(list[:most], fmt.Sprintf("and %d more", n))
	}
	return strings.Join(list, ", ")
}

// differ calls tell for each text and number, named as in the design file, that is
// not the same in two values. Lists of different length are reported as such.
func differ(path string, a, b reflect.Value, tell func(path, old, now string)) {
	switch a.Kind() {
	case reflect.Struct:
		for i := range a.NumField() {
			name, _, _ := strings.Cut(a.Type().Field(i).Tag.Get("json"), ",")
			at := name
			if path != "" {
				at = path + "." + name
			}
			differ(at, a.Field(i), b.Field(i), tell)
		}
	case reflect.Slice:
		if a.Len() != b.Len() {
			tell(path, fmt.Sprint(a.Len()), fmt.Sprint(b.Len()))
			return
		}
		for i := range a.Len() {
			differ(fmt.Sprintf("%s[%d]", path, i), a.Index(i), b.Index(i), tell)
		}
	case reflect.Map:
		var keys []string
		for _, m := range []reflect.Value{a, b} {
			for _, k := range m.MapKeys() {
				keys = append(keys, k.String())
			}
		}
		sort.Strings(keys)
		for i, k := range keys {
			if i > 0 && k == keys[i-1] {
				continue
			}
			x, y := inWords(a.MapIndex(reflect.ValueOf(k))), inWords(b.MapIndex(reflect.ValueOf(k)))
			if x != y {
				tell(path+"."+k, x, y)
			}
		}
	default:
		if x, y := inWords(a), inWords(b); x != y {
			tell(path, x, y)
		}
	}
}

func inWords(v reflect.Value) string {
	switch {
	case !v.IsValid() || v.Kind() == reflect.String && v.Len() == 0:
		return "as usual"
	case v.Kind() == reflect.String && v.Len() > 24:
		return "another"
	case v.Kind() == reflect.Float64:
		return FormatNumber(v.Float(), 4)
	}
	return fmt.Sprint(v.Interface())
}
