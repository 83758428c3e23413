package handover

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
	"fretband/unroll"
)

func handed(t *testing.T, name, to string) (string, *pattern.Sheet, []string) {
	t.Helper()
	d, err := project.GalleryDesign(name)
	require.NoError(t, err)
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	v, ok := export.ReceiverByKey(to)
	require.True(t, ok)
	dir := t.TempDir()
	paths, err := Write(dir, "part", s, check.All(s), export.Options{Date: "a day"}, v)
	require.NoError(t, err)
	return dir, s, paths
}

func TestEachReceiverGetsHisFilesWithTheirChecksums(t *testing.T) {
	for _, v := range export.Receivers() {
		dir, s, paths := handed(t, "mooring-ring", v.Key)
		require.Len(t, paths, len(v.Formats), v.Key)
		_, _, again := handed(t, "mooring-ring", v.Key)
		listed := 0
		var job string
		for i, p := range paths {
			f, ok := FormatOf("part", p)
			require.True(t, ok && f.Key == v.Formats[i], p)
			one, err := os.ReadFile(p)
			require.NoError(t, err)
			two, err := os.ReadFile(again[i])
			require.NoError(t, err)
			assert.True(t, bytes.Equal(one, two), "%s: the same design, the same bytes", p)
			if strings.HasSuffix(p, "-job.html") {
				job = string(one)
			}
		}
		if job == "" {
			continue
		}
		assert.Contains(t, job, export.ContentNumber(s.Design))
		assert.Contains(t, job, "a day")
		for _, p := range paths {
			if strings.Contains(filepath.Base(p), "-job.") {
				continue
			}
			b, _ := os.ReadFile(p)
			sum := sha256.Sum256(b)
			assert.Contains(t, job, hex.EncodeToString(sum[:]), "%s: %s", v.Key, p)
			listed++
		}
		assert.Positive(t, listed)
		_ = dir
	}
}

func TestThePictureOfTheStressComesWhereItIsAskedFor(t *testing.T) {
	write := func(alloy string) (string, []string, error) {
		d, err := project.GalleryDesign("mooring-ring")
		require.NoError(t, err)
		if alloy != "" {
			d.Metal.Alloy = alloy
		}
		s, err := pattern.Lay(d)
		require.NoError(t, err)
		client, _ := export.ReceiverByKey("client")
		dir := filepath.Join(t.TempDir(), "new")
		paths, err := Write(dir, "part", s, check.All(s), export.Options{Stress: export.StressShown}, client)
		return dir, paths, err
	}
	_, paths, err := write("")
	require.NoError(t, err)
	_, again, err := write("")
	require.NoError(t, err)
	require.Len(t, paths, 4)
	for i, p := range paths {
		one, err := os.ReadFile(p)
		require.NoError(t, err)
		two, err := os.ReadFile(again[i])
		require.NoError(t, err)
		require.True(t, bytes.Equal(one, two), "%s: the same design, the same bytes", p)
		if strings.HasSuffix(p, "part-client-stress.svg") {
			require.Contains(t, string(one), "An estimate for comparing designs, not a promise: a trial piece decides, and a trained goldsmith.")
			require.Contains(t, string(one), "two opposite places pressed together")
		}
	}
	dir, _, err := write("gold-585-yellow")
	require.ErrorIs(t, err, check.ErrNoModulus)
	require.ErrorContains(t, err, "or leave that picture out")
	_, err = os.Stat(dir)
	require.True(t, os.IsNotExist(err), "nothing is written")
}

func TestTheContentNumberGoesWithEveryFileAndWithTheDesignAlone(t *testing.T) {
	dir, s, _ := handed(t, "tide-bangle", "laser")
	n := export.ContentNumber(s.Design)
	require.Len(t, n, 8)
	for _, f := range []string{"part-laser.dxf", "part-laser.svg", "part-laser-note.txt", "part-laser-job.html"} {
		b, err := os.ReadFile(filepath.Join(dir, f))
		require.NoError(t, err)
		assert.Contains(t, string(b), n, f)
	}
	d := s.Design
	d.Variants = []pattern.Design{s.Design}
	assert.Equal(t, n, export.ContentNumber(d), "variants are not handed over")
	d.Rules.RimMM += 0.01
	assert.NotEqual(t, n, export.ContentNumber(d))
}

