package project

import (
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"

	"fretband/unroll"
)

// mostProblems is where a reader stops counting: a file with more is no design.
const mostProblems = 20

// filler sets Go values from nodes and keeps what stands in the way. The
// structures are those of the design: texts, numbers, groups, lists and, for a
// motif's own numbers, numbers by name.
type filler struct {
	problems []error
}

func (f *filler) full() bool { return len(f.problems) >= mostProblems }

func (f *filler) fail(path, format string, args ...any) {
	if !f.full() {
		f.problems = append(f.problems, &unroll.FieldError{Path: path, Msg: fmt.Sprintf(format, args...)})
	}
}

func (f *filler) fill(path string, n node, v reflect.Value) {
	switch v.Kind() {
	case reflect.String:
		if n.kind != textKind {
			f.wrong(path, n, v.Type())
			return
		}
		v.SetString(n.value.(string))
	case reflect.Float64:
		if x, ok := f.number(path, n, v.Type()); ok {
			v.SetFloat(x)
		}
	case reflect.Int:
		x, ok := f.number(path, n, v.Type())
		if !ok {
			return
		}
		if x != math.Trunc(x) || math.Abs(x) > 1<<53 {
			f.wrong(path, n, v.Type())
			return
		}
		v.SetInt(int64(x))
	case reflect.Struct:
		if n.kind != groupKind {
			f.wrong(path, n, v.Type())
			return
		}
		f.group(path, n, v)
	case reflect.Slice:
		if n.kind != listKind {
			f.wrong(path, n, v.Type())
			return
		}
		list := reflect.MakeSlice(v.Type(), len(n.items), len(n.items))
		for i, item := range n.items {
			if f.full() {
				return
			}
			f.fill(fmt.Sprintf("%s[%d]", path, i), item, list.Index(i))
		}
		v.Set(list)
	case reflect.Map:
		if n.kind != groupKind {
			f.wrong(path, n, v.Type())
			return
		}
		f.twice(path, n)
		named := reflect.MakeMap(v.Type())
		for _, m := range n.members {
			if f.full() {
				return
			}
			x := reflect.New(v.Type().Elem()).Elem()
			f.fill(join(path, m.key), m.node, x)
			named.SetMapIndex(reflect.ValueOf(m.key), x)
		}
		v.Set(named)
	default:
		panic("project: a design holds a " + v.Kind().String()) // a mistake in the program, which every test would meet
	}
}

// group fills a structure: each member by its tag, each missing one told.
func (f *filler) group(path string, n node, v reflect.Value) {
	f.twice(path, n)
	tags := tagsOf(v.Type())
	given := map[string]bool{}
	for _, m := range n.members {
		if f.full() {
			return
		}
		given[m.key] = true
		known := false
		for i, t := range tags {
			if t.name == m.key {
				known = true
				f.fill(join(path, m.key), m.node, v.Field(i))
			}
		}
		if !known {
			f.unknown(path, m.key, tags)
		}
	}
	for i, t := range tags {
		if !t.optional && !given[t.name] {
			f.fail(join(path, t.name), "is missing; it must be %s", describe(v.Type().Field(i).Type))
		}
	}
}

func (f *filler) number(path string, n node, t reflect.Type) (float64, bool) {
	if n.kind != numberKind {
		f.wrong(path, n, t)
		return 0, false
	}
	x, err := strconv.ParseFloat(n.value.(json.Number).String(), 64)
	if err != nil {
		f.fail(path, "must be %s of a size that can be used; it is %s", describe(t), n)
		return 0, false
	}
	return x, true
}

func (f *filler) wrong(path string, n node, t reflect.Type) {
	f.fail(path, "must be %s; it is %s", describe(t), n)
}

// twice reports members given twice: which of them counts would be a guess.
func (f *filler) twice(path string, n node) {
	first := map[string]int{}
	for _, m := range n.members {
		if line, ok := first[m.key]; ok {
			f.fail(join(path, m.key), "is given twice, in line %d and line %d; remove one", line, m.line)
			continue
		}
		first[m.key] = m.line
	}
}

func (f *filler) unknown(path, key string, tags []tag) {
	best, least := "", len(key)/3+2
	var names []string
	for _, t := range tags {
		names = append(names, t.name)
		if d := edits(strings.ToLower(key), t.name); d < least {
			best, least = t.name, d
		}
	}
	if best != "" {
		f.fail(join(path, key), "is not a field of a design; did you mean %q?", best)
		return
	}
	f.fail(join(path, key), "is not a field of a design; here are allowed: %s", strings.Join(names, ", "))
}

type tag struct {
	name     string
	optional bool
}

func tagsOf(t reflect.Type) []tag {
	tags := make([]tag, t.NumField())
	for i := range tags {
		name, rest, _ := strings.Cut(t.Field(i).Tag.Get("json"), ",")
		tags[i] = tag{name, rest == "omitempty" || rest == "omitzero"}
	}
	return tags
}

func describe(t reflect.Type) string {
	switch t.Kind() {
	case reflect.String:
		return "text in quotes"
	case reflect.Float64:
		return "a number"
	case reflect.Int:
		return "a whole number"
	case reflect.Slice:
		return "a list in brackets []"
	}
	return "a group in braces {}"
}

func join(path, key string) string {
	if r := []rune(key); len(r) > 40 {
		key = string(r[:40]) + "…"
	}
	key = strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f || r == 0x2028 || r == 0x2029 {
			return '\ufffd' // errors are one line
		}
		return r
	}, key)
	if path == "" {
		return key
	}
	return path + "." + key
}

// edits returns how many letters must be changed, added or left out to make b
// of a (V. Levenshtein, 1966).
func edits(a, b string) int {
	if len(a) > 60 {
		return len(a)
	}
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			d := diagonal
			if a[i] != b[j] {
				d++
			}
			diagonal = row[j+1]
			row[j+1] = min(d, row[j+1]+1, row[j]+1)
		}
	}
	return row[len(b)]
}
