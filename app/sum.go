package app

import (
	"errors"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// sum reads what may be typed for a number, from left to right: sums of products of
// numbers, brackets, and a unit after a number or a product. So "1/2 in" is half an inch
// and "1 in / 2" as well. A number without a unit is in the entry's own.
type sum struct {
	rest string // in small letters
	unit string // the entry's own
	// hundred is what 100 % is when a percentage stands alone; 0 if it means nothing there.
	hundred float64
}

// amount is a value in the entry's unit. One without a unit can be a factor as well.
type amount struct {
	v    float64
	unit bool
	// percent says that it is a percentage and nothing else: v is 0.3 for 30 %.
	percent bool
}

// readSum returns the value of what was typed.
func readSum(typed, unit string, hundred float64) (float64, error) {
	s := sum{typed, unit, hundred}
	a, err := s.sum()
	if err == nil && s.next() != 0 {
		err = fmt.Errorf("%q can't be read here: %s", s.rest, example)
	}
	return a.v, err
}

const example = "type a number, or a sum as 1.3 + 0.2"

// next returns the first letter that is no space, 0 at the end.
func (s *sum) next() rune {
	s.rest = strings.TrimLeftFunc(s.rest, unicode.IsSpace)
	r, n := utf8.DecodeRuneInString(s.rest)
	if n == 0 {
		return 0
	}
	return r
}

func (s *sum) skip() {
	_, n := utf8.DecodeRuneInString(s.rest)
	s.rest = s.rest[n:]
}

func (s *sum) sum() (amount, error) {
	total, err := s.signed()
	for err == nil {
		op := s.next()
		if op != '+' && op != '-' {
			break
		}
		s.skip()
		var t amount
		if t, err = s.product(); op == '-' {
			t.v = -t.v
		}
		total = amount{v: total.v + t.v, unit: total.unit || t.unit}
	}
	return total, err
}

func (s *sum) signed() (amount, error) {
	sign := s.next()
	if sign == '+' || sign == '-' {
		s.skip()
	}
	a, err := s.product()
	if sign == '-' {
		a.v = -a.v
	}
	return a, err
}

func (s *sum) product() (amount, error) {
	p, err := s.factor()
	for alone := true; err == nil; {
		// A unit is of all before it in the product.
		factor, found, wrong := s.unitHere()
		switch {
		case wrong != nil:
			return p, wrong
		case found && p.unit:
			return p, errors.New("there are two units in one product: leave one out")
		case found:
			p.v, p.unit = p.v*factor, true
			continue
		}
		op := s.next()
		if !strings.ContainsRune("*x\u00d7\u00b7/\u00f7", op) || op == 0 {
			if p.percent && alone {
				if s.hundred == 0 {
					return p, errPercent(s.unit)
				}
				p = amount{v: p.v * s.hundred, unit: true}
			}
			return p, nil
		}
		s.skip()
		alone = false
		var f amount
		if f, err = s.factor(); err != nil {
			break
		}
		switch divides := op == '/' || op == '\u00f7'; {
		case divides && f.v == 0:
			err = errors.New("a number can't be divided by 0")
		case divides && f.unit || f.unit && p.unit:
			err = errors.New("only a plain number can stand there in a product")
		case divides:
			p.v /= f.v
		default:
			p.v, p.unit = p.v*f.v, p.unit || f.unit
		}
	}
	return p, err
}

func errPercent(unit string) error {
	return fmt.Errorf("a percentage alone has no meaning here: type %s, or a product as 1.2 * 90 %%", unitWord(unit))
}

// factor reads a bracket or a number, and the % after it.
func (s *sum) factor() (amount, error) {
	var a amount
	var err error
	if s.next() == '(' {
		s.skip()
		if a, err = s.sum(); err != nil {
			return a, err
		}
		if s.next() != ')' {
			return a, errors.New("a bracket is not closed")
		}
		s.skip()
	} else if a.v, err = s.number(); err != nil {
		return a, err
	}
	if s.next() == '%' && s.unit != "%" && !a.unit {
		s.skip()
		a.v, a.percent = a.v/100, true
	}
	return a, nil
}

// number reads "12", "1.5", "1,5" and "1 1/2".
func (s *sum) number() (float64, error) {
	word := s.digits()
	if word == "" {
		if s.rest != "" && s.next() != 0 {
			return 0, fmt.Errorf("%q can't be read here: %s", s.rest, example)
		}
		return 0, errNotANumber
	}
	v, err := plainNumber(word)
	if err != nil || !whole09(word) || s.rest == "" || !unicode.IsSpace(rune(s.rest[0])) {
		return v, err
	}
	// A whole number, a space and a fraction.
	here := s.rest
	s.next()
	over := s.digits()
	if over == "" {
		s.rest = here
		return v, nil
	}
	if s.next() == '/' && whole09(over) {
		s.skip()
		s.next()
		if under := s.digits(); whole09(under) {
			a, _ := plainNumber(over)
			b, _ := plainNumber(under)
			if b != 0 {
				return v + a/b, nil
			}
			return 0, errors.New("a number can't be divided by 0")
		}
	}
	return 0, fmt.Errorf("two numbers stand side by side: %s", example)
}

// digits takes the digits, points and commas that come next.
func (s *sum) digits() string {
	end := strings.IndexFunc(s.rest, func(r rune) bool { return (r < '0' || r > '9') && r != '.' && r != ',' })
	if end < 0 {
		end = len(s.rest)
	}
	word := s.rest[:end]
	s.rest = s.rest[end:]
	return word
}

func whole09(word string) bool {
	return word != "" && strings.Trim(word, "0123456789") == ""
}

// mmPerInch is exact (the international inch, 1959).
const mmPerInch = 25.4

type length struct {
	word string
	mm   float64
}

// lengths are the units in which a length may be typed, the longer word first where one
// begins with another.
var lengths = []length{{"mm", 1}, {"cm", 10}, {"inches", mmPerInch}, {"inch", mmPerInch}, {"in", mmPerInch}, {"\"", mmPerInch}, {"\u2033", mmPerInch}, {"''", mmPerInch}}

// unitHere takes the unit that comes next, if one does: how many of the entry's own it is.
func (s *sum) unitHere() (factor float64, found bool, err error) {
	next := s.next()
	units := []length{{strings.ToLower(s.unit), 1}}
	if s.unit == "mm" {
		units = lengths
	}
	for _, u := range units {
		if rest, ok := strings.CutPrefix(s.rest, u.word); ok && u.word != "" && !goesOn(u.word, rest) {
			s.rest = strings.TrimPrefix(rest, ".") // as "in."
			return u.mm, true, nil
		}
	}
	end := strings.IndexFunc(s.rest, func(r rune) bool { return !unicode.IsLetter(r) && !strings.ContainsRune("%\"'\u2033\u00b0", r) })
	if end < 0 {
		end = len(s.rest)
	}
	switch word := s.rest[:end]; {
	case word == "" || word == "x" && next == 'x':
		return 0, false, nil
	case s.unit == "mm":
		return 0, false, fmt.Errorf("%q is no unit of length here: mm, cm or in", word)
	default:
		return 0, false, fmt.Errorf("%q can't stand here: type %s", word, unitWord(s.unit))
	}
}

// goesOn reports whether the word of a unit goes on in what follows it.
func goesOn(word, rest string) bool {
	last, _ := utf8.DecodeLastRuneInString(word)
	next, _ := utf8.DecodeRuneInString(rest)
	return unicode.IsLetter(last) && unicode.IsLetter(next)
}
