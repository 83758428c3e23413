package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"runtime/debug"
	"strings"

	"fretband/export"
	"fretband/unroll"
)

// Exit codes, as README promises them.
const (
	fine    = 0
	breach  = 1 // the design breaks a rule, or no way reaches the goal
	refused = 2 // bad input or usage
	ours    = 3 // a fault of the program itself: nothing is written
)

func run(args []string, in io.Reader, out, errs io.Writer) (code int) {
	defer func() {
		if what := recover(); what != nil {
			sayError(errs, &unroll.ProgramError{What: fmt.Sprintf("it broke off: %v", what)})
			_, _ = errs.Write(debug.Stack())
			code = ours
		}
	}()
	code, err := dispatch(args, in, out, errs)
	if errors.Is(err, flag.ErrHelp) {
		code, err = dispatch([]string{"help"}, in, out, errs)
	}
	if err == nil {
		return code
	}
	sayError(errs, err)
	return max(code, exitOf(err))
}

// exitOf returns the exit code of an error.
func exitOf(err error) int {
	var program *unroll.ProgramError
	switch {
	case errors.As(err, &program):
		return ours
	case errors.Is(err, export.ErrPieces):
		return breach
	}
	return refused
}

// sayError tells one error in one line.
func sayError(errs io.Writer, err error) {
	fmt.Fprintf(errs, "fretcut: %s\n", strings.ReplaceAll(err.Error(), "\n", "; "))
}

func dispatch(args []string, in io.Reader, out, errs io.Writer) (int, error) {
	if len(args) == 0 {
		return refused, fmt.Errorf("say what to do: report, strength, make, reach, lighten, gallery or version; fretcut help tells more")
	}
	switch args[0] {
	case "report":
		return reportOn(args[1:], in, out, errs)
	case "strength":
		return strengthOn(args[1:], in, out)
	case "make":
		return makeFiles(args[1:], in, out, errs)
	case "reach":
		return reach(args[1:], in, out)
	case "lighten":
		return lighten(args[1:], in, out)
	case "gallery":
		return gallery(args[1:], out)
	case "version", "-version", "--version":
		_, err := fmt.Fprintln(out, "fretcut "+export.Built())
		return fine, err
	case "help", "-h", "-help", "--help":
		_, err := io.WriteString(out, usage)
		return fine, err
	}
	return refused, fmt.Errorf("%s is no command; use report, strength, make, reach, lighten, gallery or version", unroll.Quote(args[0]))
}

// anyNumber of operands is allowed.
const anyNumber = -1

// parse reads the flags, which may be before or after the operands.
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
	if operands != anyNumber && len(rest) > operands {
		return nil, fmt.Errorf("%s: %s is one too many; fretcut help tells more", fs.Name(), unroll.Quote(rest[operands]))
	}
	return rest, nil
}
