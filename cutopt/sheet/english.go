package sheet

// english holds every word in English, by key.
var english = map[string]string{
	"decimal": ".",

	"map":           "Floor map",
	"nothing":       "This plan has no floor to draw.",
	"room":          "Room {n}",
	"page":          "page {n}",
	"tile":          "Sheet {k} of {n}",
	"tile-rows":     "rows {from} to {to}",
	"rows.one":      "1 row",
	"rows.many":     "{n} rows",
	"plank-size":    "planks {length} x {width}",
	"gap":           "gap {gap} all round",
	"starting-wall": "Starting wall",
	"towards-start": "towards the starting wall",
	"rip-mark":      "rip {width}",
	"door-letter":   "D",

	"legend.whole":   "whole plank",
	"legend.starter": "S starter",
	"legend.ender":   "E ender, cut to fit",
	"legend.only":    "O fills its run alone",
	"legend.shared":  "plank number; a dark box stands on both pieces of a plank that is used twice. Lengths in {unit}.",

	"letter.starter": "S",
	"letter.ender":   "E",
	"letter.only":    "O",

	"kind.whole":   "whole plank",
	"kind.starter": "starter",
	"kind.ender":   "ender",
	"kind.only":    "single piece",

	"piece-title": "Row {row}: {kind}, {length}, plank {plank}",
	"note":        "Row {row}, piece {piece} from the left: {shaping}",
	"corners":     "saw to these corners, from its left end | from the edge towards the starting wall, in {unit}: {corners}",
}
