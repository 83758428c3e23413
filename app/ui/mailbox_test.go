package ui

import (
	"sync"
	"testing"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

func TestAMailboxLosesNothingAndKeepsTheOrder(t *testing.T) {
	a := test.NewApp()
	defer a.Quit()
	m := newMailbox()
	const senders, each = 8, 200
	got := map[int][]int{}
	var all sync.WaitGroup
	m.post(func() {}) // begins the ticks, which the test gives by hand
	for s := range senders {
		all.Add(1)
		go func() {
			defer all.Done()
			for i := range each {
				m.post(func() { got[s] = append(got[s], i) })
			}
		}()
	}
	done := make(chan bool)
	go func() { all.Wait(); close(done) }()
	for ended := false; !ended; {
		select {
		case <-done:
			ended = true
		default:
		}
		m.deliver()
	}
	for s := range senders {
		require.Len(t, got[s], each)
		for i, n := range got[s] {
			require.Equal(t, i, n)
		}
	}
	// It rests once nothing comes, and begins anew.
	for range restTicks + 1 {
		m.deliver()
	}
	require.False(t, m.running)
	came := false
	m.post(func() { came = true })
	require.True(t, came)
	require.True(t, m.running)
}
