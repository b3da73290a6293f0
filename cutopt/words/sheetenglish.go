package words

// sheetEnglish holds the words of the job sheet and the pocket sheet in English, by key.
var sheetEnglish = map[string]string{
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
	"risk.floors": "With fewer than {boxes} boxes: of a floor of {fewest} planks, the fewest. From {boxes} on: of " +
		"this plan, of {planks}.",
	"risk.floors-found": "With fewer than {boxes} boxes: of a floor of {fewest} planks, the fewest found before the " +
		"boxes were settled; one of fewer may exist, and run short less often. From {boxes} on: of this plan, of {planks}.",
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
	"order.proven-rooms": "Proven: no way of cutting that keeps the rules needs fewer than {boxes} boxes, " +
		"{whatever}.",
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
	"sheet.steps": "Row by row",
	"steps.intro": stepsIntroEnglish,
	"product.ends.angle": "Join the end of a plank first, at an angle to the plank before, then its long edge to " +
		"the row " +
		"before.",
	"product.ends.drop": "Angle the long edge of a plank into the row before first, then press its end down into " +
		"the plank " +
		"before.",
	"product.ends.unset": "Whether the end or the long edge of a plank is joined first: see the product's " +
		"instruction.",
	"product.to-wall.tongue": "The tongue of the first row faces the starting wall.",
	"product.to-wall.groove": "The groove of the first row faces the starting wall.",
	"product.to-wall.unset": "Which long edge faces the starting wall, tongue or groove: see the product's " +
		"instruction.",
	"product.from.product": "Lay each row from the {hand}, as the product asks.",
	"product.from.asked":   "Lay each row from the {hand}, as the job asks.",
	"product.from.unset": "Lay each row from the {hand}, unless the product asks for the other end: see the " +
		"product's instruction, and make a new plan then.",
	"product.face": "Widths and gaps are measured on the face, without the tongue.",

	"step.title":            "Row {row} of {n}",
	"step.first":            ", along the starting wall",
	"step.doorway":          ", in the doorway",
	"step.last":             ", the last one",
	"step.far":              ", along the wall opposite",
	"step.length":           ", {length} between the gaps",
	"step.start-whole.one":  "Start with a whole plank.",
	"step.start-whole.many": "Start with {n} whole planks.",
	"step.whole.one":        "Lay one whole plank.",
	"step.whole.many":       "Lay {n} whole planks.",
	"step.starter.new": "Start with {length} from new plank {plank}, measured from its {hand}-hand end; the " +
		"sawn end goes to the wall.",
	"step.starter.offcut": "Start with the offcut marked “{mark}” from {origin}: it is {have}, saw it to " +
		"{length}, measured from its {hand}-hand end.",
	"step.starter.ready": "Start with the offcut marked “{mark}” from {origin}, {length}, as it is; the " +
		"sawn end goes to the wall.",
	"step.starter.as-it-comes": "Start with the offcut marked “{mark}” from {origin} as it comes, {range}, " +
		"without a saw cut; the sawn end goes to the wall.",
	"step.ender.new": "Cut the last piece from new plank {plank} to fit, about {length}, measured from its " +
		"{hand}-hand end.",
	"step.ender.offcut": "Cut the last piece from the offcut marked “{mark}” from {origin} ({have}) to fit, " +
		"about {length}, measured from its {hand}-hand end.",
	"step.ender.ready": "End with the offcut marked “{mark}” from {origin}, about {length}.",
	"step.only.new": "One piece fills this run: cut about {length} from new plank {plank}, measured from its " +
		"{hand}-hand end.",
	"step.only.offcut": "One piece fills this run: cut about {length} from the offcut marked “{mark}” from " +
		"{origin} ({have}), measured from its {hand}-hand end.",
	"step.only.ready": "One piece fills this run: the offcut marked “{mark}” from {origin}, about {length}.",
	"step.keep":       "Keep the {hand}-hand part, {length}: write “{mark}” on it, it goes {use}.",
	"step.left-over":  "The {hand}-hand part, {length}, is left over.",
	"step.rip": "The pieces of this row are ripped: crosscut each one first, then rip it to {width} before you " +
		"lay it; the strip comes off {edge}.",
	"step.rip-own": "The pieces of this row are ripped: crosscut each one first, then rip it before you lay it, to " +
		"the width that stands at the piece, else to {width}; the strip comes off {edge}.",
	"step.shape":            "Then, before you lay it (note {notes} on the map): {shaping}.",
	"step.shape-whole.one":  "Saw it before you lay it (note {notes} on the map): {shaping}.",
	"step.shape-whole.many": "Saw each before you lay it (note {notes} on the map): {shaping}.",
	"step.profile": "The edge toward the starting wall loses its {profile}: saw it off, so that nothing stands in " +
		"the gap.",
	"step.profile-ripped": "The {profile} of that edge goes with the strip: nothing of it stays in the gap.",
	"profile.unset":       "profile (tongue or groove)",
	"profile.tongue":      "tongue",
	"profile.groove":      "groove",
	"step.last-row": "Leave the planks of this row room to tilt, and close the joints with a pull bar. Where " +
		"there is no room, trim the lip, slide the piece in flat and glue it (common practice).",
	"step.door-last": "Doorway {door}: the piece goes in last and has no room to tilt. Trim the lip of its joint, " +
		"slide " +
		"it in flat, under a wooden casing, and glue it (common practice).",
	"step.beside-line": "Row {row} joins this one and ends on the line that is snapped for it: the edge that it joins " +
		"lies {beyond} beyond the face of the wall.",
	"step.profile-beside": "Along the wall the edge toward it loses its profile, tongue or groove, so that " +
		"nothing stands in the gap; in the doorway it keeps it, and joins the row before.",
	"stretch.left":  "Stretch {name}, at the left, {length} between the gaps:",
	"stretch.right": "Stretch {name}, at the right, {length} between the gaps:",
	"stretch.of":    "Stretch {name}, the {k} of {n} from the left, {length} between the gaps:",
	"edge.off":      "the edge {edge}",
	"place.row":     "row {row}",
	"place.room":    "row {row} of {room}",
	"place.plank":   "plank {plank}",
	"use.whole":     "to {place}",
	"use.starter":   "to the start of {place}",
	"use.ender":     "to the end of {place}",
	"use.only":      "to {place}",
	"pile":          "Offcuts to keep now: {items}.",
	"pile.item":     "“{mark}” {length}",
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
	"pocket.as-it-comes": "offcut, as it comes",
	"pocket.ready":       "offcut, as it is",
	"pocket.offcut":      "offcut {length}",
	"pocket.alone":       "one piece",
	"pocket.kept":        "{length}: {mark}",
	"pocket.note.one":    "note {numbers}",
	"pocket.note.many":   "notes {numbers}",
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
	"doors.kind-to":       "{kind}, to {to}",
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
	"sheet.broken": "When a plank breaks or a cut goes wrong",
	"lead.above":   "Base boards {height} high along {length} of wall in {room}: {area}, more than 6 sq ft.",
	"lead.below": "Base boards {height} high along {length} of wall in {room}: {area}, no more than 6 sq ft " +
		"before the casings are counted.",
	"lead.rooms.one":  "Base boards {height} high are more than 6 sq ft in one of {all} rooms.",
	"lead.rooms.many": "Base boards {height} high are more than 6 sq ft in {n} of {all} rooms.",
	"checks.rise": "The floor rises by {rise}, plank and underlay: doors, thresholds and what stands under " +
		"counters measured against that.",
	"after.kept.one":  "The whole plank kept for repairs stored flat in the house, with the lot number.",
	"after.kept.many": "The {n} whole planks kept for repairs stored flat in the house, with the lot number.",
	"after.left.one": "The whole plank that is left, if none broke, stored flat in the house for repairs, with " +
		"the lot number.",
	"after.left.many": "What is left of {n} whole planks, if any, stored flat in the house for repairs, with " +
		"the lot number.",
	"after.none":        "The lot number kept in the house: no whole plank is left for repairs.",
	"spares.kept.one":   "One whole plank is kept for repairs.",
	"spares.kept.many":  "{n} whole planks are kept for repairs.",
	"spares.free":       "No whole plank is kept for repairs; keeping one (spare: 1) costs no more boxes.",
	"spares.costs.one":  "No whole plank is kept for repairs; keeping one (spare: 1) costs one box more",
	"spares.costs.many": "No whole plank is kept for repairs; keeping one (spare: 1) costs {n} boxes more",
	"spares.price":      ", {price}",
	"broken.spare.one":  "One whole plank is there for one that breaks.",
	"broken.spare.many": "{n} whole planks are there for those that break.",
	"broken.none": "No plank is there for one that breaks: buy one more box of the same lot now if you want " +
		"a reserve.",
	"broken.kept.one": "One whole plank is kept for repairs: take it last, and buy another of the same lot for it.",
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
	"cautions.stair": "A stair nosing is fastened to the stair as its instruction says, never to the floating floor: a " +
		"loose one makes people fall. Local codes say how steps and their edges must be.",
	"cautions.step": "The floor makes the top step of the stair {rise} higher than the others, if those stay as they " +
		"are: local codes limit by how much steps may differ.",

	// The HTML sheet.
	"html.skip":      "Go to the rows",
	"html.contents":  "Contents",
	"html.zoom":      "Size of the picture",
	"html.to-map":    "Map",
	"html.progress":  "{rows} of {of} rows are down: {pieces} of {all} pieces, {percent} %",
	"html.done":      "All rows are down.",
	"html.next":      "Next row",
	"html.storage":   "Ticks are kept in this browser only and belong to this plan.",
	"html.reset":     "Untick all",
	"html.reset-ask": "Untick everything on this sheet?",
}

