package words

// english holds the words of maps, sheets and lists in English, by key. Lines of a list are separated by line breaks.
var english = map[string]string{
	// Facts of plans.
	"fact.doorway": "the doorway in wall {wall} of {room} is no wider than the gaps at its sides: no floor runs " +
		"into it",
	"fact.jogs.one":     "straightened one jog shorter than {most}",
	"fact.jogs.many":    "straightened {count} jogs shorter than {most}",
	"fact.slivers.one":  "left one sliver under the trim, narrower than {most}, {area}",
	"fact.slivers.many": "left {count} slivers under the trim, each narrower than {most}, {area} in all",
	"fact.edge-asked":   "with the first row as asked the edge rows are {first} and {last} wide; the least is {least}",
	"fact.edge-forced": "no place of the rows keeps every edge row at {least}: the first row is {first} wide " +
		"and the last {last}",
	"fact.strip": "row {row}, piece {piece}: a strip of {width} over {length}, {at} from its left end and " +
		"{across} from the front of the row, is narrower than {least} and hard to hold",
	"fact.break-across": "the floor is {length} across the rows and the most is {most}: put a break after row " +
		"{row}, {across} from the starting side",
	"fact.break-along": "row {row} is {length} long without a break and the most is {most}: put a break {at} " +
		"from its left end",
	"fact.rip":     "rip {width} off the {edge} edge",
	"fact.notch":   "notch {length} x {width} {place}",
	"fact.cut-out": "cut out {length} x {width} {place}",
	"fact.hole": "cut a round hole of {diameter}, its middle {at} from the left end and {across} from the " +
		"front edge",
	"fact.round": "cut a round notch, {length} x {width} of a circle of {diameter}, {place}",
	"fact.slit": "saw a block of {length} x {width} out {place}, in two cuts to the hole, and glue it back behind " +
		"what stands there once the piece lies",
	"fact.end-cut":    "cut the {end} end from {front} to {back}",
	"fact.edge-cut":   "rip the {edge} edge from {left} to {right} wide",
	"fact.corner-cut": "cut off the {end} {edge} corner, {length} x {width}",
	"fact.scribe":     "scribe within {length} x {width} {place}",
	"fact.outline":    "saw to the outline drawn: {length} x {width}",
	"where.edge":      "along the {edge} edge",
	"where.length":    "across the whole length, {across} from the front edge",
	"where.corner":    "at the {end} {edge} corner",
	"where.end":       "at the {end} end, over the whole width",
	"where.in-end":    "in the {end} end, {across} from the front edge",
	"where.width":     "across the whole width, {at} from the left end",
	"where.in-edge":   "in the {edge} edge, {at} from the left end",
	"where.within":    "{at} from the left end and {across} from the front edge",
	"end.none":        "no",
	"end.left":        "left",
	"end.right":       "right",
	"end.both":        "either",
	"edge.none":       "no",
	"edge.front":      "front",
	"edge.back":       "back",
	"edge.both":       "either",

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
	"map":            "Floor map",
	"nothing":        "This plan has no floor to draw.",
	"room":           "Room {n}",
	"page":           "page {n}",
	"tile":           "Sheet {k} of {n}",
	"tile-rows":      "rows {from} to {to}",
	"tile-part":      "part {k} of {n} from the left",
	"rows.one":       "1 row",
	"rows.many":      "{n} rows",
	"plank-size":     "planks {length} x {width}",
	"gap":            "gap {gap}",
	"starting-wall":  "Starting wall",
	"towards-start":  "towards the starting wall",
	"rip-mark":       "rip to {width}",
	"door-letter":    "D",
	"legend.whole":   "whole plank",
	"legend.starter": "S starter",
	"legend.ender":   "E ender, cut to fit",
	"legend.only":    "O one piece fills the run",
	"legend.plain":   "number of the plank",
	"legend.shared":  "the same plank gives two pieces: find the other dark box. Lengths in {unit}.",
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

	// The order.
	"sheet":            "Job sheet",
	"sheet.order":      "What to buy",
	"order.buy.one":    "Buy 1 box.",
	"order.buy.many":   "Buy {n} boxes.",
	"order.takes.one":  "1 box is enough if no plank breaks.",
	"order.takes.many": "{n} boxes are enough if no plank breaks.",
	"risk.buy": "Buy {boxes} boxes: if {loss} of the planks break, the fewest with a chance of running short of " +
		"{limit} or less.",
	"risk.enough": "If {loss} of the planks break, the chance that {boxes} boxes run short is {limit} or less.",
	"risk.plain": "Reckoned as if every broken plank cost a whole one. How many planks break is an assumption. " +
		"Planks left: if none breaks.",
	"risk.counted": "Counted by laying the floor {times} times with breakage and planning on from what was " +
		"left. How many planks break is an assumption. Planks left: if none breaks.",
	"risk.boxes":       "Boxes",
	"risk.verdict":     "Enough",
	"risk.left":        "Planks left",
	"risk.added":       "Added",
	"risk.share":       "Share",
	"risk.short":       "Runs short",
	"risk.no":          "proven too few",
	"risk.open":        "not known",
	"risk.yes":         "yes",
	"risk.none":        "–",
	"order.price":      "Price: {price}.",
	"order.use":        "That is {bought} planks, {per} to a box. The floor takes {used}.",
	"order.kept":       "Whole planks kept for repairs: {kept}.",
	"order.kept-boxes": "Planks kept for repairs, in unopened boxes: {kept}.",
	"order.reserve":    "Whole planks in reserve, as {loss} may break: {reserve}.",
	"order.over":       "Whole planks left over: {over}.",
	"order.proven": "Proven: with these rows no way of cutting that keeps the rules needs fewer than {boxes} " +
		"boxes.",
	"order.open": "At least {bound} boxes are needed with these rows; it is not settled whether fewer than " +
		"{boxes} can do.",
	"order.thumb":      "The rule of thumb, {percent} on top of the floor area, would buy {boxes}.",
	"order.lot":        "Order all boxes from one lot, and compare the lot numbers before you open the first.",
	"waste.what":       "Waste, in its three meanings",
	"waste.value":      "Value",
	"waste.net":        "Floor area, islands left out",
	"waste.bought":     "Area bought",
	"waste.added":      "Bought on top of the floor area (what a rule of thumb adds)",
	"waste.share":      "Share of the purchase that does not become floor",
	"waste.afterwards": "Share of the opened planks that is not laid",
	"rules.plank":      "Planks {length} long and {width} wide.",
	"rules.gap":        "Expansion gap {gap} at walls and fixed things, unless a drawing says otherwise.",
	"rules.pieces": "No starter or ender shorter than {piece}; end joints of neighbouring rows at least " +
		"{stagger} apart.",
	"rules.kerf": "Each saw cut takes {kerf}.",
	"rules.source": "These figures are the job's. Where the product's own instruction says otherwise, it " +
		"counts, and the plan must be made again.",

	// The steps.
	"sheet.steps":           "Row by row",
	"steps.intro":           stepsIntroEnglish,
	"step.title":            "Row {row} of {n}",
	"step.first":            ", along the starting wall",
	"step.last":             ", the last one",
	"step.length":           ", {length} between the gaps",
	"step.start-whole.one":  "Start with a whole plank.",
	"step.start-whole.many": "Start with {n} whole planks.",
	"step.whole.one":        "Lay one whole plank.",
	"step.whole.many":       "Lay {n} whole planks.",
	"step.starter.new": "Start with {length} from new plank {plank}, measured from its {hand}-hand end; the " +
		"sawn end goes to the wall.",
	"step.starter.offcut": "Start with offcut {plank} from {origin}: it is {have}, saw it to {length}, measured " +
		"from its {hand}-hand end.",
	"step.starter.ready": "Start with the {length} offcut {plank} from {origin}, as it is; the sawn end goes to " +
		"the wall.",
	"step.ender.new": "Cut the last piece from new plank {plank} to fit, about {length}, measured from its " +
		"{hand}-hand end.",
	"step.ender.offcut": "Cut the last piece from offcut {plank} from {origin} ({have}) to fit, about {length}, " +
		"measured from its {hand}-hand end.",
	"step.ender.ready": "End with offcut {plank} from {origin}, about {length}.",
	"step.only.new": "One piece fills this run: cut about {length} from new plank {plank}, measured from its " +
		"{hand}-hand end.",
	"step.only.offcut": "One piece fills this run: cut about {length} from offcut {plank} from {origin} " +
		"({have}), measured from its {hand}-hand end.",
	"step.only.ready": "One piece fills this run: offcut {plank} from {origin}, about {length}.",
	"step.keep":       "Keep the {hand}-hand part, {length}: write {plank} on it, it goes {use}.",
	"step.left-over":  "The {hand}-hand part, {length}, is left over.",
	"step.rip": "The pieces of this row are ripped: crosscut each one first, then rip it to {width} before you " +
		"lay it; the strip comes off {edge}.",
	"step.shape":    "Before you lay {piece}: {shaping}.",
	"stretch.left":  "The left stretch, {length} between the gaps:",
	"stretch.right": "The right stretch, {length} between the gaps:",
	"stretch.of":    "Stretch {k} of {n} from the left, {length} between the gaps:",
	"edge.start":    "the edge at the starting wall",
	"edge.far":      "the edge at the far wall",
	"place.row":     "row {row}",
	"place.room":    "row {row} of {room}",
	"use.whole":     "to {place}",
	"use.starter":   "to the start of {place}",
	"use.ender":     "to the end of {place}",
	"use.only":      "to {place}",
	"pile":          "Offcuts to keep now: {items}.",
	"pile.item":     "{plank} ({length}, {use})",
	"pile.empty":    "No offcuts to keep now.",

	// The pocket sheet.
	"mark":               "{row} {letter}",
	"pocket":             "Pocket sheet",
	"pocket.row":         "Row",
	"pocket.starter":     "Starter",
	"pocket.from":        "From",
	"pocket.whole":       "Whole",
	"pocket.ender":       "Ender, about",
	"pocket.keep":        "Keep: write on it",
	"pocket.then":        "Then",
	"pocket.plank":       "whole",
	"pocket.new":         "new",
	"pocket.ready":       "offcut, as it is",
	"pocket.offcut":      "offcut {length}",
	"pocket.alone":       "one piece",
	"pocket.kept":        "{length}: {mark}",
	"pocket.notes":       "notes {numbers}",
	"pocket.use":         "{bought} planks: {used} to cut and lay",
	"pocket.kept-planks": ", {n} kept for repairs",
	"pocket.reserve":     ", {n} in reserve, as {loss} may break",
	"pocket.over":        ", {n} over",
	"pocket.rules": "Gap {gap}; no piece under {piece}; joints {stagger} from those of the rows beside; a cut takes " +
		"{kerf}. The product's instruction counts first.",
	"pocket.read": "Facing the starting wall, in {unit}. S starter, E ender (measure, then cut), O one piece. A " +
		"plank sawn for a starter or an ender leaves an offcut: write the mark on it, 5 S for the starter of " +
		"row 5, and find it there as \"offcut\". What has no mark is left over. Crosscut first, then rip.",
	"pocket.cautions": "Old floors, adhesives and mastics (until 1980) may hold asbestos, old paint (before " +
		"1978) lead: test before you disturb them. Find wires and pipes before you nail or saw. Guards, eye " +
		"and ear protection, dust mask. Local codes and licensed practice come first; the job sheet has the " +
		"cautions in full.",

	// Edge rows and doorways.
	"sheet.edges": "Edge rows",
	"edges.intro": "Measure the last row plank by plank: a wall is seldom straight. The widths are those of the " +
		"plan.",
	"edges.room":          "Room",
	"edges.width":         "Width",
	"edges.edge":          "Rip off",
	"edges.full":          "nothing: full width",
	"sheet.doorways":      "Doorways",
	"doors.number":        "No.",
	"doors.name":          "Doorway",
	"doors.wall":          "Side",
	"doors.width":         "Clear width",
	"doors.depth":         "Depth",
	"doors.casing":        "Casing",
	"doors.rows":          "Rows",
	"doors.to":            "Floor ends",
	"doors.through":       "not: it runs on into {to}",
	"doors.transition":    "at a transition",
	"doors.transition-to": "at a transition to {to}",
	"doors.how": "Wooden casings: undercut them to the height of plank and underlayment, so that the floor " +
		"runs beneath (common practice).\nMetal casings: leave them whole and cut the plank round them with the gap " +
		"(common practice).\nFit the piece in the doorway before you lay the row beside it: there is no room " +
		"to tilt it later.",
	"side.start":   "starting wall",
	"side.far":     "far wall",
	"side.left":    "left wall",
	"side.right":   "right wall",
	"casing.wood":  "wood",
	"casing.metal": "metal",

	// What to do when, and what to heed.
	"sheet.broken":      "When a plank breaks or a cut goes wrong",
	"broken.spare.one":  "One whole plank is left over.",
	"broken.spare.many": "{n} whole planks are left over.",
	"broken.none":       "No plank is spare: buy one more box of the same lot now if you want a reserve.",
	"broken.kept.one":   "One whole plank is kept for repairs: take it last, and buy another of the same lot for it.",
	"broken.kept.many": "{n} whole planks are kept for repairs: take them last, and buy others of the same lot for " +
		"them.",
	"broken":         brokenEnglish,
	"sheet.before":   "Before you start",
	"checks.before":  beforeEnglish,
	"sheet.during":   "While laying",
	"checks.during":  duringEnglish,
	"sheet.after":    "When the floor is down",
	"checks.after":   afterEnglish,
	"sheet.cautions": "Cautions",
	"cautions.intro": "Local codes and the product's instruction come first. This sheet judges no building and " +
		"no material.",
	"cautions": cautionsEnglish,

	// The HTML sheet.
	"html.skip":      "Go to the rows",
	"html.contents":  "Contents",
	"html.zoom":      "Size of the picture",
	"html.progress":  "{rows} of {of} rows are down: {pieces} of {all} pieces, {percent} %",
	"html.done":      "All rows are down.",
	"html.next":      "Next row",
	"html.storage":   "Ticks are kept in this browser only and belong to this plan.",
	"html.reset":     "Untick all",
	"html.reset-ask": "Untick everything on this sheet?",
}

