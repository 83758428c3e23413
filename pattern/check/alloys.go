package check

import "fretband/pattern"

// Alloy is a row of the table of alloys, which is beside the design that
// names it.
type Alloy = pattern.Alloy
