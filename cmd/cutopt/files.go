package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"sync"
)

// An output is one file asked for by a flag.
type output struct {
	flag, path string
	write      func(io.Writer) error
}

// tempFiles are the temporary files that are there at the moment, so that a signal can have them removed.
type tempFiles struct {
	mu     sync.Mutex
	names  map[string]bool
	closed bool
}

// create makes a new file and remembers it.
func (t *tempFiles) create(name string, mode os.FileMode) (*os.File, error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.closed {
		return nil, errors.New("interrupted")
	}
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err == nil {
		if t.names == nil {
			t.names = make(map[string]bool)
		}
		t.names[name] = true
	}
	return f, err
}

// drop removes a file.
func (t *tempFiles) drop(name string) {
	t.mu.Lock()
	defer t.mu.Unlock()
	os.Remove(name)
	delete(t.names, name)
}

// rename puts a file in its place.
func (t *tempFiles) rename(name, target string) error {
	t.mu.Lock()
	defer t.mu.Unlock()
	err := os.Rename(name, target)
	if err == nil {
		delete(t.names, name)
	}
	return err
}

// close removes all files; none are made after it.
func (t *tempFiles) close() {
	t.mu.Lock()
	defer t.mu.Unlock()
	for name := range t.names {
		os.Remove(name)
	}
	t.closed = true
}

// distinct refuses an output that is a file the command reads, or another output, under whatever name: writing would
// destroy it. Inputs may hold "" and "-".
func distinct(outs []output, inputs []string) error {
	known := make([]os.FileInfo, 0, len(inputs)+len(outs))
	names := make([]string, 0, len(inputs)+len(outs))
	for _, path := range inputs {
		if info, err := os.Stat(path); err == nil && info.Mode().IsRegular() {
			known, names = append(known, info), append(names, "")
		}
	}
	byPath := make(map[string]string)
	for _, o := range outs {
		path := filepath.Clean(o.path)
		if other, ok := byPath[path]; ok {
			return usagef("--%s and --%s both name %s: give each its own file", other, o.flag, o.path)
		}
		byPath[path] = o.flag
		info, err := os.Stat(o.path)
		if o.path == "-" || err != nil || !info.Mode().IsRegular() {
			continue
		}
		for i, k := range known {
			switch {
			case !os.SameFile(k, info):
			case names[i] == "":
				return usagef(
					"--%s %s: that is a file this command reads, and it would be overwritten; name another",
					o.flag,
					o.path,
				)
			default:
				return usagef("--%s and --%s both name %s: give each its own file", names[i], o.flag, o.path)
			}
		}
		known, names = append(known, info), append(names, o.flag)
	}
	return nil
}

// writeAll writes every output or, when one fails, none: each goes to a temporary file beside its target, and only when
// all are complete are they renamed. A target that is no plain file, such as a pipe, is written to last and directly.
func writeAll(temps *tempFiles, outs []output) error {
	var pending []pendingFile
	defer func() {
		for _, p := range pending {
			temps.drop(p.temp)
		}
	}()
	type direct struct {
		out  output
		data []byte
	}
	var directs []direct
	for _, o := range outs {
		target, plain, err := resolveTarget(o)
		if err != nil {
			return err
		}
		if !plain {
			var buf bytes.Buffer
			if err := o.write(&buf); err != nil {
				return fmt.Errorf("--%s: %w", o.flag, err)
			}
			directs = append(directs, direct{o, buf.Bytes()})
			continue
		}
		temp, err := writeTemp(temps, target, o.write)
		if err != nil {
			return writeError(o, err)
		}
		pending = append(pending, pendingFile{temp, target})
	}
	for _, d := range directs {
		f, err := os.OpenFile(d.out.path, os.O_WRONLY, 0)
		if err != nil {
			return writeError(d.out, err)
		}
		_, err = f.Write(d.data)
		if err := errors.Join(err, f.Close()); err != nil {
			return writeError(d.out, err)
		}
	}
	for len(pending) > 0 {
		if err := temps.rename(pending[0].temp, pending[0].target); err != nil {
			return usagef("%w", err)
		}
		pending = pending[1:]
	}
	return nil
}

type pendingFile struct{ temp, target string }

func writeError(o output, err error) error {
	var pathErr *os.PathError
	if errors.As(err, &pathErr) { // the file system refuses: a full disk, a missing folder, no permission
		return usagef("--%s %s: %w; nothing was written", o.flag, o.path, pathErr.Err)
	}
	return fmt.Errorf("--%s %s: %w; nothing was written", o.flag, o.path, err)
}

// resolveTarget follows symbolic links and reports whether the target is a plain file, or none yet.
func resolveTarget(o output) (string, bool, error) {
	path := o.path
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real
	}
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return path, true, nil
	case err != nil:
		return "", false, writeError(o, err)
	case info.IsDir():
		return "", false, usagef("--%s %s: that is a folder; name a file in it", o.flag, o.path)
	}
	return path, info.Mode().IsRegular(), nil
}

// writeTemp writes a new file beside target and returns its name.
func writeTemp(temps *tempFiles, target string, write func(io.Writer) error) (name string, err error) {
	mode := os.FileMode(0o666)
	if info, err := os.Stat(target); err == nil {
		mode = info.Mode().Perm()
	}
	name = filepath.Join(filepath.Dir(target), fmt.Sprintf(".%s.%08x", filepath.Base(target), rand.Uint32()))
	f, err := temps.create(name, mode)
	if err != nil {
		return "", err
	}
	err = errors.Join(write(f), f.Close())
	if err != nil {
		temps.drop(name)
		return "", err
	}
	return name, nil
}
