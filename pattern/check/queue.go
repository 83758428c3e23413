package check

// queued is what a [queue] holds: a position from which a search has yet to go on.
type queued struct {
	d  float64 // mm from where the search began
	at int32
}

// before orders positions: the nearest first, of equally near ones that of the lower number.
func (a queued) before(b queued) bool { return a.d < b.d || a.d == b.d && a.at < b.at }

// queue is a binary heap of positions. That of container/heap spends a third of a search
// on conversions.
type queue []queued

func (q *queue) push(x queued) {
	h := append(*q, x)
	j := len(h) - 1
	for j > 0 {
		i := (j - 1) / 2
		if !x.before(h[i]) {
			break
		}
		h[j], j = h[i], i
	}
	h[j] = x
	*q = h
}

func (q *queue) pop() queued {
	h := *q
	n := len(h) - 1
	first, x := h[0], h[n]
	h = h[:n]
	i := 0
	for {
		j := 2*i + 1
		if j >= n {
			break
		}
		if j+1 < n && h[j+1].before(h[j]) {
			j++
		}
		if !h[j].before(x) {
			break
		}
		h[i], i = h[j], j
	}
	if n > 0 {
		h[i] = x
	}
	*q = h
	return first
}
