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

// Each line of the table has its place in the options, and its limits are kept there.
func TestEachAskIsLimited(t *testing.T) {
	keys := map[string]bool{}
	for i := range asks {
		a := &asks[i]
		assert.False(t, keys[a.Key], a.Key)
		keys[a.Key] = true
		assert.True(t, a.Title == "" || a.Tip != "", a.Key)
		refused := func(o Options) {
			assert.ErrorContains(t, o.Check(), strings.ReplaceAll(a.Key, "-", " ")[:3], a.Key)
		}
		var o Options
		switch {
		case a.Number != nil:
			for _, v := range []float64{-1, 2*a.Max + 1, math.NaN(), math.Inf(1)} {
				*a.Number(&o) = v
				refused(o)
			}
			*a.Number(&o) = a.Max
		case a.Whole != nil:
			for _, v := range []int{-1, int(a.Max) + 1} {
				*a.Whole(&o) = v
				refused(o)
			}
			*a.Whole(&o) = int(a.Max)
		default:
			*a.Text(&o) = strings.Repeat("x", a.Letters+1)
			refused(o)
			*a.Text(&o) = ""
			if len(a.Options) > 0 {
				*a.Text(&o) = a.Options[0].Key
			}
		}
		if a.Sides { // one alone is none
			o.StockW, o.StockH = max(o.StockW, o.StockH), max(o.StockW, o.StockH)
		}
		assert.NoError(t, o.Check(), a.Key)
	}
}
