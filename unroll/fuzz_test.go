package unroll

import (
	"errors"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"sort"
	"strings"
	"testing"

	"fretband/unroll/plane"
)

// words are all that a text field of a band may sensibly hold, and some more.
var words = []string{
	"", "x", Cuff, Bangle, Ring, ByAxes, ByCircumference, ByWrist, BySize, BySides, ByProfile, ByEdges,
	Soldered, Seamless, RoundEnd, PointEnd, Outward, Hollow, ArcLength, Conformal, EqualArea,
	MadeFlat, Formed, InnerFace, MiddleFace, OuterFace, "iso", "us", "uk", "54", "7 1/2", "N", "Z+3", "2-4",
}

// leaves returns every number and text of a band, in lists too.
func leaves(v reflect.Value) (all []reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			all = append(all, leaves(v.Field(i))...)
		}
	case reflect.Slice:
		for i := range v.Len() {
			all = append(all, leaves(v.Index(i))...)
		}
	default:
		all = append(all, v)
	}
	return all
}

// set puts the number, or the word that it names, into a leaf; a small number
// stretches what is there by so much, since most that could be put there is refused.
func set(leaf reflect.Value, x float64) {
	switch leaf.Kind() {
	case reflect.String:
		leaf.SetString(words[int(math.Abs(math.Mod(math.Trunc(x), float64(len(words)))))])
	case reflect.Int:
		leaf.SetInt(int64(math.Max(-1e6, math.Min(x, 1e6))))
	default:
		if math.Abs(x) < 1 && leaf.Float() != 0 {
			x = leaf.Float() * (1 + x)
		}
		leaf.SetFloat(x)
	}
}

// Whatever is asked for, the answer is an error that names a field or a sound
// blank whose map goes there and back: a band of any form with four of its
// numbers and texts changed to anything.
func FuzzUnroll(f *testing.F) {
	var names []string
	for name := range everyForm() {
		names = append(names, name)
	}
	sort.Strings(names)
	for i := range names {
		f.Add(uint8(i), uint8(200), uint8(200), uint8(200), uint8(200), 0.0, 0.0, 0.0, 0.0, 0.3)
	}
	rnd := rand.New(rand.NewPCG(9, 10))
	for i := range 10 * len(names) {
		k := func() uint8 { return uint8(rnd.IntN(60)) }
		x := func() float64 { return rnd.NormFloat64() * 0.3 }
		f.Add(uint8(i), k(), k(), k(), k(), x(), x(), x(), x(), x())
	}
	f.Add(uint8(3), uint8(0), uint8(1), uint8(2), uint8(3), 3.0, 8.0, 55.0, 60.0, 1.0)
	f.Fuzz(func(t *testing.T, form, f1, f2, f3, f4 uint8, x1, x2, x3, x4, at float64) {
		if math.IsNaN(x1 + x2 + x3 + x4 + at) {
			return // refused everywhere: TestNumbersThatCannotBeUsedAreRefused
		}
		b := everyForm()[names[int(form)%len(names)]]
		// The forms share their lists.
		b.TopEdge, b.BottomEdge, b.Inside.Profile = slices.Clone(b.TopEdge), slices.Clone(b.BottomEdge), slices.Clone(b.Inside.Profile)
		all := leaves(reflect.ValueOf(&b).Elem())
		for i, k := range []uint8{f1, f2, f3, f4} {
			if int(k) < len(all) {
				set(all[k], []float64{x1, x2, x3, x4}[i])
			}
		}
		checkUnrolled(t, b, math.Mod(at, 1))
	})
}

func checkUnrolled(t *testing.T, b Band, at float64) {
	t.Helper()
	flat, err := Unroll(b)
	if err != nil {
		var field *FieldError
		if !errors.As(err, &field) || !strings.HasPrefix(field.Path, "band") || field.Msg == "" || strings.Contains(field.Msg, "\n") {
			t.Fatalf("%q", err)
		}
		return
	}
	if !(flat.Length > 0 && flat.Width > 0 && flat.Outline.Area() > 0) {
		t.Fatalf("%+v: length %g, width %g, area %g", b, flat.Length, flat.Width, flat.Outline.Area())
	}
	if err := flat.Outline.Check(); err != nil {
		t.Fatalf("%+v: %v", b, err)
	}
	// The outline stays within the band's edges.
	bottom, top := flat.Extent()
	for i := range flat.Outline {
		x, v := flat.Where(flat.Outline.Edge(i).Mid())
		const slack = 2 * plane.FitTolerance
		if !(math.Abs(x) < flat.Length/2+slack && v > bottom-slack && v < top+slack) {
			t.Fatalf("%+v: the outline's %v lies outside: %g, %g", b, flat.Outline.Edge(i).Mid(), x, v)
		}
	}
	p := flat.Place(at*flat.Length*0.499, at*bottom)
	q, depth := flat.Unbend(flat.Bend(p, flat.Thickness/3))
	if !(q.Dist(p) < 1e-8 && math.Abs(depth-flat.Thickness/3) < 1e-8) {
		t.Fatalf("%+v: %v %v -> %v %v", b, p, flat.Thickness/3, q, depth)
	}
	// The volume by both ways of working it out.
	s := flat.Solid(flat.Outline)
	if v := flat.Volume(flat.Outline); !(v > 0 && math.Abs(s.Volume-v) < 1e-6*v) {
		t.Fatalf("%+v: volumes %g and %g", b, s.Volume, v)
	}
}