func TestAPartInPiecesIsHandedToNobody(t *testing.T) {
	d, err := project.GalleryDesign("harbour-cuff")
	require.NoError(t, err)
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	r := check.All(s)
	r.Pieces = 2
	for _, v := range export.Receivers() {
		dir := filepath.Join(t.TempDir(), "new")
		_, err := Write(dir, "part", s, r, export.Options{}, v)
		require.ErrorIs(t, err, export.ErrPieces)
		_, err = os.Stat(dir)
		require.True(t, os.IsNotExist(err), "nothing is written")
	}
}

// A file that says "saw" and goes to the laser shop is cut by laser.
func TestTheProcessIsTheOptionsThenTheReceiversThenTheDesigns(t *testing.T) {
	for _, c := range []struct{ to, option, design, said, caution, never string }{
		{"laser", "", "", "Process: laser; openings first", "Laser: ", "Saw and drill: "},
		{"laser", "", "saw", "Process: laser; openings first", "Laser: ", "Saw and drill: "},
		{"laser", "", "etch", "Process: laser; openings first", "Laser: ", "Etching: "},
		{"laser", "saw", "laser", "Process: piercing saw", "Saw and drill: ", "Laser: "},
		{"laser", "punched by hand", "saw", "Process: punched by hand", "Laser: ", "Pilot holes"},
		{"", "", "saw", "Process: piercing saw", "Saw and drill: ", "Laser: "},
		{"", "", "", "Process: not fixed", "Saw and drill: ", "Etching: "},
		{"", "laser", "saw", "Process: laser; openings first", "Laser: ", "Saw and drill: "},
	} {
		d, err := project.GalleryDesign("harbour-cuff")
		require.NoError(t, err)
		d.Rules.Process = c.design
		s, err := pattern.Lay(d)
		require.NoError(t, err)
		dir := t.TempDir()
		only, _ := export.ReceiverByKey(c.to)
		only.Formats = []string{"note"}
		files, err := Write(dir, "part", s, check.Run(s), export.Options{Process: c.option}, only)
		require.NoError(t, err)
		b, err := os.ReadFile(files[0])
		require.NoError(t, err)
		assert.Contains(t, string(b), c.said, c)
		assert.Contains(t, string(b), c.caution, c)
		assert.NotContains(t, string(b), c.never, c)
		assert.Contains(t, string(b), export.ContentNumber(d), "the design is still the maker's")
	}
}

// sheetFor returns the job sheet of a sawn design with the maker's rates.
func sheetFor(t *testing.T, to string, o export.Options) string {
	d, err := project.GalleryDesign("harbour-cuff")
	require.NoError(t, err)
	d.Rules.Process, d.Work = "saw", pattern.Work{CutMMMin: 15, OpeningMin: 2, BladeMM: 400, HourPrice: 60}
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	only, _ := export.ReceiverByKey(to)
	only.Formats = []string{"job-html"}
	files, err := Write(t.TempDir(), "part", s, check.All(s), o, only)
	require.NoError(t, err)
	b, err := os.ReadFile(files[0])
	require.NoError(t, err)
	return regexp.MustCompile(`base64,[^"]*`).ReplaceAllString(string(b), "") // any letters stand in pictures
}

func TestTheShopIsToldOfNoBladesAndTheBenchIs(t *testing.T) {
	for to, sawn := range map[string]bool{"bench": true, "laser": false, "casting": false} {
		page := sheetFor(t, to, export.Options{})
		assert.Equal(t, sawn, strings.Contains(page, "Pilot holes"), to)
		assert.Equal(t, sawn, strings.Contains(page, "blade"), to)
	}
}

