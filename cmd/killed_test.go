package cmd

import (
	"bufio"
	"bytes"
	"flag"
	"fmt"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"fretband/app"
	"fretband/pattern"
	"fretband/pattern/project"
	"fretband/pattern/project/disk"

	"github.com/stretchr/testify/require"
)

var (
	kills    = flag.Int("kills", 12, "how often the program is killed amid saving, and as often amid handing over")
	killSeed = flag.Uint64("kill-seed", 1, "seed of the moments")
)

// savingIn names the folder in which this test's program saves until it is killed.
const savingIn = "FRETBAND_SAVING_IN"

func TestMain(m *testing.M) {
	if dir := os.Getenv(savingIn); dir != "" {
		if err := saveForEver(dir); err != nil {
			fmt.Println("error", err)
			os.Exit(1)
		}
	}
	os.Exit(m.Run())
}

// state is the nth state of a design that is edited. It is large, so that writing it
// takes its time.
func state(n int) (pattern.Design, error) {
	d, err := project.GalleryDesign("harbour-cuff")
	d.Name = fmt.Sprintf("state %d", n)
	for i := range 20 {
		e := pattern.Edit{Do: pattern.LeaveSolid}
		for j := range 100 {
			e.At = append(e.At, pattern.Spot{XMM: float64(j)/3 + float64(n%97), YMM: float64(i) / 7})
		}
		d.Edits = append(d.Edits, e)
	}
	return d, err
}

// stateOf returns which state d is, if it is one, whole.
func stateOf(t *testing.T, d pattern.Design) int {
	t.Helper()
	n := 0
	_, err := fmt.Sscanf(d.Name, "state %d", &n)
	require.NoError(t, err)
	want, err := state(n)
	require.NoError(t, err)
	require.True(t, app.Equal(want, d), "a state that is not whole")
	return n
}

// saveForEver does what the window does while a person works, from the last state on:
// it keeps every state for recovery and saves every third, and tells on standard output
// what is done.
func saveForEver(dir string) error {
	doc, err := app.Open(filepath.Join(dir, "design.json"))
	if err != nil {
		return err
	}
	r := app.NewRecovery(filepath.Join(dir, "own"))
	if found := app.LeftBehind(filepath.Join(dir, "own")); len(found) > 0 {
		doc = app.Restore(found[0])
		if err := r.Write(doc); err != nil { // under this run's name first
			return err
		}
		for _, f := range found {
			if err := f.Discard(); err != nil {
				return err
			}
		}
	}
	n := 0
	if _, err := fmt.Sscanf(doc.Now().Name, "state %d", &n); err != nil {
		return err
	}
	fmt.Println("begun", n)
	for {
		n++
		d, err := state(n)
		if err != nil {
			return err
		}
		doc.Change("", d)
		if err := r.Write(doc); err != nil {
			return err
		}
		fmt.Println("kept", n)
		if n%3 > 0 {
			continue
		}
		if err := doc.SaveAs(doc.Path); err != nil {
			return err
		}
		fmt.Println("saved", n)
		if err := r.Clear(); err != nil {
			return err
		}
		fmt.Println("cleared", n)
	}
}

