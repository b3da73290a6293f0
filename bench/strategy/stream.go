package strategy

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os/exec"
	"sync"
	"syscall"
	"time"

	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// A Task is the line that a program behind a [Stream] reads for each floor.
type Task struct {
	Floor int     `json:"floor"`         // number of the line, from 1
	Seed  uint64  `json:"seed"`          // for strategies that draw: the same floor has the same seed
	Limit float64 `json:"limit"`         // seconds to answer in
	Box   int     `json:"box,omitempty"` // planks of a box; left out where planks alone are counted
	// Instance is the problem, as rows.Decode reads it and the text of package rows explains it.
	Instance *rows.Instance `json:"instance"`
}

// A Reply is the line that the program answers with.
type Reply struct {
	Floor  int         `json:"floor"`  // of the task
	Layout rows.Layout `json:"layout"` // the starter of each run, 0 for a run in one piece; null where none was found
	// Packing says whose plank each one-piece run's piece comes from: the number of the run whose starter, or one-piece
	// run, is cut from the same plank, else -1. Without it the count looks for a packing itself, and may miss the best.
	Packing     rows.Packing       `json:"packing,omitempty"`
	Certificate *proof.Certificate `json:"certificate,omitempty"` // of a bound, if it proves one
}

// Stream is a program of someone else. It is started when the first floor comes, and once more for each floor that is
// laid at the same time; each process reads a [Task] a line on its standard input and writes a [Reply] a line on its
// standard output, in the same order, until its input ends. One that ends after an answer is started again. Its
// standard error is quoted in messages.
type Stream struct {
	Label   string        // its name in tables
	Command []string      // program and arguments
	Limit   time.Duration // for one floor; default one minute

	mutex sync.Mutex
	idle  []*process
}

// Limits of what is read from a program, in bytes.
const (
	maxReply  = 64 << 20 // of one line
	maxErrors = 4096     // of its standard error
)

// grace is what a program may take beyond its limit before it is killed: it may look at the clock between steps.
const grace = time.Second

// Name returns the label.
func (s *Stream) Name() string { return s.Label }

// Lay has a process lay the floor. One that does not answer within the limit and a second is killed: ErrNone, and the
// next floor starts another. One that ends, or whose answer cannot be read, is an error.
func (s *Stream) Lay(ctx context.Context, floor *Floor) (*Answer, error) {
	p, err := s.take()
	if err != nil {
		return nil, err
	}
	a, err := s.ask(ctx, p, floor)
	for p.asked > 1 && (errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, syscall.EPIPE)) {
		// It ended after an earlier answer, as a program for one floor does: another one is asked.
		p.kill()
		if p, err = s.take(); err != nil {
			return nil, err
		}
		a, err = s.ask(ctx, p, floor)
	}
	if err != nil && !errors.Is(err, errEmpty) {
		p.kill()
		return nil, p.explain(s.Label, err)
	}
	s.mutex.Lock()
	s.idle = append(s.idle, p)
	s.mutex.Unlock()
	if err != nil {
		return nil, ErrNone
	}
	return a, nil
}

// Close ends all processes: their input ends, and they have a second to end too.
func (s *Stream) Close() error {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	for _, p := range s.idle {
		p.in.Close()
		select {
		case <-p.ended:
		case <-time.After(grace):
		}
		p.kill()
	}
	s.idle = nil
	return nil
}

func (s *Stream) limit() time.Duration {
	if s.Limit > 0 {
		return s.Limit
	}
	return time.Minute
}

// take returns an idle process, or starts one.
func (s *Stream) take() (*process, error) {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	if n := len(s.idle) - 1; n >= 0 {
		p := s.idle[n]
		s.idle = s.idle[:n]
		return p, nil
	}
	p, err := start(s.Command)
	if err != nil {
		return nil, fmt.Errorf("strategy: %s does not start: %w", s.Label, err)
	}
	return p, nil
}

// errEmpty says that the program found no layout.
var errEmpty = errors.New("strategy: no layout")

