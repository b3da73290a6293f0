// Package paper writes the documents of package sheet as PDF and PNG. It is apart from sheet because both are set in
// fonts of their own, which programs that write SVG and HTML alone need not carry.
package paper

import (
	"io"

	"plank.example/cutopt/sheet"
	"plank.example/cutopt/sheet/internal/draw"
	"plank.example/cutopt/sheet/internal/print"
)

// PDF writes a document as pages of Options.Paper: the job sheet has the same sections as HTML, set without a browser.
// The contents of all pages are held in memory until the end. The error is that of w, or says that the map would take a
// library of paper.
func PDF(w io.Writer, s *sheet.Sheet, document sheet.Document) error {
	pages, err := s.Pages(document, true)
	if err != nil {
		return err
	}
	return print.PDF(w, s.Title(document), s.Language(), pages)
}

// PNG writes a document as one picture of Options.DPI dots per inch, of 4 bytes a dot in memory. The error is that of
// w, or says that the document is no picture: the job sheet is none.
func PNG(w io.Writer, s *sheet.Sheet, document sheet.Document) error {
	pages, err := s.Pages(document, false)
	if err != nil {
		return err
	}
	var first *draw.Drawing
	for d := range pages {
		first = d
		break
	}
	return print.PNG(w, first, s.DPI())
}
