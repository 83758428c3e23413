package app

import (
	"fmt"
	"slices"
	"strings"

	"fretband/pattern"
)

// KeepVariant keeps the design as it is now among its variants, under a name that
// none of them has. The design itself goes on being worked at.
func KeepVariant(d *pattern.Design, name string) error {
	name = strings.TrimSpace(name)
	if len(d.Variants) >= pattern.MaxVariants {
		return fmt.Errorf("%d variants are kept already, the most that there can be; remove one first", len(d.Variants))
	}
	for _, v := range d.Variants {
		if v.Name == name {
			return fmt.Errorf("a variant is called %q already; choose another name", name)
		}
	}
	v := Clone(*d)
	v.Name, v.Variants = name, nil
	if err := v.Check(); err != nil {
		return err
	}
	d.Variants = append(d.Variants, v)
	return nil
}

// TakeVariant makes variant i the design that is worked at; what was the design
// takes its place among the variants, so that nothing is lost.
func TakeVariant(d *pattern.Design, i int) {
	if i < 0 || i >= len(d.Variants) {
		return
	}
	all := slices.Clone(d.Variants)
	next := all[i]
	was := *d
	was.Variants = nil
	all[i] = was
	next.Variants = all
	*d = Clone(next)
}

// DropVariant removes variant i.
func DropVariant(d *pattern.Design, i int) {
	if i >= 0 && i < len(d.Variants) {
		d.Variants = slices.Delete(slices.Clone(d.Variants), i, i+1)
	}
}

// VariantName proposes a name for keeping the design: its own with the first
// number that is free.
func VariantName(d pattern.Design) string {
	for n := 2; ; n++ {
		name := fmt.Sprintf("%s %d", d.Name, n)
		if !slices.ContainsFunc(d.Variants, func(v pattern.Design) bool { return v.Name == name }) {
			return name
		}
	}
}
