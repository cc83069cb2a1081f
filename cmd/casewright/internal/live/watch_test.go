package live

import (
	"context"
	"errors"
	"fmt"
	"html/template"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"
)

func repeat(s string, n int) template.HTML { return template.HTML(strings.Repeat(s, n)) }

// TestWatcherSteps changes a file between two looks, which Idle knows of, and
// holds what is taken: each state that stands for two looks, in order, and
// nothing that was half written.
func TestWatcherSteps(t *testing.T) {
	write := func(name, text string) error { return os.WriteFile(name, []byte(text), 0o600) }
	for _, c := range []struct {
		name  string
		steps []func(name string) error // one after each look; nil does nothing
		want  []string
	}{
		{"nothing", []func(string) error{nil, nil, nil}, []string{"one"}},
		{"in place", []func(string) error{func(n string) error { return write(n, "two") }, nil}, []string{"one", "two"}},
		{"half, then whole", []func(string) error{
			func(n string) error { return write(n, "") },
			func(n string) error { return write(n, "tw") },
			func(n string) error { return write(n, "two") }, nil,
		}, []string{"one", "two"}},
		{"left half", []func(string) error{func(n string) error { return write(n, "tw") }, nil, nil}, []string{"one", "tw"}},
		{"renamed", []func(string) error{func(n string) error {
			return errors.Join(write(n+"~", "two"), os.Rename(n+"~", n))
		}, nil}, []string{"one", "two"}},
		{"gone for a look", []func(string) error{
			os.Remove, func(n string) error { return write(n, "two") }, nil,
		}, []string{"one", "two"}},
		{"gone and back", []func(string) error{
			os.Remove, nil, func(n string) error { return write(n, "two") }, nil,
		}, []string{"one", "file does not exist", "two"}},
		{"back as it was", []func(string) error{
			os.Remove, nil, func(n string) error { return write(n, "one") }, nil,
		}, []string{"one", "file does not exist", "one"}},
		{"there and back", []func(string) error{
			func(n string) error { return write(n, "two") }, func(n string) error { return write(n, "one") }, nil, nil,
		}, []string{"one"}},
		// The clock of a file system stands still for up to 2 s: neither time nor
		// size tells.
		{"as long, in the same tick", []func(string) error{func(n string) error {
			info, err := os.Stat(n)
			if err != nil {
				return err
			}
			return errors.Join(write(n, "two"), os.Chtimes(n, info.ModTime(), info.ModTime()))
		}, nil}, []string{"one", "two"}},
		{"a folder in its place", []func(string) error{func(n string) error {
			return errors.Join(os.Remove(n), os.Mkdir(n, 0o700))
		}, nil}, []string{"one", "it is a folder"}},
		{"too long", []func(string) error{func(n string) error { return write(n, strings.Repeat("x", 2<<20)) }, nil}, []string{"one", "it has more than 1 MB"}},
		{"a link to another", []func(string) error{func(n string) error {
			return errors.Join(write(n+"2", "two"), os.Remove(n), os.Symlink(n+"2", n))
		}, nil, func(n string) error { return write(n+"2", "three") }, nil}, []string{"one", "two", "three"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			file := filepath.Join(t.TempDir(), "my.toml")
			if err := write(file, "one"); err != nil {
				t.Fatal(err)
			}
			ctx, stop := context.WithCancel(t.Context())
			defer stop()
			var got []string
			next := 0
			w := Watcher{
				Name: file, Most: 1 << 20, Pace: time.Millisecond,
				Beside: func([]byte) []string { return nil },
				Take: func(files []File) error {
					got = append(got, told(files[0]))
					return nil
				},
				Idle: func() error {
					if next == len(c.steps)+1 {
						stop()
						return nil
					}
					next++
					if next > len(c.steps) || c.steps[next-1] == nil {
						return nil
					}
					return c.steps[next-1](file)
				},
			}
			if err := w.Run(ctx); err != nil {
				t.Fatal(err)
			}
			if !slices.Equal(got, c.want) {
				t.Errorf("taken: %q, want %q", got, c.want)
			}
		})
	}
}

// told is what was found of a file.
func told(f File) string {
	if f.Err == nil {
		return string(f.Text)
	}
	if errors.Is(f.Err, fs.ErrNotExist) {
		return "file does not exist"
	}
	return f.Err.Error()
}

// TestPipe holds that a pipe, which may never end, is not read.
func TestPipe(t *testing.T) {
	info, err := os.Stat(os.DevNull)
	if err != nil {
		t.Fatal(err)
	}
	w := Watcher{Most: 1 << 20}
	if f := w.read(os.DevNull, info); f.Err == nil || f.Text != nil {
		t.Errorf("%+v", f)
	}
}

// TestBeside holds that the files that a text names are looked at as long as it
// names them.
func TestBeside(t *testing.T) {
	t.Chdir(t.TempDir())
	write := func(name, text string) func() error {
		return func() error { return os.WriteFile(name, []byte(text), 0o600) }
	}
	steps := []func() error{
		write("a", "1"), nil, // not there before
		write("a", "2"), nil,
		write("my", "b"), nil,
		write("a", "3"), nil, // no longer named
		write("my", "my"), nil, // itself
	}
	want := []string{"a|file does not exist", "a|1", "a|2", "b|file does not exist", "my"}
	if err := write("my", "a")(); err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	defer stop()
	var got []string
	next := 0
	w := Watcher{
		Name: "my", Most: 1 << 20, Pace: time.Millisecond,
		Beside: func(text []byte) []string { return []string{string(text)} },
		Take: func(files []File) error {
			var list []string
			for _, f := range files {
				list = append(list, told(f))
			}
			got = append(got, strings.Join(list, "|"))
			return nil
		},
		Idle: func() error {
			if next++; next > len(steps)+1 {
				stop()
			} else if next <= len(steps) && steps[next-1] != nil {
				return steps[next-1]()
			}
			return nil
		},
	}
	if err := w.Run(ctx); err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(got, want) {
		t.Errorf("taken: %q, want %q", got, want)
	}
}

