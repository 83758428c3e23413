package cmd

import (
	"encoding/json"
	"os/exec"
	"strings"
	"testing"
)

// rank is the order of the house: a package imports only packages of a lower
// rank. Packages of one rank do not know each other.
var rank = map[string]int{
	"testdata":             0,
	"unroll/plane":         1,
	"unroll":               2,
	"pattern":              3,
	"pattern/check":        4,
	"pattern/goal":         5,
	"pattern/mesh":         4,
	"pattern/own":          2,
	"pattern/lettering":    2,
	"pattern/project":      4,
	"pattern/project/disk": 1,
	"export/paint":         2,
	"export/pdf":           2,
	"pattern/view3d":       5,
	"export":               6,
	"app":                  7,
	"app/ui/kit":           8,
	"app/ui/bent":          9,
	"app/ui":               10,
	"cmd/fretcut":          11,
	"cmd/fretband":         11,
}

// outside lists what each room may import besides the standard library and the
// house itself. What is not listed may import nothing.
var outside = map[string][]string{
	"unroll":               {"gonum.org/v1/gonum/mathext"},
	"pattern/project/disk": {"github.com/gofrs/flock"},
	"pattern/lettering":    {"golang.org/x/image/font", "golang.org/x/image/math/fixed"},
	"export/pdf":           {"github.com/tdewolff/canvas", "golang.org/x/image/font"},
	"app":                  {"github.com/gofrs/flock"},
	"app/ui/kit":           {"fyne.io/fyne/v2", "golang.org/x/image"},
	"app/ui/bent":          {"fyne.io/fyne/v2"},
	"app/ui":               {"fyne.io/fyne/v2"},
	"cmd/fretband":         {"fyne.io/fyne/v2"},
}

func TestImportsRunOneWay(t *testing.T) {
	out, err := exec.Command("go", "list", "-json=ImportPath,Imports", "fretband/...", "fretband/testdata").Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	dec := json.NewDecoder(strings.NewReader(string(out)))
	seen := 0
	for dec.More() {
		var p struct {
			ImportPath string
			Imports    []string
		}
		if err := dec.Decode(&p); err != nil {
			t.Fatal(err)
		}
		room := strings.TrimPrefix(p.ImportPath, "fretband/")
		if room == "cmd" || strings.HasPrefix(room, "cmd/judge") {
			continue // tests and tools
		}
		seen++
		mine, ok := rank[room]
		if !ok {
			t.Errorf("%s: a new package; give it a rank here", room)
			continue
		}
		for _, imp := range p.Imports {
			if inside, ok := strings.CutPrefix(imp, "fretband/"); ok {
				if rank[inside] >= mine {
					t.Errorf("%s (rank %d) imports %s (rank %d)", room, mine, inside, rank[inside])
				}
				continue
			}
			if !strings.Contains(imp, ".") {
				continue // the standard library
			}
			allowed := false
			for _, a := range outside[room] {
				allowed = allowed || imp == a || strings.HasPrefix(imp, a+"/")
			}
			if !allowed {
				t.Errorf("%s imports %s", room, imp)
			}
			if imp == "fyne.io/fyne/v2/app" && room != "cmd/fretband" {
				t.Errorf("%s imports %s; only cmd/fretband may", room, imp)
			}
		}
	}
	if seen < 8 {
		t.Errorf("only %d packages seen", seen)
	}
}
