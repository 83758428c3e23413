package cores

import (
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestEachPieceIsDoneOnce(t *testing.T) {
	for _, n := range []int{0, 1, 2, 3, 64, 65, 1000} {
		each, runs := make([]int, n), make([]int, n)
		Each(n, func(i int) { each[i]++ })
		for _, least := range []int{1, 16, 5000} {
			clear(runs)
			var last, made atomic.Int64
			Runs(n, least, func(run, from, to int) {
				made.Add(1)
				if run == Count(n, least)-1 {
					last.Store(int64(to))
				}
				for i := from; i < to; i++ {
					runs[i]++
				}
			})
			assert.EqualValues(t, Count(n, least), made.Load(), "%d pieces", n)
			assert.EqualValues(t, n, last.Load(), "%d pieces", n)
			assert.LessOrEqual(t, Count(n, least), 1+n/least, "%d pieces", n)
			for i := range n {
				assert.Equal(t, [2]int{1, 1}, [2]int{each[i], runs[i]}, "piece %d of %d", i, n)
			}
		}
	}
}
