package live

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"time"
)

// A File is what a name held when it was looked at.
type File struct {
	Name string
	Text []byte
	Err  error // of reading; then there is no text
}

// A Watcher looks at files again and again. It asks the file system and is not
// told by it: notices never come of what another machine writes to a network
// drive, are lost when many come at once, and stay with the old file where an
// editor puts a new one in its place. A look asks for size and time only, and
// reads what differs.
type Watcher struct {
	Name   string                     // of the file
	Most   int64                      // bytes that a file may have
	Beside func(text []byte) []string // further files that the text names
	Take   func(files []File) error   // what they hold now, that of Name first
	Idle   func() error               // after each look; may be nil
	Pace   time.Duration              // between looks
	looked map[string]look            // by name
}

// A look is what was found of a file.
type look struct {
	info  os.FileInfo // nil where there is none
	since time.Time   // when it was first found like this
	file  File
}

const (
	// settled is how long a file is read again at each look after its size or
	// time has changed. File systems count time in steps, of up to 2 s (FAT), and
	// a second change within a step cannot be seen by them.
	settled = 4 * time.Second
	// patience is how long to wait for two looks that find the same.
	patience = time.Second
)

// Run takes what the files hold, and again whenever that has changed and stands:
// what is half written when it is looked at is found another at the next look.
// Where it changes without end, it is taken once in a while. What stands last is
// always taken. Run ends with the context, or with the error of Take or Idle.
func (w *Watcher) Run(ctx context.Context) error {
	tick := time.NewTicker(w.Pace)
	defer tick.Stop()
	var taken, before []File
	var changed time.Time // when they were first found to differ from what was taken
	for {
		now := w.look()
		switch {
		case taken != nil && same(now, taken):
			changed = time.Time{}
		case taken == nil, same(now, before), !changed.IsZero() && time.Since(changed) > patience:
			if err := w.Take(now); err != nil {
				return err
			}
			taken, changed = now, time.Time{}
		case changed.IsZero():
			changed = time.Now()
		}
		before = now
		if w.Idle != nil {
			if err := w.Idle(); err != nil {
				return err
			}
		}
		select {
		case <-ctx.Done():
			return nil
		case <-tick.C:
		}
	}
}

// look looks at the file and at those that it names, and forgets all others.
func (w *Watcher) look() []File {
	looked := map[string]look{}
	files := []File{w.at(w.Name, looked)}
	for _, name := range w.Beside(files[0].Text) {
		if _, twice := looked[name]; !twice {
			files = append(files, w.at(name, looked))
		}
	}
	w.looked = looked
	return files
}

// at looks at one file.
func (w *Watcher) at(name string, looked map[string]look) File {
	info, err := os.Stat(name)
	was, known := w.looked[name]
	now := look{info: info, since: was.since}
	if !known || !unchanged(was.info, info) {
		now.since = time.Now()
	}
	switch {
	case err != nil:
		now.info, now.file = nil, File{Name: name, Err: err}
	case known && was.file.Err == nil && time.Since(now.since) > settled:
		now.file = was.file
	default:
		now.file = w.read(name, info)
	}
	looked[name] = now
	return now.file
}

// read reads a file. Only a plain one can be: another may never end.
func (w *Watcher) read(name string, info os.FileInfo) File {
	f := File{Name: name}
	switch {
	case info.IsDir():
		f.Err = fmt.Errorf("it is a folder")
	case !info.Mode().IsRegular():
		f.Err = fmt.Errorf("it is no plain file")
	case info.Size() > w.Most:
		f.Err = fmt.Errorf("it has more than %d MB", w.Most>>20)
	default:
		var open *os.File
		if open, f.Err = os.Open(name); f.Err == nil {
			defer open.Close()
			f.Text, f.Err = io.ReadAll(io.LimitReader(open, w.Most+1))
		}
	}
	if f.Err != nil {
		f.Text = nil
	}
	return f
}

// unchanged tells that nothing of a file differs that can be seen from outside.
func unchanged(a, b os.FileInfo) bool {
	if a == nil || b == nil {
		return a == nil && b == nil
	}
	return os.SameFile(a, b) && a.Size() == b.Size() && a.ModTime().Equal(b.ModTime()) && a.Mode() == b.Mode()
}

// same tells that two looks found the same.
func same(a, b []File) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i].Name != b[i].Name || fmt.Sprint(a[i].Err) != fmt.Sprint(b[i].Err) || !bytes.Equal(a[i].Text, b[i].Text) {
			return false
		}
	}
	return true
}
