package pattern

import (
	"cmp"
	"errors"
	"fmt"
	"strings"
	"unicode"

	"fretband/pattern/own"
	"fretband/unroll"
)

// Check reports the first value that can't be used, as an [unroll.FieldError] naming it
// as the design file does. It goes by the table.
func (d Design) Check() error {
	if err := d.checkPieces(); err != nil {
		return err
	}
	if err := d.checkPart("", At{}, 0); err != nil {
		return err
	}
	for i, v := range d.Variants {
		path := fmt.Sprintf("variants[%d]", i)
		if len(v.Variants) > 0 {
			return &unroll.FieldError{Path: path + ".variants", Msg: "a variant has no variants of its own; put them all beside it"}
		}
		if err := v.Check(); err != nil {
			var f *unroll.FieldError
			if errors.As(err, &f) {
				return &unroll.FieldError{Path: path + "." + f.Path, Msg: f.Msg}
			}
			return fmt.Errorf("%s: %w", path, err)
		}
	}
	return nil
}

// checkPieces refuses paths that are too long together, before any of them is read.
func (d *Design) checkPieces() error {
	pieces := 0
	for i := range table {
		e := &table[i]
		if !e.Data {
			continue
		}
		list := byPath[strings.TrimSuffix(e.list(), "[]")][0]
		for k := range list.Count(d, At{}) {
			if pieces += own.Pieces(*e.Text(d, At{k})); pieces > MaxPieces {
				return &unroll.FieldError{Path: e.PathAt(At{k}), Msg: fmt.Sprintf("all paths of the design together have %d or more lines and curves; at most %d are read: draw them with fewer points", pieces, MaxPieces)}
			}
		}
	}
	return nil
}

// checkPart checks all values of one part of a list, whose path is given, and of the
// lists in it. That part lies so many lists deep.
func (d *Design) checkPart(list string, at At, deep int) error {
	for _, e := range checked[list] {
		if err := e.check(d, at); err != nil {
			return err
		}
		if e.Count != nil && e.Path != "variants" {
			for i := range e.Count(d, at) {
				at[deep] = i
				if err := d.checkPart(e.Path+"[]", at, deep+1); err != nil {
					return err
				}
			}
		}
		if e.Rule != nil {
			if err := e.Rule(d, at); err != nil {
				return err
			}
		}
	}
	return nil
}

// check checks a value by itself.
func (e *Entry) check(d *Design, at At) error {
	msg := ""
	switch {
	case e.Number != nil:
		msg = e.wrongNumber(*e.Number(d, at), "a number", d, at)
	case e.Whole != nil:
		msg = e.wrongNumber(float64(*e.Whole(d, at)), "a whole number", d, at)
	case e.Text != nil:
		msg = e.wrongText(*e.Text(d, at), d, at)
	case e.Count != nil:
		msg = e.wrongCount(e.Count(d, at))
	}
	if msg == "" {
		return nil
	}
	return &unroll.FieldError{Path: e.PathAt(at), Msg: msg}
}

func (e *Entry) wrongNumber(v float64, what string, d *Design, at At) string {
	switch {
	case !e.Applies(d, at):
		if v != 0 {
			return e.absent(d, at)
		}
	case e.Optional && v == 0, v >= e.Min && v <= e.Max:
	default:
		return fmt.Sprintf("must be %s from %g to %g; it is %g", what, e.Min, e.Max, v)
	}
	return ""
}

// absent says that a value is given although it has no meaning.
func (e *Entry) absent(d *Design, at At) string {
	if e.Else != "" {
		return e.Else
	}
	kind := ""
	switch {
	case strings.HasPrefix(e.Path, "fields[].area."):
		kind = d.Fields[at[0]].Area.Shape
		if kind == "" {
			kind = "whole band"
		}
	case strings.HasPrefix(e.Path, "marks[]."):
		kind = d.Engravings[at[0]].Kind
	default:
		kind = map[string]string{LeaveSolid: "cell left solid", Change: "change", Replace: "shape of its own", Add: "shape of its own", Tie: "tie"}[d.Edits[at[0]].Do]
	}
	return fmt.Sprintf("means nothing for a %s; leave it out", kind)
}

func (e *Entry) wrongCount(n int) string {
	parts := cmp.Or(e.Parts, e.Path)
	switch {
	case e.Needed && (n == 0 || n > e.Most):
		return fmt.Sprintf("must hold 1 to %d %s; it holds %d", e.Most, parts, n)
	case n > e.Most:
		return fmt.Sprintf("at most %d %s; there are %d", e.Most, parts, n)
	}
	return ""
}

func (e *Entry) wrongText(s string, d *Design, at At) string {
	switch {
	case !e.Applies(d, at):
		if s != "" {
			return e.Else
		}
	case e.Options != nil:
		return e.wrongWord(s)
	case e.Data:
		if len(s) > e.Bytes && e.Bytes > 0 {
			return tooLong(s, e.Bytes)
		}
	case e.Bytes > 0:
		return e.wrongLines(s)
	}
	return ""
}

// wrongWord says which words may be chosen, and whether none is as good.
func (e *Entry) wrongWord(s string) string {
	var keys []string
	out := ""
	for _, o := range e.Options {
		switch o.Key {
		case s:
			return ""
		case "":
			out = ", or leave it out for the " + strings.ToLower(o.Title)
		default:
			keys = append(keys, o.Key)
		}
	}
	if e.Wrong == "" {
		if s == "" {
			return ""
		}
		return fmt.Sprintf("must be %s; it is %s", strings.Join(keys, " or "), unroll.Quote(s))
	}
	for i, k := range keys {
		keys[i] = fmt.Sprintf("%q", k)
	}
	last := len(keys) - 1
	return fmt.Sprintf("%s %s; use %s or %s%s", unroll.Quote(s), e.Wrong, strings.Join(keys[:last], ", "), keys[last], out)
}

// wrongLines checks a text. Whatever it is shown or written in, a line of a list or of a
// drawing, a control character in it would break.
func (e *Entry) wrongLines(s string) string {
	if !e.Lines && strings.ContainsAny(s, lineBreaks) {
		return cmp.Or(e.Wrong, "must be one line; it holds a line break: put a space there")
	}
	if !e.Lines && strings.Contains(s, "\t") {
		return "holds a tab; put a space there"
	}
	if e.Needed && strings.TrimSpace(s) == "" {
		return "must not be empty"
	}
	if len(s) > e.Bytes {
		return tooLong(s, e.Bytes)
	}
	for _, c := range s {
		if unicode.IsControl(c) && c != '\n' && c != '\t' {
			return fmt.Sprintf("holds the control character %U; remove it", c)
		}
	}
	return ""
}

func tooLong(s string, most int) string {
	return fmt.Sprintf("at most %d bytes; it has %d", most, len(s))
}

// lineBreaks are what starts a new line (Unicode Standard Annex 14, classes BK, CR, LF
// and NL).
const lineBreaks = "\n\r\v\f\u0085\u2028\u2029"

// metalKnown asks for an alloy of the table, or the user's own.
func metalKnown(d *Design, _ At) error {
	if _, ok := AlloyByKey(d.Metal.Alloy); ok {
		return nil
	}
	return &unroll.FieldError{Path: "metal.alloy", Msg: fmt.Sprintf("%s is not in the table; use one of %s, or %q with density_g_cm3", unroll.Quote(d.Metal.Alloy), alloyKeys(), OwnAlloy)}
}

func alloyKeys() string {
	var keys []string
	for _, a := range Alloys() {
		if a.Key != OwnAlloy {
			keys = append(keys, a.Key)
		}
	}
	return strings.Join(keys, ", ")
}
