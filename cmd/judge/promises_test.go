package main

import (
	"strings"
	"testing"
)

// held tries n odd designs. cmd/test.sh -long tries thousands.
func held(t *testing.T, n int, try promise) {
	t.Helper()
	var out strings.Builder
	if soak(&out, 1, 0, n, try) > 0 || !strings.Contains(out.String(), " 0 broken") {
		t.Error(out.String())
	}
}

func TestOddDesignsKeepEveryPromise(t *testing.T) { held(t, 100, laid) }

func TestWhatIsInOnePieceCanBeMadeForEveryReceiver(t *testing.T) { held(t, 30, handed) }

func TestASoakTellsWhatIsBroken(t *testing.T) {
	var out strings.Builder
	panics := func(_ uint64, i int) (outcome, error) {
		if i == 7 {
			panic("as it must not")
		}
		return kept, nil
	}
	if soak(&out, 3, 0, 10, panics) != 1 || !strings.Contains(out.String(), "BROKEN: seed 3, design 7: panic: as it must not") {
		t.Error(out.String())
	}
}
