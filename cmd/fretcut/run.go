package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
)

// Exit codes, as README promises them.
const (
	fine    = 0
	breach  = 1 // the design breaks a rule, or no choice reaches the goal
	refused = 2 // bad input or usage
)

const usage = `usage:
  fretcut report [-json] DESIGN            what the design weighs and what to know of it
  fretcut make -out DIR [-paper a4|letter|a3] [-kerf MM] [-process saw|laser] [-solid stl,3mf] DESIGN
                                           its cut files and saw template; with -solid
                                           the bent band too, for casting patterns
  fretcut make -for bench|laser|client|casting -out DIR [-date TEXT] DESIGN
                                           just what that receiver needs, with a job sheet
  fretcut reach (-left GRAMS | -taken PERCENT | -lightest) [-json] [-way KEY -out FILE] DESIGN
                                           ways to bring it to that weight, side by side;
                                           with -out the one of that key is written
  fretcut gallery [NAME]                   the built-in designs, or one of them to standard output
`

func run(args []string, out, errs io.Writer) int {
	code, err := dispatch(args, out)
	if err == nil {
		return code
	}
	fmt.Fprintf(errs, "fretcut: %s\n", strings.ReplaceAll(err.Error(), "\n", "; "))
	if code == fine {
		code = refused
	}
	return code
}

func dispatch(args []string, out io.Writer) (int, error) {
	if len(args) == 0 {
		return refused, fmt.Errorf("say what to do: report, make, reach or gallery; fretcut help tells more")
	}
	switch args[0] {
	case "report":
		return report(args[1:], out)
	case "make":
		return makeFiles(args[1:], out)
	case "reach":
		return reach(args[1:], out)
	case "gallery":
		return gallery(args[1:], out)
	case "help", "-h", "-help", "--help":
		_, err := io.WriteString(out, usage)
		return fine, err
	}
	return refused, fmt.Errorf("%q is no command; use report, make, reach or gallery", args[0])
}

// parse reads the flags, which may stand before or after the one DESIGN.
func parse(fs *flag.FlagSet, args []string, operands int) ([]string, error) {
	fs.SetOutput(io.Discard)
	var rest []string
	for {
		if err := fs.Parse(args); err != nil {
			return nil, fmt.Errorf("%s: %w; fretcut help tells more", fs.Name(), err)
		}
		if fs.NArg() == 0 {
			break
		}
		rest = append(rest, fs.Arg(0))
		args = fs.Args()[1:]
	}
	if len(rest) > operands {
		return nil, fmt.Errorf("%s: %q is one too many; fretcut help tells more", fs.Name(), rest[operands])
	}
	return rest, nil
}

// load reads and lays out the design at path.
func load(path string) (*pattern.Sheet, *check.Report, error) {
	d, err := project.ReadFile(path)
	if err != nil {
		return nil, nil, err
	}
	s, err := pattern.Lay(d)
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", path, err)
	}
	return s, check.All(s), nil
}

func verdict(r *check.Report) int {
	if r.Breached() {
		return breach
	}
	return fine
}

func report(args []string, out io.Writer) (int, error) {
	fs := flag.NewFlagSet("report", flag.ContinueOnError)
	asJSON := fs.Bool("json", false, "")
	rest, err := parse(fs, args, 1)
	if err != nil {
		return refused, err
	}
	if len(rest) == 0 {
		return refused, errors.New("report: name a design file; fretcut gallery lists built-in ones")
	}
	s, r, err := load(rest[0])
	if err != nil {
		return refused, err
	}
	write := export.ReportText
	if *asJSON {
		write = export.ReportJSON
	}
	return verdict(r), write(out, s, r)
}

func makeFiles(args []string, out io.Writer) (int, error) {
	fs := flag.NewFlagSet("make", flag.ContinueOnError)
	dir := fs.String("out", "", "")
	var o export.Options
	fs.StringVar(&o.Paper, "paper", "a4", "")
	fs.StringVar(&o.Process, "process", "", "")
	fs.Float64Var(&o.KerfMM, "kerf", 0, "")
	fs.Func("solid", "", func(keys string) error {
		o.Solids = strings.Split(keys, ",")
		return o.Check()
	})
	to := fs.String("for", "", "")
	fs.StringVar(&o.Date, "date", "", "")
	rest, err := parse(fs, args, 1)
	if err != nil {
		return refused, err
	}
	if *dir == "" {
		return refused, errors.New("make: say where with -out DIR")
	}
	if len(rest) == 0 {
		return refused, errors.New("make: name a design file; fretcut gallery lists built-in ones")
	}
	if err := o.Check(); err != nil {
		return refused, fmt.Errorf("make: %w", err)
	}
	s, r, err := load(rest[0])
	if err != nil {
		return refused, err
	}
	name := strings.TrimSuffix(filepath.Base(rest[0]), filepath.Ext(rest[0]))
	write := export.WriteAll
	if *to != "" {
		receiver, ok := export.ReceiverByKey(*to)
		if !ok {
			var keys []string
			for _, v := range export.Receivers() {
				keys = append(keys, v.Key)
			}
			return refused, fmt.Errorf("make: -for %q: must be one of %s", *to, strings.Join(keys, ", "))
		}
		write = func(dir, name string, s *pattern.Sheet, r *check.Report, o export.Options) ([]string, error) {
			return export.HandOver(dir, name, s, r, o, receiver)
		}
	}
	files, err := write(*dir, name, s, r, o)
	if errors.Is(err, export.ErrPieces) {
		return breach, err
	}
	if err != nil {
		return refused, err
	}
	for _, f := range files {
		fmt.Fprintln(out, f)
	}
	for _, f := range r.Findings {
		switch {
		case f.Open():
			fmt.Fprintf(out, "%s: %s %s\n", f.Severity, f.What, f.Mend)
		case f.Accepted != "":
			fmt.Fprintf(out, "%s, let stand: %s Reason: %s\n", f.Severity, f.What, f.Accepted)
		}
	}
	return verdict(r), nil
}

func gallery(args []string, out io.Writer) (int, error) {
	fs := flag.NewFlagSet("gallery", flag.ContinueOnError)
	rest, err := parse(fs, args, 1)
	if err != nil {
		return refused, err
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
	return fine, project.Write(out, d)
}
