package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"

	"github.com/spf13/pflag"

	"plank.example/cutopt/jobfile"
)

// newHints follow the job that new writes: what a room may have besides.
const newHints = `
# A room may have more. Put in what was measured and drop the leading # ("cutopt help job" explains all keys).
#  islands:                  # fixed things that the floor is laid round
#  - name: Island
#    at: [3' 6", 4' 2"]      # its corner of least x and y
#    size: 4' x 2' 6"
#  pipes:                    # round things in the floor
#  - at: [1' 2", 3' 1"]      # its middle
#    diameter: 1 in
#  doorways:                 # openings that the floor runs into
#  - wall: 1                 # from corner 1 to corner 2
#    at: 1' 2"               # from the corner where the wall begins
#    width: 2' 8"
#    depth: 4 1/2 in         # how far the floor runs into the wall
#    casing: wood
`

// runNew writes the job that the flags describe as a job file with comments.
func runNew(_ context.Context, e *env, args []string) error {
	jf := newJobFlags()
	rest, done, err := parseFlags(e, "new", args, flagGroup{"The job:", jf.set})
	if err != nil || done {
		return err
	}
	if err := positional("new", rest, 1, "the name of one file"); err != nil {
		return err
	}
	if !jf.given() {
		return usagef(
			"new needs a room: --room \"14ft 6in x 10ft 11in\" or --outline FILE, with --plank and --box-planks",
		)
	}
	src, err := jf.job(e, "")
	if err != nil {
		return err
	}
	path := "-"
	if len(rest) == 1 {
		path = rest[0]
	}
	var text bytes.Buffer
	name := path
	if path == "-" {
		name = "FILE"
	}
	fmt.Fprintf(&text, "# To plan this job: cutopt plan %s\n", name)
	if err := jobfile.EncodeCommented(&text, src.job); err != nil {
		return src.inputError(err)
	}
	text.WriteString(newHints)
	if path == "-" {
		_, err := e.stdout.Write(text.Bytes())
		return err
	}
	if _, err := os.Lstat(path); err == nil {
		return usagef("%s is there already, and new overwrites nothing: name another file", path)
	}
	if err := writeAll(e.temps, []output{{"new", path, func(w io.Writer) error {
		_,
			err := w.Write(text.Bytes())
		return err
	}}}); err != nil {
		var system *os.PathError
		if errors.As(err, &system) {
			return usagef("%s: %w", path, system.Err)
		}
		return err
	}
	_, err = fmt.Fprintf(e.stdout, "Wrote %s. To plan it: cutopt plan %s\n", clean(path), clean(path))
	return err
}

// hide leaves flags out of the help of a command that they change nothing in; it still accepts them, so that the flags
// of a plan can be given again as they were.
func hide(set *pflag.FlagSet, names ...string) {
	for _, name := range names {
		set.Lookup(name).Hidden = true
	}
}
