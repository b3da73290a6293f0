package words

// findingEnglish holds the words of findings in English: what was found, then what must hold.
var findingEnglish = map[string]string{
	// Places, and parts of sentences.
	"at.row":           "row {n}",
	"at.run":           "run {n}",
	"at.piece":         "piece {n}",
	"at.plank":         "plank {n}",
	"between":          ", ",
	"nowhere":          "no place",
	"part.cut":         "a cut",
	"part.offcut":      "an offcut",
	"part.axes":        "the origin of the axes",
	"part.row":         "the row",
	"part.run":         "the run",
	"part.piece":       "the piece",
	"part.shape":       "its shape",
	"direction.along":  "along",
	"direction.free":   "free",
	"direction.across": "across",
	"direction.angle":  "diagonal to",
	"start.near":       "near",
	"start.far":        "far",

	// The plan as a file, and the job.
	"finding.job-broken":   "{error}; want a job in order",
	"finding.no-plan":      "there is none; want a plan",
	"finding.figure-off":   "{field} is {got}; want {want}",
	"finding.percent-off":  "{field} is {got} %; want {want} %",
	"finding.unit-unknown": "the unit is {unit}; want a unit of length",
	"finding.other-job":    "the plan is of the job \"{got}\"; want \"{want}\"",
	"finding.beyond":       "{part} has a length of {length}; want lengths within 4 km",
	"finding.turn-out":     "the axes are turned by {turn} degrees; want -360 to 360",
	"finding.hand-unknown": "rows are laid from {hand}; want left or right",
	"finding.ends-unknown": "its factory ends are {ends}; want none, left, right or both",
	"finding.floors-other": "the plan has {got} floors; want {want}, which the job's rooms make",
	"finding.floor-name":   "the floor is called \"{got}\"; want \"{want}\" as in the job",
	"finding.laid-from":    "rows are laid from the {got}; want from the {want} as the job asks",
	"finding.axes-unmirrored": "its axes are not mirrored, so that left and right are swapped; want x to " +
		"the right and y towards the viewer, in a drawing with y upwards",
	"finding.first-row-other": "no row ends at {across}; want a first row of {width} as the job asks",
	"finding.angle-other": "rows run at {got} degrees; want {want} degrees, or that turned round, as the " +
		"job asks",
	"finding.direction-other": "rows run at {turn} degrees; want rows {direction} the longest wall of " +
		"\"{room}\", from its {side} side, as the job asks",

	// Rows and runs.
	"finding.row-width":  "it lies from {from} to {to} and says it is {got} wide; want {want}",
	"finding.row-wide":   "it is {width} wide; want more than 0 and at most a plank, {most}",
	"finding.row-inner":  "it is {width} wide with rows on both sides; want a whole plank, {want}",
	"finding.row-begins": "it begins at {at}; want no less than {least}, where the row before it ends",
	"finding.runs-order": "it begins at {at}; want runs from left to right: the one before it begins at " +
		"{before}",
	"finding.run-empty":    "it goes from {from} to {to}; want a length above 0",
	"finding.run-bare":     "it has no piece; want pieces from end to end",
	"finding.run-begins":   "it begins at {at}; want {want}, where the run begins",
	"finding.piece-begins": "it begins at {at}; want {want}, where the piece before it ends",
	"finding.run-ends":     "its last piece ends at {at}; want {want}, where the run ends",
	"finding.piece-two-rooms": "up to {at} it lies on both sides of a wall: in {room} and in {other}; want " +
		"planks that end at the walls between rooms",
	"finding.runs-beside": "at {at} it lies beside run {run} with no wall between two rooms to part them; " +
		"want one run across the whole row",
	"finding.run-goes-on": "the floor goes on to run {run} without a wall between them; want runs from " +
		"wall to wall",
	"finding.piece-length": "it lies from {from} to {to} and says it is {got} long; want {want}",
	"finding.piece-long":   "it is {length} long; want more than 0 and at most a plank, {most}",
	"finding.whole-ends":   "a piece as long as a plank has its factory ends: {ends}; want both",
	"finding.sawn-ends":    "a piece of {length} has both factory ends; want a whole plank, {want}",
	"finding.starter-ends": "a sawn starter has its factory ends: {ends}; want right, for the next plank",
	"finding.ender-ends": "a sawn ender has its factory ends: {ends}; want left, where it locks into the " +
		"plank before it",
	"finding.field-sawn":    "a field plank is {length} long; want a whole plank, {want}",
	"finding.starter-short": "a starter of {length}; want at least {least}",
	"finding.ender-short":   "an ender of {length}; want at least {least}",
	"finding.starter-short-with-fit": "a starter of {length}; want at least {least}, the shortest piece " +
		"and the fit allowance",
	"finding.ender-short-with-fit": "an ender of {length}; want at least {least}, the shortest piece and " +
		"the fit allowance",
	"finding.off-grid": "the piece laid first is {length} long; want a multiple of {grid}",
	"finding.joints-near": "the joint at its right end, at {at}, is {distance} from the one at {other} of " +
		"row {row} run {run}; want at least {least}",
	"finding.pattern-one-piece": "it has joints; want one piece: the pattern's joints would leave pieces " +
		"that are too short",
	"finding.pattern-starter": "the piece laid first is {got} long; want {want} by the pattern",

	// How pieces lie on the floor.
	"finding.shape-corners": "its shape has {n} corners; want three or more, or no shape for a full rectangle",
	"finding.shape-beyond":  "its shape has a corner at {at}; want corners between {from} and {to}",
	"finding.shape-empty":   "its shape has no area; want an area above 0",
	"finding.open":          "{area} between {from} and {to} lie open; want floor covered up to what the trim hides",
	"finding.open-before": "{area} before it between {from} and {to} lie open; want floor covered up to " +
		"what the trim hides",
	"finding.open-after": "{area} after it between {from} and {to} lie open; want floor covered up to what " +
		"the trim hides",
	"finding.overlap": "it lies on row {row} run {run} piece {piece} at {at}, over {area}; want pieces " +
		"beside each other",
	"finding.outside": "{area} of it between {from} and {to} lie outside the room or on an island; want " +
		"pieces on the floor",
	"finding.near-wall": "at {at} it comes within {distance} of wall {wall}; want at least {least}",
	"finding.near-wall-of": "at {at} it comes within {distance} of wall {wall} of {room}; want at least " +
		"{least}",
	"finding.near-island": "at {at} it comes within {distance} of edge {edge} of island {n}; want at least " +
		"{least}",
	"finding.near-island-named": "at {at} it comes within {distance} of edge {edge} of {name}; want at " +
		"least {least}",
	"finding.near-pipe":       "at {at} it comes within {distance} of pipe {n}; want at least {least}",
	"finding.near-pipe-named": "at {at} it comes within {distance} of {name}; want at least {least}",
	"finding.near-break":      "at {at} it comes within {distance} of the middle of break {n}; want at least {least}",
	"finding.near-casing": "at {at} it comes within {distance} of the casing of doorway {n}; want at least " +
		"{least}",
	"finding.near-casing-named": "at {at} it comes within {distance} of the casing of {name}; want at " +
		"least {least}",

	// Facts about floors.
	"finding.fact-alien":     "fact {n} is {fact}; want facts about floors, with the fields of their kinds",
	"finding.fact-again":     "it is told {fact}; want one fact of this kind for a floor",
	"finding.base-other":     "it is told {fact}; want a wall of room {room}, the first of the floor",
	"finding.base-untold":    "it is told {fact}; want wall {wall}, as the job asks",
	"finding.base-longest":   "it is told {fact}; want the longest wall, {wall}, {length} long, and count {count}",
	"finding.base-not-asked": "it is told {fact}; want a job that asks for that wall",
	"finding.base-at-angle":  "it is told {fact}; want rows along or across the wall",
	"finding.taper-other": "it is told {fact}; want what the walls of both sides run off the rows, and least " +
		"{least}",
	"finding.line-slanted": "it is told {fact}; want the distances at both ends of a wall that is not parallel " +
		"to the rows",
	"finding.line-other": "it is told {fact}; want the distance of the first row's back edge from the wall, " +
		"from one end of its {length} to the other",
	"finding.line-no-wall": "it is told {fact}; want a wall that the first row lies along",
	"finding.doorway-open": "it is told {fact}; want a doorway of this floor, once, whose casing and gaps " +
		"leave no floor",
	"finding.doorway-row-other": "it is told {fact}; want a row beyond the walls, {width} wide, that is narrower than " +
		"{least} and can be held",
	"finding.doorway-row-nowhere": "it is told {fact}; want a row of this floor",
	"finding.doorway-row-untold": "it lies in a doorway alone, is {width} wide, and nothing is told of it; want a fact, " +
		"as that is less than {least}",
	"finding.doorway-untold": "nothing is told of doorway {doorway} of room {room}; want a fact, as the " +
		"gaps at its sides leave no floor",
	"finding.jogs-other":        "it is told {fact}; want most {most}, count {count}",
	"finding.jogs-untold":       "nothing is told of {count} jogs shorter than {most}; want a fact",
	"finding.slivers-width":     "it is told {fact}; want most {most}, what the trim hides",
	"finding.slivers-area":      "it is told {fact}; want an area of {least} to {most}, which lies open",
	"finding.slivers-count":     "it is told {fact}; want count {least} to {most}",
	"finding.slivers-untold":    "{area} lie open under the trim and nothing is told of it; want a fact",
	"finding.field-long-along":  "it reaches {length} along the rows; want a break, at most {most} without one",
	"finding.field-long-across": "it reaches {length} across the rows; want a break, at most {most} without one",
	"finding.through-alone":     "it is told {fact}; want a floor through several rooms",
	"finding.through-untold":    "nothing is told of the line through the rooms; want a fact",
	"finding.through-other":     "it is told {fact}; want the back edge of a row, and how many rooms it runs through",
	"finding.room-rows-other":   "it is told {fact}; want the rows that reach into a room of this floor, once",
	"finding.room-rows-untold":  "nothing is told of the rows of {room}; want a fact",
	"finding.break-astray": "break {n} parts no room: want it from wall to wall, within the room, " +
		"clear of islands",
	"finding.break-figure": "the {field} of break {n} is {got}; want {want}",
	"finding.break-missing": "the break in {room} from wall {wall}, {at} from its first corner, is " +
		"missing; want it as the job asks",
	"finding.break-open": "the job asks for a break in doorway {doorway} of {room}, and the floor runs through; want " +
		"a break there",
	"finding.break-unasked": "break {n} is told to be asked for; want one that the job asks for",
	"finding.break-needless": "break {n} parts a floor that needs none; want breaks where the job or " +
		"its limits ask for them",
	"finding.break-untold": "nothing is told of break {n}, at which the floor ends; want a fact",
	"finding.break-other":  "it is told {fact}; want the breaks at which the floor ends, as the plan has them",
	"finding.edge-narrow": "an edge row of {width}; want at least {least}, or a fact that no position of " +
		"the rows allows it",
	"finding.edge-other": "it is told {fact}; want what the rows are where they are narrowest: first " +
		"{first}, last {last}, with one of them below {least}",
	"finding.edge-unasked":  "it is told {fact}; want a job that asks for the width of the first row",
	"finding.edge-is-asked": "it is told {fact}; want edge-asked, as the job asks for a first row of {width}",
	"finding.edge-unforced": "edge rows of {first} and {last} are told to be forced; want rows that keep " +
		"{least} at both edges: another position does",
	"finding.strip-unasked":   "it is told {fact}; want a job that has a least width",
	"finding.strip-again":     "it is told {fact}; want one fact for a piece, of less than {least}",
	"finding.strip-nowhere":   "it is told {fact}; want a piece of this floor",
	"finding.strip-other":     "it is told {fact}; want a strip of {width} where this piece is narrowest",
	"finding.strip-elsewhere": "it is told {fact}; want where the strip is, and how long",
	"finding.strip-untold": "it has a strip only {width} wide that the plan does not state; want at least " +
		"{least}, or a fact that says where it is",

	// Facts about the shapes of pieces.
	"finding.sawn-rectangle": "{n} facts tell how to saw a full rectangle; want none",
	"finding.sawn-too-much":  "{n} facts tell how to saw {corners} corners; want a shape that can be sawn",
	"finding.sawn-alien": "it is told {fact}; want a fact about the shape of a piece, with the fields of " +
		"its kind",
	"finding.sawn-sizes":   "it is told {fact}; want sizes, ends and edges that agree, on a piece of this size",
	"finding.sawn-scribed": "it is told {fact}; want another shape than a rectangle to come off within it",
	"finding.sawn-loose":   "it is told {fact}; want the smallest rectangle that encloses what comes off",
	"finding.sawn-own":     "it is told {fact}; want none of the piece's own shape to come off",
	"finding.sawn-again":   "it is told {fact}; want what no other fact takes off already",
	"finding.sawn-no-pipe": "it is told {fact}; want a pipe of the job there, the gap round it in the diameter",
	"finding.sawn-no-slit": "it is told {fact}; want a slit from a cut-out that holds the piece to the nearest " +
		"end or edge",
	"finding.sawn-held": "a fixed thing stands in it between {from} and {to} from its left end and no slit is " +
		"told of; want one, as the piece cannot be laid round it",
	"finding.sawn-more":  "{n} facts tell how to saw it; want no more to come off than its shape lacks",
	"finding.sawn-less":  "{n} facts tell how to saw it; want a fact for each part that comes off",
	"finding.sawn-short": "{n} facts tell how to saw it; want parts that reach as far as its shape lacks",

	// Planks.
	"finding.plank-number": "it has number {got}; want {want}",
	"finding.plank-unused": "no piece is cut from it; want planks that are cut or laid",
	"finding.piece-nowhere": "it lists the piece floor {floor}, row {row}, run {run}, piece {piece}; want " +
		"pieces of the plan",
	"finding.piece-again":    "the piece is listed twice; want once, by the plank it is cut from",
	"finding.piece-of-other": "the plank lists a piece of plank {plank}; want its own pieces",
	"finding.piece-unlisted": "it says it is of plank {plank}, and no plank lists it; want a plank that " +
		"lists it",
	"finding.plank-short": "{n} pieces and the kerfs between them take {length}; want at most {most}",
	"finding.plank-short-with-fit": "{n} pieces and the kerfs between them take {length}, and {last} of " +
		"them may come out {fit} longer; want at most {most}",
	"finding.left-end-again": "its piece {n} has a left factory end; want only the first has: a plank has " +
		"one left end",
	"finding.right-end-early": "its piece {n} of {of} has a right factory end; want only the last has: a " +
		"plank has one right end",
	"finding.left-end-other": "its piece {n} begins {at} from the left end and has its factory ends: " +
		"{ends}; want the left one where it begins at the left end, and only there",
	"finding.right-end-other": "its piece {n} ends at the right end and has its factory ends: {ends}; want " +
		"the right one",
	"finding.offcut-untold": "nothing is said of {from} to {to} of the plank; want an offcut",
	"finding.offcut-astray": "an offcut from {from} to {to} does not lie between pieces and kerfs; want " +
		"what the pieces leave",
	"finding.offcut-beyond": "an offcut from {from} to {to}; want a length above 0 within the plank",
	"finding.offcut-ends":   "an offcut from {from} to {to} has its factory ends: {got}; want {want}",
	"finding.plank-full":    "offcuts and kerfs take the place of its last piece; want what the pieces leave",
	// Starters that are laid as their offcuts come.
	"finding.loose-no-starter": "it is laid as it comes; want only sawn starters of several pieces to be",
	"finding.loose-interval": "it is laid as it comes from {length} to {longest}; want more than {length} and " +
		"at most {most}",
	"finding.loose-pattern": "it is laid as it comes; want joints where the pattern has them",
	"finding.loose-shape":   "it is laid as it comes, and piece {n} of its run is no full rectangle; want it sawn",
	"finding.loose-whole": "it is laid as it comes, and piece {n} of its run is a whole plank that would have " +
		"to be sawn; want it sawn",
	"finding.loose-new": "its piece {n} is laid as it comes and is not the last that is cut from it; want it " +
		"sawn",
	"finding.loose-leaves": "its starter is laid as it comes, and from {from} to {to} it has an offcut; want none",
	"finding.loose-long": "its starter of {length} is laid as it comes, and the offcut is {offcut}; want at " +
		"most {most}",
	"finding.loose-beyond": "its starter of {length} may come at {longest}; want at most {most}, as it is laid " +
		"as it comes",
	"finding.offcut-longer": "its last piece of {length} may come at {longest}, and no cut is planned for it; " +
		"want an interval",
	"finding.ender-shorter": "its last piece of {length} may have to be {least}, and no cut is planned for it; " +
		"want one",
	"finding.joints-come-near": "the joint at its right end, at {at} as planned, may come to {distance} from " +
		"the one at {other} of row {row} run {run}; want at least {least}",
	"finding.ender-short-as-it-comes": "an ender of {length}; want at least {least}, the shortest piece, the " +
		"fit allowance and what its starter may come longer",
	"finding.cuts-other": "it is cut at {got}; want {want}",

	// What is bought, and what is proven.
	"finding.price-other": "order.price is {got}; want {boxes} boxes at {price}",
	"finding.fewest-out":  "order.fewest is {got}; want {least} to {most}, the bound and the planks of the plan",
	"finding.fewest-boxes": "order.fewest is {got}, for which {boxes} boxes would be bought; want planks " +
		"for which {want} boxes are",
	"finding.loss-other": "order.loss is {loss} % and order.risk_limit {limit} %; want {wantloss} % and " +
		"{wantlimit} %, as the job has them",
	"finding.bound-out": "bound.planks is {got}; want 0 to {most}, the planks of the plan",
	"finding.areas-sum": "laid, offcuts, ripped, kerf, lost and whole_left less brought add up to {got}; want " +
		"bought, which is {want}",

	// A job that is begun.
	"finding.count-out":    "{field} is {got}; want a number that a job can have",
	"finding.lies-nowhere": "it is told to lie; want a plan that tells how the job stands",
	"finding.lies-alone": "it is told to lie, and piece {n}, which is laid before it, is not; want pieces that " +
		"lie from " +
		"the end that is laid first",
	"finding.lies-whole":    "it is told to lie, and its plank {plank} is not opened; want an opened plank",
	"finding.loose-of-rest": "a planned piece of a plank of which some is gone is laid as it comes; want it sawn",
	"finding.marks-nowhere": "it has marks of a job that is begun; want a plan that tells how the job stands",
	"finding.gone-of-whole": "some of it is gone, or it is brought along, and it is not opened; want it opened",
	"finding.opened-whole": "it is opened, and none of it lies or is gone; want a piece that lies, or a part " +
		"that is gone",
	"finding.brought-whole": "it is an offcut brought along, and nothing is told of what it lacks; want the " +
		"part that is " +
		"gone",
	"finding.gone-astray": "from {from} to {to} it is gone; want parts that follow each other on the plank",
	"finding.gone-ends":   "what is gone from {from} to {to} has the factory ends {got}; want {want}",
	"finding.lot-other":   "it is of lot \"{got}\"; want that of the floor, \"{want}\"",
	"finding.lot-again":   "lot \"{name}\" is told twice; want each once",
	"finding.lot-boxes": "lot {n} has {boxes} unopened boxes and {planks} whole planks; want no more boxes than the " +
		"planks fill",
	"finding.lot-of-mixed": "the floor is of lot \"{got}\" where lots are mixed; want none",
	"finding.planks-astray": "{bought} boxes and {brought} planks brought along came in, {opened} planks are " +
		"opened and " +
		"{here} are here; want as many as came in",
	"finding.least-out":      "site.least is {got}; want at most {most}, what the rest takes",
	"finding.returns-other":  "{got} boxes can go back, by lot; want {want}, unopened and not needed",
	"finding.reaches-other":  "of floor {n} {got} rows can be finished; want {want}",
	"finding.waits-other":    "{got} floors are told to let the others be finished; want {want}, by what is here",
	"finding.changed-astray": "change {n} is of no run of the plan; want runs of the plan",
	"finding.changed-other": "change {n} tells of a start of {was} before and {is} from here on; want {want}, " +
		"a run that " +
		"is not begun, and runs in the order of laying",

	// Why rows cannot be laid, and what would do.
	"finding.no-starters": "no starters were found that keep every stagger where rows split round islands; " +
		"try a smaller stagger, or thorough effort",
	"finding.row-short": "{row} is {length} long: with planks of {plank} it needs a starter and an ender " +
		"of at least min-piece {least} each; allow a shorter min-piece",
	"finding.no-joints": "{row} and the rows before it have no joints left that keep stagger {stagger} " +
		"with min-piece {least} and planks of {plank}; allow a smaller stagger",
	"finding.fit-ender":      "fit {fit} makes the shortest ender so much longer",
	"finding.fit-stagger":    "fit {fit} is added to the stagger twice",
	"finding.pattern-pieces": "the pattern gives {row} a starter of {starter} and an ender of {ender}",
	"finding.pattern-beyond": "the pattern gives {row} a starter of {starter}, more than the row is long",
	"finding.least-piece":    "starters and enders are at least min-piece {least}",
	"finding.least-piece-with-fit": "starters and enders are at least min-piece {least}, enders fit {fit} " +
		"more, and that much less than a plank",
	"finding.pattern-near":           "the pattern brings joints of {row} and row {other} as near as {distance}",
	"finding.least-stagger":          "joints keep stagger {stagger}",
	"finding.least-stagger-with-fit": "joints keep stagger {stagger} and twice fit {fit}",
	"finding.pattern-moved":          "moved along by {by} it would do: {starters}",
	"finding.pattern-unmoved": "nor does it keep the rules when it is moved along: choose other starters, " +
		"or lay the rows irregular",
	"finding.lies-turned-with": "with rows {direction} and a first row of {width} it can be laid",
	"finding.lies-turned-free": "with rows {direction} and a first row as wide as the planner chooses it " +
		"can be laid",
	"finding.lies-turned": "with rows {direction} it can be laid",
	"finding.lies-with":   "with a first row of {width} it can be laid",
	"finding.lies-free":   "with a first row as wide as the planner chooses it can be laid",

	// Plans that there are not, and how far a search is.
	"refused":                "no plan keeps the rules: {why}",
	"refused.clash":          "{rule} clashes in {row}",
	"refused.clash-anywhere": "{rule} clashes",
	"relaxed":                "{rule} {to} instead of {from}",
	"relaxed.offer":          "With {what} it can be laid: --relax plans that",
	"relaxed.none":           "No one rule relaxed is enough: change the direction of the rows or the plank",
	"relaxed.note": "Relaxed: {what}, the least that makes a plan. Check that the product's instruction " +
		"allows it, and write it into the job before you check this plan against it.",
	"stopped":         "interrupted before there was a first plan",
	"stopped.limit":   "--limit came before there was a first plan: give it more time",
	"phase.floor":     "floor",
	"phase.bound":     "bound",
	"phase.search":    "search",
	"phase.branch":    "branch",
	"phase.quality":   "quality",
	"phase.check":     "check",
	"progress.planks": ": {planks} so far",
	"progress.bound":  ", at least {n} needed",
	"progress.risk":   "risk: laid {n} of {times} times",

	// What is assumed of a job that is begun, and what lies otherwise than the rules have it.
	"finding.lies-short": "{row} has a piece of {length}, shorter than {least}: it lies, and stays",
	"finding.lies-near": "an end joint of {row} lies {distance} from one of row {other}, nearer than {least}: it lies, " +
		"and stays",
	"finding.other-plank": "a piece of {length} of {row} is not cut from where the plan has it: it counts as plank " +
		"{plank}",
	"finding.cut-to-fit": "{row} ends {length} elsewhere than planned: the fit allowance of {fit} covers that, so " +
		"cut it to fit",
	"finding.counts-from":      "{row} lies already: what is told of its length counts from row {other} on",
	"finding.wall-from":        "rows that lie end at wall {n} where it was: from {row} on it stands elsewhere",
	"finding.measured-longer":  "from {row} on, rows are {length} longer than planned",
	"finding.measured-shorter": "from {row} on, rows are {length} shorter than planned",
	"finding.planks-brought":   "whole planks beyond those bought for the job: {n}; they count as brought along",
	"finding.boxes-missing":    "boxes fewer than the plan says to buy: {n}; they count as not bought",
	"finding.planks-missing":   "planks fewer than the plan says: {n}; they count as lost",
}
