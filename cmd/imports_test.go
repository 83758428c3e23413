package cmd

import (
	"encoding/json"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// rank is the order of the house: a package imports only packages of a lower
// rank. Packages of one rank do not know each other.
var rank = map[string]int{
	"testdata":             0,
	"unroll/cores":         0,
	"unroll/plane":         10,
	"unroll/delaunay":      10,
	"unroll":               20,
	"pattern/own":          20,
	"pattern/lettering":    20,
	"pattern/project/disk": 10,
	"pattern/motif":        25,
	"pattern/pen":          25,
	"pattern/added":        25,
	"pattern/strength":     25,
	"pattern":              30,
	"pattern/check":        40,
	"pattern/mesh":         40,
	"pattern/project":      40,
	"pattern/target":       50,
	"pattern/view3d":       50,
	"export/paint":         20,
	"export/pdf":           20,
	"export":               60,
	"export/sample":        60,
	"export/cut":           62,
	"export/template":      62,
	"export/picture":       62,
	"export/solid":         62,
	"export/report":        62,
	"export/jobsheet":      64,
	"export/handover":      66,
	"app":                  70,
	"app/ui/kit":           80,
	"app/ui/bent":          90,
	"app/ui/blank":         90,
	"app/ui/pages":         90,
	"app/ui":               100,
	"cmd/fretcut":          110,
	"cmd/fretband":         110,
}

// outside lists what each room may import besides the standard library and the
// house itself. What is not listed may import nothing.
var outside = map[string][]string{
	"unroll":               {"gonum.org/v1/gonum/mathext"},
	"pattern/project/disk": {"github.com/gofrs/flock"},
	"pattern/lettering":    {"golang.org/x/image/font", "golang.org/x/image/math/fixed"},
	"export/pdf":           {"github.com/tdewolff/canvas", "golang.org/x/image/font"},
	"export/sample":        {"github.com/stretchr/testify/require"},
	"app":                  {"github.com/gofrs/flock"},
	"app/ui/kit":           {"fyne.io/fyne/v2", "golang.org/x/image"},
	"app/ui/bent":          {"fyne.io/fyne/v2"},
	"app/ui/blank":         {"fyne.io/fyne/v2"},
	"app/ui/pages":         {"fyne.io/fyne/v2"},
	"app/ui":               {"fyne.io/fyne/v2"},
	"cmd/fretband":         {"fyne.io/fyne/v2"},
}

// mostFiles is how many source files a room holds at most, tests not counted: ours.
const mostFiles = 45

func TestImportsRunOneWayAndNoRoomIsCrowded(t *testing.T) {
	out, err := exec.Command("go", "list", "-json=ImportPath,GoFiles,Imports", "fretband/...", "fretband/testdata").Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	dec := json.NewDecoder(strings.NewReader(string(out)))
	seen := 0
	for dec.More() {
		var p struct {
			ImportPath string
			GoFiles    []string
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
		if n := len(p.GoFiles); n > mostFiles {
			t.Errorf("%s: %d source files, at most %d: join those that are always read together, or give an idea a room of its own", room, n, mostFiles)
		}
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

// Outside of unroll nobody asks how long the way round is or which form the band has: the
// flat says what wraps and where copies are, the band whether it is open, soldered,
// seamless or worn on a finger.
func TestOnlyUnrollAsksForThePeriodAndTheForm(t *testing.T) {
	asks := regexp.MustCompile(`\b[Ff]lat\.Period\b|\.Kind [!=]= unroll\.(Cuff|Bangle|Ring)\b`)
	asked := 0
	err := filepath.WalkDir("..", func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		file := filepath.ToSlash(strings.TrimPrefix(path, ".."+string(filepath.Separator)))
		text, err := os.ReadFile(path)
		if err != nil || strings.HasPrefix(file, "unroll/") {
			return err
		}
		if file == "pattern/seam.go" { // what wraps is trimmed and asked there
			asked++
			return nil
		}
		if what := asks.Find(text); what != nil {
			t.Errorf("%s asks for %s: ask Flat or Band by what you need", file, what)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if asked != 1 {
		t.Error("pattern/seam.go is not where it was")
	}
}