const stepsIntroEnglish = "" +
	"Stand facing the starting wall: left and right, of planks too, are meant from there, with the side you " +
	"walk on up. A long edge is toward the starting wall or away from it.\n" +
	"Open a new plank for every whole plank and wherever a new plank is named. What you keep is marked by " +
	"where it goes: “5 S” is for the starter of row 5, “5 E” for its ender, “5 O” for the one " +
	"piece that fills it.\n" +
	"\"About\" means: measure what is left in the row, take off the gap, and cut to that.\n" +
	"Saw crosscuts first and rip afterwards."

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
	"Old floor: age known; nothing sanded, drilled, dry-swept or broken out before it is cleared, glue and " +
	"mastic neither (see Cautions).\n" +
	"Subfloor dry, clean and flat: 3/16 in in 10 ft (4.8 mm in 3 m) as reported of ASTM F710, or as the " +
	"product says.\n" +
	"Moisture of a slab tested: relative humidity by ASTM F2170, which is the method, with {tests} tests for " +
	"this floor, as reported (3 for the first 1,000 sq ft, one for each further 1,000). The limits are those " +
	"of ASTM F710, as reported (75 %, or 3 lb per 1,000 sq ft in 24 h by F1869), or the maker's.\n" +
	"Room measured again: both walls, both diagonals, doorways; a row more than {fit} longer or shorter than " +
	"in this plan: make a new plan.\n" +
	"Planks at room temperature, usually 65 to 85 °F (18 to 29 °C), before, during and after laying " +
	"(common practice).\n" +
	"Wires and pipes found, in the walls and below, before anything is nailed, drilled or undercut with a " +
	"saw.\n" +
	"Heating cables or pipes in the floor: where they lie is known, and the heating is off as the product " +
	"says; nothing is screwed or nailed into them.\n" +
	"Base boards off, casings undercut, doors still clear the new floor.\n" +
	"Appliances under counters: the height that is left on the new floor measured; what is floored in cannot " +
	"be pulled out.\n" +
	"A line snapped for the first row, parallel to the starting wall."

