package main

import (
	"io"
	"os"
	"strconv"
	"strings"

	"golang.org/x/term"
)

// Widths of the report in columns.
const (
	widthDefault = 80  // into a pipe or a file
	widthMin     = 24  // below it lines are left to the terminal to fold
	widthMax     = 100 // longer lines are hard to read
)

// reportWidth returns how many columns the report may take: COLUMNS when it is set, else the terminal's, else 80.
func reportWidth(w io.Writer) int {
	if n, err := strconv.Atoi(os.Getenv("COLUMNS")); err == nil && n > 0 {
		return min(max(n, widthMin), widthMax)
	}
	if fd, ok := terminal(w); ok {
		if n, _, err := term.GetSize(fd); err == nil && n > 0 {
			return min(max(n, widthMin), widthMax)
		}
	}
	return widthDefault
}

// terminal returns the file descriptor of w when it is a terminal.
func terminal(w io.Writer) (int, bool) {
	f, ok := w.(*os.File)
	if !ok {
		return 0, false
	}
	fd := int(f.Fd())
	return fd, term.IsTerminal(fd)
}

// utf8Locale reports whether the locale has more than ASCII characters.
func utf8Locale() bool {
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if v := strings.ToLower(os.Getenv(name)); v != "" {
			return strings.Contains(v, "utf-8") || strings.Contains(v, "utf8")
		}
	}
	return false
}

// A palette sets words apart; the zero value leaves them plain.
type palette struct{ on bool }

// paletteFor turns weight on for a terminal that has it and a user who has not asked for none (https://no-color.org).
func paletteFor(w io.Writer) palette {
	_, tty := terminal(w)
	return palette{on: tty && os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb"}
}

func (p palette) bold(s string) string {
	if !p.on {
		return s
	}
	return "\x1b[1m" + s + "\x1b[0m"
}

// wrap breaks text into lines of at most width columns, at spaces; the lines after the first start with indent.
func wrap(text string, width int, indent string) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		switch {
		case line == "":
			line = word
			if len(lines) > 0 {
				line = indent + word
			}
		case columns(line)+1+columns(word) <= width:
			line += " " + word
		default:
			lines = append(lines, line)
			line = indent + word
		}
	}
	return append(lines, line)
}

// columns counts the columns of text made of letters one column wide, which is all that a report holds but for names.
func columns(s string) int { return len([]rune(s)) }
