package app

import (
	"errors"
	"math"
	"strings"

	"fretband/pattern"
	"fretband/unroll"
)

// nearestSize returns the size on a scale whose circumference is nearest to c,
// found among the sizes as people write them.
func nearestSize(scale string, c float64) string {
	best, off := "", math.Inf(1)
	for _, s := range unroll.Sizes(scale) {
		if v, err := unroll.SizeCircumference(scale, s); err == nil && math.Abs(v-c) < off {
			best, off = s, math.Abs(v-c)
		}
	}
	return best
}

// PutSize writes a size as it was typed, on the scale of the design. One that
// the scale does not know, or that could mean several things, is an error that
// asks which is meant, and leaves d alone.
func PutSize(d *pattern.Design, typed string) error {
	typed = strings.TrimSpace(typed)
	if _, err := unroll.SizeCircumference(d.Band.Inside.Scale, typed); err != nil {
		var fe *unroll.FieldError
		if errors.As(err, &fe) {
			return errors.New(fe.Msg)
		}
		return err
	}
	d.Band.Inside.Size = typed
	return nil
}
