package project

import (
	"bytes"
	"encoding/binary"
	"os"
	"path/filepath"
	"reflect"
	"runtime"
	"strings"
	"testing"
	"unicode/utf16"

	"fretband/pattern"
	"fretband/pattern/motif"
	"fretband/testdata"
	"fretband/unroll"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func read(t *testing.T, s string) pattern.Design {
	t.Helper()
	d, err := Read(strings.NewReader(s))
	require.NoError(t, err)
	return d
}

func written(t *testing.T, d pattern.Design) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, Write(&b, d))
	return b.String()
}

func TestGalleryDesignsAreSoundAndWrittenAsWeWriteThem(t *testing.T) {
	require.Equal(t, []string{"harbour-cuff", "tide-bangle", "mooring-ring", "lighthouse-cuff", "buoy-bangle", "keel-cuff", "beacon-bangle"}, Gallery())
	kinds := []string{unroll.Cuff, unroll.Bangle, unroll.Ring, unroll.Cuff, unroll.Bangle, unroll.Cuff, unroll.Bangle}
	for i, e := range testdata.Gallery() {
		d, err := GalleryDesign(e.Name)
		require.NoError(t, err, e.Name)
		assert.Equal(t, kinds[i], d.Band.Kind)
		assert.Equal(t, string(e.JSON), written(t, d), e.Name)
		assert.Contains(t, d.Note, "invented", "the demo says that it is one")
	}
	_, err := GalleryDesign("crown")
	require.Error(t, err)
	assert.Contains(t, err.Error(), "it holds harbour-cuff, tide-bangle, mooring-ring")
}

func TestWritingAndReadingGiveTheSameDesign(t *testing.T) {
	for _, d := range []pattern.Design{full(), rich(), gallery(t, "harbour-cuff"), gallery(t, "mooring-ring")} {
		once := written(t, d)
		back := read(t, once)
		assert.Equal(t, d, back)
		assert.Equal(t, once, written(t, back), "the same bytes")
		assert.True(t, strings.HasSuffix(once, "}\n"))
		assert.Regexp(t, `^{\n  "fretband": [2345],\n  "name"`, once)
	}
}

// full is a design with text that needs care.
func full() pattern.Design {
	return pattern.Design{
		Name: `"Sluice" <&> ½ Ω`, Note: "two\nlines,\ta tab, \u2028",
		Band: unroll.Band{
			Kind: unroll.Bangle, Inside: unroll.Inside{By: unroll.ByWrist, WristMM: 165.25, EaseMM: 1.0 / 3, Ratio: 1.1},
			Thickness: unroll.Thickness{BSGauge: 16}, WidthMM: 12, EndWidthMM: 9.5,
			Joint: unroll.Soldered, JointMM: 3, NeutralK: 0.45,
		},
		Metal:  pattern.Metal{Alloy: pattern.OwnAlloy, DensityGCM3: 9.87, PricePerG: 0.125, Currency: "€"},
		Rules:  pattern.DesignRules{BridgeMM: 1, RimMM: 1.5},
		Fields: []pattern.Field{{Motif: "lattice", Rows: 2, Repeats: 20, Numbers: map[string]float64{"angle_deg": 60}}},
		Reserves: []pattern.Reserve{
			{Shape: pattern.RectangleShape, XMM: -12, WidthMM: 5, HeightMM: 3, MarginMM: 0.5, Note: "hallmark"},
			{Shape: pattern.PathShape, Path: "M0 0A4 4 0 0 1 8 0L4 6Z", RotationDeg: 30, MarginMM: 1},
		},
	}
}

