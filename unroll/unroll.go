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
	oval      Oval    // half the box round the inside, for bows
	bows      []bow   // nil for an ellipse
	inner     float64 // circumference
	flare     float64 // half-angle from the edges' circumferences
	gap       float64
	thickness float64
	notes     []string
}

func (m *measures) note(format string, args ...any) {
	m.notes = append(m.notes, fmt.Sprintf(format, args...))
}

// measure turns the person's numbers into millimetres and checks each by itself.
func (b Band) measure() (*measures, error) {
	m := &measures{band: b}
	for _, step := range []func() error{m.kind, m.inside, m.sheet, m.width, m.closing, m.ends, m.making} {
		if err := step(); err != nil {
			return nil, err
		}
	}
	return m, within("band.neutral_k", b.NeutralK, MinNeutralK, MaxNeutralK, "")
}

// leastRadius returns the smallest inner radius.
func (m *measures) leastRadius() float64 {
	if m.bows != nil {
		return newBows(m.bows, 0).leastRadius()
	}
	return m.oval.LeastRadius()
}

// depth returns the depth of the surface that the flat shows at its true size.
func (m *measures) depth() float64 {
	if m.band.Making == Formed {
		switch m.band.Drawn {
		case InnerFace:
			return 0
		case OuterFace:
			return m.thickness
		}
	}
	return m.band.NeutralK * m.thickness
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
	ways := []string{ByAxes, ByCircumference, ByWrist, BySize, BySides, ByProfile, ByEdges}
	if !slices.Contains(ways, in.By) {
		return choice(path+"by", in.By, ways...)
	}
	// What another way of giving the inside would read must not be there: it
	// would look as if it counted.
	for _, f := range []struct {
		name string
		set  bool
		by   []string
	}{
		{"width_mm", in.WidthMM != 0, []string{ByAxes, BySides}},
		{"height_mm", in.HeightMM != 0, []string{ByAxes, BySides}},
		{"circumference_mm", in.CircumferenceMM != 0, []string{ByCircumference}},
		{"wrist_mm", in.WristMM != 0, []string{ByWrist}},
		{"ease_mm", in.EaseMM != 0, []string{ByWrist}},
		{"ratio", in.Ratio != 0, []string{ByCircumference, ByWrist}},
		{"scale", in.Scale != "", []string{BySize}},
		{"size", in.Size != "", []string{BySize}},
		{"profile", len(in.Profile) > 0, []string{ByProfile}},
		{"top_circumference_mm", in.TopMM != 0, []string{ByEdges}},
		{"bottom_circumference_mm", in.BottomMM != 0, []string{ByEdges}},
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
	case BySides:
		if err = m.byAxes(in); err == nil {
			m.bows = sidesOf(in.WidthMM, in.HeightMM)
		}
	case ByProfile:
		err = m.byProfile(in)
	case ByEdges:
		err = m.byEdges(in)
	}
	if m.bows != nil {
		m.inner = newBows(m.bows, 0).circumference()
	} else {
		m.inner = m.oval.Circumference()
	}
	return err
}

func (m *measures) byProfile(in Inside) error {
	list, changed, err := profileOf(in.Profile)
	if err != nil {
		return err
	}
	box := newBows(list, 0).box()
	if w, h := box.W(), box.H(); math.Min(w, h) < MinInside || math.Max(w, h) > MaxInside {
		return &FieldError{"band.inside.profile", fmt.Sprintf("is %.1f x %.1f mm; each must be from %v to %v mm", w, h, MinInside, MaxInside)}
	}
	m.bows, m.oval = list, Oval{box.W() / 2, box.H() / 2}
	m.note("the profile is %.2f x %.2f mm inside, %.2f mm round", box.W(), box.H(), newBows(list, 0).circumference())
	if changed > 1e-6 {
		m.note("so that the profile closes exactly its pieces were changed by up to %.4f mm", changed)
	}
	return nil
}

