package pattern

import (
	"fmt"
	"strings"

	"fretband/pattern/lettering"
	"fretband/pattern/own"
	"fretband/unroll"
)

func (r Reserve) check(path string) error {
	if err := r.outline().check(path); err != nil {
		return err
	}
	if err := checkAll(path, []ranged{
		{".x_mm", PlaceRange, r.XMM}, {".y_mm", PlaceRange, r.YMM}, {".margin_mm", MarginRange, r.MarginMM},
		{".count", CountRange, float64(r.Count)}, {".spacing_mm", SpacingRange, r.SpacingMM},
	}); err != nil {
		return err
	}
	return checkText(path+".note", r.Note, 200, false)
}

func (m Mark) check(path string) error {
	if err := checkAll(path, []ranged{
		{".x_mm", PlaceRange, m.XMM}, {".y_mm", PlaceRange, m.YMM}, {".turn_deg", TurnRange, m.TurnDeg}, {".keep_mm", KeepRange, m.KeepMM},
	}); err != nil {
		return err
	}
	length, height := ranged{".length_mm", LengthRange, m.LengthMM}, ranged{".height_mm", LetterRange, m.HeightMM}
	var err error
	switch m.Kind {
	case LineMark:
		if err = checkAll(path, []ranged{length}); err == nil {
			err = absent(path, m.Kind, []ranged{height})
		}
	case PathMark:
		if err = absent(path, m.Kind, []ranged{length, height}); err == nil {
			if len(m.Path) > MaxPath {
				return &unroll.FieldError{Path: path + ".path", Msg: fmt.Sprintf("at most %d bytes; it has %d", MaxPath, len(m.Path))}
			}
			if _, e := own.Strokes(m.Path); e != nil {
				err = &unroll.FieldError{Path: path + ".path", Msg: e.Error()}
			}
		}
	case TextMark:
		if err = checkAll(path, []ranged{height}); err == nil {
			if err = absent(path, m.Kind, []ranged{length}); err == nil {
				if strings.ContainsAny(m.Text, lineBreaks) {
					return &unroll.FieldError{Path: path + ".text", Msg: "is one line; make a mark of each line"}
				}
				if err = checkText(path+".text", m.Text, 80, true); err == nil {
					if e := lettering.Check(m.Text); e != nil {
						err = &unroll.FieldError{Path: path + ".text", Msg: e.Error()}
					}
				}
			}
		}
	default:
		return &unroll.FieldError{Path: path + ".kind", Msg: fmt.Sprintf("%s is not a kind of mark; use %q, %q or %q", unroll.Quote(m.Kind), LineMark, PathMark, TextMark)}
	}
	if err != nil {
		return err
	}
	if m.Text != "" && m.Kind != TextMark {
		return &unroll.FieldError{Path: path + ".text", Msg: "goes with a text only; leave it out"}
	}
	if m.Path != "" && m.Kind != PathMark {
		return &unroll.FieldError{Path: path + ".path", Msg: "goes with a path only; leave it out"}
	}
	return checkText(path+".note", m.Note, 200, false)
}

func (e Edit) check(path string) error {
	if len(e.At) == 0 || len(e.At) > MaxSpots {
		return &unroll.FieldError{Path: path + ".at", Msg: fmt.Sprintf("must hold 1 to %d places; it holds %d", MaxSpots, len(e.At))}
	}
	for i, s := range e.At {
		if err := checkAll(fmt.Sprintf("%s.at[%d]", path, i), []ranged{{".x_mm", PlaceRange, s.XMM}, {".y_mm", PlaceRange, s.YMM}}); err != nil {
			return err
		}
	}
	if err := oneOf(path+".mirror", e.Mirror, mirrors); err != nil {
		return err
	}
	move := []ranged{{".move_x_mm", PlaceRange, e.MoveXMM}, {".move_y_mm", PlaceRange, e.MoveYMM}}
	scale := ranged{".scale", ScaleRange, e.Scale}
	var err error
	switch e.Do {
	case LeaveSolid:
		err = absent(path, "cell left solid", append(append(move, scale), e.outline().numbers()...))
	case Change:
		if e.Scale == 0 {
			scale.v = 1
		}
		if err = checkAll(path, append(move, scale, ranged{".turn_deg", TurnRange, e.TurnDeg})); err == nil {
			err = absent(path, "change", e.outline().numbers()[:2])
		}
	case Replace, Add:
		if err = absent(path, "shape of its own", append(move, scale)); err == nil {
			return firstOf(e.outline().check(path), checkText(path+".note", e.Note, 200, false))
		}
	default:
		return &unroll.FieldError{Path: path + ".do", Msg: fmt.Sprintf("%s can't be done; use %q, %q, %q or %q", unroll.Quote(e.Do), LeaveSolid, Change, Replace, Add)}
	}
	if err != nil {
		return err
	}
	if e.Shape != "" || e.Path != "" {
		return &unroll.FieldError{Path: path + ".shape", Msg: fmt.Sprintf("goes with %q and %q only; leave shape and path out", Replace, Add)}
	}
	return checkText(path+".note", e.Note, 200, false)
}

func firstOf(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
