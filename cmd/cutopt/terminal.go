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

// wrap breaks text into lines of at most width columns, at spaces but not within a measure; the lines after the first
// start with indent.
func wrap(text string, width int, indent string) []string {
	var lines []string
	line := ""
	for _, word := range unbroken(text) {
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

// unbroken splits text into what stays on one line: words, and measures with their fractions and units, since a figure
// that is read from the end of a line, or a fraction from the beginning of the next, is a wrong cut.
func unbroken(text string) []string {
	var out []string
	last := "" // word of the text
	for word := range strings.FieldsSeq(text) {
		if n := len(out); n > 0 && together(last, word) {
			out[n-1] += " " + word
		} else {
			out = append(out, word)
		}
		last = word
	}
	return out
}

// together reports whether two words in succession belong to one measure: 3 7/8, 5' 1/2", 12 sq ft, 2 %.
func together(a, b string) bool {
	switch b = strings.TrimRight(b, ".,;:)"); {
	case a == "sq" || a == "cu":
		return b == "ft" || b == "in"
	case a[len(a)-1] == '\'':
		return b != "" && b[0] >= '0' && b[0] <= '9'
	case a[len(a)-1] < '0' || a[len(a)-1] > '9':
		return false
	}
	switch b {
	case "in", "ft", "mm", "cm", "m", "sq", "cu", "m²", "cm²", "%":
		return true
	}
	over, under, ok := strings.Cut(strings.TrimRight(b, `"`), "/")
	_, err := strconv.ParseUint(over, 10, 32)
	_, err2 := strconv.ParseUint(under, 10, 32)
	return ok && err == nil && err2 == nil
}

// columns counts the columns of text made of letters one column wide, which is all that a report holds but for names.
func columns(s string) int { return len([]rune(s)) }