const duringEnglish = "" +
	"Spacers at every wall and fixed thing as wide as the gap.\n" +
	"First row straight to the line before the second goes in.\n" +
	"Planks taken from several boxes in turn; no two alike prints side by side.\n" +
	"Each joint closed and flush before the next piece; a tapping block, no hammer on the bare edge.\n" +
	"Each row: joints as far from the neighbours as on the map.\n" +
	"Islands, tubs and cabinets stay free: the floor goes round them, never under.\n" +
	"The last row measured plank by plank; its joints closed with a pull bar."

const afterEnglish = "" +
	"Spacers out.\n" +
	"Trim fastened to the wall, never to the floor.\n" +
	"Transitions set at the doorways.\n" +
	"Unopened boxes returned.\n" +
	"Planks used compared with this plan, for the next job.\n" +
	"The product's care note handed over."

const cautionsEnglish = "" +
	"Resilient floors laid no later than 1980 are presumed to hold asbestos, and so may the adhesives and " +
	"mastics under them: do not sand, dry scrape, dry sweep, drill, break or saw them; have them tested, and " +
	"removed by licensed people (US: 29 CFR 1926.1101).\n" +
	"Wires and pipes: find them before you nail, drill or saw, and switch off what runs there; work on them " +
	"is for licensed trades.\n" +
	"A heated floor: do not screw or nail into it; floor surface not above 85 °F (29 °C), as reported; the " +
	"product's limit counts.\n" +
	"Grinding slabs and cutting cement board sets silica free: 29 CFR 1926.1153, 50 µg/m³ over 8 hours " +
	"(US).\n" +
	"Knives and saws: cut away from the body, guards on, blade still before you reach in. Eye and ear " +
	"protection, dust mask, knee pads.\n" +
	"Heavy fixed things stand on the subfloor, not on a floating floor (common practice).\n" +
	"Homes built before 1978 may have lead paint: undercutting casings and pulling base boards disturbs it; " +
	"above 6 sq ft (0.56 m²) a room within 30 days the EPA's renovation, repair and painting rule applies " +
	"(US: 40 CFR 745.83, as reported)."
