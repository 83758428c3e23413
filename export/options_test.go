package export

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestOptionsOutOfRangeAreRefusedWithTheRange(t *testing.T) {
	for _, c := range []struct {
		o    Options
		says string
	}{
		{Options{KerfMM: -0.1}, "0 (off) to 1 mm"},
		{Options{KerfMM: 1.01}, "0 (off) to 1 mm"},
		{Options{KerfMM: math.NaN()}, "0 (off) to 1 mm"},
		{Options{KerfMM: math.Inf(1)}, "0 (off) to 1 mm"},
		{Options{Paper: "a9"}, "a4, letter"},
		{Options{Solids: []string{"obj"}}, "stl, 3mf"},
		{Options{Process: "saw\nx"}, "control character"},
		{Options{Process: strings.Repeat("x", 201)}, "200"},
	} {
		assert.ErrorContains(t, c.o.Check(), c.says, "%+v", c.o)
	}
	for _, o := range []Options{{}, {Paper: "A4"}, {Paper: Letter, KerfMM: 1, Process: "photo-etch"}} {
		assert.NoError(t, o.Check())
	}
}
