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

// mmPerInch is exact (the international inch, 1959).
const mmPerInch = 25.4

// ReadQuantity reads what was typed into a field whose unit is unit: "1.5",
// "1,5", "1.5 mm", "0.05 in", "1/16 in", "1 1/2 in", `3/8"`, "1.2 cm", and where
// gauge is true "18 ga" and "18 swg". A length with a unit is taken into mm; in a field that
// is no length a unit other than its own is refused.
func ReadQuantity(s, unit string, gauge bool) (Quantity, error) {
	t := strings.ToLower(strings.TrimSpace(s))
	t = strings.ReplaceAll(t, "\u2212", "-") // the printed minus sign
	cut := strings.LastIndexFunc(t, func(r rune) bool { return r >= '0' && r <= '9' || r == '.' || r == ',' }) + 1
	digits, word := strings.TrimSpace(t[:cut]), strings.Trim(t[cut:], " .")
	if digits == "" {
		return Quantity{}, errNotANumber
	}
	v, err := mixedNumber(digits)
	if err != nil {
		return Quantity{}, err
	}
	switch word {
	case "", strings.ToLower(unit):
		return Quantity{Value: v}, nil
	case "ga", "gauge", "b&s", "awg", "ga b&s", "swg", "isw", "imperial":
		if !gauge {
			return Quantity{}, fmt.Errorf("a gauge can't stand here: type %s", unitWord(unit))
		}
		// What is thicker than number 1 or thinner than number 99 has no gauge.
		if v != math.Trunc(v) || v < 1 || v > 99 {
			return Quantity{}, errors.New("a gauge is a whole number")
		}
		if word == "swg" || word == "isw" || word == "imperial" {
			return Quantity{Imperial: int(v)}, nil
		}
		return Quantity{Gauge: int(v)}, nil
	}
	if unit == "mm" {
		switch word {
		case "in", "inch", "inches", "\"", "\u2033", "''":
			return Quantity{Value: v * mmPerInch}, nil
		case "cm":
			return Quantity{Value: v * 10}, nil
		}
		return Quantity{}, fmt.Errorf("%q is no unit of length here: mm, cm or in", word)
	}
	return Quantity{}, fmt.Errorf("%q can't stand here: type %s", word, unitWord(unit))
}

func unitWord(unit string) string {
	if unit == "" {
		return "a plain number"
	}
	return "a number of " + unit
}

// mixedNumber reads "12", "1.5", "1,5", "1/16" and "1 1/2".
func mixedNumber(s string) (float64, error) {
	var whole float64
	if i := strings.LastIndexByte(s, ' '); i >= 0 && strings.Contains(s[i:], "/") {
		w, err := plainNumber(strings.TrimSpace(s[:i]))
		if err != nil || w != math.Trunc(w) || w < 0 {
			return 0, errNotANumber
		}
		whole, s = w, s[i+1:]
	}
	if a, b, ok := strings.Cut(s, "/"); ok {
		n, err1 := plainNumber(strings.TrimSpace(a))
		d, err2 := plainNumber(strings.TrimSpace(b))
		if err1 != nil || err2 != nil || d == 0 {
			return 0, errNotANumber
		}
		return whole + n/d, nil
	}
	return plainNumber(s)
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
