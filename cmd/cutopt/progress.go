package main

import (
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"

	"plank.example/cutopt/solve"
	"plank.example/cutopt/words"
)

// A progressLine shows how far the search is on one line of a terminal, and nothing anywhere else.
type progressLine struct {
	w      io.Writer
	speech *words.Speech
	width  int
	on     bool
	shown  bool
}

func newProgressLine(w io.Writer, s *words.Speech) *progressLine {
	_, tty := terminal(w)
	return &progressLine{w: readable(w), speech: s, width: reportWidth(w) - 1, on: tty && os.Getenv("TERM") != "dumb"}
}

func (l *progressLine) show(p solve.Progress) { l.write(progressText(l.speech, p)) }

// laying shows how often the floor has been laid.
func (l *progressLine) laying(runs int) func(done int) {
	return func(done int) {
		l.write(l.speech.Say("progress.risk", "n", strconv.Itoa(done), "times", strconv.Itoa(runs)))
	}
}

// write shows a text, cut to the width.
func (l *progressLine) write(text string) {
	if !l.on {
		return
	}
	if letters := []rune(text); len(letters) > l.width {
		text = string(letters[:l.width])
	}
	fmt.Fprintf(l.w, "\r%s%s", text, strings.Repeat(" ", l.width-columns(text)))
	l.shown = true
}

func progressText(s *words.Speech, p solve.Progress) string {
	text := s.Say("phase." + p.Phase.String())
	if p.Planks > 0 {
		text += s.Say("progress.planks", "planks", s.Count("things.plank", p.Planks))
	}
	if p.Bound > 0 {
		text += s.Say("progress.bound", "n", strconv.Itoa(p.Bound))
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
