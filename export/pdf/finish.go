package pdf

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf16"
)

// Objects with a fixed number in the files of the drawing library. They are
// written last, after all pages and fonts.
const (
	catalogue = 1
	about     = 2
	pageTree  = 3
)

var xrefAt = regexp.MustCompile(`startxref\s+(\d+)\s+%%EOF\s*$`)

// finish writes the end of the file anew: its catalogue with the wish not to be
// scaled, what the file says of itself without a date, and the table of places
// that has to match. (ISO 32000-1: 7.5.4 cross-reference table, 12.2 viewer
// preferences, 14.3.3 document information.)
func finish(file []byte, title, keywords string) ([]byte, error) {
	m := xrefAt.FindSubmatch(file)
	if m == nil {
		return nil, fmt.Errorf("pdf: the file has no end")
	}
	xref, _ := strconv.Atoi(string(m[1]))
	offsets, err := readOffsets(file, xref)
	if err != nil {
		return nil, err
	}
	tail := min(offsets[catalogue], offsets[about], offsets[pageTree])
	for n, p := range offsets {
		if p > tail && n != catalogue && n != about && n != pageTree {
			return nil, fmt.Errorf("pdf: object %d stands after the catalogue", n)
		}
	}
	tree, err := object(file, offsets[pageTree])
	if err != nil {
		return nil, err
	}

	var b bytes.Buffer
	b.Write(undateFonts(file, offsets, tail))
	write := func(n int, body string) {
		offsets[n] = b.Len()
		fmt.Fprintf(&b, "%d 0 obj\n%s\nendobj\n", n, body)
	}
	write(catalogue, fmt.Sprintf("<</Type/Catalog/Pages %d 0 R/Lang(en)"+
		"/ViewerPreferences<</PrintScaling/None/DisplayDocTitle true>>>>", pageTree))
	words := ""
	if keywords != "" {
		words = "/Keywords" + asciiString(keywords)
	}
	write(about, fmt.Sprintf("<</Title%s%s/Creator(Fretband)/Producer(tdewolff/canvas)>>", textString(title), words))
	write(pageTree, tree)
	id := sha256.Sum256(b.Bytes())
	at := b.Len()
	fmt.Fprintf(&b, "xref\n0 %d\n0000000000 65535 f \n", len(offsets))
	for _, p := range offsets[1:] {
		fmt.Fprintf(&b, "%010d 00000 n \n", p)
	}
	fmt.Fprintf(&b, "trailer\n<</Root %d 0 R/Info %d 0 R/Size %d/ID[<%x><%[4]x>]>>\nstartxref\n%[5]d\n%%%%EOF\n",
		catalogue, about, len(offsets), id[:16], at)
	return b.Bytes(), nil
}

// readOffsets reads the table of places; entry 0 is the list of free objects.
func readOffsets(file []byte, at int) ([]int, error) {
	var n int
	if at <= 0 || at >= len(file) {
		return nil, fmt.Errorf("pdf: the table of places is out of the file")
	}
	if _, err := fmt.Sscanf(string(file[at:min(at+32, len(file))]), "xref\n0 %d\n", &n); err != nil {
		return nil, fmt.Errorf("pdf: table of places: %w", err)
	}
	lines := bytes.SplitN(file[at:], []byte("\n"), n+3)
	if n < 4 || len(lines) < n+3 {
		return nil, fmt.Errorf("pdf: table of places: %d lines for %d objects", len(lines), n)
	}
	offsets := make([]int, n)
	for i := range offsets {
		p, err := strconv.Atoi(string(bytes.TrimLeft(lines[2+i][:10], "0")))
		if err != nil && i > 0 {
			return nil, fmt.Errorf("pdf: table of places: %w", err)
		}
		offsets[i] = p
	}
	return offsets, nil
}

// object returns the body of the object at a place.
func object(file []byte, at int) (string, error) {
	_, body, ok := bytes.Cut(file[at:], []byte(" obj\n"))
	if !ok {
		return "", fmt.Errorf("pdf: no object at %d", at)
	}
	body, _, ok = bytes.Cut(body, []byte("\nendobj"))
	if !ok {
		return "", fmt.Errorf("pdf: the object at %d has no end", at)
	}
	return string(body), nil
}

// asciiString writes a text in ASCII as it is (ISO 32000-1, 7.3.4.2), and any other as
// textString does.
func asciiString(s string) string {
	for i := range len(s) {
		if s[i] < ' ' || s[i] > '~' {
			return textString(s)
		}
	}
	return "(" + strings.NewReplacer(`\`, `\\`, "(", `\(`, ")", `\)`).Replace(s) + ")"
}

// textString writes a text as a string object: UTF-16 with its mark, in hex, so
// that nothing has to be escaped (ISO 32000-1, 7.9.2.2).
func textString(s string) string {
	var b bytes.Buffer
	b.WriteString("<FEFF")
	for _, u := range utf16.Encode([]rune(s)) {
		fmt.Fprintf(&b, "%04X", u)
	}
	b.WriteString(">")
	return b.String()
}
