package main

import (
	"fmt"
	"io"
	"os"
	"strings"

	"plank.example/cutopt/solve"
)

// A progressLine shows how far the search is on one line of a terminal, and nothing anywhere else.
type progressLine struct {
	w     io.Writer
	width int
	on    bool
	shown bool
}

func newProgressLine(w io.Writer) *progressLine {
	_, tty := terminal(w)
	return &progressLine{w: w, width: reportWidth(w) - 1, on: tty && os.Getenv("TERM") != "dumb"}
}

func (l *progressLine) show(p solve.Progress) { l.write(progressText(p)) }

// laying shows how often the floor has been laid.
func (l *progressLine) laying(runs int) func(done int) {
	return func(done int) { l.write(fmt.Sprintf("risk: laid %d of %d times", done, runs)) }
}

// write shows plain ASCII, so that it can be cut at any byte.
func (l *progressLine) write(text string) {
	if !l.on {
		return
	}
	if columns(text) > l.width {
		text = text[:l.width]
	}
	fmt.Fprintf(l.w, "\r%s%s", text, strings.Repeat(" ", l.width-columns(text)))
	l.shown = true
}

func progressText(p solve.Progress) string {
	text := p.Phase.String()
	if p.Planks > 0 {
		text += fmt.Sprintf(": %s so far", count(p.Planks, "plank", "planks"))
	}
	if p.Bound > 0 {
		text += fmt.Sprintf(", at least %d needed", p.Bound)
	}
	return text
}

// clear wipes the line.
func (l *progressLine) clear() {
	if l.shown {
		fmt.Fprintf(l.w, "\r%s\r", strings.Repeat(" ", l.width))
		l.shown = false
	}
}

// count writes a number with its noun.
func count(n int, one, many string) string {
	if n == 1 {
		many = one
	}
	return fmt.Sprintf("%d %s", n, many)
}
