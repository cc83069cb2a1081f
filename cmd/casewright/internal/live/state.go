package live

import "sync"

// A frame is what the page shows at one time, as HTML; it never changes, and all
// who look share it.
type frame struct {
	number int // 1 for the first, rising
	html   []byte
}

// A board shows the newest frame, and only that, to any number of lookers.
type board struct {
	mu      sync.Mutex
	frame   frame
	changed chan struct{} // closed when a newer one is put up
}

func newBoard() *board { return &board{changed: make(chan struct{})} }

// put puts up what is newest.
func (b *board) put(html []byte) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.frame = frame{b.frame.number + 1, html}
	close(b.changed)
	b.changed = make(chan struct{})
}

// look gives the newest frame, and what is closed when there is a newer one.
func (b *board) look() (frame, <-chan struct{}) {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.frame, b.changed
}
