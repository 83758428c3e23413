package app

import (
	"time"

	"fretband/pattern"
	"fretband/pattern/check"
)

// Result is what came of laying and checking one design. Err is set when it
// can't be laid; then Sheet and Report are nil.
type Result struct {
	Design pattern.Design
	Sheet  *pattern.Sheet
	Report *check.Report
	Err    error
	Took   time.Duration
}

// Computer lays and checks designs one at a time, away from the caller's
// goroutine, and gives back each result that is finished; of the designs asked
// for meanwhile only the newest is taken up. So a drag shows the design as
// often as it can be computed, and always ends at the last one.
type Computer struct {
	// Lay and Check do the work; they are pattern.Lay and check.Run.
	Lay   func(pattern.Design) (*pattern.Sheet, error)
	Check func(*pattern.Sheet) *check.Report
	// Go runs a function in the background, Post runs one on the caller's
	// goroutine later; tests run both at once.
	Go, Post func(func())
	// Done receives every finished result, on the caller's goroutine, in the
	// order in which the designs were asked for.
	Done func(Result)

	asked uint64 // generation of the newest design asked for
	next  *pattern.Design
	busy  bool
}

// Ask has d computed.
func (c *Computer) Ask(d pattern.Design) {
	c.asked++
	d = Clone(d)
	c.next = &d
	if !c.busy {
		c.start()
	}
}

// Busy reports whether results are still to come.
func (c *Computer) Busy() bool { return c.busy }

// Generation counts the designs asked for.
func (c *Computer) Generation() uint64 { return c.asked }

func (c *Computer) start() {
	d := *c.next
	c.next = nil
	c.busy = true
	c.Go(func() {
		r := c.compute(d)
		c.Post(func() {
			c.busy = false
			if c.next != nil {
				c.start()
			}
			c.Done(r)
		})
	})
}

func (c *Computer) compute(d pattern.Design) Result {
	t := time.Now()
	r := Result{Design: d}
	r.Sheet, r.Err = c.Lay(d)
	if r.Err == nil {
		r.Report = c.Check(r.Sheet)
	} else {
		r.Sheet = nil
	}
	r.Took = time.Since(t)
	return r
}