// ask writes a task and reads its reply.
func (s *Stream) ask(ctx context.Context, p *process, floor *Floor) (*Answer, error) {
	p.asked++
	task := Task{p.asked, floor.Seed, s.limit().Seconds(), floor.PerBox, floor.Rows}
	line, err := json.Marshal(task)
	if err != nil {
		return nil, err
	}
	type result struct {
		line []byte
		err  error
	}
	done := make(chan result, 1)
	go func() {
		if _, err := p.in.Write(append(line, '\n')); err != nil {
			done <- result{nil, err}
			return
		}
		if !p.out.Scan() {
			err := p.out.Err()
			if err == nil {
				err = io.ErrUnexpectedEOF
			}
			done <- result{nil, err}
			return
		}
		done <- result{p.out.Bytes(), nil}
	}()
	timer := time.NewTimer(s.limit() + grace)
	defer timer.Stop()
	select {
	case <-ctx.Done():
		return nil, ctx.Err()
	case <-timer.C:
		return nil, fmt.Errorf("%w: %s was stopped after %v", ErrNone, s.Label, s.limit()+grace)
	case r := <-done:
		if r.err != nil {
			return nil, r.err
		}
		return read(r.line, &task)
	}
}

// read reads the reply to a task.
func read(line []byte, task *Task) (*Answer, error) {
	dec := json.NewDecoder(bytes.NewReader(line))
	dec.DisallowUnknownFields()
	var reply Reply
	if err := dec.Decode(&reply); err != nil {
		return nil, fmt.Errorf("%w; a line {\"floor\": %d, \"layout\": [one starter a run]} is due", err, task.Floor)
	}
	switch {
	case reply.Floor != task.Floor:
		return nil, fmt.Errorf("it answers floor %d where %d was asked for", reply.Floor, task.Floor)
	case reply.Layout == nil:
		return nil, errEmpty
	case len(reply.Layout) != len(task.Instance.Runs):
		return nil, fmt.Errorf("it has %d starters for %d runs", len(reply.Layout), len(task.Instance.Runs))
	}
	return &Answer{Layout: reply.Layout, Packing: reply.Packing, Certificate: reply.Certificate}, nil
}

// A process is a program at work.
type process struct {
	cmd   *exec.Cmd
	in    io.WriteCloser
	out   *bufio.Scanner
	errs  *head
	asked int
	ended chan struct{} // closed when it has ended
}

func start(command []string) (*process, error) {
	cmd := exec.Command(command[0], command[1:]...)
	cmd.WaitDelay = time.Second
	in, err := cmd.StdinPipe()
	if err != nil {
		return nil, err
	}
	out, err := cmd.StdoutPipe()
	if err != nil {
		return nil, err
	}
	p := &process{cmd: cmd, in: in, out: bufio.NewScanner(out), errs: &head{left: maxErrors}, ended: make(chan struct{})}
	p.out.Buffer(nil, maxReply)
	cmd.Stderr = p.errs
	if err := cmd.Start(); err != nil {
		return nil, err
	}
	go func() {
		_, _ = cmd.Process.Wait() // not cmd.Wait, which would close the pipe before its last line is read
		close(p.ended)
	}()
	return p, nil
}

func (p *process) kill() {
	p.in.Close()
	_ = p.cmd.Process.Kill()
	<-p.ended
	_ = p.cmd.Wait()
}

// explain names the program and quotes what it wrote on its standard error.
func (p *process) explain(label string, err error) error {
	switch {
	case errors.Is(err, ErrNone), errors.Is(err, context.Canceled):
		return err
	case errors.Is(err, bufio.ErrTooLong):
		err = fmt.Errorf("it writes a line of more than %d MB", maxReply>>20)
	case errors.Is(err, io.ErrUnexpectedEOF):
		err = errors.New("it ends before it answers")
	}
	if said := p.errs.text(); said != "" {
		return fmt.Errorf("strategy: %s: %w: %s", label, err, said)
	}
	return fmt.Errorf("strategy: %s: %w", label, err)
}

// head keeps the first bytes written to it.
type head struct {
	mutex sync.Mutex
	kept  bytes.Buffer
	left  int
}

func (h *head) Write(b []byte) (int, error) {
	h.mutex.Lock()
	defer h.mutex.Unlock()
	n := min(len(b), h.left)
	h.kept.Write(b[:n])
	h.left -= n
	return len(b), nil
}

func (h *head) text() string {
	h.mutex.Lock()
	defer h.mutex.Unlock()
	return h.kept.String()
}
