//go:build cgo

// Fretband opens the window. Usage:
//
//	fretband [-log FILE] [-size 1400x900] [-theme light|dark] [-gallery NAME | DESIGN]
//	fretband -version
package main

import (
	"errors"
	"flag"
	"fmt"
	stdlog "log"
	"os"

	"fretband/app"
	"fretband/app/ui"
	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/project"
	"fretband/unroll"

	"fyne.io/fyne/v2"
	fyneapp "fyne.io/fyne/v2/app"
)

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "fretband:", err)
		os.Exit(2)
	}
}

func run(args []string) (err error) {
	f := flag.NewFlagSet("fretband", flag.ContinueOnError)
	logFile := f.String("log", "", "write every event to this `file`, one a line")
	size := f.String("size", "", "of the window, as `1400x900`")
	dress := f.String("theme", "", "`light` or dark; what was chosen last if left out")
	gallery := f.String("gallery", "", "open this `design` of the gallery")
	version := f.Bool("version", false, "say which version this is, and of which commit")
	if err := f.Parse(args); errors.Is(err, flag.ErrHelp) {
		return nil
	} else if err != nil {
		return err
	}
	if *version {
		fmt.Println("fretband " + export.Built())
		return nil
	}
	dir, err := app.ConfigDir()
	if err != nil {
		return fmt.Errorf("no folder for settings: %w; set HOME", err)
	}
	settings, settingsErr := app.ReadSettings(dir)
	win, err := windowSize(*size, settings)
	if err != nil {
		return err
	}
	switch *dress {
	case "":
	case "light", "dark":
		settings.Theme = *dress
	default:
		return fmt.Errorf("-theme %q: must be light or dark", *dress)
	}
	doc, err := document(f.Args(), *gallery)
	if err != nil {
		return err
	}
	if doc.Path != "" {
		settings.Opened(doc.Path)
	}
	if err := checkDisplay(); err != nil {
		return err
	}
	starting := &startLog{out: os.Stderr, fail: func() {
		fmt.Fprintln(os.Stderr, "fretband:", errNoWindow)
		os.Exit(2)
	}}
	stdlog.SetOutput(starting)
	defer starting.panicked(&err)
	log := app.NewLog(nil)
	if *logFile != "" {
		out, err := os.Create(*logFile)
		if err != nil {
			return err
		}
		defer out.Close()
		log = app.NewLog(out)
	}
	followTextScale()
	a := fyneapp.NewWithID("fretband.window")
	a.SetIcon(icon)
	w := ui.NewWindow(ui.Options{App: a, Log: log, Dir: dir, Settings: settings, Document: doc, Size: win, Begin: len(f.Args()) == 0 && *gallery == ""})
	if settingsErr != nil {
		log.Event("error", "what", settingsErr)
	}
	a.Lifecycle().SetOnStarted(func() {
		starting.started()
		w.Started(app.LeftBehind(dir))
	})
	w.Fyne().SetMaster()
	w.Fyne().ShowAndRun()
	return nil
}

func windowSize(flag string, s app.Settings) (fyne.Size, error) {
	if flag == "" {
		return fyne.NewSize(s.Width, s.Height), nil
	}
	var w, h float32
	if n, err := fmt.Sscanf(flag, "%fx%f", &w, &h); n != 2 || err != nil || w < 300 || h < 300 || w > 10000 || h > 10000 {
		return fyne.Size{}, fmt.Errorf("-size %q: must be as 1400x900, 300 to 10000", flag)
	}
	return fyne.NewSize(w, h), nil
}

// document opens what was asked for, or begins a band.
func document(args []string, gallery string) (*app.Document, error) {
	switch {
	case len(args) > 1 || len(args) == 1 && gallery != "":
		return nil, errors.New("one design at a time")
	case len(args) == 1:
		return app.Open(args[0])
	case gallery == "":
		return app.NewDocument(pattern.Begin(unroll.Cuff)), nil
	}
	d, err := project.GalleryDesign(gallery)
	if err != nil {
		return nil, err
	}
	return app.NewDocument(d), nil
}
