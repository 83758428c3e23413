package app

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"fretband/pattern"
	"fretband/unroll"
)

// Quantity is a number as a person types it: a value in the field's own unit,
// or a gauge.
type Quantity struct {
	Value    float64
	Gauge    int // Brown & Sharpe; 0: none was typed
	Imperial int // Imperial (British standard wire) gauge; 0: none was typed
}

// errNotANumber is what a text gives that holds no number at all.
var errNotANumber = errors.New("type a number")

// ReadQuantity reads what was typed into a field whose unit is unit: "1.5",
// "1,5", "1.5 mm", "0.05 in", "1/16 in", "1 1/2 in", `3/8"`, "1.2 cm", sums and products of
// these, and where gauge is true "18 ga" and "18 swg". A length with a unit is taken into
// mm; in a field that is no length a unit other than its own is refused. hundred is what
// 100 % is, 0 where a percentage alone means nothing.
func ReadQuantity(s, unit string, gauge bool, hundred float64) (Quantity, error) {
	if len(s) > longestTyped {
		return Quantity{}, errNotANumber
	}
	t := strings.ToLower(strings.TrimSpace(s))
	t = strings.ReplaceAll(t, "\u2212", "-") // the printed minus sign
	cut := strings.LastIndexAny(t, "0123456789.,") + 1
	if strings.TrimSpace(t[:cut]) == "" {
		return Quantity{}, errNotANumber
	}
	switch word := strings.Trim(t[cut:], " ."); word {
	case "ga", "gauge", "b&s", "awg", "ga b&s", "swg", "isw", "imperial":
		if !gauge {
			return Quantity{}, fmt.Errorf("a gauge can't stand here: type %s", unitWord(unit))
		}
		v, err := plainNumber(strings.TrimSpace(t[:cut]))
		// What is thicker than number 1 or thinner than number 99 has no gauge.
		if err != nil || v != math.Trunc(v) || v < 1 || v > 99 {
			return Quantity{}, errors.New("a gauge is a whole number")
		}
		if word == "swg" || word == "isw" || word == "imperial" {
			return Quantity{Imperial: int(v)}, nil
		}
		return Quantity{Gauge: int(v)}, nil
	}
	v, err := readSum(t, unit, hundred)
	if err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
		err = errNotANumber
	}
	return Quantity{Value: v}, err
}

// longestTyped is more than a person types for a number, bytes.
const longestTyped = 400

func unitWord(unit string) string {
	if unit == "" {
		return "a plain number"
	}
	return "a number of " + unit
}

func plainNumber(s string) (float64, error) {
	if strings.Count(s, ",") == 1 && !strings.Contains(s, ".") {
		s = strings.Replace(s, ",", ".", 1)
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, errNotANumber
	}
	return v, nil
}

// FormatNumber writes v with at most places decimals and no idle zeros.
func FormatNumber(v float64, decimals int) string {
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		s = "0"
	}
	return s
}

// typing is how a number is typed: of a design, or of the answers of a hand-over.
type typing struct {
	title, unit string
	empty       string // what an entry without text says, which stands for 0
	pattern.Range
	decimals     int
	whole, gauge bool
	hundred      float64 // what 100 % is; 0: a percentage means nothing
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
	q, err := ReadQuantity(typed, t.unit, t.gauge, t.hundred)
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
