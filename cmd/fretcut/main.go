// Fretcut is Fretband without a window: it reports on a design and makes its
// hand-over files. It needs no display and no C compiler.
package main

import (
	"os"
)

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }
