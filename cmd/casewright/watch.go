package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"html/template"
	"math"
	"os"
	"os/signal"
	"path/filepath"
	"runtime/debug"
	"syscall"
	"time"

	"golang.org/x/term"

	"casewright"
	"casewright/casing/heat"
	"casewright/cmd/casewright/internal/document"
	"casewright/cmd/casewright/internal/live"
	"casewright/cmd/casewright/internal/table"
	"casewright/sizing"
)

type watchCmd struct {
	File     string `arg:"" help:"A design file."`
	Terminal bool   `help:"Show the table of check in this terminal, in place of a page."`
	All      bool   `help:"Show the passing checks too, in a terminal."`
	built
	screen
}

// Help follows the flags in watch --help.
func (watchCmd) Help() string {
	return `Examples:
  casewright watch basalt64.toml
  casewright watch --terminal basalt64.toml
  casewright watch --as-built --units imperial basalt64.toml

Follows a design file as you save it. It prints the address of a page for a
browser of this machine, which is the report and renews itself; or, with
--terminal, draws the table of check anew. Where the file cannot be read, its
lines stand on top with what is wrong in them, and below, greyed, what it said
when last it could. Nobody else can guess the address, other machines cannot
reach it, and the file is never changed. Ctrl-C ends it.

Exit status: 0 ended by Ctrl-C, 2 there is no such file or the usage is bad, 3
the program failed.`
}

// pace is the time between looks at the file.
const pace = 100 * time.Millisecond

// Run shows the file until it is told to end.
func (c *watchCmd) Run(s *streams) error {
	if err := c.usage(); err != nil {
		return err
	}
	// Unlike the other commands this one lasts, and has to clean up.
	debug.SetGCPercent(100)
	debug.SetMemoryLimit(math.MaxInt64)
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	return c.watch(ctx, s)
}

// usage tells what cannot be watched.
func (c *watchCmd) usage() error {
	if c.File == "-" {
		return status{exitInput, "standard input cannot be watched; write the name of a design file"}
	}
	if !c.Terminal && (c.All || c.ASCII || c.Color != "auto") {
		return status{exitInput, "--all, --ascii and --color go with --terminal; add it, or leave them out"}
	}
	info, err := os.Stat(c.File)
	switch {
	case err != nil:
		return status{exitInput, asErrors(c.File, err).Error()}
	case !info.Mode().IsRegular():
		return status{exitInput, c.File + ": is no plain file; write the name of a design file"}
	}
	return nil
}

// watch shows the file until the context ends.
func (c *watchCmd) watch(ctx context.Context, s *streams) error {
	w := live.Watcher{Name: c.File, Most: heat.MostCSVBytes, Pace: pace, Beside: func(text []byte) []string {
		if d, err := casewright.Read(c.File, text); err == nil && courseFile(d) != "" {
			return []string{courseFile(d)}
		}
		return nil
	}}
	if c.Terminal {
		return c.onTerminal(ctx, &w, s)
	}
	return c.onPage(ctx, &w, s)
}

// take checks what the files hold. Its report is nil where the design cannot be
// read; else a file beside it may have faults, which the report does not need.
func (c *watchCmd) take(files []live.File) (*casewright.Report, []live.Excerpt) {
	texts := map[string][]byte{}
	for _, f := range files {
		texts[f.Name] = f.Text
	}
	design, err := c.readFile(files[0])
	var found casewright.Errors
	if errors.As(err, &found) {
		return nil, live.Excerpts(found, texts)
	}
	for _, f := range files[1:] {
		found = append(found, courseFaults(design, f)...)
	}
	return casewright.Check(design), live.Excerpts(found, texts)
}

// readFile reads the design. What is wrong is always a casewright.Errors.
func (c *watchCmd) readFile(f live.File) (*casewright.Design, error) {
	if f.Err == nil {
		return c.design(f.Name, f.Text)
	}
	err := asErrors(f.Name, f.Err)
	var found casewright.Errors
	if !errors.As(err, &found) {
		found = casewright.Errors{{File: f.Name, Message: err.Error()}}
	}
	return nil, found
}

// courseFaults is what is wrong with a file of courses.
func courseFaults(d *casewright.Design, f live.File) (found casewright.Errors) {
	if f.Err != nil {
		return casewright.Errors{{
			File: d.File, Line: d.Heat.Course.Line, Column: d.Heat.Course.Column, Key: d.Heat.Course.Key,
			Message: fmt.Sprintf("cannot read %s: %v", f.Name, cause(f.Err)), Write: "the name of a file that can be read",
		}}
	}
	_, err := heat.ReadCourses(bytes.NewReader(f.Text), sizing.HeatedNames(d))
	var faults heat.CSVFaults
	if !errors.As(err, &faults) {
		return nil
	}
	for _, one := range faults {
		found = append(found, &casewright.Error{File: f.Name, Line: one.Line, Column: one.Column, Message: one.Why, Write: one.Write})
	}
	return found
}

