package app

import (
	"fmt"
	"math"
	"strings"

	"fretband/pattern"
	"fretband/unroll"
)

// typing is how a number is typed: of a design, or of the answers of a hand-over.
type typing struct {
	title, unit string
	empty       string // what an entry without text says, which stands for 0
	pattern.Range
	decimals     int
	whole, gauge bool
}

// allowed says what may be typed: "0.1 to 20 mm".
func (t typing) allowed() string {
	s := strings.TrimSpace(fmt.Sprintf("%s to %s %s", FormatNumber(t.Min, t.decimals), FormatNumber(t.Max, t.decimals), t.unit))
	if t.whole {
		s = "a whole number, " + s
	}
	if t.gauge {
		s += fmt.Sprintf(", %d to %d ga (B&S) or %d to %d swg", unroll.MinGauge, unroll.MaxGauge, unroll.MinImperialGauge, unroll.MaxImperialGauge)
	}
	if t.empty != "" {
		s += ", or nothing"
	}
	return s
}

// allows reports whether a number may be typed.
func (t typing) allows(v float64) bool {
	return v >= t.Min && v <= t.Max && (!t.whole || v == math.Trunc(v)) || v == 0 && t.empty != ""
}

// read reads what was typed, or says what is allowed.
func (t typing) read(typed string) (Quantity, error) {
	typed = strings.TrimSpace(typed)
	if typed == "" && t.empty != "" {
		return Quantity{}, nil
	}
	q, err := ReadQuantity(typed, t.unit, t.gauge)
	if err != nil {
		return q, fmt.Errorf("%s: %w; allowed is %s", t.title, err, t.allowed())
	}
	if g, i := q.Gauge, q.Imperial; g != 0 || i != 0 {
		if g != 0 && (g < unroll.MinGauge || g > unroll.MaxGauge) || i != 0 && (i < unroll.MinImperialGauge || i > unroll.MaxImperialGauge) {
			return q, fmt.Errorf("%s: allowed is %s", t.title, t.allowed())
		}
		return q, nil
	}
	// The last digit shown must not push a limit's own value out.
	if held := t.Clamp(q.Value); math.Abs(held-q.Value) < math.Pow(10, -float64(t.decimals))/2 {
		q.Value = held
	}
	if !t.allows(q.Value) {
		return q, fmt.Errorf("%s: %s is not allowed; allowed is %s", t.title, typed, t.allowed())
	}
	return q, nil
}
