package words

// english holds the words of maps, sheets and lists in English, by key. Lines of a list are separated by line breaks.
var english = map[string]string{
	// Facts of plans.
	"fact.doorway": "the doorway in wall {wall} of {room} is no wider than the gaps at its sides: no floor runs " +
		"into it",
	"fact.jogs.one":     "straightened one jog shorter than {most}",
	"fact.jogs.many":    "straightened {count} jogs shorter than {most}",
	"fact.slivers.one":  "left one sliver under the trim, narrower than {most}, {area}",
	"fact.slivers.many": "left {count} slivers under the trim, each narrower than {most}, {area} together",
	"fact.edge-asked":   "with the first row as asked the edge rows are {first} and {last} wide; the least is {least}",
	"fact.edge-forced": "no place of the rows keeps both edge rows at {least} or more without strips that are " +
		"harder to hold: where they are narrowest the row along the starting wall is {first} wide, the one along the " +
		"wall opposite {last}",
	"fact.strip": "row {row}, piece {piece}: a strip of {width} over {length}, {at} from its left end and " +
		"{across} from the row's edge toward the starting wall, is narrower than {least} and hard to hold",
	"fact.doorway-row": "row {row} lies in a doorway alone and is {width} wide, less than {least}, where everyone " +
		"steps on it; another first row, or a smaller min-rip, may leave more there",
	"fact.base.one": "the rows are laid out from wall {wall} of {room}, the longest: {length}",
	"fact.base.many": "the rows are laid out from wall {wall} of {room}, {length}: of {count} walls as long to " +
		"within 1 % the one measured first",
	"fact.base-asked": "the rows are laid out from wall {wall} of {room}, as the job asks",
	"fact.taper": "the first row takes {first} of the room's taper and the last {last}: the last alone would be " +
		"narrower than {least}",
	"fact.line":    "snap a line {width} from wall {wall} of {room}: row {row} ends on it",
	"fact.line-at": "row {row} ends on a line that is {width} from wall {wall} of {room} at {at} from its left end",
	"facts.line-at": "row {row} ends on a line aslant to wall {wall} of {room}; from the wall's left end | from the " +
		"wall, in {unit}: {places}",
	"fact.line-fixed": "snap a line {width} from {island} in {room}: row {row} ends on it",
	"fact.line-fixed-at": "row {row} ends on a line that is {width} from {island} in {room} at {at} from its left " +
		"end",
	"facts.line-fixed-at": "row {row} ends on a line aslant to {island} in {room}; from its left end | from its " +
		"front, in {unit}: {places}",
	"facts.strip": "rows {from} to {to}, piece {piece}: strips of {widths}, {at} from the left end, are narrower than " +
		"{least} and hard to hold",
	"fact.through.one": "one floor through several rooms: lay row by row, each row in all rooms that it " +
		"reaches before the next; no line between rows runs through two rooms: carry the one at the end " +
		"of row {row}, {across} from the starting side, over through the doorway",
	"fact.through.many": "one floor through several rooms: lay row by row, each row in all rooms that it " +
		"reaches before the next; snap the line at the end of row {row}, {across} from the starting side, " +
		"through {count} rooms and keep to it",
	"fact.room-rows.one":  "{room} takes row {row}",
	"fact.room-rows.many": "{room} takes {count} rows, from row {row} on",
	"fact.break": "this field ends at a break in {room}, from wall {wall}, {at} from the corner where the wall " +
		"begins, straight across: a transition of {length}; what stands in it is {width} wide, with the gap on " +
		"both sides",
	"fact.break-on": "this field ends at a break in {room}, from break to break: a transition of {length}; what " +
		"stands in it is {width} wide, with the gap on both sides",
	"fact.break-doorway": "this field ends at a break in doorway {doorway} of {room}: a transition of {length}; " +
		"what stands in it is {width} wide, with the gap on both sides",
	"shaping.rip":  "rip to {width}, off the edge {edge}",
	"fact.rip":     "rip {width} off the edge {edge}",
	"fact.notch":   "notch {length} x {width} {place}",
	"fact.cut-out": "cut out {length} x {width} {place}",
	"fact.hole": "cut a round hole of {diameter}, its middle {at} from the left end and {across} from the " +
		"edge toward the starting wall",
	"fact.round": "cut a round notch, {length} x {width} of a circle of {diameter}, {place}",
	"fact.slit": "saw a block of {length} x {width} out {place}, in two cuts to the hole, and glue it back behind " +
		"what stands there once the piece lies; it has no room to tilt: trim the lip of its joint where it meets a " +
		"piece that lies already, and set it in flat (common practice)",
	"fact.end-cut": "cut the {end} end aslant: {front} along the edge toward the starting wall, {back} along " +
		"the other",
	"fact.edge-cut":   "rip the edge {edge} aslant: {left} wide at the left end, {right} at the right",
	"fact.corner-cut": "cut off the {end} corner {edge}, {length} x {width}",
	"fact.scribe":     "scribe within {length} x {width} {place}",
	"fact.outline":    "saw to the outline drawn: {length} x {width}",
	"where.edge":      "along the edge {edge}",
	"where.length":    "across the whole length, {across} from the edge toward the starting wall",
	"where.corner":    "at the {end} corner {edge}",
	"where.end":       "at the {end} end, over the whole width",
	"where.in-end":    "in the {end} end, {across} from the edge toward the starting wall",
	"where.width":     "across the whole width, {at} from the left end",
	"where.in-edge":   "in the edge {edge}, {at} from the left end",
	"where.within":    "{at} from the left end and {across} from the edge toward the starting wall",
	"end.none":        "no",
	"end.left":        "left",
	"end.right":       "right",
	"end.both":        "either",
	"edge.none":       "no",
	"edge.front":      "toward the starting wall",
	"edge.back":       "away from the starting wall",
	"edge.both":       "on either side",

	"decimal": ".",
	"numbers": "one two three four five six seven eight nine ten eleven twelve",

	"unit.in": "inches",
	"unit.ft": "feet and inches",
	"unit.mm": "millimetres",
	"unit.cm": "centimetres",
	"unit.m":  "metres",

	"hand.left":  "left",
	"hand.right": "right",

	// The floor map.
	"map":             "Floor map",
	"nothing":         "This plan has no floor to draw.",
	"room":            "Room {n}",
	"page":            "page {n}",
	"tile":            "Sheet {k} of {n}",
	"tile-rows":       "rows {from} to {to}",
	"tile-part":       "part {k} of {n} from the left",
	"rows.one":        "1 row",
	"rows.many":       "{n} rows",
	"plank-size":      "planks {length} x {width}",
	"gap":             "gap {gap}",
	"starting-wall":   "Starting wall",
	"towards-start":   "toward the starting wall",
	"field":           "{room}, field {n}",
	"wall.break":      "transition · {length}",
	"wall.transition": "transition",
	"wall.full":       "wall {n} · {length}",
	"wall.short":      "{n} · {length}",
	"turned.90":       "turned a quarter to the right against the sketch",
	"turned.180":      "turned half round against the sketch",
	"turned.270":      "turned a quarter to the left against the sketch",
	"turned.degrees":  "turned {degrees}° to the right against the sketch",
	"turned.mirrored": "mirrored against the sketch",
	"sketch-top":      "top of sketch",
	"row-link":        "Row {row}",
	"range":           "{from} to {to}",
	"as-it-comes":     "as it comes, {range}",
	"no-cut":          "as it comes, {range}: no saw cut",
	"rip-mark":        "rip to {width}",
	"rip-mark-notes":  "rip: see notes",
	"door-letter":     "D",
	"legend.whole":    "whole plank",
	"legend.starter":  "S starter",
	"legend.ender":    "E ender, cut to fit",
	"legend.only":     "O one piece fills the run",
	"legend.plain":    "number of the plank",
	"legend.shared":   "the same plank gives two pieces: find the other dark box. Lengths in {unit}.",
	"legend.text": "S starter, E ender (cut to fit), O one piece fills the run, #7 the same plank 7 gives two " +
		"pieces. Lengths in {unit}.",
	"letter.whole":   "W",
	"letter.starter": "S",
	"letter.ender":   "E",
	"letter.only":    "O",
	"piece-title":    "Row {row}: {kind}, {length}, plank {plank}",
	"note":           "Row {row}, {piece}: {shaping}",
	"note.numbered":  "Note {n}: {text}",
	"corners": "saw to these corners, from its left end | from its edge towards the starting wall, in {unit}: " +
		"{corners}",
	"piece.in-row": "piece {n} from the left",
	"piece.in-run": "piece {n} from the left in stretch {k} of {runs}",

	"piece.in-row.many": "pieces {n} from the left",
	"piece.in-run.many": "pieces {n} from the left in stretch {k} of {runs}",

	"kind.whole":     "whole plank",
	"kind.starter":   "starter",
	"kind.ender":     "ender",
	"kind.only":      "single piece",
	"kind.left-over": "left over",

	// The plank sheet and the list of cuts.
	"strips": "How the planks are cut",
	"strips.read": "Each strip is one plank, its left end on the left when the side you walk on is up and you " +
		"face the starting wall. Figures below a strip: from the left end to the cut. A dark number: the plank " +
		"is used twice. Dashed: left over.",
	"strip.piece":       "{letter} {length} · row {row}",
	"strip.row":         "{letter} {row}",
	"strip.left-over":   "left over {length}",
	"strips.whole.one":  "One plank keeps its full length; in an edge row it is only ripped: number",
	"strips.whole.many": "{n} planks keep their full length; in edge rows they are only ripped: numbers",
	"shapes":            "Pieces with notches and angles",
	"shapes.read": "As they lie, the edge towards the starting wall at the top; dashed: the full piece. Figures " +
		"below: from its left end; at the left: from its upper edge, as wide as the row. Measure in the room " +
		"before sawing.",
	"shapes.title": "Note {n}: row {row}, {kind} from plank {plank}",
	"cuts":         "List of cuts",
	"cuts.order": "Crosscut first, rip afterwards: only the piece that needs it is ripped, and the offcut keeps " +
		"its full width.",
	"cuts.plank":      "Plank",
	"cuts.part":       "Part",
	"cuts.room":       "Room",
	"cuts.row":        "Row",
	"cuts.length":     "Length ({unit})",
	"cuts.from":       "From left end",
	"cuts.to":         "To",
	"cuts.sawn":       "Factory ends",
	"cuts.note":       "Then",
	"cuts.whole.one":  "One plank is laid whole: number",
	"cuts.whole.many": "{n} planks are laid whole: numbers",
	"sawn.none":       "none",
	"sawn.left":       "left",
	"sawn.right":      "right",
	"sawn.both":       "both",
}
