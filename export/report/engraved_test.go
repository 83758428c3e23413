package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"fretband/export/sample"
	"fretband/pattern"
	"fretband/pattern/check"
)

func TestMarksAreInNoFigureOfCutting(t *testing.T) {
	s, r := sample.Engraved(t)
	bare := s.Design
	bare.Engravings = nil
	for _, m := range s.Design.Engravings {
		m.MarginMM = -1
		bare.Engravings = append(bare.Engravings, m)
	}
	through, err := pattern.Lay(bare)
	require.NoError(t, err)
	bare.Engravings = nil
	without, err := pattern.Lay(bare)
	require.NoError(t, err)
	a, b := check.Run(through), check.Run(without)
	require.Equal(t, b.CutLength, a.CutLength)
	require.Equal(t, b.Openings, a.Openings)

	var out struct {
		Marks  int     `json:"marks"`
		Length float64 `json:"marks_length_mm"`
	}
	var buf bytes.Buffer
	require.NoError(t, JSON(&buf, s, r))
	require.NoError(t, json.Unmarshal(buf.Bytes(), &out))
	require.Equal(t, 3, out.Marks)
	require.Greater(t, out.Length, 8+5*math.Pi)
	buf.Reset()
	require.NoError(t, Text(&buf, s, r))
	require.Contains(t, buf.String(), fmt.Sprintf("3 marks, %.1f mm of line: not cut", r.EngravedLength))
}
