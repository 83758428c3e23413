package unroll

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Scale is a way of giving the size of a band's round inside in trade numbers.
type Scale struct {
	Key     string // as in the design file
	Name    string
	Kind    string // the kind of band it is for: [Ring] or [Bangle]
	Example string
	Source  string
	Note    string // what the reader should know, may be empty

	// circumference returns the inner circumference, mm, of a tidied size.
	circumference func(size string) (float64, bool)
}

// Scales returns the scales of size, in the order a person reads them.
func Scales() []Scale {
	return []Scale{
		{
			Key: "iso", Name: "ISO 8653", Kind: Ring, Example: "54",
			Source:        "ISO 8653:2016: the size is the inner circumference in mm; sizes 38 to 76 here",
			circumference: isoSize,
		},
		{
			Key: "us", Name: "US", Kind: Ring, Example: "7, 7 1/2",
			Source:        "inner diameter 0.458 + 0.032 n inch (the common chart; sizes 0 to 16 in quarters)",
			Note:          "there is no exact US standard and ring sticks differ by up to a quarter size",
			circumference: usSize,
		},
		{
			Key: "uk", Name: "UK", Kind: Ring, Example: "N, N 1/2",
			Source:        "BS 6820 / BS EN 28653: inner circumference 37.5 mm for A and 1.25 mm more a letter; Z+1 to Z+6 go on in the same steps (usual, without a source)",
			Note:          "older UK charts lie up to 0.6 mm beside BS 6820",
			circumference: ukSize,
		},
		{
			Key: "jp", Name: "Japan", Kind: Ring, Example: "13",
			Source:        "JIS S 4700: inner diameter 13 mm for size 1 and 1/3 mm more a size; sizes 1 to 30",
			circumference: jpSize,
		},
		{
			Key: "it", Name: "Italy, Spain, Switzerland", Kind: Ring, Example: "14",
			Source:        "inner circumference 40 mm and 1 mm a size, so the ISO size less 40; sizes 1 to 36 here",
			circumference: itSize,
		},
		{
			Key: "bangle", Name: "bangle, inches and sixteenths", Kind: Bangle, Example: "2-4",
			Source:        "trade tables: 2-4 is an inner diameter of 2 4/16 inch; 1-8 to 3-8 here",
			circumference: bangleSize,
		},
	}
}

// SizeCircumference returns the inner circumference, mm, of a size on a scale
// ([Scale.Key]). A size that the scale does not know, or one given without its
// scale, is an error that asks which is meant.
func SizeCircumference(scale, size string) (float64, error) {
	s := tidySize(size)
	var others, keys []string
	for _, sc := range Scales() {
		keys = append(keys, strconv.Quote(sc.Key))
		c, ok := sc.circumference(s)
		if ok && sc.Key == scale {
			return c, nil
		}
		if ok {
			others = append(others, fmt.Sprintf("%q (%.1f mm across)", sc.Key, c/math.Pi))
		}
	}
	for _, sc := range Scales() {
		if sc.Key != scale {
			continue
		}
		msg := fmt.Sprintf("%s is not a size on the scale %q (for instance %q; %s)", Quote(size), scale, sc.Example, sc.Source)
		if len(others) > 0 {
			msg += "; which scale is meant? It is a size on " + strings.Join(others, ", ")
		}
		if hint := sizeQuestion(s); hint != "" {
			msg += "; " + hint
		}
		return 0, &FieldError{"band.inside.size", msg}
	}
	msg := "must be one of " + strings.Join(keys, ", ")
	if scale != "" {
		msg += "; it is " + Quote(scale)
	}
	if len(others) > 0 {
		msg += fmt.Sprintf("; size %s could be %s: which is meant?", Quote(size), strings.Join(others, ", "))
	}
	return 0, &FieldError{"band.inside.scale", msg}
}

// Sizes lists the sizes of a scale as people write them, as far as the scale has them:
// wholes and halves, letters and half letters, inches and sixteenths.
func Sizes(scale string) []string {
	var all []string
	switch scale {
	case "uk":
		for l := 'A'; l <= 'Z'; l++ {
			all = append(all, string(l), string(l)+" 1/2")
		}
	case "bangle":
		for in := 1; in <= 3; in++ {
			for n := range 16 {
				all = append(all, fmt.Sprintf("%d-%d", in, n))
			}
		}
	case "us":
		for n := range 17 {
			all = append(all, strconv.Itoa(n), fmt.Sprintf("%d 1/2", n))
		}
	default:
		for n := 1; n <= 80; n++ {
			all = append(all, strconv.Itoa(n))
		}
	}
	return slices.DeleteFunc(all, func(s string) bool {
		_, err := SizeCircumference(scale, s)
		return err != nil
	})
}

