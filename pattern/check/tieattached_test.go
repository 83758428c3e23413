package check

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/pattern"
)

// A square of metal between four slots hangs on the corners. To tie it across a slot is
// offered with what that weighs and holds, and the tie taken holds what was said.
func TestAPieceThatHangsOnLittleIsOfferedATie(t *testing.T) {
	d := benchCuff()
	d.Rules.BridgeMM, d.Rules.RimMM, d.Rules.CornerMM, d.Rules.SmallestMM = 0.8, 2, 0.2, 1
	d.Band.WidthMM, d.Band.EndWidthMM = 30, 30
	d.Fields = nil
	d.Edits = []pattern.Edit{slot(0, 7.4, 13.2, 2), slot(0, -7.4, 13.2, 2), slot(-7.4, 0, 2, 11.2), slot(7.4, 0, 2, 11.2)}
	s, r, err := Lay(d)
	require.NoError(t, err)
	deep := Strengthen(t.Context(), s, Deepen(s, r), Unasked())
	fix := func(r *Report) (f Finding, fixes []Fix) {
		for _, f := range r.Findings {
			if f.Kind == KindAttachedPart {
				for _, x := range f.Fixes {
					if strings.HasPrefix(x.Title, "Tie it across") {
						fixes = append(fixes, x)
					}
				}
				return f, fixes
			}
		}
		return f, nil
	}
	f, fixes := fix(deep)
	require.Equal(t, KindAttachedPart, f.Kind, "it hangs on %+v", deep.Deep.Attached)
	require.Len(t, fixes, 1)
	assert.Regexp(t, `^Tie it across: \d\.\d\d g more, pushed there it bends at \d+ N instead of \d+$`, fixes[0].Title)
	tied, r, err := Lay(fixes[0].Design)
	require.NoError(t, err)
	assert.Greater(t, Deepen(tied, r).Deep.Attached.Least().Round, deep.Deep.Attached.Least().Round, "it hangs on more")
	assert.Len(t, tied.Openings, 5, "a slot is two now")
}
