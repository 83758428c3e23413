package unroll

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Unroll returns the blank of the band, or a [*FieldError] for the first number
// that can't be used.
func Unroll(b Band) (Flat, error) {
	m, err := b.measure()
	if err != nil {
		return Flat{}, err
	}
	return m.flat()
}

// Check returns the error that [Unroll] would return.
func (b Band) Check() error {
	_, err := Unroll(b)
	return err
}

// measures is a band in bare millimetres.
type measures struct {
	band      Band
	oval      Oval
	thickness float64
	notes     []string
}

func (m *measures) note(format string, args ...any) {
	m.notes = append(m.notes, fmt.Sprintf(format, args...))
}

// measure turns the person's numbers into millimetres and checks each by itself.
func (b Band) measure() (*measures, error) {
	m := &measures{band: b}
	for _, step := range []func() error{m.kind, m.inside, m.sheet, m.width, m.closing} {
		if err := step(); err != nil {
			return nil, err
		}
	}
	return m, within("band.neutral_k", b.NeutralK, MinNeutralK, MaxNeutralK, "")
}

func (m *measures) kind() error {
	switch m.band.Kind {
	case Cuff, Bangle, Ring:
		return nil
	}
	return choice("band.kind", m.band.Kind, Cuff, Bangle, Ring)
}

func (m *measures) inside() error {
	in := m.band.Inside
	const path = "band.inside."
	switch in.By {
	case ByAxes, ByCircumference, ByWrist, BySize:
	default:
		return choice(path+"by", in.By, ByAxes, ByCircumference, ByWrist, BySize)
	}
	// What another way of giving the inside would read must not be there: it
	// would look as if it counted.
	for _, f := range []struct {
		name string
		set  bool
		by   []string
	}{
		{"width_mm", in.WidthMM != 0, []string{ByAxes}},
		{"height_mm", in.HeightMM != 0, []string{ByAxes}},
		{"circumference_mm", in.CircumferenceMM != 0, []string{ByCircumference}},
		{"wrist_mm", in.WristMM != 0, []string{ByWrist}},
		{"ease_mm", in.EaseMM != 0, []string{ByWrist}},
		{"ratio", in.Ratio != 0, []string{ByCircumference, ByWrist}},
		{"scale", in.Scale != "", []string{BySize}},
		{"size", in.Size != "", []string{BySize}},
	} {
		if f.set && !slices.Contains(f.by, in.By) {
			return &FieldError{path + f.name, fmt.Sprintf("is not used when the inside is given by %q; remove it, or set band.inside.by to %q", in.By, f.by[0])}
		}
	}
	var err error
	switch in.By {
	case ByAxes:
		err = m.byAxes(in)
	case ByCircumference:
		if err = within(path+"circumference_mm", in.CircumferenceMM, MinCircumference, MaxCircumference, "mm"); err == nil {
			err = m.byCircumference(in.CircumferenceMM, in.Ratio, path+"circumference_mm")
		}
	case ByWrist:
		err = m.byWrist(in)
	case BySize:
		err = m.bySize(in)
	}
	return err
}

func (m *measures) byAxes(in Inside) error {
	if err := within("band.inside.width_mm", in.WidthMM, MinInside, MaxInside, "mm"); err != nil {
		return err
	}
	if err := within("band.inside.height_mm", in.HeightMM, MinInside, MaxInside, "mm"); err != nil {
		return err
	}
	if r := in.WidthMM / in.HeightMM; r < MinRatio || r > MaxRatio {
		return &FieldError{"band.inside.height_mm", fmt.Sprintf("must be from a quarter of the width to four times it, %s to %s mm; it is %s",
			short(in.WidthMM/MaxRatio), short(in.WidthMM/MinRatio), short(in.HeightMM))}
	}
	m.oval = Oval{in.WidthMM / 2, in.HeightMM / 2}
	return nil
}

func (m *measures) byCircumference(c, ratio float64, path string) error {
	if ratio == 0 {
		return &FieldError{"band.inside.ratio", "is missing: give width : height of the inside, 0.25 to 4 (1 is round)"}
	}
	if err := within("band.inside.ratio", ratio, MinRatio, MaxRatio, ""); err != nil {
		return err
	}
	m.oval = OvalOf(c, ratio)
	w, h := 2*m.oval.A, 2*m.oval.B
	if math.Min(w, h) < MinInside || math.Max(w, h) > MaxInside {
		return &FieldError{path, fmt.Sprintf("with ratio %s the inside would be %.1f x %.1f mm; each axis must be from %v to %v mm", short(ratio), w, h, MinInside, MaxInside)}
	}
	m.note("inside %.2f x %.2f mm, from a circumference of %.2f mm and the ratio %s", w, h, c, short(ratio))
	return nil
}

