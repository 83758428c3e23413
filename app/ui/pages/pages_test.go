package pages

import (
	"testing"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/motif"
	"fretband/pattern/project"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/require"
)

func TestEveryMotifHasAPictureOfEnoughOpenings(t *testing.T) {
	k := kit.New("light")
	for _, m := range append(motif.All(), motif.Motif{Key: motif.OwnKey}) {
		f := pattern.Field{Motif: m.Key, Stagger: m.Usual.Stagger}
		if m.Key == motif.OwnKey {
			f.Path = sampleOwn
		}
		p := newMotifPicture(k)
		p.show(f, kit.MetalOf("copper"))
		require.GreaterOrEqual(t, len(p.shapes), 8, m.Key)
		require.Less(t, len(p.shapes), 200, m.Key)
	}
	p := newMotifPicture(k)
	p.show(pattern.Field{Motif: motif.OwnKey, Path: "M0 0"}, kit.MetalOf("copper"))
	require.Empty(t, p.shapes)
}

func TestWhatIsLetStandHasAHollowSign(t *testing.T) {
	d := kit.DressNamed("light")
	for _, s := range []check.Severity{check.Caution, check.Breach} {
		c := d.Severity(s)
		r, _, _, _ := drawSign(s, 33, c, c).At(16, 20).RGBA()
		require.True(t, near8(r, c.R), s)
		r, _, _, _ = drawSign(s, 33, c, d.Panel).At(16, 20).RGBA()
		require.True(t, near8(r, d.Panel.R), s)
	}
}

func TestTheFilesAreOfTheDesignAsItStandsNotOfThePictureOfAnEarlierOne(t *testing.T) {
	d, err := project.GalleryDesign(project.Gallery()[0])
	require.NoError(t, err)
	was := d
	sheet, report, err := check.Lay(d)
	require.NoError(t, err)
	old := app.NewScene(1, sheet, report)
	d.Metal.Alloy = "brass-cz108"
	for _, a := range pattern.Alloys() {
		if a.Key != old.Sheet.Design.Metal.Alloy {
			d.Metal.Alloy = a.Key
			break
		}
	}
	s, r, err := laidOf(old, d)
	require.NoError(t, err)
	require.Equal(t, d.Metal.Alloy, s.Design.Metal.Alloy)
	require.NotEqual(t, old.Report.Left, r.Left)
	s, _, err = laidOf(old, was)
	require.NoError(t, err)
	require.Same(t, old.Sheet, s)
}

func TestFolderAddressesAreThoseOfRFC8089(t *testing.T) {
	for path, want := range map[string]string{
		"/home/bench/a b": "file:///home/bench/a%20b",
		"C:/files":        "file:///C:/files", // RFC 8089, appendix E.2
	} {
		require.Equal(t, want, folderURL(path).String())
	}
}

func TestAnErrorIsReadAsASentence(t *testing.T) {
	for s, want := range map[string]string{
		"kerf 50 mm: must be 0 to 1 mm":       "Kerf 50 mm: must be 0 to 1 mm.",
		"open /a/b: permission denied.":       "Open /a/b: permission denied.",
		"harbour-cuff.dxf: opening 1 is gone": "harbour-cuff.dxf: opening 1 is gone.",
		"/a/b: is not a folder":               "/a/b: is not a folder.",
	} {
		require.Equal(t, want, sentence(s))
	}
}

func near8(a uint32, b uint8) bool {
	d := int(a>>8) - int(b)
	return d < 40 && d > -40
}

// What an entry says while it is empty fits into it.
func TestWordsOfEmptyEntriesFit(t *testing.T) {
	a := test.NewApp()
	t.Cleanup(a.Quit)
	a.Settings().SetTheme(kit.New("light").Dress)
	table := pattern.Table()
	for i := range table {
		room := float32(entryWidth) - 2*theme.InnerPadding() - 4
		require.Less(t, fyne.MeasureText(table[i].Empty, 13, fyne.TextStyle{}).Width, room, table[i].Key())
	}
}
