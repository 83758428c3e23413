package export

import (
	"io"
	"testing"
)

// BenchmarkWrite is what a user waits for after asking for the files.
func BenchmarkWrite(b *testing.B) {
	s, r := sample()
	for _, f := range Formats() {
		b.Run(f.Key, func(b *testing.B) {
			for b.Loop() {
				if err := f.Write(io.Discard, s, r, Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