func TestNoMoneyLeavesTheHouseUnasked(t *testing.T) {
	for _, c := range []struct {
		to    string
		quote bool
		told  bool
	}{{"bench", false, true}, {"laser", false, false}, {"casting", false, false}, {"laser", true, true}, {"casting", true, true}} {
		for _, copies := range []int{1, 4} {
			page := sheetFor(t, c.to, export.Options{Quote: c.quote, Copies: copies})
			assert.Equal(t, c.told, strings.Contains(page, "EUR"), "%+v, %d copies: money", c, copies)
			// Nobody follows the lines of what is cast.
			assert.Equal(t, c.told && c.to != "casting", strings.Contains(page, "Work"), "%+v, %d copies: working time", c, copies)
		}
	}
}

// What concerns who sells or wears the band stays with the maker.
func TestTheShopIsSparedWhatItDoesNotActOn(t *testing.T) {
	for to, told := range map[string]bool{"bench": true, "laser": false, "casting": false} {
		page := sheetFor(t, to, export.Options{})
		assert.Equal(t, told, strings.Contains(page, "Hallmark:"), to)
		assert.Contains(t, page, "Who decides:", to)
	}
}

func TestTheShopIsToldHowItsCutSheetIsLaidOut(t *testing.T) {
	d, err := project.GalleryDesign("mooring-ring")
	require.NoError(t, err)
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	for key, told := range map[string]bool{"laser": true, "bench": false} {
		v, _ := export.ReceiverByKey(key)
		dir := t.TempDir()
		_, err = Write(dir, "part", s, check.All(s), export.Options{Copies: 4}, v)
		require.NoError(t, err)
		for _, f := range []string{"part-" + key + "-note.txt", "part-" + key + "-job.html"} {
			b, err := os.ReadFile(filepath.Join(dir, f))
			if !told && os.IsNotExist(err) {
				continue
			}
			require.NoError(t, err)
			assert.Equal(t, told, strings.Contains(string(b), "4 parts on a sheet of"), "%s: %s", key, f)
		}
	}
}

// The last file of the set has a folder in its way.
func TestASetThatCantBeWrittenWhollyIsNotThere(t *testing.T) {
	d, err := project.GalleryDesign("mooring-ring")
	require.NoError(t, err)
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	r := check.All(s)
	v := export.Receiver{Key: "laser", Formats: []string{"dxf", "svg", "note"}}
	dir := t.TempDir()
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "part-laser-note.txt", "in"), 0o777))
	paths, err := Write(dir, "part", s, r, export.Options{}, v)
	require.ErrorContains(t, err, "is a folder, where a file has to go")
	require.Empty(t, paths)
	there, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, there, 1)
}

// Nobody takes the files of a seamless band for a flat part.
func TestASeamlessBandGoesToTheLaserShopAsTube(t *testing.T) {
	d, err := project.GalleryDesign("tide-bangle")
	require.NoError(t, err)
	d.Band.Joint, d.Band.JointMM = unroll.Seamless, 0
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	to, _ := export.ReceiverByKey("laser")
	to.Formats = []string{"dxf", "svg", "note"}
	dir := t.TempDir()
	files, err := Write(dir, "part", s, check.Run(s), export.Options{Copies: 2}, to)
	require.NoError(t, err)
	var names []string
	for _, f := range files {
		names = append(names, filepath.Base(f))
		got, known := FormatOf("part", f)
		assert.True(t, known && got.Title != "", f)
	}
	assert.Equal(t, []string{"part-laser-tube.dxf", "part-laser-tube.svg", "part-laser-tube-note.txt"}, names)
	b, err := os.ReadFile(files[2])
	require.NoError(t, err)
	assert.True(t, strings.HasPrefix(string(b), "Tube, not flat sheet: once round is "+pattern.Say("%.4f mm", s.Flat.Period)), "%.80s", b)
	assert.NotContains(t, string(b), "parts on a sheet")
	bench, _ := export.ReceiverByKey("bench")
	_, err = Write(t.TempDir(), "part", s, check.Run(s), export.Options{}, bench)
	require.NoError(t, err)
}