// onPage shows the report to browsers.
func (c *watchCmd) onPage(ctx context.Context, w *live.Watcher, s *streams) error {
	server, err := live.Listen(document.Style())
	if err != nil {
		return status{exitProgram, "cannot show a page: " + err.Error()}
	}
	defer server.Close()
	view := live.View{File: filepath.Base(c.File), Title: filepath.Base(c.File)}
	begun := false
	served := make(chan error, 1)
	w.Idle = func() error {
		select {
		case err := <-served:
			return status{exitProgram, "cannot show the page any longer: " + err.Error()}
		default:
			return nil
		}
	}
	w.Take = func(files []live.File) error {
		r, faults := c.take(files)
		view.Faults, view.Stale = faults, r == nil
		if r != nil {
			if err := c.paint(&view, r); err != nil {
				return err
			}
		}
		if err := server.Show(&view); err != nil || begun {
			return err
		}
		begun = true
		go func() { served <- server.Serve() }()
		fmt.Fprintln(s.out, server.Address())
		return s.out.Flush()
	}
	return w.Run(ctx)
}

// paint makes the picture of a report.
func (c *watchCmd) paint(v *live.View, r *casewright.Report) error {
	doc := wholeReport(r, table.Options{Units: c.Units}, false)
	doc.Foot = footOf(r.Design)
	body, err := doc.Body()
	v.Title, v.Picture = doc.Title, template.HTML(body) //nolint:gosec // the document escapes
	v.Painted++
	v.Read = time.Now().Format(time.TimeOnly)
	return err
}

// onTerminal shows the table of check.
func (c *watchCmd) onTerminal(ctx context.Context, w *live.Watcher, s *streams) (err error) {
	t := live.Terminal{To: s.out, Colour: c.coloured(s), Signs: func(text string) string { return text }}
	if c.ASCII {
		t.Signs = table.ASCII
	}
	if !s.terminal {
		return c.appended(ctx, w, &t, s)
	}
	defer func() { err = errors.Join(err, t.End(), s.out.Flush()) }()
	if err := t.Begin(); err != nil {
		return err
	}
	var good *casewright.Report
	var faults []live.Excerpt
	stale, columns, rows := false, 0, 0
	draw := func() error {
		text := ""
		if good != nil {
			var b bytes.Buffer
			o := table.Options{All: c.All, Units: c.Units, Colour: t.Colour && !stale, ASCII: c.ASCII, Width: columns}
			if err := table.Check(&b, good, o); err != nil {
				return err
			}
			text = b.String()
		}
		return errors.Join(t.Draw(faults, text, stale, columns, rows), s.out.Flush())
	}
	w.Take = func(files []live.File) error {
		r, found := c.take(files)
		faults, stale = found, r == nil
		if r != nil {
			good = r
		}
		columns, rows = s.window()
		return draw()
	}
	w.Idle = func() error { // a window may be made larger or smaller
		if x, y := s.window(); x != columns || y != rows {
			columns, rows = x, y
			return draw()
		}
		return nil
	}
	return w.Run(ctx)
}

// appended writes one table after the other, for what is no terminal.
func (c *watchCmd) appended(ctx context.Context, w *live.Watcher, t *live.Terminal, s *streams) error {
	first := true
	w.Take = func(files []live.File) error {
		if !first {
			fmt.Fprintln(s.out)
		}
		first = false
		r, faults := c.take(files)
		for _, line := range t.Faults(faults, s.width) {
			fmt.Fprintln(s.out, line)
		}
		if r == nil {
			return s.out.Flush()
		}
		err := table.Check(s.out, r, table.Options{All: c.All, Units: c.Units, Colour: t.Colour, ASCII: c.ASCII, Width: s.width})
		return errors.Join(err, s.out.Flush())
	}
	return w.Run(ctx)
}

// window is the size of the terminal as it is now; no rows where that is not
// known.
func (s *streams) window() (width, height int) {
	width, height, err := term.GetSize(int(os.Stdout.Fd()))
	if err != nil || width < 1 {
		return s.width, 0
	}
	if n := columns(); n > 0 {
		width = n
	}
	return width, height
}
