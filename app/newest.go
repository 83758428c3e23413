package app

// Newest does work away from the caller's goroutine, one thing at a time, and
// gives back each result that is finished; of what was asked for meanwhile only
// the newest is done. So what follows a drag is shown as often as it can be
// worked out, in order, and always ends at the last.
type Newest[In, Out any] struct {
	Work func(In) Out
	// Go runs a function in the background, Post runs one on the caller's
	// goroutine later; tests run both at once.
	Go, Post func(func())
	// Done receives every finished result, on the caller's goroutine.
	Done func(Out)

	asked uint64
	next  *In
	busy  bool
}

// Ask has the work done for in.
func (n *Newest[In, Out]) Ask(in In) {
	n.asked++
	n.next = &in
	if !n.busy {
		n.start()
	}
}

// Busy reports whether results are still to come.
func (n *Newest[In, Out]) Busy() bool { return n.busy }

// Generation counts what was asked for.
func (n *Newest[In, Out]) Generation() uint64 { return n.asked }

func (n *Newest[In, Out]) start() {
	in := *n.next
	n.next = nil
	n.busy = true
	n.Go(func() {
		out := n.Work(in)
		n.Post(func() {
			n.busy = false
			if n.next != nil {
				n.start()
			}
			n.Done(out)
		})
	})
}
