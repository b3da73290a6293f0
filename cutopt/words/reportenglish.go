package words

// reportEnglish holds the words of the command's report in English.
var reportEnglish = map[string]string{
	"nouns": "small", // whether a heading within a line begins with a small or a capital letter

	// Numbers of things.
	"things.box.none":   "no box",
	"things.box.one":    "{n} box",
	"things.box.many":   "{n} boxes",
	"things.plank.none": "no plank",
	"things.plank.one":  "{n} plank",
	"things.plank.many": "{n} planks",
	"things.row.one":    "{n} row",
	"things.row.many":   "{n} rows",

	// What to buy, and why.
	"report.buy":             "Buy {boxes} of {planks}",
	"report.in-all":          "{price} in all",
	"report.why":             "Why",
	"why.too-few.one":        "{n} box is proven too few for these rows.",
	"why.too-few.many":       "{n} boxes are proven too few for these rows.",
	"why.too-few-rooms.one":  "{n} box is proven too few, {whatever}.",
	"why.too-few-rooms.many": "{n} boxes are proven too few, {whatever}.",
	"whatever.first":         "whatever the width of the first row",
	"whatever.free":          "whatever the width of the first row, along or across",
	"why.first-open":         "Whether another first row would need fewer boxes is not settled.",
	"why.least":              "Nothing less will do.",
	"why.too-risky.one": "{n} box holds the floor, but runs short with a chance of {chance} if {loss} of the " +
		"planks break; {limit} is accepted.",
	"why.too-risky.many": "{n} boxes hold the floor, but run short with a chance of {chance} if {loss} of the " +
		"planks break; {limit} is accepted.",
	"why.chance-between": "{least} to {found}",
	"why.risky-at-best.one": "{n} box runs short with a chance of {chance} or more if {loss} of the planks " +
		"break: these rows need at least {planks}, which is proven; {limit} is accepted.",
	"why.risky-at-best.many": "{n} boxes run short with a chance of {chance} or more if {loss} of the planks " +
		"break: these rows need at least {planks}, which is proven; {limit} is accepted.",
	"why.open.one":            "Whether {n} box would do is open: the floor would have to take {most} or fewer",
	"why.open.many":           "Whether {n} boxes would do is open: the floor would have to take {most} or fewer",
	"why.open-from.one":       ", and {n} is proven too few for these rows",
	"why.open-from.many":      ", and {n} are proven too few for these rows",
	"why.floor":               "The floor takes {planks} to cut and lay",
	"why.looks.one":           ", {n} more than it must, for its looks and fewer cuts",
	"why.looks.many":          ", {n} more than it must, for its looks and fewer cuts",
	"why.found.one":           ", {n} more than the fewest found, for its looks and fewer cuts",
	"why.found.many":          ", {n} more than the fewest found, for its looks and fewer cuts",
	"why.floor-least.one":     "; {n} is proven too few for these rows",
	"why.floor-least.many":    "; {n} are proven too few for these rows",
	"why.none-left":           "The boxes hold no plank more.",
	"why.rest.one":            "The other one of the {bought} planks bought: {parts}.",
	"why.rest.many":           "The other {n} of the {bought} planks bought: {parts}.",
	"report.kept":             "{n} kept for repairs",
	"report.kept-in.one":      "in {n} unopened box",
	"report.kept-in.many":     "in {n} unopened boxes",
	"report.reserve":          "{n} in reserve if planks break",
	"report.over":             "{n} over",
	"why.thumb":               "The {percent} % rule would buy ",
	"why.thumb-same":          "as many.",
	"why.for":                 "{boxes} for {price}",
	"why.thumb-more":          "{boxes}, {difference} more",
	"why.thumb-fewer":         "{boxes}, {difference} less",
	"why.thumb-too-few":       ": proven too few for these rows.",
	"why.thumb-too-few-rooms": ": proven too few, {whatever}.",
	"why.thumb-risk":          ": these run short with a chance of {chance}.",
	"why.thumb-short":         ": too few for the floor planned; whether others would do with so few is open.",
	"why.counted.one": "Counted by laying the floor with breakage and planning on from what was left, {n} would " +
		"do: see the next table.",
	"why.counted.many": "Counted by laying the floor with breakage and planning on from what was left, {n} " +
		"would do: see the next table.",
	"report.strips": "What is proven is so with each piece taking a plank's full width: here a strip ripped off one " +
		"piece may serve as another.",

	// Numbers of boxes.
	"report.fewer-boxes":    "Will fewer boxes do, if {loss} of the planks break?",
	"report.no":             "proven too few",
	"report.left":           "Left",
	"report.price":          "Price",
	"report.short":          "Short",
	"report.interval":       "Interval",
	"report.plain":          "Plain",
	"report.from-to":        "{low} to {high}",
	"report.beyond":         ", beyond the {n} kept for repairs",
	"report.no-means":       "Proven too few: for these rows, whatever breaks.",
	"report.no-means-rooms": "Proven too few: whatever breaks, and {whatever}.",
	"report.left-means": "Left: whole planks left if none breaks{beyond}. Added, share: the first two meanings of " +
		"waste below; the third, {percent}, is the same for any number of boxes.",
	"report.enough.one":  "{n} box is enough if nothing breaks",
	"report.enough.many": "{n} boxes are enough if nothing breaks",
	"report.fewest":      "{enough}; {n} are the fewest with a chance of running short of {limit} or less",
	"report.if-break":    "{enough}, and if planks break have a chance of running short of {limit} or less",
	"report.reckoned": "{advice}, reckoned as if every lost plank cost a whole one. --risk lays the floor with " +
		"breakage instead, and plans on from what is left. How many planks break is an assumption: --loss sets it.",
	"report.counted.one": "{advice}, counted by laying the floor {n} time with breakage and planning on from what " +
		"was left.",
	"report.counted.many": "{advice}, counted by laying the floor {n} times with breakage and planning on from what " +
		"was left.",
	"report.close":     "It is close: {limit} lies within an interval.",
	"report.more":      "--risk={n} tells more.",
	"report.left-at":   "Boxes that were clearly too few or too risky early on were left at that.",
	"report.intervals": intervalsEnglish,

	// Waste.
	"report.waste":      "Waste, in the three meanings of the word",
	"report.added":      "added to the floor: {bought} bought for {net} of floor",
	"report.share":      "share of the purchase: the part of what is bought that is not floor",
	"report.afterwards": "measured afterwards: the part of the opened planks that is not laid",
	"report.areas": "{bought} bought = {laid} laid + {offcuts} offcuts + {ripped} ripped off + {kerf} sawdust + " +
		"{whole} in whole planks",

	// How the floor looks and lays.
	"report.looks":         "How it looks and lays",
	"looks.in-line.none":   "no joints in line two rows apart",
	"looks.in-line.one":    "{n} pair of joints in line two rows apart",
	"looks.in-line.many":   "{n} pairs of joints in line two rows apart",
	"looks.chain.none":     "no five steps the same way",
	"looks.chain.one":      "{n} chain of five or more steps the same way",
	"looks.chain.many":     "{n} chains of five or more steps the same way",
	"looks.staircase.none": "no staircases",
	"looks.staircase.one":  "{n} staircase of four joints",
	"looks.staircase.many": "{n} staircases of four joints",
	"looks.cluster.none":   "no clusters of joints",
	"looks.cluster.one":    "{n} cluster of four joints",
	"looks.cluster.many":   "{n} clusters of four joints",
	"report.apart":         "End joints of neighbouring rows are at least {stagger} apart.",
	"report.apart-planned": "End joints of neighbouring rows are at least {stagger} apart as planned, and at " +
		"least {least} where offcuts are laid as they come.",
	"report.loose.one":      "{n} offcut is laid as it comes",
	"report.loose.many":     "{n} offcuts are laid as they come",
	"report.crosscuts.one":  "{n} crosscut",
	"report.crosscuts.many": "{n} crosscuts",
	"report.no-offcut":      "no offcut is kept for a later row",
	"report.at-once.one":    "at most {n} offcut is kept for later rows at once",
	"report.at-once.many":   "at most {n} offcuts are kept for later rows at once",
	"report.waited.one":     "past {n} row in all",
	"report.waited.many":    "past {n} rows in all",
	"report.odd.one":        "{n} starter is cut to no round figure",
	"report.odd.many":       "{n} starters are cut to no round figure",
	"report.round":          "all starters are whole or round figures",
	"report.pattern": "The pattern costs {planks} and {boxes} against the best irregular layout found, of {than}. " +
		"What is proven too few is so for any joints, with or without the pattern.",

	// The rows of a room.
	"report.room":       "Room",
	"report.laid.left":  "{room}: {rows} from the starting wall, each laid left to right",
	"report.laid.right": "{room}: {rows} from the starting wall, each laid right to left",
	"report.lengths":    "Lengths in {unit}.",
	"report.legend": "From new: cut from a new plank; from row 5: from the offcut kept from row 5. Offcut: what is " +
		"kept, and which row it starts or ends; what is over and below {least} is not listed.",
	"report.range":        "{from}\nto {to}", // in a narrow column
	"report.as-it-comes":  "A starter from one length to another is its offcut as it comes, without a saw cut.",
	"report.runs":         "Where a row is interrupted, its runs are a, b and so on from the left.",
	"report.head.row":     "Row",
	"report.head.width":   "Width",
	"report.head.starter": "Starter",
	"report.head.from":    "from",
	"report.head.whole":   "Whole",
	"report.head.ender":   "Ender",
	"report.head.offcut":  "Offcut",
	"report.rip":          "rip {width}",
	"report.new":          "new",
	"report.whole":        "whole",
	"report.one-piece":    "one piece",
	"report.row":          "row {row}",
	"report.row-of":       "{room} row {row}",
	"becomes.over":        "{length} over",
	"becomes.starter":     "{length} starts {place}",
	"becomes.ender":       "{length} ends {place}",
	"becomes.only":        "{length} lies in {place}",
	"stack.row":           "Row {row}, {width} wide:",
	"stack.row-ripped":    "Row {row}, ripped to {width}:",
	"stack.one-piece":     "one piece {piece}",
	"stack.starter":       "starter {piece}",
	"stack.whole":         "whole planks {n}",
	"stack.ender":         "ender {piece}",
	"stack.offcut":        "offcut {offcut}",
	"stack.new":           "{length}, new",
	"stack.from":          "{length}, from {from}",
	"report.shapes":       "Pieces to shape, numbered from the left of their row:",
	"report.shape":        "row {row}, piece {k} of {n}: {shaping}",
	"report.shape.many":   "row {row}, pieces {k} of {n}: {shaping}",
	"report.note":         "Note: {text}",
	"report.map":          "Map",

	// Cautions, and what was left undone.
	"report.before":    "Before you cut",
	"report.cautions":  reportCautionsEnglish,
	"report.exhausted": "The effort is spent before the proof is complete; --effort thorough goes on longer.",
	"report.curtailed": "The effort for other first rows is spent; --effort thorough looks at them for longer.",
	"report.limit":     "Stopped by --limit: this is the best plan so far.",
	"report.cancelled": "Interrupted: this is the best plan so far.",
	"report.not-counted": "Interrupted before the floor was laid often enough: the chances of running short are " +
		"reckoned plainly.",
	"report.wrote": "Wrote {file}",

	// What a job that is done took.
	"account.bought.one":  "{n} box of {planks} bought",
	"account.bought.many": "{n} boxes of {planks} bought",
	"account.opened":      "{opened} opened: {lost} lost, {left} left whole.",
	"account.planned":     "The plan opens {planks}.",
	"account.loss":        "Loss",
	"account.next": "{loss} of the planks opened were lost. For the next job: --loss {plain}, or in its file under " +
		"rules loss: {plain} %.",
	"account.interval": "One job tells little: by its figures the loss is between {low} and {high}, as an interval that " +
		"holds in 95 of 100 counts.",

	// Plans compared.
	"compare.job":         "The job and its floor",
	"compare.first-rows":  "Other first rows",
	"compare.rules":       "Other rules",
	"compare.products":    "Other products",
	"compare.planks":      "Planks",
	"compare.waste":       "Waste",
	"compare.cuts":        "Cuts",
	"compare.edge":        "Edge",
	"compare.in-line":     "In line",
	"compare.as-it-is":    "as it is",
	"compare.rows.along":  "rows along",
	"compare.rows.across": "rows across",
	"compare.rows.angle":  "rows diagonal",
	"compare.other-side":  "start at the other side",
	"compare.other-end":   "start at the other end of the rows",
	"compare.first-row":   "first row {width}",
	"compare.stagger":     "stagger {length}",
	"compare.min-piece":   "min-piece {length}",
	"compare.product":     "product {n}",
	"compare.cannot":      "{name} cannot be laid: {why}",
	"compare.legend": "* the best that keeps the job's rules: the least money where every box has a price, else " +
		"the fewest boxes, then planks, then cuts. Waste is what is bought on top of the floor area. Edge is the " +
		"narrowest first or last row; In line counts joints in line two rows apart. Each line has the fewest " +
		"planks that its effort finds; \"plan\" stops where the boxes are settled, and lays planks that these hold " +
		"for looks.",
	"compare.costs":         "What the rules cost",
	"compare.instead":       "{change} instead of {before}",
	"compare.costs-nothing": "{what} costs nothing and saves nothing.",
	"compare.costs-both":    "{what} costs {planks} and {boxes}.",
	"compare.saves-both":    "{what} saves {planks} and {boxes}.",
	"compare.costs-planks":  "{what} costs {planks} and saves {boxes}.",
	"compare.saves-planks":  "{what} saves {planks} and costs {boxes}.",
	"compare.interrupted":   "Interrupted: these are the lines that were planned so far.",

	// A plan checked.
	"check.recounted":       "Recounted {pieces} from {planks} in {runs} of {floors}.",
	"check.pieces.one":      "{n} piece",
	"check.pieces.many":     "{n} pieces",
	"check.runs.one":        "{n} run",
	"check.runs.many":       "{n} runs",
	"check.floors.one":      "{n} floor",
	"check.floors.many":     "{n} floors",
	"check.kept":            "Every rule is kept; planks, boxes and waste add up.",
	"check.violations.one":  "{n} violation:",
	"check.violations.many": "{n} violations:",
	"check.more":            "and {n} more; --all lists them",
	"check.stopped":         "interrupted before all was checked",
	"check.no-proof": "The plan carries no certificate, so its claim that at least {planks} are needed is not " +
		"verified.",
	"check.unsound": "The certificate does not hold: {why}",
	"check.sound":   "The certificate holds: no layout of these rows needs fewer than {planks} or {boxes}.",
	"check.sound-least": "Nor does any other first row need fewer boxes:" +
		" how long the runs of each are at least was recounted from the outlines.",
	"check.sound-rooms.one": "Nor does any other first row need fewer boxes:" +
		" {n} way for the rows of a floor to lie was recounted from the outlines.",
	"check.sound-rooms.many": "Nor does any other first row need fewer boxes:" +
		" {n} ways for the rows of a floor to lie were recounted from the outlines.",
}

const intervalsEnglish = `An interval holds in 95 of 100 counts; plain is the chance if every lost plank costs a ` +
	`whole one. How many planks break is an assumption: --loss sets it.`

const reportCautionsEnglish = "" +
	"The product's own instruction overrides every rule here; local codes come first.\n" +
	"Measure again before each last piece: walls are seldom straight, and the ender is cut to fit.\n" +
	"Buy one lot: the next one may differ in shade.\n" +
	"A resilient floor laid no later than 1980, its adhesive and its mastic may hold asbestos, and paint " +
	"before 1978 lead: test before you disturb any of them (29 CFR 1926.1101; EPA RRP rule).\n" +
	"Find wires, pipes and heating cables before you nail, drill or undercut."