func (m *measures) byWrist(in Inside) error {
	if m.band.Kind == Ring {
		return &FieldError{"band.inside.by", "\"wrist\" is for cuffs and bangles; give a ring by \"size\", \"circumference\" or \"axes\""}
	}
	if err := within("band.inside.wrist_mm", in.WristMM, MinWrist, MaxWrist, "mm"); err != nil {
		return err
	}
	if err := within("band.inside.ease_mm", in.EaseMM, MinEase, MaxEase, "mm"); err != nil {
		return err
	}
	return m.byCircumference(in.WristMM+in.EaseMM, in.Ratio, "band.inside.wrist_mm")
}

func (m *measures) bySize(in Inside) error {
	if m.band.Kind == Cuff {
		return &FieldError{"band.inside.by", "\"size\" is for rings and bangles; give a cuff by \"wrist\", \"circumference\" or \"axes\""}
	}
	if strings.TrimSpace(in.Size) == "" {
		return &FieldError{"band.inside.size", "is missing: give a size, for instance \"54\" on the scale \"iso\""}
	}
	c, err := SizeCircumference(in.Scale, in.Size)
	if err != nil {
		return err
	}
	for _, s := range Scales() {
		if s.Key != in.Scale {
			continue
		}
		if s.Kind != m.band.Kind {
			return &FieldError{"band.inside.scale", fmt.Sprintf("%q is a scale for a %s; the band is a %s", s.Key, s.Kind, m.band.Kind)}
		}
		m.note("size %s on the scale %s is %.2f mm round inside, %.2f mm across", strings.TrimSpace(in.Size), s.Name, c, c/math.Pi)
		if s.Note != "" {
			m.note("%s sizes: %s", s.Name, s.Note)
		}
	}
	m.oval = Oval{c / (2 * math.Pi), c / (2 * math.Pi)}
	return nil
}

func (m *measures) sheet() error {
	t := m.band.Thickness
	switch {
	case t.MM != 0 && t.BSGauge != 0:
		return &FieldError{"band.thickness", "give either mm or bs_gauge, not both"}
	case t.MM == 0 && t.BSGauge == 0:
		return &FieldError{"band.thickness", fmt.Sprintf("is missing: give mm (%v to %v) or bs_gauge (Brown & Sharpe %d to %d)", MinThickness, MaxThickness, MinGauge, MaxGauge)}
	case t.BSGauge != 0:
		if t.BSGauge < MinGauge || t.BSGauge > MaxGauge {
			return &FieldError{"band.thickness.bs_gauge", fmt.Sprintf("must be a Brown & Sharpe gauge from %d (%.2f mm) to %d (%.2f mm); it is %d",
				MinGauge, GaugeMM(MinGauge), MaxGauge, GaugeMM(MaxGauge), t.BSGauge)}
		}
		m.thickness = GaugeMM(t.BSGauge)
		m.note("%d Brown & Sharpe gauge is %.3f mm (not the Imperial gauge SWG)", t.BSGauge, m.thickness)
	default:
		if err := within("band.thickness.mm", t.MM, MinThickness, MaxThickness, "mm"); err != nil {
			return err
		}
		m.thickness = t.MM
	}
	// Kalpakjian, Manufacturing Engineering and Technology: K 0.33 for an inner
	// radius under two thicknesses, 0.5 above.
	if r := m.oval.LeastRadius(); r < 2*m.thickness {
		m.note("the least inner radius, %.1f mm, is under twice the thickness: the neutral surface moves inwards (K about 0.33 is quoted for such bends; %s is used)", r, short(m.band.NeutralK))
	}
	return nil
}

func (m *measures) width() error {
	if err := within("band.width_mm", m.band.WidthMM, MinWidth, MaxWidth, "mm"); err != nil {
		return err
	}
	return within("band.end_width_mm", m.band.EndWidthMM, MinWidth, MaxWidth, "mm")
}