// ways are those in which editors save.
var ways = []func(name, text string) error{
	func(name, text string) error { // in place
		f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE, 0o600)
		if err != nil {
			return err
		}
		_, err = f.WriteString(text)
		return errors.Join(err, f.Truncate(int64(len(text))), f.Close())
	},
	func(name, text string) error { // a new file, renamed
		return errors.Join(os.WriteFile(name+"~", []byte(text), 0o600), os.Rename(name+"~", name))
	},
	func(name, text string) error { // deleted and made anew
		return errors.Join(os.Remove(name), os.WriteFile(name, []byte(text), 0o600))
	},
	func(name, text string) error { // emptied, then written in two parts
		f, err := os.Create(name)
		if err != nil {
			return err
		}
		_, first := f.WriteString(text[:len(text)/2])
		runtime.Gosched()
		_, second := f.WriteString(text[len(text)/2:])
		return errors.Join(first, second, f.Close())
	},
	func(name, text string) error { // the old one kept beside it
		return errors.Join(os.Rename(name, name+".bak"), os.WriteFile(name, []byte(text), 0o600))
	},
}

// TestBurst saves a thousand times as fast as it goes, in all the ways, while a
// server shows each state that is taken to a page that follows. The last state
// wins each time, and neither memory nor goroutines grow.
func TestBurst(t *testing.T) {
	file := filepath.Join(t.TempDir(), "my.toml")
	if err := os.WriteFile(file, []byte("state begin."), 0o600); err != nil {
		t.Fatal(err)
	}
	s := served(t)
	taken := make(chan string, 1)
	ctx, stop := context.WithCancel(t.Context())
	ended := make(chan error)
	w := Watcher{
		Name: file, Most: 1 << 20, Pace: time.Millisecond,
		Beside: func([]byte) []string { return nil },
		Take: func(files []File) error {
			v := View{Title: "my", Picture: template.HTML("<pre>"+told(files[0])+"</pre>") + repeat("x", 1<<18)}
			if err := s.Show(&v); err != nil {
				return err
			}
			select { // only the newest counts
			case <-taken:
			default:
			}
			taken <- told(files[0])
			return nil
		},
	}
	go func() { ended <- w.Run(ctx) }()
	_, _, events := stream(t, s)
	burst := func(round int) {
		t.Helper()
		for i := range 1000 {
			if err := ways[i%len(ways)](file, fmt.Sprintf("state %d %s.", i, strings.Repeat("-", i%90))); err != nil {
				t.Fatal(err)
			}
		}
		last := fmt.Sprintf("state last %d.", round)
		if err := ways[round%len(ways)](file, last); err != nil {
			t.Fatal(err)
		}
		for after := time.After(comes); ; {
			select {
			case got := <-taken:
				if got == last {
					now, _ := s.board.look()
					wait(t, events, fmt.Sprintf("data: %d", now.number))
					if _, text := asked(t, s, fmt.Sprintf("GET %spicture HTTP/1.1\r\nHost: %s\r\nConnection: close\r\n\r\n", s.folder, s.host)); !strings.Contains(text, last) {
						t.Errorf("the picture is not of the last state: %.80q", text)
					}
					return
				}
			case <-after:
				t.Fatal("the last state is never taken")
			}
		}
	}
	burst(0)
	before, routines := inUse(), runtime.NumGoroutine()
	for round := range ways {
		burst(round)
	}
	after := inUse()
	t.Logf("%d kB in use before %d saves, %d kB after", before>>10, 1000*len(ways), after>>10)
	if after > before+2<<20 {
		t.Errorf("memory in use grows from %d to %d bytes", before, after)
	}
	if now := runtime.NumGoroutine(); now > routines+2 {
		t.Errorf("from %d to %d goroutines", routines, now)
	}
	stop()
	if err := <-ended; err != nil {
		t.Error(err)
	}
}

// TestPatience holds that a file which never stands is taken once in a while.
func TestPatience(t *testing.T) {
	file := filepath.Join(t.TempDir(), "my.toml")
	if err := os.WriteFile(file, []byte("0"), 0o600); err != nil {
		t.Fatal(err)
	}
	enough := errors.New("enough")
	takes, looks := 0, 0
	w := Watcher{
		Name: file, Most: 1 << 20, Pace: time.Millisecond,
		Beside: func([]byte) []string { return nil },
		Take: func([]File) error {
			if takes++; takes == 2 {
				return enough
			}
			return nil
		},
		Idle: func() error {
			looks++
			return os.WriteFile(file, []byte(fmt.Sprint(looks)), 0o600)
		},
	}
	ctx, stop := context.WithTimeout(t.Context(), comes)
	defer stop()
	if err := w.Run(ctx); !errors.Is(err, enough) {
		t.Errorf("%v: never taken", err)
	}
}
