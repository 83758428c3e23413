package cut

import (
	"bytes"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/export/sample"
)

// Colour numbers of DXF: 1 red, 2 yellow, 3 green, 4 cyan, 5 blue, 6 magenta, 7 white or black
// (DXF reference, group 62). SVG's are those of CSS Color 3.
func TestLinesHaveTheColoursAskedFor(t *testing.T) {
	s, r := sample.Engraved(t)
	for name, c := range map[string]struct {
		svg string
		dxf int
	}{"red": {"#ff0000", 1}, "yellow": {"#ffff00", 2}, "green": {"#00ff00", 3}, "cyan": {"#00ffff", 4}, "blue": {"#0000ff", 5}, "magenta": {"#ff00ff", 6}, "black": {"#000000", 7}} {
		for layer, o := range map[string]export.Options{
			"OPENINGS":           {OpeningsColour: name},
			"OUTLINE":            {OutlineColour: name},
			export.LayerEngraved: {EngravingColour: name},
		} {
			require.NoError(t, o.Check())
			f, err := NewFiles(s, r, o)
			require.NoError(t, err)
			var svg, dxf bytes.Buffer
			require.NoError(t, f.WriteSVG(&svg))
			require.NoError(t, f.CheckSVG(svg.Bytes()))
			group := map[string]string{"OPENINGS": "openings", "OUTLINE": "outline", export.LayerEngraved: export.GroupEngraved}[layer]
			assert.Regexp(t, fmt.Sprintf(`<g id="%s" fill="none"[^>]* stroke="%s"`, group, c.svg), svg.String())
			for _, curves := range []string{export.Arcs, export.ArcsR12} {
				o.Curves = curves
				f, err := NewFiles(s, r, o)
				require.NoError(t, err)
				dxf.Reset()
				require.NoError(t, f.WriteDXF(&dxf))
				require.NoError(t, f.CheckDXF(dxf.Bytes()))
				assert.Regexp(t, fmt.Sprintf(`\n\s*2\r?\n%s\r?\n\s*70\r?\n\s*0\r?\n\s*62\r?\n\s*%d\r?\n`, layer, c.dxf), dxf.String(), "%s in %s", name, layer)
			}
		}
	}
	assert.ErrorContains(t, export.Options{OutlineColour: "pink"}.Check(), "outline-colour")
}
