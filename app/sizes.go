package app

import (
	"errors"
	"math"
	"strings"

	"fretband/pattern"
	"fretband/unroll"
)

// Sizes returns the sizes that can be chosen on a scale.
func Sizes(scale string) []string {
	var ok []string
	for _, s := range sizesOf(scale) {
		if _, err := unroll.SizeCircumference(scale, s); err == nil {
			ok = append(ok, s)
		}
	}
	return ok
}

// sizesOf lists the sizes of a scale as people write them: wholes and halves,
// letters and half letters, inches and sixteenths. Some may be outside the
// scale; those give no circumference.
func sizesOf(scale string) []string {
	var all []string
	switch scale {
	case "uk":
		for l := 'A'; l <= 'Z'; l++ {
			all = append(all, string(l), string(l)+" 1/2")
		}
	case "bangle":
		for in := 1; in <= 3; in++ {
			for n := range 16 {
				all = append(all, FormatNumber(float64(in), 0)+"-"+FormatNumber(float64(n), 0))
			}
		}
	case "us":
		for n := range 17 {
			all = append(all, FormatNumber(float64(n), 0), FormatNumber(float64(n), 0)+" 1/2")
		}
	default:
		for n := 1; n <= 80; n++ {
			all = append(all, FormatNumber(float64(n), 0))
		}
	}
	return all
}

// nearestSize returns the size on a scale whose circumference is nearest to c,
// found among the sizes as people write them.
func nearestSize(scale string, c float64) string {
	best, off := "", math.Inf(1)
	for _, s := range sizesOf(scale) {
		v, err := unroll.SizeCircumference(scale, s)
		if err == nil && math.Abs(v-c) < off {
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
