package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"time"

	"plank.example/bench/mip"
)

// self is the name of this library among solvers.
const self = "this library"

// An answer is what a solver said of an instance, as a file keeps it, a line each.
type answer struct {
	Instance string  `json:"instance"`
	Solver   string  `json:"solver"` // with its model, as in "CBC step"
	Limit    float64 `json:"limit"`  // seconds of processor time that it had; 0 for none
	Planks   int     `json:"planks"` // 0 where it has no layout
	Proven   bool    `json:"proven"`
	CPU      float64 `json:"cpu"` // seconds, less the start of the solver; 0 where it was stopped at the limit
}

// answers are those of a file, by instance and solver, and grow with it. Nil keeps nothing.
type answers struct {
	file  string
	known map[[2]string]answer
}

// readAnswers reads a file, which need not be there yet.
func readAnswers(file string) (*answers, error) {
	out := &answers{file: file, known: make(map[[2]string]answer)}
	data, err := os.ReadFile(file)
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		return nil, err
	}
	n := 0
	for line := range bytes.Lines(data) {
		n++
		var a answer
		if err := json.Unmarshal(line, &a); err != nil {
			return nil, fmt.Errorf("%s, line %d: %w", file, n, err)
		}
		out.known[[2]string{a.Instance, a.Solver}] = a // a later one had more time
	}
	return out, nil
}

// of returns the answer of a solver, if one is kept that had the time: one stopped sooner may yet close.
func (k *answers) of(instance, solver string, limit time.Duration) (*mip.Answer, bool) {
	if k == nil {
		return nil, false
	}
	a, ok := k.known[[2]string{instance, solver}]
	if !ok || !a.Proven && a.Limit < limit.Seconds() {
		return nil, false
	}
	cpu := time.Duration(a.CPU * float64(time.Second))
	return &mip.Answer{Planks: a.Planks, Proven: a.Proven && (limit == 0 || cpu <= limit), CPU: cpu}, true
}

// has reports whether the solver was asked at all.
func (k *answers) has(instance, solver string) bool {
	_, ok := k.known[[2]string{instance, solver}]
	return ok
}

// keep appends an answer to the file.
func (k *answers) keep(instance, solver string, limit time.Duration, a *mip.Answer) error {
	if k == nil {
		return nil
	}
	line, err := json.Marshal(answer{instance, solver, limit.Seconds(), a.Planks, a.Proven, a.CPU.Seconds()})
	if err != nil {
		return err
	}
	f, err := os.OpenFile(k.file, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o644)
	if err != nil {
		return err
	}
	if _, err := f.Write(append(line, '\n')); err != nil {
		f.Close()
		return err
	}
	return f.Close()
}