// Whenever the program is killed, the design's file is whole, and what had been kept is
// in the file or offered by the next run.
func TestNothingIsLostWhenTheProgramIsKilledAmidSaving(t *testing.T) {
	r := rand.New(rand.NewPCG(*killSeed, 1))
	dir := t.TempDir()
	own, file := filepath.Join(dir, "own"), filepath.Join(dir, "design.json")
	first, err := state(0)
	require.NoError(t, err)
	require.NoError(t, project.WriteFile(file, first))
	amid := map[string]int{}
	last := 0
	for range *kills {
		c := exec.Command(os.Args[0])
		c.Env = append(os.Environ(), savingIn+"="+dir)
		out, err := c.StdoutPipe()
		require.NoError(t, err)
		require.NoError(t, c.Start())
		lines := bufio.NewReader(out)
		told, step := "", time.Duration(0)
		// Some amid anything, some amid a save, some amid what follows it.
		until := []string{"", "kept", "saved"}[r.IntN(3)]
		for most := 2 + r.IntN(6); most > 0 || !awaited(told, until); most-- {
			from := time.Now()
			line, err := lines.ReadString('\n')
			require.NoError(t, err, told)
			require.NotContains(t, line, "error")
			told, step = told+line, time.Since(from)
		}
		time.Sleep(time.Duration(1.5 * r.Float64() * float64(step)))
		require.NoError(t, c.Process.Kill())
		told += rest(lines)
		require.Error(t, c.Wait())
		require.NotContains(t, told, "error")

		done := map[string]int{}
		what := ""
		for _, l := range strings.Split(strings.TrimSpace(told), "\n") {
			n := 0
			_, err := fmt.Sscan(l, &what, &n)
			require.NoError(t, err, told)
			done[what] = n
		}
		require.GreaterOrEqual(t, done["begun"], last, "begun anew with an older state")
		kept := max(done["begun"], done["kept"])
		next := "autosave"
		if what == "kept" && kept%3 == 0 {
			next = "save"
		} else if what == "saved" {
			next = "clearing"
		}
		amid[next]++

		d, err := project.ReadFile(file)
		require.NoError(t, err)
		saved := stateOf(t, d)
		require.GreaterOrEqual(t, saved, done["saved"])
		require.LessOrEqual(t, saved, kept)
		offered := -1
		for i, f := range app.LeftBehind(own) {
			n := stateOf(t, f.Design)
			require.Equal(t, file, f.Path)
			if i == 0 {
				offered = n
			}
			require.LessOrEqual(t, n, offered, "the newest comes first")
			require.LessOrEqual(t, n, kept+1)
			f.GiveBack()
		}
		last = max(saved, offered)
		require.GreaterOrEqual(t, last, kept, "what was kept is lost: saved %d, offered %d, killed amid %s", saved, offered, next)
	}
	t.Logf("%d kills: %v", *kills, amid)

	// The next run clears up and leaves nothing but the design.
	for _, f := range app.LeftBehind(own) {
		require.NoError(t, f.Discard())
	}
	doc, err := app.Open(file)
	require.NoError(t, err)
	again := app.NewRecovery(own)
	require.NoError(t, again.Write(doc))
	require.NoError(t, again.Close())
	require.NoError(t, doc.SaveAs(file))
	require.Equal(t, []string{"design.json"}, filesIn(t, dir))
}

// awaited reports whether the last line told is that of a state that is saved, and begins
// with what.
func awaited(told, what string) bool {
	lines := strings.Split(strings.TrimSpace(told), "\n")
	n := 0
	_, err := fmt.Sscanf(lines[len(lines)-1], what+" %d", &n)
	return what == "" || err == nil && n%3 == 0
}

func rest(r *bufio.Reader) string {
	var b bytes.Buffer
	_, _ = r.WriteTo(&b)
	return b.String()
}

// filesIn lists the files under dir by their paths in it.
func filesIn(t *testing.T, dir string) []string {
	t.Helper()
	var names []string
	require.NoError(t, filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err == nil && !e.IsDir() {
			rel, _ := filepath.Rel(dir, path)
			names = append(names, rel)
		}
		return err
	}))
	return names
}

