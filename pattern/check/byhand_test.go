package check

import (
	"strings"
	"testing"

	"fretband/pattern"
)

func TestEditsThatFindNothingAreTold(t *testing.T) {
	d := bigDesign(200)
	s, err := pattern.Lay(d)
	if err != nil {
		t.Fatal(err)
	}
	c := s.Openings[20].Loop.Centroid()
	d.Edits = []pattern.Edit{
		{Do: pattern.LeaveSolid, At: []pattern.Spot{{XMM: c.X, YMM: c.Y}, {YMM: 29}, {XMM: 9, YMM: -29}, {XMM: 400}}},
		{Do: pattern.Add, At: []pattern.Spot{{XMM: 0, YMM: 29}}, Shape: pattern.CircleShape, WidthMM: 1},
	}
	if s, err = pattern.Lay(d); err != nil {
		t.Fatal(err)
	}
	var got []Finding
	for _, f := range Run(s).Findings {
		if f.Kind == KindByHand {
			got = append(got, f)
		}
	}
	want := []string{
		"Edit 1 by hand, left solid: 2 places do nothing now: it lies on the rim or at an end",
		"Edit 1 by hand, left solid: 1 place does nothing now: it lies outside the blank",
		"Edit 2 by hand, a single opening: 1 place does nothing now: nothing can be cut there",
	}
	if len(got) != len(want) {
		t.Fatalf("findings: %v", got)
	}
	for i, f := range got {
		if !strings.HasPrefix(f.What, want[i]) || f.Severity != Caution || len(f.At) != int(f.Value) || !strings.Contains(f.Mend, "Remove") {
			t.Errorf("finding %d is %+v, want %q", i, f, want[i])
		}
	}
	// Where all find their cell there is nothing to tell.
	d.Edits = d.Edits[:1]
	d.Edits[0].At = d.Edits[0].At[:1]
	if s, err = pattern.Lay(d); err != nil {
		t.Fatal(err)
	}
	if fs := checkByHand(s, nil); len(fs) > 0 {
		t.Errorf("told: %v", fs)
	}
}
