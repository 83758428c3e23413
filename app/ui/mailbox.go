package ui

import (
	"sync"
	"time"

	"fyne.io/fyne/v2"
)

// mailbox runs what comes back from the background on the toolkit's goroutine, all that
// waits once a tick and before the picture is drawn.
//
// Given to the toolkit one by one, results wait behind frames: its loop takes either a
// function or a tick, a frame takes longer than a tick, so between two functions stands a
// frame. Here they are handed over by an animation, which the loop runs just before each
// frame. It stops once nothing has come for a while.
type mailbox struct {
	waiting sync.Mutex
	letters []func()
	running bool

	ticks *fyne.Animation
	empty int // ticks in which nothing came
}

// restTicks is how many empty ticks end the animation: half a second.
const restTicks = 30

func newMailbox() *mailbox {
	m := &mailbox{}
	m.ticks = &fyne.Animation{Duration: time.Hour, RepeatCount: fyne.AnimationRepeatForever, Tick: func(float32) { m.deliver() }}
	return m
}

// post has f run on the toolkit's goroutine, after what was posted before it.
func (m *mailbox) post(f func()) {
	m.waiting.Lock()
	m.letters = append(m.letters, f)
	start := !m.running
	m.running = true
	m.waiting.Unlock()
	if start {
		fyne.Do(func() {
			m.empty = 0
			m.ticks.Start()
			m.deliver()
		})
	}
}

// deliver runs what waits.
func (m *mailbox) deliver() {
	m.waiting.Lock()
	letters := m.letters
	m.letters = nil
	if m.empty++; len(letters) > 0 {
		m.empty = 0
	}
	stop := m.empty > restTicks
	m.running = !stop
	m.waiting.Unlock()
	for _, f := range letters {
		f()
	}
	if stop {
		m.ticks.Stop()
	}
}
