package unroll_test

import (
	"fmt"

	"fretband/unroll"
	"fretband/unroll/plane"
)

func ExampleUnroll() {
	// A cuff for a wrist of 165 mm with 10 mm of ease, metal and gap together.
	flat, err := unroll.Unroll(unroll.Band{
		Kind:      unroll.Cuff,
		Inside:    unroll.Inside{By: unroll.ByWrist, WristMM: 165, EaseMM: 10, Ratio: 1.25},
		GapMM:     28,
		Thickness: unroll.Thickness{BSGauge: 18},
		WidthMM:   25, EndWidthMM: 25,
		NeutralK: 0.5,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("blank %.2f x %.2f x %.2f mm\n", flat.Length, flat.Width, flat.Thickness)
	front := flat.Bend(plane.Pt(0, 0), flat.Thickness)
	fmt.Printf("height outside, front to middle %.2f mm\n", front.Y)
	// Output:
	// blank 149.83 x 25.00 x 1.02 mm
	// height outside, front to middle 25.70 mm
}

func ExampleUnroll_refused() {
	_, err := unroll.Unroll(unroll.Band{
		Kind:      unroll.Ring,
		Inside:    unroll.Inside{By: unroll.BySize, Scale: "iso", Size: "N"},
		Thickness: unroll.Thickness{MM: 1.4}, WidthMM: 6, EndWidthMM: 6,
		Joint: unroll.Seamless, NeutralK: 0.5,
	})
	fmt.Println(err)
	// Output:
	// band.inside.size: "N" is not a size on the scale "iso" (for instance "54"; ISO 8653:2016: the size is the inner circumference in mm; sizes 38 to 76 here); which scale is meant? It is a size on "uk" (17.1 mm across)
}
