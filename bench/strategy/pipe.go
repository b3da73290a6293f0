package strategy

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os/exec"
	"time"

	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// Pipe is a program of someone else. For every floor it is started anew and reads on its standard input one rows.Instance
// in JSON, as rows.Instance.Encode writes it; it writes on its standard output
//
//	{"layout": [starter, …], "packing": [-1, …], "certificate": {…}}
//
// with the starter of each run in the units of the instance, 0 for a run in one piece. packing and certificate may be
// left out. {"layout": null} says that it found none. Its standard error is quoted in messages.
type Pipe struct {
	Label   string        // its name in tables
	Command []string      // program and arguments
	Timeout time.Duration // for one floor; default one minute
}

// maxOutput is the most that is read from a program, in bytes.
const maxOutput = 64 << 20

// Name returns the label.
func (p *Pipe) Name() string { return p.Label }

// Lay runs the program once. A program that is killed by the timeout found nothing: ErrNone. One that fails, or whose
// output cannot be read, is an error.
func (p *Pipe) Lay(ctx context.Context, floor *Floor) (*Answer, error) {
	timeout := p.Timeout
	if timeout <= 0 {
		timeout = time.Minute
	}
	ctx, cancel := context.WithTimeout(ctx, timeout)
	defer cancel()
	var in bytes.Buffer
	if err := floor.Rows.Encode(&in); err != nil {
		return nil, err
	}
	cmd := exec.CommandContext(ctx, p.Command[0], p.Command[1:]...)
	cmd.WaitDelay = time.Second
	out, errs := &limited{left: maxOutput, over: cancel}, &limited{left: 4096, over: func() {}}
	cmd.Stdin, cmd.Stdout, cmd.Stderr = &in, out, errs
	err := cmd.Run()
	if out.full {
		return nil, fmt.Errorf("strategy: %s writes more than %d MB; one line of JSON is wanted", p.Label, maxOutput>>20)
	}
	if errors.Is(ctx.Err(), context.DeadlineExceeded) {
		return nil, fmt.Errorf("%w: %s was stopped after %v", ErrNone, p.Label, timeout)
	}
	if err != nil {
		return nil, fmt.Errorf("strategy: %s: %w: %s", p.Label, err, errs.kept.Bytes())
	}
	return p.read(&out.kept, len(floor.Rows.Runs))
}

func (p *Pipe) read(r io.Reader, runs int) (*Answer, error) {
	var answer struct {
		Layout      rows.Layout        `json:"layout"`
		Packing     rows.Packing       `json:"packing"`
		Certificate *proof.Certificate `json:"certificate"`
	}
	dec := json.NewDecoder(r)
	dec.DisallowUnknownFields()
	if err := dec.Decode(&answer); err != nil {
		return nil, fmt.Errorf("strategy: output of %s: %w; it writes {\"layout\": [one starter a run]}", p.Label, err)
	}
	if answer.Layout == nil {
		return nil, ErrNone
	}
	if len(answer.Layout) != runs {
		return nil, fmt.Errorf("strategy: output of %s has %d starters for %d runs", p.Label, len(answer.Layout), runs)
	}
	return &Answer{Layout: answer.Layout, Packing: answer.Packing, Certificate: answer.Certificate}, nil
}

// limited keeps the first bytes written to it; the first that is too much calls over.
type limited struct {
	kept bytes.Buffer // no embedding: its ReadFrom would pass Write by
	left int
	full bool
	over func()
}

func (l *limited) Write(b []byte) (int, error) {
	if n := min(len(b), l.left); !l.full {
		l.left -= n
		l.kept.Write(b[:n])
		if n < len(b) {
			l.full = true
			l.over()
		}
	}
	return len(b), nil
}
