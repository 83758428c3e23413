package export

import (
	"math"
	"strconv"
	"strings"
)

// coordDigits is the number of decimals, mm, of coordinates in cut files. The
// smallest opening that a blade enters is some 0.3 mm across; with an error of
// 0.5e-10 mm on each coordinate its area holds to 1e-9 (perimeter times error
// over area: 0.94 * 0.5e-10 / 0.07 = 0.7e-9).
const coordDigits = 10

// coord writes a coordinate for a cut file.
func coord(v float64) string { return decimal(v, coordDigits) }

// decimal writes v with at most digits decimals, without trailing zeros, without
// exponent, and never "-0".
func decimal(v float64, digits int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "0"
	}
	s := strconv.FormatFloat(v, 'f', digits, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(s, "0")
		s = strings.TrimSuffix(s, ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

// rounded returns the number that a reader of coord(v) gets.
func rounded(v float64) float64 {
	r, err := strconv.ParseFloat(coord(v), 64)
	if err != nil {
		return v
	}
	return r
}
