package main

import (
	"flag"
	"fmt"
	"io"

	"fretband/pattern/project"
)

// gallery lists the built-in designs, or writes one of them.
func gallery(args []string, out io.Writer) (int, error) {
	fs := flag.NewFlagSet("gallery", flag.ContinueOnError)
	file := fs.String("out", "", "")
	replace := fs.Bool("replace", false, "")
	rest, err := parse(fs, args, 1)
	if err != nil {
		return refused, err
	}
	if len(rest) == 0 && *file != "" {
		return refused, fmt.Errorf("gallery: name the design to write to %s", *file)
	}
	if len(rest) == 0 {
		for _, name := range project.Gallery() {
			fmt.Fprintln(out, name)
		}
		return fine, nil
	}
	d, err := project.GalleryDesign(rest[0])
	if err != nil {
		return refused, err
	}
	if *file != "" {
		if err := replaceable(*file, d.Name); err != nil && !*replace {
			return refused, err
		}
		return fine, project.WriteFile(*file, d)
	}
	return fine, project.Write(out, d)
}
