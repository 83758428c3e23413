package project

import (
	"cmp"
	"flag"
	"fmt"
	"os"
	"reflect"
	"strings"
	"testing"

	"fretband/pattern"

	"github.com/stretchr/testify/require"
)

var refresh = flag.Bool("refresh", false, "write the reference anew from the table")

// Columns of the reference: of "opt", and of what may stand there.
const (
	optColumn  = 15
	textColumn = 20
	textWidth  = 76
)

// reference returns the reference of the format in the order of the file.
func reference() string {
	var b strings.Builder
	b.WriteString("// Code generated from the table of a design's values by go test -run Reference -refresh; DO NOT EDIT.\n\n// All that a design file may hold:\n//\n")
	referTo(&b, "fretband", false, fmt.Sprintf("%d: the version of this format, or 2 where nothing is accepted", Version))
	referToAll(&b, reflect.TypeFor[pattern.Design](), "", "")
	b.WriteString("package project\n")
	return b.String()
}

func referToAll(b *strings.Builder, t reflect.Type, path, indent string) {
	for i, tag := range tagsOf(t) {
		at, of := strings.TrimPrefix(path+"."+tag.name, "."), t.Field(i).Type
		es := pattern.ByPath(at)
		if len(es) == 0 {
			continue // TestTheTableHasEachValueOfADesignWhereTheFileHasIt names it
		}
		e := es[0]
		if e.Doc == pattern.SaidOnce {
			continue
		}
		text := cmp.Or(e.Doc, "{}")
		if before, after, has := strings.Cut(text, "{}"); has {
			text = before + allowed(e) + after
		}
		referTo(b, indent+tag.name, tag.optional, text)
		if of.Kind() == reflect.Slice {
			at, of = at+"[]", of.Elem()
		}
		if of.Kind() == reflect.Struct && of != t && of != reflect.TypeFor[pattern.Design]() {
			referToAll(b, of, at, indent+"  ")
		}
	}
}

// allowed says what the table admits.
func allowed(e *pattern.Entry) string {
	quoted := func(os []pattern.Option, last string) string {
		var keys []string
		for _, o := range os {
			if o.Key != "" {
				keys = append(keys, fmt.Sprintf("%q", o.Key))
			}
		}
		n := len(keys) - 1
		return strings.Join(keys[:n], ", ") + last + keys[n]
	}
	switch {
	case e.Number != nil:
		return fmt.Sprintf("%g to %g", e.Min, e.Max)
	case e.Whole != nil:
		return fmt.Sprintf("whole, %g to %g", e.Min, e.Max)
	case e.Count != nil:
		return fmt.Sprint(e.Most)
	case e.Options != nil:
		return quoted(e.Options, " or ")
	case e.Offer != nil:
		return quoted(e.Offer(&pattern.Design{Fields: make([]pattern.Field, 1)}, pattern.At{}), ", ")
	}
	if e.Text == nil { // a group
		return ""
	}
	return fmt.Sprintf("text, at most %d bytes", e.Bytes)
}

// referTo writes the lines of one name.
func referTo(b *strings.Builder, name string, opt bool, text string) {
	line := name
	next := func() {
		fmt.Fprintf(b, "//\t%s\n", strings.TrimRight(line, " "))
		line = ""
	}
	pad := func(to int) { line += strings.Repeat(" ", max(0, to-len(line))) }
	switch {
	case opt && len(name) > optColumn:
		next()
		pad(optColumn)
		line += "opt"
	case opt && len(name) == optColumn:
		line += " opt"
	case opt:
		pad(optColumn)
		line += "opt"
	case len(name) >= textColumn:
		next()
	}
	for _, word := range strings.Fields(text) {
		if len(line) > textColumn && len(line)+1+len(word) > textColumn+textWidth {
			next()
		}
		if len(line) > textColumn {
			line += " "
		}
		pad(textColumn)
		line += word
	}
	next()
}

// The reference that go doc shows is what the table says.
func TestTheReferenceIsThatOfTheTable(t *testing.T) {
	want := reference()
	if *refresh {
		require.NoError(t, os.WriteFile("reference.go", []byte(want), 0o644))
	}
	is, err := os.ReadFile("reference.go")
	require.NoError(t, err)
	lines, found := strings.Split(want, "\n"), strings.Split(string(is), "\n")
	i := 0
	for i < min(len(lines), len(found))-1 && lines[i] == found[i] {
		i++
	}
	if want != string(is) {
		t.Errorf("reference.go:%d: is %q, the table says %q: go test ./pattern/project -run Reference -refresh", i+1, found[i], lines[i])
	}
}