// sizeQuestion asks what a common but unclear way of writing a size means.
func sizeQuestion(s string) string {
	if s != "" && s[0] >= 'A' && s[0] <= 'Z' {
		if n, err := strconv.Atoi(s[1:]); err == nil {
			return fmt.Sprintf("is %s meant as %q or as \"%c+%d\"?", Quote(s), s[:1]+" 1/2", s[0], n)
		}
	}
	v, ok := number(s)
	if !ok {
		return ""
	}
	if v > 1 && v < 4 {
		return fmt.Sprintf("is %s meant as inches or as \"%d-%d\"?", s, int(v), int(math.Round((v-math.Floor(v))*10)))
	}
	if v >= 12 && v < 30 {
		return fmt.Sprintf("is %s meant as an inner diameter in mm? Then give the inside by its axes, %s x %s mm", s, s, s)
	}
	return ""
}

func isoSize(s string) (float64, bool) {
	v, ok := number(s)
	return v, ok && v >= 38 && v <= 76
}

func usSize(s string) (float64, bool) {
	v, ok := number(s)
	ok = ok && v >= 0 && v <= 16 && v*4 == math.Trunc(v*4)
	return math.Pi * 25.4 * (0.458 + 0.032*v), ok
}

func ukSize(s string) (float64, bool) {
	if s == "" || s[0] < 'A' || s[0] > 'Z' {
		return 0, false
	}
	k := float64(s[0] - 'A')
	rest := strings.TrimSpace(s[1:])
	if whole, found := strings.CutPrefix(rest, "+"); found {
		n, ok := number(strings.TrimSpace(whole))
		return 37.5 + 1.25*(k+n), ok && s[0] == 'Z' && n >= 1 && n <= 6 && n*2 == math.Trunc(n*2)
	}
	if rest == "" {
		return 37.5 + 1.25*k, true
	}
	part, ok := number(rest)
	ok = ok && part > 0 && part < 1 && part*4 == math.Trunc(part*4)
	return 37.5 + 1.25*(k+part), ok
}

func jpSize(s string) (float64, bool) {
	v, ok := number(s)
	return math.Pi * (v + 38) / 3, ok && v >= 1 && v <= 30 && v == math.Trunc(v)
}

func itSize(s string) (float64, bool) {
	v, ok := number(s)
	return 40 + v, ok && v >= 1 && v <= 36 && v*2 == math.Trunc(v*2)
}

func bangleSize(s string) (float64, bool) {
	in, sixteenths, found := strings.Cut(s, "-")
	if !found {
		return 0, false
	}
	i, err1 := strconv.ParseUint(strings.TrimSpace(in), 10, 8)
	n, err2 := strconv.ParseUint(strings.TrimSpace(sixteenths), 10, 8)
	v := float64(i) + float64(n)/16
	return math.Pi * 25.4 * v, err1 == nil && err2 == nil && n < 16 && v >= 1.5 && v <= 3.5
}

// tidySize brings a size to one spelling: capitals, single spaces, decimal
// points, fractions in plain figures.
func tidySize(s string) string {
	s = strings.NewReplacer("½", " 1/2", "¼", " 1/4", "¾", " 3/4", ",", ".", "⁄", "/", "–", "-").Replace(s)
	return strings.Join(strings.Fields(strings.ToUpper(s)), " ")
}

// number reads "7", "7.5", ".5", "1/2" and "7 1/2": nothing signed or scientific.
func number(s string) (float64, bool) {
	if len(s) > 12 || strings.Trim(s, "0123456789./ ") != "" {
		return 0, false
	}
	whole, frac, mixed := strings.Cut(s, " ")
	if !mixed && strings.Contains(whole, "/") {
		whole, frac, mixed = "0", whole, true
	}
	v, err := strconv.ParseFloat(whole, 64)
	if err != nil {
		return 0, false
	}
	if !mixed {
		return v, true
	}
	num, den, ok := strings.Cut(frac, "/")
	n, err1 := strconv.ParseUint(num, 10, 8)
	d, err2 := strconv.ParseUint(den, 10, 8)
	if !ok || err1 != nil || err2 != nil || n >= d || v != math.Trunc(v) {
		return 0, false
	}
	return v + float64(n)/float64(d), true
}
