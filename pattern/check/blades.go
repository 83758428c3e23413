package check

import (
	"math"

	"fretband/pattern"
)

// Blade is advice on the saw blade for a sheet. Its numbers are nominal: makers
// differ by some hundredths of a millimetre, so measure the blade at hand.
type Blade struct {
	Size    string  // "4/0"
	ThickMM float64 // of the blade, about the width of its cut
	WidthMM float64 // from the back to the tips of the teeth
	Teeth   float64 // per centimetre
	PilotMM float64 // the least standard number drill that lets the blade in
	Drill   string  // that drill in words, and the metric one
	Advice  string
}

// ThinSheet is the thickness, mm, under which not even two teeth of the finest
// listed blade (8/0, 35 teeth a centimetre) are in the metal.
const ThinSheet = 0.57

// BladeFor returns the coarsest blade of which three teeth are in sheet of the
// given thickness, mm, or the finest if there is none. It is advice, not a rule:
// "three teeth" is published for hacksaws and bandsaws; jewellers make do
// with two to three (memory).
func BladeFor(thickness float64) Blade {
	list := blades()
	b, two := list[0], list[0]
	for _, x := range list {
		if teeth := x.Teeth / 10 * thickness; teeth >= 3 {
			b = x
		}
		if x.Teeth/10*thickness >= 2 {
			two = x
		}
	}
	n := b.Teeth / 10 * thickness
	switch {
	case thickness < ThinSheet:
		b.Advice = pattern.Say("Sheet of %.2f mm is too thin for two teeth of any listed blade: saw it on a thicker backing sheet, or slant the blade. ", thickness)
	case n < 3:
		b.Advice = pattern.Say("%.1f teeth stand in the metal; three would need a finer blade than is listed, two are enough at many benches. ", n)
	case two.Size != b.Size:
		b.Advice = pattern.Say("%.1f teeth stand in the metal, three are the usual advice; two are enough at many benches, up to size %s. ", n, two.Size)
	default:
		b.Advice = pattern.Say("%.1f teeth stand in the metal, three are the usual advice. ", n)
	}
	b.Advice += pattern.Say("The hole must let the blade's diagonal in, %.2f mm. Blade sizes are nominal, without a source, and makers differ: measure yours. "+
		"Blades snap: wear eye protection and keep fingers off the line of cut.", b.Diagonal())
	return b
}

// Diagonal returns the width of the round hole, mm, that the square-cornered
// section of the blade just passes: sqrt(T^2 + W^2).
func (b Blade) Diagonal() float64 { return math.Hypot(b.ThickMM, b.WidthMM) }

// blades is the table of sizes, finest first: thickness and width in inch, teeth
// a centimetre. All of it is from memory (no published full table was found).
func blades() []Blade {
	const inch = 25.4
	var list []Blade
	for _, x := range []struct {
		size                string
		thick, width, teeth float64
	}{
		{"8/0", 0.0063, 0.0126, 35},
		{"7/0", 0.0067, 0.0130, 33},
		{"6/0", 0.0070, 0.0140, 30},
		{"5/0", 0.0080, 0.0157, 28},
		{"4/0", 0.0086, 0.0175, 26},
		{"3/0", 0.0095, 0.0190, 24},
		{"2/0", 0.0103, 0.0204, 22},
		{"1/0", 0.0110, 0.0220, 21},
		{"1", 0.0120, 0.0240, 20},
		{"2", 0.0134, 0.0276, 17},
		{"3", 0.0140, 0.0290, 16},
		{"4", 0.0150, 0.0307, 15},
		{"5", 0.0158, 0.0331, 14},
		{"6", 0.0173, 0.0370, 13},
		{"7", 0.0189, 0.0400, 12},
		{"8", 0.0197, 0.0440, 11},
	} {
		b := Blade{Size: x.size, ThickMM: x.thick * inch, WidthMM: x.width * inch, Teeth: x.teeth}
		var number int
		number, b.PilotMM = numberDrill(b.Diagonal())
		b.Drill = pattern.Say("no. %d, or metric %.2f mm", number, metricDrill(b.Diagonal()))
		list = append(list, b)
	}
	return list
}

// numberDrill returns the smallest number drill (ANSI/ASME B94.11M, nos. 80 to
// 40) that is not under d mm, and its diameter in mm. A size beyond the table
// gives its largest.
func numberDrill(d float64) (number int, mm float64) {
	inches := [...]float64{
		0.0135, 0.0145, 0.0160, 0.0180, 0.0200, 0.0210, 0.0225, 0.0240, 0.0250, 0.0260, // 80 to 71
		0.0280, 0.0292, 0.0310, 0.0320, 0.0330, 0.0350, 0.0360, 0.0370, 0.0380, 0.0390, // 70 to 61
		0.0400, 0.0410, 0.0420, 0.0430, 0.0465, 0.0520, 0.0550, 0.0595, 0.0635, 0.0670, // 60 to 51
		0.0700, 0.0730, 0.0760, 0.0785, 0.0810, 0.0820, 0.0860, 0.0890, 0.0935, 0.0960, // 50 to 41
		0.0980, // 40
	}
	for i, in := range inches {
		number, mm = 80-i, in*25.4
		if mm >= d {
			break
		}
	}
	return number, mm
}

// metricDrill returns the smallest metric drill (BS 328) that is not under d mm:
// under 1 mm the hundredths 0, 2, 5 and 8 of each tenth, from there steps of
// 0.05 mm.
func metricDrill(d float64) float64 {
	const slack = 1e-9 // so that a size just met is not skipped
	if d > 0.98+slack {
		return math.Ceil((math.Max(d, 1)-slack)*20) / 20
	}
	tenth := math.Floor(d*10 + slack)
	for _, h := range []float64{0, 2, 5, 8, 10} {
		if mm := (tenth*10 + h) / 100; mm >= d-slack {
			return math.Max(mm, 0.2)
		}
	}
	return tenth/10 + 0.1
}
