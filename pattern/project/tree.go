package project

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"fretband/pattern"
	"fretband/unroll"
)

// maxDepth is how deep groups and lists may nest: a design needs six.
const maxDepth = 16

// longest is how many items the lists of a design hold, by their path without indices:
// a longer one is refused before the rest of the file is read.
var longest = longestLists()

func longestLists() map[string]int {
	most := map[string]int{}
	for _, e := range pattern.Table() {
		if e.Count != nil {
			most[strings.ReplaceAll(e.Path, "[]", "")] = e.Most
		}
	}
	return most
}

// node is a value of the file with its position, so that errors can name it.
type node struct {
	value   any // string, json.Number, bool, nil, []node or []member
	members []member
	items   []node
	kind    kind
}

type member struct {
	key  string
	line int
	node node
}

type kind int

const (
	textKind kind = iota
	numberKind
	boolKind
	nullKind
	listKind
	groupKind
)

// String describes the value in a few words, for "it is ...".
func (n node) String() string {
	switch n.kind {
	case textKind:
		return "the text " + unroll.Quote(n.value.(string))
	case numberKind:
		s := n.value.(json.Number).String()
		if len(s) > 40 {
			s = s[:40] + "…"
		}
		return s
	case boolKind:
		return fmt.Sprint(n.value)
	case nullKind:
		return "null"
	case listKind:
		return "a list"
	}
	return "a group in braces"
}

// inUTF8 returns the text of a file without the mark at its beginning that says how it is
// coded (RFC 2781; the Unicode Standard 23.8): some shells write UTF-16 with one where they
// put what a program prints into a file.
func inUTF8(data []byte) ([]byte, error) {
	var order binary.ByteOrder
	switch {
	case bytes.HasPrefix(data, []byte{0xFF, 0xFE}):
		order = binary.LittleEndian
	case bytes.HasPrefix(data, []byte{0xFE, 0xFF}):
		order = binary.BigEndian
	default:
		return bytes.TrimPrefix(data, []byte("\ufeff")), nil
	}
	if len(data)%2 != 0 {
		return nil, errors.New("the file is UTF-16 text and ends within a character; save it as UTF-8")
	}
	var units []uint16
	for k := 2; k < len(data); k += 2 {
		units = append(units, order.Uint16(data[k:]))
	}
	return []byte(string(utf16.Decode(units))), nil
}

// parse reads the whole of data as one JSON value.
func parse(data []byte) (node, error) {
	data, err := inUTF8(data)
	if err != nil {
		return node{}, err
	}
	if i := firstInvalid(data); i >= 0 {
		return node{}, fmt.Errorf("line %d: the file is not UTF-8 text; save it as UTF-8", lineAt(data, i))
	}
	if len(bytes.TrimSpace(data)) == 0 {
		return node{}, errors.New("the file is empty; a design starts with {\"fretband\": 2")
	}
	if line := tooDeep(data); line > 0 {
		return node{}, fmt.Errorf("line %d: nested more than %d deep; a design needs six levels", line, maxDepth)
	}
	var raw json.RawMessage
	if err := json.Unmarshal(data, &raw); err != nil {
		return node{}, syntaxError(data, err)
	}
	p := parser{data: data, dec: json.NewDecoder(bytes.NewReader(data))}
	p.dec.UseNumber()
	n, err := p.value("")
	var long *unroll.FieldError
	if errors.As(err, &long) {
		return node{}, err
	}
	if err != nil {
		return node{}, syntaxError(data, err)
	}
	return n, nil
}

type parser struct {
	data []byte
	dec  *json.Decoder
	seen int // bytes of data that are counted in lines
	line int // line feeds before seen
}

// here returns the line of the last token read.
func (p *parser) here() int {
	at := int(p.dec.InputOffset())
	p.line += bytes.Count(p.data[p.seen:at], []byte{'\n'})
	p.seen = at
	return p.line + 1
}

