package main

import (
	"fmt"
	"io"
	"os"
	"strings"
	"sync"
	"time"
)

// A progress is a bar on a terminal that tells how far a long work is. It shows
// only once the work has taken a while, and never while something else is
// written.
type progress struct {
	mu          sync.Mutex
	w           io.Writer // nil where there is no terminal to show it on
	done, total int
	shown       bool
	timer       *time.Timer
}

const (
	patience = time.Second // of somebody who waits
	redraw   = 200 * time.Millisecond
	barWidth = 30 // columns
)

// newProgress starts a bar for so many files. There is none where messages go
// to no terminal, nor in CI, which keeps what is written as a log.
func newProgress(s *streams, total int) *progress {
	p := &progress{total: total}
	if s.watched && os.Getenv("CI") == "" && os.Getenv("TERM") != "dumb" {
		p.w = s.err
		p.timer = time.AfterFunc(patience, p.tick)
	}
	return p
}

// tick draws the bar and sees to it that it is drawn again.
func (p *progress) tick() {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.w == nil {
		return
	}
	filled := barWidth * p.done / max(1, p.total)
	fmt.Fprintf(p.w, "\r[%s%s] %d of %d files", strings.Repeat("#", filled), strings.Repeat(".", barWidth-filled), p.done, p.total)
	p.shown = true
	p.timer.Reset(redraw)
}

// clear takes the bar away. The lock must be held.
func (p *progress) clear() {
	if p.shown {
		fmt.Fprint(p.w, "\r\x1b[K")
		p.shown = false
	}
}

// step counts one more file and writes what came of it, without the bar.
func (p *progress) step(write func() error) error {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.clear()
	p.done++
	return write()
}

// end takes the bar away for good.
func (p *progress) end() {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.w != nil {
		p.timer.Stop()
		p.clear()
		p.w = nil
	}
}
