package pattern

import (
	"fmt"
	"strings"

	"fretband/pattern/motif"
	"fretband/pattern/own"
	"fretband/unroll"
)

func (f Field) check(path string) error {
	if err := checkText(path+".name", f.Name, 80, false); err != nil {
		return err
	}
	m, err := f.motif()
	if err != nil {
		field := ".motif"
		if f.Motif == motif.OwnKey {
			field = ".path"
		}
		return &unroll.FieldError{Path: path + field, Msg: err.Error()}
	}
	if f.Path != "" && f.Motif != motif.OwnKey {
		return &unroll.FieldError{Path: path + ".path", Msg: fmt.Sprintf("goes with motif %q only; leave it out", motif.OwnKey)}
	}
	if err := checkAll(path, []ranged{{".rows", RowsRange, float64(f.Rows)}}); err != nil {
		return err
	}
	along := ranged{".repeats", RepeatsRange, float64(f.Repeats)}
	if f.PitchMM != 0 {
		along = ranged{".pitch_mm", PitchRange, f.PitchMM}
		if f.Repeats != 0 {
			return &unroll.FieldError{Path: path + ".pitch_mm", Msg: "a field has a pitch or a number of repeats; leave one of them out"}
		}
	}
	numbers := []ranged{along, {".stagger", StaggerRange, f.Stagger}, {".phase", PhaseRange, f.Phase}, {".turn_deg", TurnRange, f.TurnDeg}, {".grade_bridge", ShareRange, f.GradeBridge}}
	if f.BridgeMM != 0 {
		numbers = append(numbers, ranged{".bridge_mm", BridgeRange, f.BridgeMM})
	}
	if err := checkAll(path, numbers); err != nil {
		return err
	}
	if n := f.Rows * f.Repeats; n > MaxCells {
		return &unroll.FieldError{Path: path + ".repeats", Msg: fmt.Sprintf("rows times repeats must be at most %d; it is %d", MaxCells, n)}
	}
	for _, c := range []struct {
		field, v string
		any      []string
	}{
		{".mirror", f.Mirror, mirrors}, {".edge", f.Edge, []string{EdgeClip, EdgeWhole, EdgeFit}}, {".follow", f.Follow, []string{FollowClip, FollowWidth}},
	} {
		if err := oneOf(path+c.field, c.v, c.any); err != nil {
			return err
		}
	}
	if err := f.Area.check(path + ".area"); err != nil {
		return err
	}
	for _, c := range []struct {
		field string
		g     []Grade
	}{{".grade_along", f.GradeAlong}, {".grade_across", f.GradeAcross}} {
		if err := checkGrades(path+c.field, c.g); err != nil {
			return err
		}
	}
	return f.checkNumbers(path, m)
}

var mirrors = []string{MirrorAlong, MirrorAcross, MirrorBoth}

// motif returns the field's motif, or why it has none.
func (f Field) motif() (motif.Motif, error) {
	if f.Motif == motif.OwnKey {
		if f.Path == "" {
			return motif.Motif{}, fmt.Errorf("is missing; the motif %q needs the path data of its shape", motif.OwnKey)
		}
		l, err := own.Outline(f.Path)
		if err != nil {
			return motif.Motif{}, err
		}
		return motif.Own(l)
	}
	m, ok := motif.ByKey(f.Motif)
	if !ok {
		var keys []string
		for _, m := range motif.All() {
			keys = append(keys, m.Key)
		}
		return m, fmt.Errorf("%s is not a motif; use one of %s, %s", unroll.Quote(f.Motif), strings.Join(keys, ", "), motif.OwnKey)
	}
	return m, nil
}

func (f Field) checkNumbers(path string, m motif.Motif) error {
	known := 0
	for _, n := range m.Numbers {
		if v, ok := f.Numbers[n.Key]; ok {
			known++
			if err := (Range{n.Min, n.Max, false}).check(path+".numbers."+n.Key, v); err != nil {
				return err
			}
		}
	}
	if known < len(f.Numbers) {
		var keys []string
		for _, n := range m.Numbers {
			keys = append(keys, n.Key)
		}
		msg := fmt.Sprintf("%s has the numbers %s; another is given", m.Key, strings.Join(keys, ", "))
		if len(keys) == 0 {
			msg = fmt.Sprintf("%s has no numbers of its own; leave the list empty", m.Key)
		}
		return &unroll.FieldError{Path: path + ".numbers", Msg: msg}
	}
	return nil
}

// oneOf checks a word that may be left out.
func oneOf(path, v string, any []string) error {
	if v == "" {
		return nil
	}
	for _, a := range any {
		if v == a {
			return nil
		}
	}
	return &unroll.FieldError{Path: path, Msg: fmt.Sprintf("must be %s; it is %s", strings.Join(any, " or "), unroll.Quote(v))}
}

func checkGrades(path string, g []Grade) error {
	if len(g) > MaxGrades {
		return &unroll.FieldError{Path: path, Msg: fmt.Sprintf("at most %d points; there are %d", MaxGrades, len(g))}
	}
	for i, p := range g {
		at := fmt.Sprintf("%s[%d]", path, i)
		if err := checkAll(at, []ranged{{".at", GradeAtRange, p.At}, {".size", GradeRange, p.Size}}); err != nil {
			return err
		}
		if i > 0 && p.At <= g[i-1].At {
			return &unroll.FieldError{Path: at + ".at", Msg: fmt.Sprintf("must be more than the one before it (%g); it is %g", g[i-1].At, p.At)}
		}
	}
	return nil
}

func (a Area) check(path string) error {
	stretch := []ranged{{".from_mm", PlaceRange, a.FromMM}, {".to_mm", PlaceRange, a.ToMM}}
	switch a.Shape {
	case "":
		return absent(path, "whole band", append(append(stretch, a.outline().numbers()...), ranged{".x_mm", PlaceRange, a.XMM}, ranged{".y_mm", PlaceRange, a.YMM}))
	case RunShape, StripShape:
		if err := absent(path, a.Shape, append(a.outline().numbers(), ranged{".x_mm", PlaceRange, a.XMM}, ranged{".y_mm", PlaceRange, a.YMM})); err != nil {
			return err
		}
		if err := checkAll(path, stretch); err != nil {
			return err
		}
		if a.ToMM <= a.FromMM {
			return &unroll.FieldError{Path: path + ".to_mm", Msg: fmt.Sprintf("must be more than from_mm, %g; it is %g", a.FromMM, a.ToMM)}
		}
		return nil
	case CircleShape, OvalShape, RectangleShape, PathShape:
		if err := absent(path, a.Shape, stretch); err != nil {
			return err
		}
		if err := checkAll(path, []ranged{{".x_mm", PlaceRange, a.XMM}, {".y_mm", PlaceRange, a.YMM}}); err != nil {
			return err
		}
		return a.outline().check(path)
	}
	return &unroll.FieldError{Path: path + ".shape", Msg: fmt.Sprintf("%s is not a shape of area; use %s, %s, %s, %s, %s or %s, or leave it out for the whole band",
		unroll.Quote(a.Shape), RunShape, StripShape, CircleShape, OvalShape, RectangleShape, PathShape)}
}
