package pdf

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
)

var (
	pdfEnd    = regexp.MustCompile(`startxref\s+(\d+)\s+%%EOF\s*$`)
	pdfTable  = regexp.MustCompile(`^xref\s+0 (\d+)\s*?\r?\n`)
	pdfRoot   = regexp.MustCompile(`/Root (\d+) 0 R`)
	pdfSize   = regexp.MustCompile(`/Size (\d+)`)
	pdfPages  = regexp.MustCompile(`/Pages (\d+) 0 R`)
	pdfCount  = regexp.MustCompile(`/Count (\d+)`)
	pdfKids   = regexp.MustCompile(`/Kids\s*\[([^\]]*)\]`)
	pdfRef    = regexp.MustCompile(`(\d+) 0 R`)
	pdfIsPage = regexp.MustCompile(`/Type\s*/Page[^s]`)
)

// pdfTail is how far from the end the last lines of a PDF can be.
const pdfTail = 64

// Check reads the bytes of a PDF back: its table of places leads to every object, and its
// tree of pages counts the pages that there are (ISO 32000-1, 7.5.4 and 7.7.3).
func Check(data []byte) error {
	if !bytes.HasPrefix(data, []byte("%PDF-1.")) {
		return fmt.Errorf("the file does not begin as a PDF")
	}
	m := pdfEnd.FindSubmatch(data[max(0, len(data)-pdfTail):])
	if m == nil {
		return fmt.Errorf("the file has no end")
	}
	at := atoi(m[1])
	if at < 0 || at >= len(data) {
		return fmt.Errorf("the table of places is out of the file")
	}
	head := pdfTable.FindSubmatch(data[at:])
	if head == nil {
		return fmt.Errorf("no table of places at byte %d", at)
	}
	n, rows := atoi(head[1]), data[at+len(head[0]):]
	const row = 20 // bytes, by the standard
	if n < 4 || len(rows) < n*row {
		return fmt.Errorf("the table of places is cut off: %d objects", n)
	}
	trailer := rows[n*row:]
	if s := pdfSize.FindSubmatch(trailer); s == nil || atoi(s[1]) != n {
		return fmt.Errorf("the trailer does not count the %d objects of the table", n)
	}
	offsets := make([]int, n)
	for i := 1; i < n; i++ {
		entry := rows[i*row : (i+1)*row]
		if entry[17] != 'n' {
			return fmt.Errorf("object %d has no place", i)
		}
		offsets[i] = atoi(entry[:10])
		if offsets[i] < 0 || offsets[i] >= at || !bytes.HasPrefix(data[offsets[i]:], fmt.Appendf(nil, "%d 0 obj", i)) {
			return fmt.Errorf("object %d is not at byte %d, where the table has it", i, offsets[i])
		}
	}
	object := func(m [][]byte) []byte {
		if m == nil || atoi(m[1]) < 1 || atoi(m[1]) >= n {
			return nil
		}
		body, _, _ := bytes.Cut(data[offsets[atoi(m[1])]:at], []byte("endobj"))
		return body
	}
	tree := object(pdfPages.FindSubmatch(object(pdfRoot.FindSubmatch(trailer))))
	count, kids := pdfCount.FindSubmatch(tree), pdfKids.FindSubmatch(tree)
	if count == nil || kids == nil {
		return fmt.Errorf("no tree of pages")
	}
	pages := 0
	for _, k := range pdfRef.FindAllSubmatch(kids[1], -1) {
		if !pdfIsPage.Match(object(k)) {
			return fmt.Errorf("object %s is in the tree of pages, but is no page", k[1])
		}
		pages++
	}
	if pages == 0 || pages != atoi(count[1]) {
		return fmt.Errorf("%d pages, the tree of pages counts %s", pages, count[1])
	}
	return nil
}

// atoi reads digits; -1 if they are no number that fits.
func atoi(digits []byte) int {
	n, err := strconv.Atoi(string(digits))
	if err != nil {
		return -1
	}
	return n
}
