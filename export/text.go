package export

import (
	"math"
	"strconv"
	"strings"
	"unicode"
)

// coordDigits is the number of decimals, mm, of coordinates in cut files. The
// smallest opening that a blade enters is some 0.3 mm across; with an error of
// 0.5e-10 mm on each coordinate its area holds to 1e-9 (perimeter times error
// over area: 0.94 * 0.5e-10 / 0.07 = 0.7e-9).
const coordDigits = 10

// Coord writes a coordinate for a cut file.
func Coord(v float64) string { return Decimal(v, coordDigits) }

// Decimal writes v with at most digits decimals, without trailing zeros, without
// exponent, and never "-0".
func Decimal(v float64, digits int) string {
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

// Rounded returns the number that a reader of coord(v) gets.
func Rounded(v float64) float64 {
	r, err := strconv.ParseFloat(Coord(v), 64)
	if err != nil {
		return v
	}
	return r
}

// XMLText escapes text for an element. Characters that XML 1.0 does not allow
// have been taken out by plain.
func XMLText(s string) string {
	return strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;").Replace(s)
}

// MM writes a length to a hundredth, without trailing zeros.
func MM(v float64) string { return Decimal(v, 2) }

// Plain turns text from a design into one line without control characters.
func Plain(s string) string {
	s = strings.ToValidUTF8(s, "?")
	s = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return ' '
		}
		return r
	}, s)
	return strings.Join(strings.Fields(s), " ")
}

// LetterWide is the mean width of a letter as a share of its size in sans faces, on the
// wide side so that no text is cut off.
const LetterWide = 0.56