const stepsIntroEnglish = "" +
	"Stand facing the starting wall: left and right, of planks too, are meant from there, with the side you " +
	"walk on up.\n" +
	"Open a new plank for every whole plank and wherever a new plank is named. Write its number on every " +
	"offcut you keep.\n" +
	"\"About\" means: measure what is left in the row, take off the gap, and cut to that.\n" +
	"Saw crosscuts first and rip afterwards. Join the short ends before the long edges."

const brokenEnglish = "" +
	"A whole plank: take another whole one.\n" +
	"A starter or an ender: take any offcut of the same hand that is long enough. It may even be longer or " +
	"shorter than planned, as long as no piece gets shorter than {piece} and every joint stays {stagger} " +
	"from the joints of the rows beside it.\n" +
	"A starter needs its right-hand factory end (its left-hand one when rows are laid from the right); an " +
	"ender the other one. A sawn end goes to a wall, never into a joint.\n" +
	"Measure an offcut before you count on it: each cut takes {kerf}, and a wall that is out by a little " +
	"takes the rest.\n" +
	"When an offcut kept for a later row is used up, cut that later piece from a spare plank."

const beforeEnglish = "" +
	"Boxes, lot numbers and the label compared with this sheet: length, width, planks in a box.\n" +
	"Old floor: age known; nothing sanded or broken out before it is cleared (see Cautions).\n" +
	"Subfloor dry, clean and flat: 3/16 in in 10 ft (4.8 mm in 3 m) as reported of ASTM F710, or as the " +
	"product says.\n" +
	"Moisture of a slab tested: at most 75 % relative humidity, as reported of ASTM F2170, or the maker's " +
	"limit.\n" +
	"Room measured again: both walls, both diagonals, doorways; a row more than {fit} longer or shorter than " +
	"in this plan: make a new plan.\n" +
	"Planks at room temperature, usually 65 to 85 °F (18 to 29 °C), before, during and after laying " +
	"(common practice).\n" +
	"Base boards off, casings undercut, doors still clear the new floor.\n" +
	"A line snapped for the first row, parallel to the starting wall."