// value reads the value at a path, in which lists have no index.
func (p *parser) value(path string) (node, error) {
	t, err := p.dec.Token()
	if err != nil {
		return node{}, err
	}
	switch v := t.(type) {
	case string:
		return node{kind: textKind, value: v}, nil
	case json.Number:
		return node{kind: numberKind, value: v}, nil
	case bool:
		return node{kind: boolKind, value: v}, nil
	case json.Delim:
		n := node{kind: listKind}
		if v == '{' {
			n.kind = groupKind
		}
		most, limited := longest[strings.TrimPrefix(path, "variants.")]
		for p.dec.More() {
			if limited && n.kind == listKind && len(n.items) == most {
				return node{}, &unroll.FieldError{Path: path, Msg: fmt.Sprintf("at most %d may stand in this list; there are more", most)}
			}
			var m member
			if n.kind == groupKind {
				key, err := p.dec.Token()
				if err != nil {
					return node{}, err
				}
				m.key, m.line = key.(string), p.here()
			}
			at := path
			if n.kind == groupKind {
				at = strings.TrimPrefix(path+"."+m.key, ".")
			}
			if m.node, err = p.value(at); err != nil {
				return node{}, err
			}
			if n.kind == groupKind {
				n.members = append(n.members, m)
			} else {
				n.items = append(n.items, m.node)
			}
		}
		_, err := p.dec.Token() // the closing bracket
		return n, err
	}
	return node{kind: nullKind}, nil
}

// tooDeep returns the line where brackets outside texts nest deeper than
// maxDepth, or 0.
func tooDeep(data []byte) int {
	depth, inText := 0, false
	for i := 0; i < len(data); i++ {
		switch c := data[i]; {
		case inText && c == '\\':
			i++
		case c == '"':
			inText = !inText
		case inText:
		case c == '{' || c == '[':
			if depth++; depth > maxDepth {
				return lineAt(data, i)
			}
		case c == '}' || c == ']':
			depth--
		}
	}
	return 0
}

// syntaxError says in which line the file stops being JSON.
func syntaxError(data []byte, err error) error {
	at := len(data)
	var syntax *json.SyntaxError
	if errors.As(err, &syntax) {
		at = int(syntax.Offset) - 1
	}
	if at < 0 || at >= len(data) || strings.Contains(err.Error(), "unexpected end") {
		return fmt.Errorf("line %d: the file ends too early; a closing bracket or quote is missing", lineAt(data, len(data)))
	}
	rest := data[at:]
	line := lineAt(data, at)
	// A minus is only found wrong at the letter after it.
	for _, word := range []string{"NaN", "nan", "Infinity", "Inf", "inf"} {
		if bytes.HasPrefix(rest, []byte(word)) {
			return fmt.Errorf("%s: %s in line %d is not a number that can be used; write a plain one", pathAt(data[:at]), word, line)
		}
	}
	if bytes.HasPrefix(rest, []byte("//")) || bytes.HasPrefix(rest, []byte("/*")) {
		return fmt.Errorf("line %d: comments are not allowed; use the field \"note\"", line)
	}
	if strings.Contains(err.Error(), "after top-level value") {
		return fmt.Errorf("line %d: something follows after the design's closing brace; remove it", line)
	}
	r, _ := utf8.DecodeRune(rest)
	column := utf8.RuneCount(data[bytes.LastIndexByte(data[:at], '\n')+1:at]) + 1
	return fmt.Errorf("line %d, column %d: %q can't stand here (%s)", line, column, r, strings.TrimPrefix(err.Error(), "json: "))
}

// pathAt returns the path of the value that begins where the text ends, read
// from the brackets and keys before it.
func pathAt(text []byte) string {
	type level struct {
		key   string
		index int // in a list; -1 in a group
	}
	var stack []level
	for i := 0; i < len(text); i++ {
		switch text[i] {
		case '{':
			stack = append(stack, level{index: -1})
		case '[':
			stack = append(stack, level{})
		case '}', ']':
			if len(stack) > 0 {
				stack = stack[:len(stack)-1]
			}
		case ',':
			if n := len(stack); n > 0 && stack[n-1].index >= 0 {
				stack[n-1].index++
			}
		case '"':
			from := i + 1
			for i++; i < len(text) && text[i] != '"'; i++ {
				if text[i] == '\\' {
					i++
				}
			}
			if n := len(stack); n > 0 && stack[n-1].index < 0 {
				// The last text before the value is its key.
				stack[n-1].key = strings.ToValidUTF8(string(text[from:min(i, len(text))]), "")
			}
		}
	}
	path := ""
	for _, l := range stack {
		switch {
		case l.index >= 0:
			path += fmt.Sprintf("[%d]", l.index)
		default:
			path = join(path, l.key)
		}
	}
	if path == "" {
		return "the file"
	}
	return path
}

func lineAt(data []byte, i int) int {
	return bytes.Count(data[:min(max(i, 0), len(data))], []byte{'\n'}) + 1
}

func firstInvalid(data []byte) int {
	if utf8.Valid(data) {
		return -1
	}
	for i := 0; i < len(data); {
		r, n := utf8.DecodeRune(data[i:])
		if r == utf8.RuneError && n == 1 {
			return i
		}
		i += n
	}
	return -1
}