// rich is a design that has something in every field of the format.
func rich() pattern.Design {
	d := full()
	d.Fields = append(d.Fields, pattern.Field{
		Name: "Medallion", Motif: motif.OwnKey, Path: "M0 0L6 0A3 3 0 0 1 6 6L0 5Z", LeftHalf: pattern.LeftMirrored, Rows: 2, PitchMM: 4, Stagger: 0.25, Phase: 0.5, RotationDeg: 30,
		Mirror: pattern.MirrorBoth, Edge: pattern.EdgeWhole, Follow: pattern.FollowClip, BridgeMM: 1.5,
		Area:       pattern.Area{Shape: pattern.OvalShape, XMM: 3, YMM: -1, WidthMM: 20, HeightMM: 8, RotationDeg: 10},
		GradeAlong: []pattern.Grade{{At: -1, Size: 0.5}, {At: 1, Size: 2}}, GradeAcross: []pattern.Grade{{At: 0, Size: 1.5}}, GradeBridge: 0.5,
		BridgeAlong: []pattern.Grade{{At: -0.5, Size: 1.5}, {At: 1, Size: 1}},
	}, pattern.Field{Motif: "circles", Rows: 1, Repeats: 5, WiderAlongMM: 0.3, WiderAcrossMM: 0.2, Area: pattern.Area{Shape: pattern.RunShape, FromMM: -60, ToMM: -30}},
		pattern.Field{Motif: "squares", Rows: 1, Repeats: 2, Area: pattern.Area{Shape: pattern.PathShape, Path: "M0 0H9V9Z"}})
	d.Rules.CornerMM, d.Rules.SmallestMM = 0.3, 0.9
	d.Rules.RimAlong = []pattern.Grade{{At: -1, Size: 0.7}, {At: 0.5, Size: 1}}
	d.Reserves[0].Count, d.Reserves[0].SpacingMM, d.Reserves[0].YMM = 3, 9, 1.5
	d.Engravings = []pattern.Engraving{
		{Kind: pattern.TextEngraving, Text: "No 7", HeightMM: 2, XMM: 4, YMM: -2, MarginMM: 1, Note: "number"},
		{Kind: pattern.LineEngraving, LengthMM: 30, RotationDeg: 90, MarginMM: -1, Side: pattern.InsideFace},
		{Kind: pattern.PathEngraving, Path: "M0 0C1 1 2 1 3 0", MarginMM: 0.5},
	}
	d.Edits = []pattern.Edit{
		{Do: pattern.LeaveSolid, At: []pattern.Spot{{XMM: 1, YMM: 2}, {XMM: -4}}, Mirror: pattern.MirrorAlong},
		{Do: pattern.Change, At: []pattern.Spot{{}}, MoveXMM: 1, MoveYMM: -1, RotationDeg: 15, Scale: 1.2, Note: "nearer to the stone"},
		{Do: pattern.Replace, At: []pattern.Spot{{YMM: 3}}, Shape: pattern.CircleShape, WidthMM: 3},
		{Do: pattern.Add, At: []pattern.Spot{{XMM: 20}}, Shape: pattern.PathShape, Path: "M0 0L3 0L0 4Z", WidthMM: 3, HeightMM: 5},
		{Do: pattern.Tie, At: []pattern.Spot{{XMM: -20, YMM: 2}}, SpanXMM: 3, SpanYMM: -4, BowMM: 1, WidthMM: 2},
	}
	d.Added = []pattern.Added{
		{Kind: pattern.StonePart, Note: "garnet", Cut: "oval", Gem: "own", SG: 3.9, WidthMM: 6, HeightMM: 4, DepthMM: 2.5, RotationDeg: 20, XMM: 12, YMM: 1, Count: 3, SpacingMM: 9, Setting: pattern.Bezel, WallMM: 0.35, RiseMM: 2, BaseMM: 0.4, Alloy: "silver-999", Price: 12.5, MarginMM: 0.5},
		{Kind: pattern.StonePart, Cut: "round", Gem: "diamond", WidthMM: 1.5, DepthMM: 0.9, Row: pattern.RowOval, RowWidthMM: 9, RowHeightMM: 6, XMM: -20, Count: 8, Setting: pattern.Prongs, WeightG: 0.02},
		{Kind: pattern.WirePart, Section: "oval", WidthMM: 1.4, HeightMM: 0.8, Row: pattern.RowBoth},
		{Kind: pattern.BeadsPart, WidthMM: 0.8, GapMM: 0.2, Row: pattern.RowTop, InsetMM: 1.5},
		{Kind: pattern.OtherPart, Note: "clasp", Seat: pattern.RectangleShape, XMM: 60, WidthMM: 5, HeightMM: 4, WeightG: 0.8},
	}
	d.Rules.Process = "laser"
	d.Work = pattern.Work{KerfMM: 0.15, CutMMMin: 12, OpeningMin: 1.5, BladeMM: 200, HourPrice: 45, LeastAngleDeg: 25}
	d.Wear = pattern.Wear{Temper: "annealed", ProofMPa: 130, ModulusGPa: 76, OpenMM: 12}
	d.Accepted = []pattern.Accepted{{Finding: "pilot-hole", Reason: "cut by laser"}, {Finding: "tongue", At: pattern.Spot{XMM: 3, YMM: 1}, Reason: "filed round"}}
	d.Underlay = pattern.Underlay{File: "sketches/wave.jpg", XMM: 2, YMM: -1.5, WidthMM: 120, RotationDeg: 3}
	v := full()
	v.Name = "Another"
	d.Variants = []pattern.Design{v}
	return d
}

