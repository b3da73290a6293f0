package sheet

import (
	"fmt"
	"io"
	"iter"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/enum"
	"plank.example/cutopt/sheet/internal/draw"
)

// A Sheet is a plan ready to be drawn and written. It is only read once it is made, so several goroutines may write it.
type Sheet struct{ b *book }

// New reads a plan made from the job. nil options are the default options. The error names each option outside its
// range, or says what in the job or the plan does not hold together; then nothing can be written.
func New(job *cutopt.Job, plan *cutopt.Plan, opt *Options) (*Sheet, error) {
	b, err := newBook(job, plan, opt)
	if err != nil {
		return nil, err
	}
	return &Sheet{b}, nil
}

// A Document is one of those made of pages.
type Document uint8

// The documents.
const (
	DocumentSheet  Document = iota // "sheet": the job sheet
	DocumentMap                    // "map": the map of the floor
	DocumentPlanks                 // "planks": how every plank is cut
	DocumentPocket                 // "pocket": the pocket sheet
)

var documentNames = []string{"sheet", "map", "planks", "pocket"}

// String returns "sheet", "map", "planks" or "pocket".
func (d Document) String() string { return enum.String("Document", documentNames, int(d)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (d Document) MarshalText() ([]byte, error) {
	return enum.MarshalText("Document", documentNames, int(d))
}

// UnmarshalText reads what MarshalText writes.
func (d *Document) UnmarshalText(text []byte) error {
	return enum.UnmarshalText("Document", documentNames, text, d)
}

// documentKeys are the keys of the documents' names.
var documentKeys = map[Document]string{
	DocumentSheet: "sheet", DocumentMap: "map", DocumentPlanks: "strips", DocumentPocket: "pocket",
}

// Language returns the language that is spoken.
func (s *Sheet) Language() string { return s.b.Language }

// DPI returns the dots per inch of PNG files.
func (s *Sheet) DPI() float64 { return s.b.opt.DPI }

// Title returns the title of a document: the job's name and what it is.
func (s *Sheet) Title(document Document) string {
	return s.b.fullTitle(s.b.Say(documentKeys[document]))
}

// Pages yields the drawings of a document for package paper: printed, page by page, else one that is as long as it
// takes. The error says that it would take a library of paper, or that a sheet to work from is no picture.
func (s *Sheet) Pages(document Document, printed bool) (iter.Seq[*draw.Drawing], error) {
	b := s.b
	width, height := b.opt.Paper.size()
	set := setting{width: width, margin: paperMargin}
	if printed {
		set.height = height
	}
	pages := b.mapPages
	switch document {
	case DocumentMap:
	case DocumentPlanks:
		pages = b.stripPages
	case DocumentSheet, DocumentPocket:
		if !printed {
			return nil, fmt.Errorf("sheet: %v is no picture: use %v or %v", document, DocumentMap, DocumentPlanks)
		}
		b = b.forSheet()
		pages = b.sheetPages
		if document == DocumentPocket {
			return b.pocketPages(set), nil
		}
	default:
		return nil, fmt.Errorf("sheet: %v is no document", document)
	}
	if printed {
		if err := b.checkSheets(); err != nil {
			return nil, err
		}
	}
	return pages(set), nil
}

// Map draws the floors as one SVG picture: every row, joint and piece, with the islands, the doorways and the starting
// wall.
func (s *Sheet) Map(w io.Writer) error { return s.svg(w, DocumentMap) }

// Planks draws one strip for every plank that is sawn, as one SVG picture: where it is cut, measured from its left end,
// which pieces come off, and what becomes of the rest.
func (s *Sheet) Planks(w io.Writer) error { return s.svg(w, DocumentPlanks) }

func (s *Sheet) svg(w io.Writer, document Document) error {
	pages, err := s.Pages(document, false)
	if err != nil {
		return err
	}
	for d := range pages {
		return d.SVG(w)
	}
	return nil
}

// HTML writes the job sheet as one file that needs nothing else: for a phone in the room and for a browser's printer.
// Its tick boxes are remembered by the browser under a key made from the plan, so that a new plan starts afresh. The
// page loads nothing and may load nothing: its content security policy says so. The pictures are made one page at a
// time while the file is written.
func (s *Sheet) HTML(w io.Writer) error {
	b := s.b.forSheet()
	if err := b.checkSheets(); err != nil {
		return err
	}
	return pageTemplate().Execute(w, &page{b, DocumentSheet})
}

// Pocket writes the pocket sheet as a file like that of HTML: what to buy, and for each floor its map and a line for
// each row. Printed, a floor of up to 28 rows takes one page, one of 40 rows two; floors share pages.
func (s *Sheet) Pocket(w io.Writer) error {
	b := s.b.forSheet()
	b.places = b.pocketPlaces()
	return pageTemplate().Execute(w, &page{b, DocumentPocket})
}

// Cuts writes the list of cuts: what every plank is sawn into, from its left end to its right. FormatCSV has one line a
// part and all planks; FormatMarkdown and FormatText list the planks that are sawn and count the whole ones. Cells of
// a CSV file that a spreadsheet would take for a formula begin with an apostrophe. Other formats are an error.
func (s *Sheet) Cuts(w io.Writer, format Format) error {
	switch format {
	case FormatCSV:
		return s.b.cutsCSV(w)
	case FormatMarkdown:
		return s.b.cutsMarkdown(w)
	case FormatText:
		return s.b.cutsText(w)
	}
	return formatError("the list of cuts", format, FormatCSV, FormatMarkdown, FormatText)
}

// Text draws the floors in box characters for a terminal, one line a row, as wide as Options.Columns. It uses no
// colour; with Options.ASCII it uses no character beyond ASCII either, and names from the job lose theirs. Cost: O(rows
// x columns).
func (s *Sheet) Text(w io.Writer) error { return s.b.text(w) }
