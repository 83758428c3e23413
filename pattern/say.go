package pattern

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// Say is [fmt.Sprintf] for what people read: a number that rounds to nothing has no
// sign, so that no text says "-0.00".
func Say(format string, args ...any) string {
	own := false
	for i, a := range args {
		if v, ok := a.(float64); ok && math.Signbit(v) {
			if !own {
				args, own = slices.Clone(args), true
			}
			args[i] = negative(v)
		}
	}
	return fmt.Sprintf(format, args...)
}

// negative is a number under zero, or the zero that has a sign.
type negative float64

// Format implements fmt.Formatter.
func (v negative) Format(s fmt.State, verb rune) {
	text := fmt.Sprintf(fmt.FormatString(s, verb), float64(v))
	if !strings.ContainsAny(text, "123456789IN") { // Inf, NaN
		text = fmt.Sprintf(fmt.FormatString(s, verb), 0.0)
	}
	fmt.Fprint(s, text)
}
