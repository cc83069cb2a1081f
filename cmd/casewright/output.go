package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// writeWhole writes a file whole or not at all, and never over an input, be it
// named or standard input: to a new file beside it, which then takes its place.
func writeWhole(file string, inputs []string, write func(io.Writer) error) error {
	if there, err := os.Stat(file); err == nil {
		for _, input := range inputs {
			in, err := os.Stat(input)
			if input == "-" {
				in, err = os.Stdin.Stat()
			}
			if err == nil && os.SameFile(there, in) {
				return status{exitInput, fmt.Sprintf("-o %s is the file that is read; write another name", file)}
			}
		}
		if !there.Mode().IsRegular() {
			return status{exitInput, fmt.Sprintf("-o %s is no plain file; write the name of one", file)}
		}
	}
	return replace(file, 0o644, write)
}

// writable finds the plain file that a name, or a link, leads to, and its mode.
// The error says why it may not be written.
func writable(file string) (target string, mode fs.FileMode, err error) {
	if target, err = filepath.EvalSymlinks(file); err != nil {
		return "", 0, err
	}
	info, err := os.Stat(target)
	if err != nil {
		return "", 0, err
	}
	if !info.Mode().IsRegular() {
		return "", 0, errors.New("it is no plain file")
	}
	f, err := os.OpenFile(target, os.O_WRONLY, 0)
	if err != nil {
		return "", 0, err
	}
	return target, info.Mode(), f.Close()
}

// replace writes a new file beside the one of that name, and puts it in its
// place when it is whole.
func replace(file string, mode fs.FileMode, write func(io.Writer) error) error {
	f, err := os.CreateTemp(filepath.Dir(file), ".casewright-*")
	if err != nil {
		return status{exitProgram, fmt.Sprintf("cannot write %s: %v", file, cause(err))}
	}
	err = write(f)
	if err == nil {
		err = f.Sync() // a name is not worth more than what it stands for
	}
	if closed := f.Close(); err == nil {
		err = closed
	}
	if err == nil {
		err = os.Chmod(f.Name(), mode)
	}
	if err == nil {
		err = os.Rename(f.Name(), file)
	}
	if err != nil {
		os.Remove(f.Name())
		if told := (status{}); errors.As(err, &told) {
			return told
		}
		return status{exitProgram, fmt.Sprintf("cannot write %s: %v", file, cause(err))}
	}
	return nil
}

// formatOf is the format of an output: as asked for, else by the end of the
// file's name, else the first of those that there are.
func formatOf(asked, file string, known ...string) (string, error) {
	if asked != "auto" {
		return asked, nil
	}
	if file == "" {
		return known[0], nil
	}
	end := strings.TrimPrefix(strings.ToLower(filepath.Ext(file)), ".")
	switch end {
	case "md":
		end = "markdown"
	case "htm":
		end = "html"
	case "txt":
		end = "table"
	}
	for _, k := range known {
		if end == k {
			return k, nil
		}
	}
	return "", status{exitInput, fmt.Sprintf("-o %s: its name does not tell the format; write --format %s", file, strings.Join(known, "|"))}
}

// put writes an output to its file, or to standard output where none is named.
func put(s *streams, file, input string, write func(io.Writer) error) error {
	if file == "" {
		return write(s.out)
	}
	return writeWhole(file, []string{input}, write)
}

// cause is what the system says, without the name of a file of ours.
func cause(err error) error {
	var path *os.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	return err
}
