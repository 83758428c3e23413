package main

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"fretband/export/picture"
	"fretband/export/report"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project/disk"
	"fretband/pattern/strength"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// strengthOn solves how a design carries load and tells it.
func strengthOn(args []string, in io.Reader, out io.Writer) (int, error) {
	flags := flag.NewFlagSet("strength", flag.ContinueOnError)
	asJSON := flags.Bool("json", false, "")
	var ask check.StrengthAsk
	flags.BoolVar(&ask.Coarse, "coarse", false, "")
	flags.Float64Var(&ask.OpenMM, "open", 0, "")
	memory := flags.Float64("memory", 0, "")
	drawn := flags.String("picture", "", "")
	bent := flags.Bool("bent", false, "")
	replace := flags.Bool("replace", false, "")
	flags.Func("push", "", func(text string) error {
		p, err := spotOf(text)
		ask.Pushes = append(ask.Pushes, p)
		return err
	})
	rest, err := parse(flags, args, 1)
	switch {
	case err != nil:
		return refused, err
	case len(rest) == 0:
		return refused, errors.New("strength: name a design file; fretcut gallery lists built-in ones")
	case !(ask.OpenMM >= 0 && ask.OpenMM <= 100):
		return refused, errors.New("strength: -open takes 0 to 100 mm")
	case !(*memory >= 0 && *memory <= 1e6):
		return refused, errors.New("strength: -memory takes 0 to 1000000 MB")
	}
	ask.Memory = int64(*memory * 1e6)
	if *bent && *drawn == "" {
		return refused, errors.New("strength: -bent goes with -picture FILE: it adds the bent band to that picture")
	}
	if *drawn != "" {
		if err := pictureAllowed(*drawn, *replace); err != nil {
			return refused, fmt.Errorf("strength: %w", err)
		}
	}
	from := itemGiven(rest[0], in)
	s, r, err := load(from)
	if err != nil {
		return refused, err
	}
	start := time.Now()
	f, err := check.StrengthOf(context.Background(), s, r, ask)
	if err != nil {
		return refused, fmt.Errorf("%s: %w", from, err)
	}
	took := time.Since(start)
	if *drawn != "" {
		if err := drawStress(*drawn, *bent, s, f); err != nil {
			return refused, err
		}
	}
	if *asJSON {
		return fine, report.StrengthJSON(out, s, r, f, took)
	}
	return fine, report.Strength(out, s, r, f)
}

// spotOf reads a place on the blank: X,Y in mm.
func spotOf(text string) (plane.Point, error) {
	x, y, ok := strings.Cut(text, ",")
	px, errX := strconv.ParseFloat(strings.TrimSpace(x), 64)
	py, errY := strconv.ParseFloat(strings.TrimSpace(y), 64)
	if !ok || errX != nil || errY != nil {
		return plane.Point{}, fmt.Errorf("%s is no place; write X,Y in mm on the blank, such as -push 12.5,-3", unroll.Quote(text))
	}
	return plane.Pt(px, py), nil
}

// pictureAllowed refuses a file that is neither of our two kinds or that is there.
func pictureAllowed(file string, replace bool) error {
	switch strings.ToLower(filepath.Ext(file)) {
	case ".svg", ".png":
	default:
		return fmt.Errorf("-picture %s: name a file that ends in .svg or .png", file)
	}
	if _, err := os.Lstat(file); replace || errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return fmt.Errorf("-picture %s: is there, so nothing is written: choose another name, or say -replace", file)
}

// drawStress writes the picture of the first case, with the bent band under that load if it
// is wanted.
func drawStress(file string, bent bool, s *pattern.Sheet, f *strength.Figures) error {
	p := picture.NewStressPicture(s, f, f.Cases[0], s.Design.Temper().ProofMPa)
	if bent {
		if err := p.AddBent(); err != nil {
			return err
		}
	}
	write := p.WriteSVG
	if strings.EqualFold(filepath.Ext(file), ".png") {
		write = p.WritePNG
	}
	var data bytes.Buffer
	if err := write(&data); err != nil {
		return err
	}
	return disk.WriteFile(file, data.Bytes(), disk.Shared)
}
