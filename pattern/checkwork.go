package pattern

import "fmt"

// Limits of what the maker says of his bench and of wearing, ours.
var (
	KerfRange    = Range{0, 3, false}
	RateRange    = Range{0, 100000, false}
	MinutesRange = Range{0, 1000, false}
	AngleRange   = Range{0, 90, false}
	ProofRange   = Range{0, 2000, false} // MPa
	ModulusRange = Range{0, 400, false}  // GPa
	OpenRange    = Range{0, 100, false}
)

func (d Design) checkWork() error {
	w, e := d.Work, d.Wear
	if err := checkAll("work", []ranged{
		{".kerf_mm", KerfRange, w.KerfMM}, {".cut_mm_min", RateRange, w.CutMMMin}, {".opening_min", MinutesRange, w.OpeningMin},
		{".blade_mm", RateRange, w.BladeMM}, {".hour_price", PriceRange, w.HourPrice}, {".least_angle_deg", AngleRange, w.LeastAngleDeg},
	}); err != nil {
		return err
	}
	if err := checkAll("wear", []ranged{
		{".proof_mpa", ProofRange, e.ProofMPa}, {".modulus_gpa", ModulusRange, e.ModulusGPa}, {".open_mm", OpenRange, e.OpenMM},
	}); err != nil {
		return err
	}
	if err := checkText("wear.temper", e.Temper, 40, false); err != nil {
		return err
	}
	for i, a := range d.Accepted {
		path := fmt.Sprintf("accepted[%d]", i)
		if err := firstOf(checkText(path+".finding", a.Finding, 80, true), checkText(path+".reason", a.Reason, 400, true),
			checkAll(path+".at", []ranged{{".x_mm", PlaceRange, a.At.XMM}, {".y_mm", PlaceRange, a.At.YMM}})); err != nil {
			return err
		}
	}
	return nil
}
