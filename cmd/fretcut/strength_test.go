package main

import (
	"encoding/json"
	"encoding/xml"
	"errors"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fretband/pattern"
)

func TestStrengthTellsProgramsAndPeople(t *testing.T) {
	path := galleryFile(t, "mooring-ring", nil)
	code, out, errs := call("strength", "-json", "-coarse", path)
	require.Equal(t, fine, code, errs)
	var j struct {
		Cases []map[string]any
		Rims  *float64 `json:"rim_share"`
		Idle  *float64 `json:"idle_mm2"`
		IdleG *float64 `json:"idle_g"`
		Size  int      `json:"freedoms"`
	}
	require.NoError(t, json.Unmarshal([]byte(out), &j))
	require.NotEmpty(t, j.Cases)
	for _, key := range []string{"case", "mm_per_n", "at_mm", "force_n", "peak_mpa", "p99_mpa", "peak_at", "first_yield", "along_bridges_yield", "plain_mm_per_n"} {
		require.Contains(t, j.Cases[0], key)
		require.NotNil(t, j.Cases[0][key], key)
	}
	require.Equal(t, "squeeze", j.Cases[0]["case"])
	require.NotNil(t, j.Rims)
	require.NotNil(t, j.Idle)
	require.NotNil(t, j.IdleG)
	require.Greater(t, j.Size, 1000)

	code, out, errs = call("strength", "-coarse", "-push", "0,0", path)
	require.Equal(t, fine, code, errs)
	require.Contains(t, out, "pushed outwards or inwards")
	require.Contains(t, out, "not a promise")
}

func TestWithoutAProofStressNothingIsSaidOfYield(t *testing.T) {
	path := galleryFile(t, "mooring-ring", func(d *pattern.Design) {
		d.Metal.Alloy, d.Wear.ModulusGPa = "gold-585-yellow", 90
	})
	code, out, errs := call("strength", "-json", "-coarse", path)
	require.Equal(t, fine, code, errs)
	require.Contains(t, out, `"first_yield": null`)
	require.Contains(t, out, `"along_bridges_yield": null`)
}

func TestStrengthRefusesWhatItCantDo(t *testing.T) {
	path := galleryFile(t, "mooring-ring", nil)
	unknown := galleryFile(t, "mooring-ring", func(d *pattern.Design) { d.Metal.Alloy = "gold-585-yellow" })
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{}, "name a design file"},
		{[]string{"-push", "1", path}, "is no place"},
		{[]string{"-open", "-1", path}, "-open takes"},
		{[]string{"-memory", "1", path}, "MB of memory"},
		{[]string{"-picture", "stress.bmp", path}, ".svg or .png"},
		{[]string{"-bent", path}, "goes with -picture"},
		{[]string{unknown}, "Young's modulus"},
	} {
		code, out, errs := call(append([]string{"strength"}, c.args...)...)
		require.Equal(t, refused, code, c.args)
		require.Empty(t, out)
		require.Contains(t, errs, c.says)
	}
}

func TestThePictureOfStressOpens(t *testing.T) {
	path := galleryFile(t, "mooring-ring", nil)
	dir := t.TempDir()
	for _, name := range []string{"a.svg", "a.PNG"} {
		file := filepath.Join(dir, name)
		code, _, errs := call("strength", "-coarse", "-picture", file, path)
		require.Equal(t, fine, code, errs)
		code, _, errs = call("strength", "-coarse", "-picture", file, path)
		require.Equal(t, refused, code)
		require.Contains(t, errs, "-replace")
		alone, err := os.Stat(file)
		require.NoError(t, err)
		code, _, errs = call("strength", "-coarse", "-replace", "-bent", "-picture", file, path)
		require.Equal(t, fine, code, errs)
		both, err := os.Stat(file)
		require.NoError(t, err)
		require.Greater(t, both.Size(), alone.Size()+20000, "the bent band is in it")
		f, err := os.Open(file)
		require.NoError(t, err)
		defer f.Close()
		if strings.HasSuffix(name, "svg") {
			said := false
			for d := xml.NewDecoder(f); ; {
				token, e := d.Token()
				if err = e; err != nil {
					break
				}
				words, _ := token.(xml.CharData)
				said = said || strings.Contains(string(words), "Bending drawn 50 times below")
			}
			require.True(t, errors.Is(err, io.EOF), err)
			require.True(t, said, "how far it is drawn")
			continue
		}
		img, err := png.Decode(f)
		require.NoError(t, err)
		require.Greater(t, img.Bounds().Dx(), 1000)
	}
}
