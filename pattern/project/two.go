package project

import (
	"errors"
	"slices"
	"strings"

	"fretband/pattern"
	"fretband/unroll"
)

// readTwo reads a file of version 2, which names an accepted finding by its title of
// that time under "check". What is wrong is named as that version names it.
func readTwo(n node) (pattern.Design, error) {
	d, err := readDesign(keysForTitles(n))
	if f := new(faults); errors.As(err, &f) {
		for i := range f.list {
			f.list[i] = inTitles(f.list[i])
		}
		return d, err
	}
	return d, inTitles(err)
}

// keysForTitles returns the design with the key of each accepted finding for its title:
// version 3 took the titles of version 2 with hyphens.
func keysForTitles(n node) node {
	n.members = slices.Clone(n.members)
	for i, m := range n.members {
		list := &n.members[i].node
		list.items = slices.Clone(list.items)
		for j := range list.items {
			switch m.key {
			case "accepted":
				list.items[j] = keyForTitle(list.items[j])
			case "variants":
				list.items[j] = keysForTitles(list.items[j])
			}
		}
	}
	return n
}

func keyForTitle(accepted node) node {
	accepted.members = slices.Clone(accepted.members)
	for i := range accepted.members {
		m := &accepted.members[i]
		switch {
		case m.key == "finding":
			m.key = "finding in version 2" // which has no such field
		case m.key == "check":
			m.key = "finding"
			if s, ok := m.node.value.(string); ok && m.node.kind == textKind {
				m.node.value = strings.ReplaceAll(s, " ", "-")
			}
		}
	}
	return accepted
}

// inTitles returns the error with the path that version 2 has.
func inTitles(err error) error {
	var f *unroll.FieldError
	if errors.As(err, &f) && strings.Contains(f.Path, "accepted[") && strings.HasSuffix(f.Path, ".finding") {
		return &unroll.FieldError{Path: strings.TrimSuffix(f.Path, "finding") + "check", Msg: f.Msg}
	}
	return err
}
