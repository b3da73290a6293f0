// Package sheet turns a plan into what an installer takes into the room: a map of the floor, strips that show how every
// plank is cut, a list of cuts, a job sheet to work from with one hand free, and a pocket sheet of a page or two.
//
// [New] reads a plan and its job. [Sheet.Map] and [Sheet.Planks] draw them as SVG, [Sheet.HTML] writes the whole job
// sheet for a phone or a browser's printer and [Sheet.Pocket] the pocket sheet, [Sheet.Cuts] lists the cuts by plank as
// CSV, Markdown or text, and [Sheet.Text] draws the map in box characters for a terminal. Package paper writes the same
// as PNG and PDF, with the fonts that takes. Every word is of package words.
//
// # How to read the pictures
//
// The starting wall is at the top: the reader stands facing it. Rows are numbered from it. A starter is hatched like a
// slash and lettered S, an ender like a backslash and lettered E, a piece that fills its run alone both ways and
// lettered O; whole planks are plain. The number in a box is the plank's; where the same number stands in a dark box on
// two pieces, the second is the offcut of the first.
//
// What is written on an offcut is the run and the part of the piece that it is kept for: "5 S" is the starter of row 5.
// The figures outside a wall are its number in the job and its length from corner to corner. A map says how it is
// turned against the drawing of the job, and on a page its rows are links to their steps.
//
// # Guarantees
//
//  1. Every number is the plan's: lengths of pieces and offcuts are rounded down to the job's graduation or to 1/16 in
//     or 1 mm where that is finer, because a piece that is a hair too long does not go in.
//  2. The same plan and options give the same bytes: nothing written carries a date.
//  3. The three formats of a picture come from one drawing and agree.
//  4. The HTML file is complete in itself and asks no host for anything; names from the job are escaped.
//  5. Nothing is written when the plan and the job do not belong together.
//
// PNG and PDF are set in the Go fonts, which have Latin, Greek and Cyrillic letters; what they lack appears as a
// replacement mark. SVG and HTML leave the letters to the reader's fonts.
//
// Pages are made one after the other, so that memory grows with a page and not with the floor; only PDF files are held
// until their end.
package sheet
