package check

import (
	"fmt"
	"testing"

	"fretband/pattern"
)

// BenchmarkAll is what a report waits for.
func BenchmarkAll(b *testing.B) {
	for _, n := range []int{200, 2000, 20000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			s, err := pattern.Lay(bigDesign(n))
			if err != nil {
				b.Fatal(err)
			}
			for range b.N {
				All(s)
			}
		})
	}
}