// closing checks what a band may have at its ends.
func (m *measures) closing() error {
	b := m.band
	if b.Kind == Cuff {
		if b.Joint != "" {
			return &FieldError{"band.joint", "a cuff has no joint; remove it, or make the band a \"bangle\""}
		}
		if b.JointMM != 0 {
			return &FieldError{"band.joint_mm", "a cuff has no joint; remove it, or make the band a \"bangle\""}
		}
		c := m.oval.Circumference()
		if !(b.GapMM >= 0 && b.GapMM < MaxGapShare*c) {
			return &FieldError{"band.gap_mm", fmt.Sprintf("must be from 0 to less than half the inner circumference, %.1f mm; it is %s", MaxGapShare*c, short(b.GapMM))}
		}
		if b.Inside.By == ByWrist || b.Inside.By == ByCircumference {
			m.note("the inner circumference counts metal and gap: %.1f + %.1f mm", c-b.GapMM, b.GapMM)
		}
		return nil
	}
	if b.GapMM != 0 {
		return &FieldError{"band.gap_mm", fmt.Sprintf("a %s is closed and has no gap; remove it, or make the band a \"cuff\"", b.Kind)}
	}
	if b.EndCornerMM != 0 {
		return &FieldError{"band.end_corner_mm", fmt.Sprintf("a %s is closed and has no end corners; remove it, or make the band a \"cuff\"", b.Kind)}
	}
	if b.Kind == Ring && math.Min(b.WidthMM, b.EndWidthMM) > 4 {
		m.note("wide rings sit tighter: common practice adds about 0.5 mm to the blank's length above 4 mm of width; nothing is added here")
	}
	switch b.Joint {
	case Soldered:
		return within("band.joint_mm", b.JointMM, MinJoint, MaxJoint, "mm")
	case Seamless:
		if b.JointMM != 0 {
			return &FieldError{"band.joint_mm", "a seamless band has no joint to keep solid; remove it, or set band.joint to \"soldered\""}
		}
		return nil
	}
	return choice("band.joint", b.Joint, Soldered, Seamless)
}

// flat lays the blank out.
func (m *measures) flat() (Flat, error) {
	b := m.band
	f := Flat{
		Width:     math.Max(b.WidthMM, b.EndWidthMM),
		Thickness: m.thickness,
		Oval:      m.oval,
		Neutral:   b.NeutralK * m.thickness,
		mid:       b.WidthMM,
		end:       b.EndWidthMM,
	}
	f.line = newNeutralLine(f.Oval, f.Neutral)
	whole := 4 * f.line.quarter
	f.Length = whole
	if b.Kind == Cuff {
		half := (f.Oval.Circumference() - b.GapMM) / 2
		f.Length = 2 * f.line.x(f.line.innerEnd(half))
		f.GapInner, f.GapNeutral = b.GapMM, whole-f.Length
	} else {
		f.Period = whole
		f.JointKeep = b.JointMM / 2
		if b.JointMM > f.Length/2 {
			return Flat{}, &FieldError{"band.joint_mm", fmt.Sprintf("must be at most half the blank's length, %.1f mm; it is %s", f.Length/2, short(b.JointMM))}
		}
	}
	if slope := math.Abs(f.mid-f.end) / 2 * math.Pi / f.Length; slope > MaxEdgeSlope {
		return Flat{}, &FieldError{"band.end_width_mm", fmt.Sprintf("may differ from the width by at most %.1f mm on a blank of this length (edges no steeper than 45 degrees); it is %s against %s",
			2*f.Length*MaxEdgeSlope/math.Pi, short(f.end), short(f.mid))}
	}
	var err error
	if f.Outline, err = f.outline(b.EndCornerMM); err != nil {
		return Flat{}, err
	}
	m.note("the blank's length is taken at %s of the thickness under the inner face, where bending neither stretches nor shortens", short(b.NeutralK))
	f.Notes = m.notes
	return f, nil
}

// within reports a number outside lo to hi, or one that is none.
func within(path string, v, lo, hi float64, unit string) error {
	if v >= lo && v <= hi {
		return nil
	}
	if unit != "" {
		unit = " " + unit
	}
	return &FieldError{path, fmt.Sprintf("must be from %s to %s%s; it is %s", short(lo), short(hi), unit, short(v))}
}

func choice(path, is string, allowed ...string) error {
	q := make([]string, len(allowed))
	for i, a := range allowed {
		q[i] = strconv.Quote(a)
	}
	last := len(q) - 1
	return &FieldError{path, fmt.Sprintf("must be %s or %s; it is %q", strings.Join(q[:last], ", "), q[last], is)}
}

// short writes a number as a person would, six figures at most.
func short(v float64) string { return strconv.FormatFloat(v, 'g', 6, 64) }
