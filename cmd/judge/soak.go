package main

import (
	"encoding/binary"
	"fmt"
	"io"
	"os"
	"runtime"
	"runtime/debug"
	"sync"
	"sync/atomic"
	"time"
)

// soak tries n odd designs from one on, on all cores, and returns how many promises are
// broken: of designs, and that memory does not grow. A panic is one. Each is reported with the
// command that tries its design alone.
func soak(out io.Writer, seed uint64, from, n int, try promise) (broken int) {
	began := time.Now()
	busy := newBusy(out)
	var told sync.Mutex
	var next, done, dropped atomic.Int64
	var early uint64 // memory after the first tenth
	tell := func(i int, err error) {
		told.Lock()
		defer told.Unlock()
		broken++
		fmt.Fprintf(out, "BROKEN: seed %d, design %d: %v\n", seed, i, err)
	}
	progress := func(k int64) {
		held := memory()
		if early == 0 {
			early = held
		}
		rate := float64(k) / time.Since(began).Seconds()
		fmt.Fprintf(out, "%d of %d designs, %d refused, %d broken, %.1f a second, %d MB held\n", k, n, dropped.Load(), broken, rate, held>>20)
	}
	var wait sync.WaitGroup
	for worker := range runtime.GOMAXPROCS(0) {
		wait.Add(1)
		go func() {
			defer wait.Done()
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				busy.with(worker, from+i)
				what, err := guarded(try, seed, from+i)
				if err != nil {
					tell(from+i, err)
				} else if what == refused {
					dropped.Add(1)
				}
				if k := done.Add(1); k%int64(max(1, n/10)) == 0 {
					told.Lock()
					progress(k)
					told.Unlock()
				}
			}
		}()
	}
	wait.Wait()
	busy.over()
	if held := memory(); n >= 1000 && held > 2*early+64<<20 {
		broken++
		fmt.Fprintf(out, "BROKEN: memory grew from %d to %d MB\n", early>>20, held>>20)
	}
	return broken
}

// guarded tries a design and makes an error of a panic.
func guarded(try promise, seed uint64, i int) (what outcome, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("panic: %v\n%s", p, debug.Stack())
		}
	}()
	return try(seed, i)
}

// memory returns what is held, bytes.
func memory() uint64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}

// busy keeps the designs that are being tried in a file, for a panic in a goroutine that
// the program started by itself ends this one: the file is then left and says which they
// were, 8 bytes each.
type busy struct{ file *os.File }

func newBusy(out io.Writer) busy {
	f, err := os.CreateTemp("", "fretband-soak-*")
	if err != nil {
		return busy{}
	}
	fmt.Fprintf(out, "what is being tried stands in %s (od -A n -t d8)\n", f.Name())
	return busy{f}
}

func (b busy) with(worker, i int) {
	if b.file != nil {
		b.file.WriteAt(binary.NativeEndian.AppendUint64(nil, uint64(i)), int64(8*worker))
	}
}

func (b busy) over() {
	if b.file != nil {
		b.file.Close()
		os.Remove(b.file.Name())
	}
}
