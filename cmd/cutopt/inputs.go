package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"plank.example/cutopt"
	"plank.example/cutopt/jobfile"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/outline"
	"plank.example/cutopt/solve"
	"plank.example/internal/nearest"
)

// A jobSource is a job with what is needed to speak of its parts: the file and the flags they come from.
type jobSource struct {
	job   *cutopt.Job
	file  *jobfile.File // nil for a job given by flags
	flags *jobFlags
}

// inputError turns an error about a job into a usage error, and gives each field that it names its place: the flag that
// set it, or the line of the job file. A fault of the library stays what it is.
func (s *jobSource) inputError(err error) error {
	var fault *solve.InternalError
	if errors.As(err, &fault) {
		return err
	}
	var lines []string
	for _, e := range leaves(err) {
		var field *cutopt.FieldError
		switch {
		case !errors.As(e, &field):
			lines = append(lines, strings.TrimPrefix(e.Error(), "cutopt: "))
		case s.flags.sets(field.Field) != "":
			lines = append(lines, fmt.Sprintf("--%s: %v", s.flags.sets(field.Field), field))
		case s.file != nil:
			lines = append(lines, s.file.Locate(field).Error())
		default:
			lines = append(lines, field.Error())
		}
	}
	return usagef("%s", strings.Join(lines, "\n"))
}

// leaves returns the errors that err joins.
func leaves(err error) []error {
	joined, ok := err.(interface{ Unwrap() []error })
	if !ok {
		return []error{err}
	}
	var all []error
	for _, e := range joined.Unwrap() {
		all = append(all, leaves(e)...)
	}
	return all
}

// sets returns the flag that a field of the job was set by, or "".
func (f *jobFlags) sets(field string) string {
	top, rest, _ := strings.Cut(field, ".")
	flags := map[string][]string{
		"plank": {"plank"}, "box": {"box-" + rest, rest, "box-planks", "box-covers"}, "rules": {rest}, "spare": {"spare"},
		"unit": {"unit"},
	}[top]
	if strings.HasPrefix(field, "rooms") {
		flags = []string{"room", "outline"}
	}
	for _, name := range flags {
		if f.set.Changed(name) {
			return name
		}
	}
	return ""
}

// readOutline reads the rooms of a drawing. Unit is that of its coordinates where it states none; nil when nobody has.
func readOutline(path string, unit *measure.Unit) ([]cutopt.Room, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, usagef("--outline %s: %w", path, reason(err))
	}
	defer file.Close()
	name := strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
	rooms, err := outline.Read(file, &outline.Options{Unit: unit, Name: name})
	switch {
	case errors.Is(err, outline.ErrNoUnit):
		return nil, usagef("--outline %s: %w: --unit mm, for one", path, err)
	case err != nil:
		return nil, usagef("--outline %s: %w", path, reason(err))
	}
	return rooms, nil
}

// notOpened says that a file cannot be read, and where there is none, which of its folder has nearly that name.
func notOpened(what, path string, err error) error {
	meant := ""
	if errors.Is(err, fs.ErrNotExist) {
		dir, name := filepath.Split(path)
		files, _ := os.ReadDir(filepath.Clean(dir)) // of a folder that is not there, none
		var names []string
		for _, f := range files {
			if !f.IsDir() {
				names = append(names, f.Name())
			}
		}
		if near := nearest.Word(name, names); near != "" {
			meant = fmt.Sprintf(": did you mean %s?", dir+near)
		}
	}
	return usagef("%s cannot be read: %w%s", what, err, meant)
}

// reason strips the file's name off an error of the file system.
func reason(err error) error {
	var pathErr *os.PathError
	if errors.As(err, &pathErr) {
		return pathErr.Err
	}
	return err
}
