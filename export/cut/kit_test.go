package cut

import (
	"bytes"
	"errors"
	"io"
	"testing"

	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
)

// writeDXF and writeSVG write a cut file of a part.
func writeDXF(w io.Writer, s *pattern.Sheet, r *check.Report, o export.Options) error {
	f, err := NewFiles(s, r, o)
	if err != nil {
		return err
	}
	return f.WriteDXF(w)
}

func writeSVG(w io.Writer, s *pattern.Sheet, r *check.Report, o export.Options) error {
	f, err := NewFiles(s, r, o)
	if err != nil {
		return err
	}
	return f.WriteSVG(w)
}

// fileOf returns the cut file of that key.
func fileOf(t *testing.T, key string, s *pattern.Sheet, r *check.Report, o export.Options) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, map[string]func(io.Writer, *pattern.Sheet, *check.Report, export.Options) error{"svg": writeSVG, "dxf": writeDXF}[key](&b, s, r, o))
	return b.Bytes()
}

// madeAndReadBack makes both cut files of a part and reads them back.
func madeAndReadBack(s *pattern.Sheet, r *check.Report, o export.Options) error {
	f, err := NewFiles(s, r, o)
	if err != nil {
		return err
	}
	var svg, dxf bytes.Buffer
	return errors.Join(f.WriteSVG(&svg), f.WriteDXF(&dxf), f.CheckSVG(svg.Bytes()), f.CheckDXF(dxf.Bytes()))
}