// Whenever fretcut is killed, each file that is there is whole, and after the next run
// the set is the old or the new one, whole, or absent where there was none.
func TestASetIsWholeOrAbsentWhenFretcutIsKilled(t *testing.T) {
	r := rand.New(rand.NewPCG(*killSeed, 2))
	tmp := t.TempDir()
	cut := filepath.Join(tmp, "fretcut")
	if runtime.GOOS == "windows" {
		cut += ".exe"
	}
	build := exec.Command("go", "build", "-o", cut, "./fretcut")
	build.Env = append(os.Environ(), "CGO_ENABLED=0")
	said, err := build.CombinedOutput()
	require.NoError(t, err, string(said))
	d, err := project.GalleryDesign("mooring-ring")
	require.NoError(t, err)
	design := filepath.Join(tmp, "ring.json")
	require.NoError(t, project.WriteFile(design, d))
	makeSet := func(i int, out string) *exec.Cmd {
		return exec.Command(cut, "make", "-for", "laser", "-date", "a day", "-kerf", []string{"0.05", "0.1"}[i], "-out", out, design)
	}
	var sets []map[string]string
	for i := range 2 {
		out := filepath.Join(tmp, fmt.Sprint("set", i))
		said, err := makeSet(i, out).CombinedOutput()
		require.NoError(t, err, string(said))
		sets = append(sets, whatLies(t, out))
	}
	require.NotEqual(t, sets[0], sets[1])

	out := filepath.Join(tmp, "out")
	found := map[string]int{}
	for range *kills {
		had := map[string]string{}
		if r.IntN(4) == 0 {
			require.NoError(t, os.RemoveAll(out))
		} else if _, err := os.Stat(out); err == nil {
			had = whatLies(t, out)
		}
		c := makeSet(r.IntN(2), out)
		require.NoError(t, c.Start())
		ended := ending(c)
		// Some while writing, some during the moves, which take far less time.
		seen, wait := "", time.Duration(r.IntN(8000))*time.Microsecond
		if r.IntN(2) == 0 {
			seen, wait = ".moves", time.Duration(r.IntN(400))*time.Microsecond
		}
		for !hidden(out, "") && !ended() {
			time.Sleep(time.Millisecond)
		}
		for !hidden(out, seen) && !ended() {
		}
		for from := time.Now(); time.Since(from) < wait; { // sleeping takes longer than asked
		}
		_ = c.Process.Kill()
		for !ended() {
			time.Sleep(time.Millisecond)
		}

		is := whatLies(t, out)
		for name, b := range is {
			require.True(t, b == sets[0][name] || b == sets[1][name], "%s is not whole", name)
		}
		switch {
		case maps.Equal(is, had):
			found["before"]++
		case maps.Equal(is, sets[0]) || maps.Equal(is, sets[1]):
			found["after"]++
		default:
			found["amid the moves"]++
			require.True(t, hidden(out, ".moves"), "a set in parts that nobody knows how to finish: %d files", len(is))
		}
		if _, err := os.Stat(out); err != nil {
			continue
		}
		// The next run that writes anything there.
		require.NoError(t, disk.WriteFile(filepath.Join(out, "other"), nil, disk.Shared))
		require.NoError(t, os.Remove(filepath.Join(out, "other")))
		require.False(t, hidden(out, ""), "%v", filesIn(t, out))
		is = whatLies(t, out)
		require.True(t, maps.Equal(is, had) || maps.Equal(is, sets[0]) || maps.Equal(is, sets[1]), "%v", filesIn(t, out))
	}
	t.Logf("%d kills: %v", *kills, found)
}

// ending returns whether a command that was started has ended.
func ending(c *exec.Cmd) func() bool {
	done := make(chan struct{})
	go func() { _ = c.Wait(); close(done) }()
	return func() bool {
		select {
		case <-done:
			return true
		default:
			return false
		}
	}
}

// whatLies returns what the files in dir hold that a person sees, by their names.
func whatLies(t *testing.T, dir string) map[string]string {
	t.Helper()
	files := map[string]string{}
	entries, _ := os.ReadDir(dir)
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), ".") {
			continue
		}
		b, err := os.ReadFile(filepath.Join(dir, e.Name()))
		require.NoError(t, err)
		files[e.Name()] = string(b)
	}
	return files
}

// hidden reports whether a hidden file of that suffix lies in dir.
func hidden(dir, suffix string) bool {
	entries, _ := os.ReadDir(dir)
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), ".fretband-") && strings.HasSuffix(e.Name(), suffix) {
			return true
		}
	}
	return false
}