// byEdges: two circles with the slant between them are a cone.
func (m *measures) byEdges(in Inside) error {
	const path = "band.inside."
	if err := within(path+"top_circumference_mm", in.TopMM, MinCircumference, MaxCircumference, "mm"); err != nil {
		return err
	}
	if err := within(path+"bottom_circumference_mm", in.BottomMM, MinCircumference, MaxCircumference, "mm"); err != nil {
		return err
	}
	b := m.band
	if b.FlareDeg != 0 {
		return &FieldError{"band.flare_deg", "is not used when the inside is given by the two edges; remove it"}
	}
	if b.EndWidthMM != b.WidthMM || len(b.TopEdge)+len(b.BottomEdge) > 0 {
		return &FieldError{path + "by", "\"edges\" needs a constant width, since the edges are circles; for other widths give the inside of the middle line and band.flare_deg"}
	}
	r1, r2 := in.BottomMM/(2*math.Pi), in.TopMM/(2*math.Pi)
	sin := (r2 - r1) / b.WidthMM
	if !(math.Abs(sin) <= math.Sin(MaxFlare*math.Pi/180)) {
		return &FieldError{path + "top_circumference_mm", fmt.Sprintf("over a slant of %s mm the circumferences may differ by at most %.2f mm (a half-angle of %v degrees); they differ by %s",
			short(b.WidthMM), 2*math.Pi*b.WidthMM*math.Sin(MaxFlare*math.Pi/180), MaxFlare, short(math.Abs(in.TopMM-in.BottomMM)))}
	}
	m.oval = Oval{(r1 + r2) / 2, (r1 + r2) / 2}
	m.flare = math.Asin(sin)
	if in.TopMM != in.BottomMM {
		m.note("inner circumferences of %.2f mm above and %.2f mm below, %s mm apart along the slant, make a cone of %.3f degrees half-angle", in.TopMM, in.BottomMM, short(b.WidthMM), m.flare*180/math.Pi)
	}
	return nil
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
	if m.band.Kind == Bangle {
		m.note("a closed bangle has to pass over the hand: was %s mm taken round the wrist, or round the knuckles with the thumb folded in? The hand decides (common practice)", short(in.WristMM))
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
	case t.ImperialGauge != 0 && (t.MM != 0 || t.BSGauge != 0):
		return &FieldError{"band.thickness", "give only one of mm, bs_gauge and imperial_gauge"}
	case t.ImperialGauge != 0:
		mm := ImperialGaugeMM(t.ImperialGauge)
		if mm == 0 {
			return &FieldError{"band.thickness.imperial_gauge", fmt.Sprintf("must be an Imperial (British standard wire) gauge from %d (%.2f mm) to %d (%.2f mm); it is %d",
				MinImperialGauge, ImperialGaugeMM(MinImperialGauge), MaxImperialGauge, ImperialGaugeMM(MaxImperialGauge), t.ImperialGauge)}
		}
		m.thickness = mm
		m.note("%d Imperial gauge (SWG) is %.3f mm (not Brown & Sharpe, whose %d is %.3f mm)", t.ImperialGauge, mm, t.ImperialGauge, GaugeMM(t.ImperialGauge))
	case t.MM == 0 && t.BSGauge == 0:
		return &FieldError{"band.thickness", fmt.Sprintf("is missing: give mm (%v to %v), bs_gauge (Brown & Sharpe %d to %d) or imperial_gauge (SWG %d to %d)", MinThickness, MaxThickness, MinGauge, MaxGauge, MinImperialGauge, MaxImperialGauge)}
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
	if r := m.leastRadius(); r < 2*m.thickness {
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
		c := m.inner
		if b.GapMM != 0 && b.GapShare != 0 {
			return &FieldError{"band.gap_share", "give either gap_mm or gap_share, not both"}
		}
		if !(b.GapShare >= 0 && b.GapShare < MaxGapShare) {
			return &FieldError{"band.gap_share", fmt.Sprintf("must be from 0 to less than %v of the inner circumference; it is %s%s", MaxGapShare, short(b.GapShare), percent(b.GapShare))}
		}
		if !(b.GapMM >= 0 && b.GapMM < MaxGapShare*c) {
			return &FieldError{"band.gap_mm", fmt.Sprintf("must be from 0 to less than half the inner circumference, %.1f mm; it is %s", MaxGapShare*c, short(b.GapMM))}
		}
		m.gap = b.GapMM + b.GapShare*c
		if b.GapShare != 0 {
			m.note("the gap is %s of the inner circumference of %.2f mm: %.2f mm", short(b.GapShare), c, m.gap)
		}
		if b.Inside.By == ByWrist || b.Inside.By == ByCircumference {
			m.note("the inner circumference counts metal and gap: %.1f + %.1f mm", c-m.gap, m.gap)
		}
		return nil
	}
	if b.GapShare != 0 {
		return &FieldError{"band.gap_share", fmt.Sprintf("a %s is closed and has no gap; remove it, or make the band a \"cuff\"", b.Kind)}
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

// percent asks whether a share given as more than half was meant as a percentage.
func percent(share float64) string {
	if share >= 1 && share < 50 {
		return fmt.Sprintf(": is %s per cent meant? Then give %s", short(share), short(share/100))
	}
	return ""
}

// ends checks how a cuff's ends are shaped.
func (m *measures) ends() error {
	b := m.band
	switch b.EndShape {
	case "", RoundEnd, PointEnd:
	default:
		return choice("band.end_shape", b.EndShape, "", RoundEnd, PointEnd)
	}
	if b.EndShape != "" && b.Kind != Cuff {
		return &FieldError{"band.end_shape", fmt.Sprintf("a %s is closed and has no ends to shape; remove it, or make the band a \"cuff\"", b.Kind)}
	}
	if b.EndShape != "" && b.EndCornerMM != 0 {
		return &FieldError{"band.end_corner_mm", fmt.Sprintf("is not used with end_shape %q; remove one of the two", b.EndShape)}
	}
	for _, f := range []struct {
		name string
		v    float64
	}{{"end_length_mm", b.EndLengthMM}, {"end_radius_mm", b.EndRadiusMM}} {
		if b.EndShape == PointEnd && f.v == 0 {
			return &FieldError{"band." + f.name, "is missing: a pointed end has a length (end_length_mm) and the radius of its tip (end_radius_mm)"}
		}
		if b.EndShape != PointEnd && f.v != 0 {
			return &FieldError{"band." + f.name, fmt.Sprintf("is used with end_shape %q only; remove it", PointEnd)}
		}
	}
	return nil
}

func (m *measures) making() error {
	b := m.band
	switch b.Making {
	case "", MadeFlat:
		if b.Drawn != "" {
			return &FieldError{"band.drawn", fmt.Sprintf("is used with making %q only: a band cut flat is drawn as its sheet", Formed)}
		}
		return nil
	case Formed:
		switch b.Drawn {
		case "", InnerFace, MiddleFace, OuterFace:
			return nil
		}
		return choice("band.drawn", b.Drawn, "", InnerFace, MiddleFace, OuterFace)
	}
	return choice("band.making", b.Making, "", MadeFlat, Formed)
}

// flat lays the blank out.
func (m *measures) flat() (Flat, error) {
	b := m.band
	f := Flat{
		Thickness: m.thickness,
		Oval:      m.oval,
		Inner:     m.inner,
		Neutral:   m.depth(),
		formed:    b.Making == Formed,
	}
	var err error
	if f.cone, err = m.coneOf(); err != nil {
		return Flat{}, err
	}
	switch {
	case m.bows != nil:
		way := newBows(m.bows, f.Neutral)
		if b.Inside.By == ByProfile {
			if err := way.checkFaces(m.thickness); err != nil {
				return Flat{}, err
			}
		}
		f.way = way
	case f.cone != nil:
		// A depth d along the normal of a cone is d cos away from its axis.
		f.way = newNeutralLine(f.Oval, f.Neutral*f.cone.cos)
	default:
		f.way = newNeutralLine(f.Oval, f.Neutral)
	}
	whole := f.way.around()
	f.Length = whole
	if b.Kind == Cuff {
		f.Length = 2 * f.way.end(m.gap)
		f.GapInner, f.GapNeutral = m.gap, whole-f.Length
	} else {
		if f.cone == nil {
			f.Period = whole
		}
		f.JointStrip = b.JointMM / 2
		if b.JointMM > f.Length/2 {
			return Flat{}, &FieldError{"band.joint_mm", fmt.Sprintf("must be at most half the blank's length, %.1f mm; it is %s", f.Length/2, short(b.JointMM))}
		}
	}
	if f.dome, err = m.domeOf(whole); err != nil {
		return Flat{}, err
	}
	if f.edge, err = m.edgesOf(f.Length, f.dome); err != nil {
		return Flat{}, err
	}
	if f.dome != nil {
		f.edge.dome = nil
		bottom, top := f.edge.widest()
		f.edge.dome = f.dome
		if err := m.checkDome(f.dome, f.way, bottom, top); err != nil {
			return Flat{}, err
		}
		f.dome.tabulate(math.Max(-bottom, top))
		m.noteDome(f.dome, bottom, top)
	}
	bottom, top := f.edge.widest()
	f.Width = top - bottom
	if f.cone != nil {
		if err := m.checkCone(f.cone, bottom, top); err != nil {
			return Flat{}, err
		}
		m.noteCone(f.cone, bottom, top, f.Length)
	}
	if f.Outline, err = f.outline(b); err != nil {
		return Flat{}, err
	}
	// Report, drawing and files are of the very line that is cut.
	if l, ok := f.Outline.CuttableAround(); ok {
		f.Outline = l
	}
	m.noteMaking()
	f.Notes = m.notes
	return f, nil
}

func (m *measures) noteMaking() {
	b := m.band
	if b.Making != Formed {
		m.note("the blank's length is taken at %s of the thickness under the inner face, where bending neither stretches nor shortens", short(b.NeutralK))
		return
	}
	switch b.Drawn {
	case InnerFace:
		m.note("the drawing shows the inner face of the formed band; walls stand square to it")
	case OuterFace:
		m.note("the drawing shows the outer face of the formed band; walls stand square to it")
	default:
		m.note("the drawing shows the surface at %s of the thickness over the inner face of the formed band; walls stand square to it", short(b.NeutralK))
	}
}

func (m *measures) noteCone(c *cone, bottom, top, length float64) {
	m.note("the blank of the flared band is a sector of a ring: radii %.3f and %.3f mm, angle %.3f degrees; the inside is that of the middle of the width",
		math.Abs(c.apex)+math.Min(bottom*math.Copysign(1, c.apex), top*math.Copysign(1, c.apex)),
		math.Abs(c.apex)+math.Max(bottom*math.Copysign(1, c.apex), top*math.Copysign(1, c.apex)),
		length/math.Abs(c.apex)*180/math.Pi)
}

// noteDome says what the flattening of a domed section assumes, and
// what the bench must expect.
func (m *measures) noteDome(d *dome, bottom, top float64) {
	half := math.Max(-bottom, top)
	in := d.in(half)
	m.note("the section is an arc of %.2f mm radius, %.2f mm deep at the edge; widths are measured over the arc, the inside along the middle line (the edges lie %.2f mm further %s)",
		math.Abs(d.r), math.Abs(in), math.Abs(in), map[bool]string{true: "in", false: "out"}[d.r > 0])
	m.note("no flat drawing of a domed section is true in all lengths: with %q the edges of the formed band are %.2f %% %s along the band than drawn, on the average round it",
		d.flat, 100*math.Abs(d.k*in), map[bool]string{true: "shorter", false: "longer"}[in > 0])
	if m.bows != nil || m.oval.A != m.oval.B {
		m.note("the inside is not round: the arc is swept along it, and the flattening takes the mean bend of the whole way round; the stretch told for a place uses the bend there")
	}
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
	return &FieldError{path, fmt.Sprintf("must be %s or %s; it is %s", strings.Join(q[:last], ", "), q[last], Quote(is))}
}

// short writes a number as a person would, six figures at most.
func short(v float64) string { return strconv.FormatFloat(v, 'g', 6, 64) }
