package app

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"fretband/pattern"
	"fretband/pattern/project"

	"github.com/stretchr/testify/require"
)

// keeperFolder is set in the environment of a run of these tests that keeps unsaved work
// in that folder until it is killed.
const keeperFolder = "FRETBAND_TEST_KEEPER"

func TestMain(m *testing.M) {
	if dir := os.Getenv(keeperFolder); dir != "" {
		keepUntilKilled(dir)
	}
	os.Exit(m.Run())
}

func keepUntilKilled(dir string) {
	d, err := project.GalleryDesign(project.Gallery()[0])
	doc, r := NewDocument(d), NewRecovery(dir)
	doc.Path = filepath.Join(dir, "cuff.json")
	d.Rules.BridgeMM = 1.12
	doc.Change("", d)
	fmt.Println("kept", errors.Join(err, r.Write(doc)))
	for {
		time.Sleep(time.Second)
		runtime.KeepAlive(r) // with it the lock would be collected
	}
}

// keeper is a run of the program that keeps unsaved work in dir.
func keeper(t *testing.T, dir string) *exec.Cmd {
	t.Helper()
	self, err := os.Executable()
	require.NoError(t, err)
	c := exec.Command(self)
	c.Env = append(os.Environ(), keeperFolder+"="+dir)
	out, err := c.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, c.Start())
	t.Cleanup(func() { _ = c.Process.Kill() })
	line, err := bufio.NewReader(out).ReadString('\n')
	require.NoError(t, err)
	require.Equal(t, "kept <nil>\n", line)
	return c
}

// edited is a document with a change that is not saved.
func edited(d pattern.Design, bridgeMM float64, path string) *Document {
	doc := NewDocument(d)
	doc.Path = path
	doc.Change("", bridge(d, bridgeMM))
	return doc
}

// A lock shows whether a window is open. Process numbers show nothing: the system gives
// them anew, and the one here is that of a program that runs.
func TestWorkOfAKilledRunIsOfferedAndThatOfARunningOneIsNot(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "conf")
	require.Empty(t, LeftBehind(dir))
	runs := keeper(t, dir)
	require.Empty(t, LeftBehind(dir), "it runs")
	runs2 := keeper(t, dir)
	require.NoError(t, runs.Process.Kill()) // SIGKILL where there is one
	_ = runs.Wait()

	found := LeftBehind(dir)
	require.Len(t, found, 1)
	require.False(t, found[0].Unsure)
	require.Equal(t, 1.12, found[0].Design.Rules.BridgeMM)
	require.Empty(t, LeftBehind(dir), "it is being offered in another window")
	doc := Restore(found[0])
	require.Equal(t, filepath.Join(dir, "cuff.json"), doc.Path)
	require.True(t, doc.Dirty())
	found[0].GiveBack()
	found = LeftBehind(dir)
	require.Len(t, found, 1, "later is not never")
	require.NoError(t, found[0].Discard())
	require.Empty(t, LeftBehind(dir))

	require.NoError(t, runs2.Process.Kill())
	_ = runs2.Wait()
	found = LeftBehind(dir)
	require.Len(t, found, 1)
	require.NoError(t, found[0].Discard())
	left, err := filepath.Glob(filepath.Join(dir, recoveryPrefix+"*"))
	require.NoError(t, err)
	require.Empty(t, left, "no lock is left either")
}

// Notes of earlier versions name a process, whose number another program may have now.
func TestWorkThatAnEarlierVersionKeptIsOffered(t *testing.T) {
	dir := t.TempDir()
	r := NewRecovery(dir)
	require.NoError(t, r.Write(edited(gallery(t), 1.2, "")))
	b, err := os.ReadFile(r.file)
	require.NoError(t, err)
	require.NoError(t, r.Close())
	require.Empty(t, LeftBehind(dir))
	note := fmt.Sprintf("{\n\"pid\": %d,%s", os.Getppid(), b[1:])
	require.NoError(t, os.WriteFile(filepath.Join(dir, fmt.Sprintf("unsaved-%d-17.json", os.Getppid())), []byte(note), 0o600))
	found := LeftBehind(dir)
	require.Len(t, found, 1)
	require.NoError(t, found[0].Discard())
}

func TestAWindowKeepsItsWorkInOneFileAndClearsIt(t *testing.T) {
	dir := t.TempDir()
	r, other := NewRecovery(dir), NewRecovery(dir)
	require.NoError(t, r.Clear(), "nothing was kept")
	require.NoError(t, r.Write(edited(gallery(t), 1.11, "/jewels/cuff.json")))
	require.NoError(t, r.Write(edited(gallery(t), 1.12, "/jewels/cuff.json")), "the file is replaced")
	require.NoError(t, other.Write(edited(gallery(t), 1.13, "")))
	notes, err := filepath.Glob(filepath.Join(dir, "*"+recoverySuffix))
	require.NoError(t, err)
	require.Len(t, notes, 2)
	require.NoError(t, r.Clear())
	require.NoError(t, r.Clear(), "clearing what is gone is no error")
	require.NoError(t, r.Write(edited(gallery(t), 1.14, "")), "and it goes on")
	require.NoError(t, errors.Join(r.Close(), other.Close()))
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Empty(t, left)
}

func TestWhatCantBeReadIsPassedOverAndKept(t *testing.T) {
	dir := t.TempDir()
	broken := filepath.Join(dir, "unsaved-1-1.json")
	require.NoError(t, os.WriteFile(broken, []byte("{"), 0o600))
	require.Empty(t, LeftBehind(dir))
	require.FileExists(t, broken)
}

// On a file system without locks, as some over a network, work is kept all the same and
// offered with a word of caution.
func TestWithoutLocksWorkIsKeptAndOfferedWithCare(t *testing.T) {
	none := func(string) (*claim, error) { return nil, errors.New("no locks available") }
	dir := t.TempDir()
	r := NewRecovery(dir)
	r.lock = none
	require.NoError(t, r.Write(edited(gallery(t), 1.11, "")))
	found := leftBehind(dir, none)
	require.Len(t, found, 1)
	require.True(t, found[0].Unsure)
	require.NoError(t, found[0].Discard())
	require.NoError(t, r.Close())
}