func gallery(t *testing.T, name string) pattern.Design {
	t.Helper()
	d, err := GalleryDesign(name)
	require.NoError(t, err)
	return d
}

func TestReadingForgivesOrderSpacesAndAByteOrderMark(t *testing.T) {
	d := gallery(t, "tide-bangle")
	s := written(t, d)
	assert.Equal(t, d, read(t, "\ufeff"+s))
	assert.Equal(t, d, read(t, strings.ReplaceAll(s, "\n", "\r\n")))
	assert.Equal(t, d, read(t, strings.ReplaceAll(s, `"rows": 2`, `"rows": 2.0`)))
	moved := strings.Replace(s, "  \"fretband\": 2,\n", "", 1)
	moved = strings.TrimSuffix(moved, "\n}\n") + ",\n\"fretband\": 2}"
	assert.Equal(t, d, read(t, moved))
}

func TestADesignThatCouldNotBeReadAgainIsNotWritten(t *testing.T) {
	d := gallery(t, "harbour-cuff")
	path := filepath.Join(t.TempDir(), "cuff.json")
	require.NoError(t, WriteFile(path, d))
	before, _ := os.ReadFile(path)
	d.Fields[0].Rows = -3
	require.ErrorContains(t, WriteFile(path, d), "fields[0].rows")
	require.ErrorContains(t, Write(&bytes.Buffer{}, d), "fields[0].rows")
	after, _ := os.ReadFile(path)
	assert.Equal(t, before, after)
}

func TestADesignWithoutFieldsCanBeReadAgain(t *testing.T) {
	d := gallery(t, "harbour-cuff")
	d.Fields = nil
	v := d
	d.Variants = []pattern.Design{v}
	path := filepath.Join(t.TempDir(), "plain.json")
	require.NoError(t, WriteFile(path, d))
	again, err := ReadFile(path)
	require.NoError(t, err)
	assert.Empty(t, again.Fields)
	assert.Len(t, again.Variants, 1)
	assert.Nil(t, d.Fields, "writing changes no design")
	assert.Nil(t, d.Variants[0].Fields, "nor its variants")
}

func TestSavingReplacesTheFileAndLeavesNothingElse(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "ring.json")
	d := gallery(t, "mooring-ring")
	require.NoError(t, WriteFile(path, d))
	d.Name = "Second"
	require.NoError(t, WriteFile(path, d))
	back, err := ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, d, back)
	entries, _ := os.ReadDir(dir)
	assert.Len(t, entries, 1)

	require.Error(t, WriteFile(filepath.Join(dir, "none", "ring.json"), d))
	require.ErrorContains(t, WriteFile(dir, d), "is a folder")
}

func TestSavingKeepsPermissionsAndSymbolicLinks(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("permissions and links are another matter there")
	}
	dir := t.TempDir()
	d := gallery(t, "mooring-ring")
	path := filepath.Join(dir, "ring.json")
	require.NoError(t, WriteFile(path, d))
	require.NoError(t, os.Chmod(path, 0o640))
	link := filepath.Join(dir, "link.json")
	require.NoError(t, os.Symlink("ring.json", link))
	require.NoError(t, WriteFile(link, d))
	info, err := os.Lstat(link)
	require.NoError(t, err)
	assert.NotZero(t, info.Mode()&os.ModeSymlink, "the link survives")
	info, err = os.Stat(path)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o640), info.Mode().Perm())

	// A link to a file that is not there yet.
	require.NoError(t, os.Symlink("later.json", filepath.Join(dir, "to-later.json")))
	require.NoError(t, WriteFile(filepath.Join(dir, "to-later.json"), d))
	_, err = ReadFile(filepath.Join(dir, "later.json"))
	require.NoError(t, err)
	// A link to itself.
	loop := filepath.Join(dir, "loop.json")
	require.NoError(t, os.Symlink("loop.json", loop))
	require.ErrorContains(t, WriteFile(loop, d), "circle")
	// Write-protected.
	require.NoError(t, os.Chmod(path, 0o440))
	require.ErrorContains(t, WriteFile(path, d), "write-protected")
}