const duringEnglish = "" +
	"Spacers at every wall and fixed thing as wide as the gap.\n" +
	"First row straight to the line before the second goes in.\n" +
	"Planks taken from several boxes in turn; no two alike prints side by side.\n" +
	"Each joint closed and flush before the next piece; no hammer on the bare edge.\n" +
	"Each row: joints as far from the neighbours as on the map.\n" +
	"Islands, tubs and cabinets stay free: the floor goes round them, never under.\n" +
	"The last row measured plank by plank."

const afterEnglish = "" +
	"Spacers out.\n" +
	"Trim fastened to the wall, never to the floor.\n" +
	"Transitions set at the doorways.\n" +
	"One spare plank or box and the lot number kept with the house.\n" +
	"Unopened boxes returned.\n" +
	"Planks used compared with this plan, for the next job.\n" +
	"The product's care note handed over."

const cautionsEnglish = "" +
	"Resilient floors laid no later than 1980 are presumed to hold asbestos: do not sand, dry scrape or saw " +
	"them; have them tested, and removed by licensed people (US: 29 CFR 1926.1101).\n" +
	"Homes built before 1978 may have lead paint: undercutting casings and pulling base boards disturbs it; " +
	"above 6 sq ft a room within 30 days the EPA's renovation, repair and painting rule applies (US).\n" +
	"Grinding slabs and cutting cement board sets silica free: 29 CFR 1926.1153, 50 µg/m³ over 8 hours " +
	"(US).\n" +
	"Knives and saws: cut away from the body, guards on, blade still before you reach in. Eye and ear " +
	"protection, dust mask, knee pads.\n" +
	"Radiant heat: floor surface not above 85 °F (29 °C), as reported; the product's limit counts.\n" +
	"Heavy fixed things stand on the subfloor, not on a floating floor (common practice)."
