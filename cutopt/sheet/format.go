package sheet

import (
	"fmt"
	"path/filepath"
	"strings"

	"plank.example/cutopt/internal/enum"
)

// A Format is a kind of file.
type Format uint8

// The formats.
const (
	FormatSVG      Format = iota // "svg"
	FormatPNG                    // "png"
	FormatPDF                    // "pdf"
	FormatHTML                   // "html"
	FormatCSV                    // "csv"
	FormatMarkdown               // "md"
	FormatText                   // "txt"

)

var formatNames = []string{"svg", "png", "pdf", "html", "csv", "md", "txt"}

// String returns the usual ending of such files, without the stop.
func (f Format) String() string { return enum.String("Format", formatNames, int(f)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (f Format) MarshalText() ([]byte, error) { return enum.MarshalText("Format", formatNames, int(f)) }

// UnmarshalText reads what MarshalText writes.
func (f *Format) UnmarshalText(text []byte) error {
	return enum.UnmarshalText("Format", formatNames, text, f)
}

// FormatOf returns the format that the ending of a file name stands for: .svg, .png, .pdf, .html or .htm, .csv, .md,
// .txt, in capitals or not. The error quotes the name and lists the endings.
func FormatOf(fileName string) (Format, error) {
	ending := strings.ToLower(strings.TrimPrefix(filepath.Ext(fileName), "."))
	if ending == "htm" {
		return FormatHTML, nil
	}
	for i, name := range formatNames {
		if name == ending {
			return Format(i), nil
		}
	}
	return 0, fmt.Errorf(
		"sheet: the ending of %q says no format: end the name in .%s",
		fileName,
		strings.Join(formatNames, ", ."),
	)
}

// formatError says that a document is not to be had in a format.
func formatError(what string, f Format, allowed ...Format) error {
	names := make([]string, len(allowed))
	for i, a := range allowed {
		names[i] = a.String()
	}
	return fmt.Errorf("sheet: %s is not written as %v: use %s", what, f, strings.Join(names, ", "))
}