// Files of the first version, as they were written then, hold the gallery's designs.
func TestAFileOfVersionOneIsTheSameDesign(t *testing.T) {
	files, err := filepath.Glob("testdata/older/*.json")
	require.NoError(t, err)
	require.Len(t, files, 3)
	for _, f := range files {
		old, err := ReadFile(f)
		require.NoError(t, err)
		assert.Equal(t, gallery(t, strings.TrimSuffix(filepath.Base(f), ".json")), old)
	}
}

// rich says something in every field; a field that it leaves empty is not tested.
func TestTheRichDesignUsesEveryField(t *testing.T) {
	used := map[string]bool{}
	var walk func(v reflect.Value)
	walk = func(v reflect.Value) {
		switch v.Kind() {
		case reflect.Slice:
			for i := range v.Len() {
				walk(v.Index(i))
			}
		case reflect.Struct:
			for i, tag := range tagsOf(v.Type()) {
				key := v.Type().Name() + "." + tag.name
				used[key] = used[key] || !v.Field(i).IsZero()
				walk(v.Field(i))
			}
		}
	}
	walk(reflect.ValueOf(rich()))
	for key, is := range used {
		if !strings.HasPrefix(key, "Band.") && !strings.HasPrefix(key, "Inside.") && !strings.HasPrefix(key, "Thickness.") {
			assert.True(t, is, "rich gives %s no value", key)
		}
	}
}

func TestEdits(t *testing.T) {
	// The textbook example of Levenshtein's distance.
	assert.Equal(t, 3, edits("kitten", "sitting"))
	assert.Equal(t, 0, edits("rows", "rows"))
	assert.Equal(t, 4, edits("", "rows"))
}

// Whatever bytes come in: no panic, an error of one line, or a design that
// survives writing and reading.
func FuzzRead(f *testing.F) {
	for _, e := range testdata.Gallery() {
		f.Add(e.JSON)
	}
	files, _ := filepath.Glob("testdata/broken/*.json")
	for _, name := range files {
		if b, err := os.ReadFile(name); err == nil && len(b) < 4000 {
			f.Add(b)
		}
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		d, err := Read(bytes.NewReader(b))
		if err != nil {
			if strings.ContainsAny(err.Error(), "\n\r") || err.Error() == "" {
				t.Fatalf("%q", err)
			}
			return
		}
		var first, second bytes.Buffer
		if err := Write(&first, d); err != nil {
			t.Fatal(err)
		}
		back, err := Read(bytes.NewReader(first.Bytes()))
		if err != nil {
			t.Fatalf("%v\n%s", err, first.Bytes())
		}
		if err := Write(&second, back); err != nil || !bytes.Equal(first.Bytes(), second.Bytes()) {
			t.Fatalf("%v\n%s\n%s", err, first.Bytes(), second.Bytes())
		}
	})
}

// What a shell puts into a file in UTF-16, or an editor in UTF-8 with a mark, is read as the
// same design. The codes are those of the standard library.
func TestADesignIsReadInTheCodesThatShellsWrite(t *testing.T) {
	d := full()
	var plain bytes.Buffer
	require.NoError(t, Write(&plain, d))
	units := utf16.Encode([]rune("\uFEFF" + plain.String()))
	little, big := new(bytes.Buffer), new(bytes.Buffer)
	require.NoError(t, binary.Write(little, binary.LittleEndian, units))
	require.NoError(t, binary.Write(big, binary.BigEndian, units))
	want, err := Read(bytes.NewReader(plain.Bytes()))
	require.NoError(t, err)
	for name, data := range map[string][]byte{"UTF-16 LE": little.Bytes(), "UTF-16 BE": big.Bytes(), "UTF-8": []byte("\uFEFF" + plain.String())} {
		got, err := Read(bytes.NewReader(data))
		require.NoError(t, err, name)
		assert.Equal(t, want, got, name)
	}
	_, err = Read(bytes.NewReader(little.Bytes()[:little.Len()-1]))
	assert.ErrorContains(t, err, "ends within a character")
}

func TestDesignFilesAreKnownByTheirNames(t *testing.T) {
	for name, is := range map[string]bool{"a.fretband": true, "a.json": true, "A.FRETBAND": true, "a.b.Json": true, "a": false, "a.svg": false, "fretband": false} {
		assert.Equal(t, is, IsFile(name), name)
	}
	assert.Equal(t, "a.b", NameOf("x/a.b.fretband"))
	assert.Equal(t, "a.svg", NameOf("x/a.svg"))
}
