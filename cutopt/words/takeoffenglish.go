package words

// takeoffEnglish holds the words of the take-off and of the order to a supplier in English.
var takeoffEnglish = map[string]string{
	"takeoff":          "Everything to order",
	"takeoff.also":     "Also to buy:",
	"takeoff.what":     "What",
	"takeoff.needed":   "Needed",
	"takeoff.buy":      "To buy",
	"takeoff.price":    "Price",
	"takeoff.total":    "{sum} in all, without tax, delivery and labour.",
	"takeoff.how":      "How it was reckoned",
	"takeoff.cuts":     "How trim, profiles and rolls are cut",
	"takeoff.heights":  "Heights",
	"takeoff.measure":  "Measure each piece in the room before it is cut: walls and openings are never quite as drawn.",
	"takeoff.none":     "none: attached",
	"takeoff.if-asked": "{area}, if asked for",

	"takeoff.open.one":  "Of {n} item the price is not known, or not what sizes it comes in.",
	"takeoff.open.many": "Of {n} items the price is not known, or not what sizes they come in.",

	"takeoff.pieces.one":  "{n} piece",
	"takeoff.pieces.many": "{n} pieces",
	"takeoff.strips.one":  "{n} strip",
	"takeoff.strips.many": "{n} strips",

	"takeoff.doorway":      "doorway {n}",
	"takeoff.break":        "break from wall {n} at {at}",
	"takeoff.break-on":     "break between breaks",
	"takeoff.wall":         "wall {n}",
	"takeoff.island":       "island {n}",
	"takeoff.appliance":    "Appliance {n}",
	"takeoff.edge":         "{island}, edge {n}",
	"takeoff.mitres.left":  "mitre at the left",
	"takeoff.mitres.right": "mitre at the right",
	"takeoff.mitres.both":  "mitres at both ends",

	"item.planks":        "Planks",
	"item.kept":          "Kept for repairs",
	"item.underlay":      "Underlay",
	"item.film":          "Film",
	"item.tape":          "Tape",
	"item.spacers":       "Spacers",
	"item.disposal":      "To dispose of",
	"trim.any":           "Base, shoe or quarter round",
	"trim.base":          "Base",
	"trim.shoe":          "Shoe moulding",
	"trim.quarter-round": "Quarter round",
	"transition.open":    "Transitions",
	"transition.level":   "Transition, equal heights",
	"transition.lower":   "Transition to a lower floor",
	"transition.edge":    "Edge profile",
	"transition.nosing":  "Stair nosing",

	"goods.box.one":    "{n} box of {size}",
	"goods.box.many":   "{n} boxes of {size}",
	"goods.stick.one":  "{n} stick of {size}",
	"goods.stick.many": "{n} sticks of {size}",
	"goods.roll.one":   "{n} roll of {size}",
	"goods.roll.many":  "{n} rolls of {size}",
	"goods.pack.one":   "{n} pack of {size}",
	"goods.pack.many":  "{n} packs of {size}",

	"reckoned.planks": "{n} to cut and lay, {reserve} in reserve if planks break, {over} over",
	"reckoned.kept":   "whole planks that stay in their boxes, with the lot number; they are among those bought above",
	"reckoned.area":   "the area of the floor; no rolls are named in the job",
	"reckoned.film": "the area of the floor, only where the subfloor may be damp and the product's instruction " +
		"asks for " +
		"it; none is named in the job",
	"reckoned.attached": "attached to the planks, so there is none to lay",
	"reckoned.tape":     "the seams of the strips, side by side and end to end",
	"reckoned.spacers": "one at each end of a stretch of wall or fixed thing and one at least each {every} between, " +
		"along {length}",
	"reckoned.disposal":        "{area} of offcuts, strips and sawdust, {thickness} thick, stacked without air",
	"reckoned.disposal-area":   "the area of offcuts, strips and sawdust; the thickness of the plank is not known",
	"reckoned.openings":        "as long as the opening is wide, or the break",
	"reckoned.transition-open": "Which profile fits is open: give the height of the floor behind, or the transition",
	"reckoned.stretches.one":   "one piece for the stretch of wall between doorways and fixed things",
	"reckoned.stretches.many":  "one piece for each of {n} stretches of wall between doorways and fixed things",
	"reckoned.outside.one":     "{n} end at an outside corner is longer by {add}, to the long point",
	"reckoned.outside.many":    "{n} ends at outside corners are longer by up to {add}, to the long point",
	"reckoned.spliced.one":     "{n} stretch is longer than any stick and spliced",
	"reckoned.spliced.many":    "{n} stretches are longer than any stick and spliced",
	"reckoned.bare": "all trim together is {bare} too thin to hide the gap and what the plan leaves " +
		"open beside it (cover)",
	"reckoned.unseen.one": "{n} doorway leads into a room of the job that does not show it: there the wall is " +
		"reckoned without it",
	"reckoned.unseen.many": "{n} doorways lead into rooms of the job that do not show them: there the walls " +
		"are reckoned without them",
	"reckoned.no-trim":     "no trim is named in the job, and mitres at outside corners are not counted",
	"reckoned.strips.one":  "{n} strip {width} wide over {extent}, {run}",
	"reckoned.strips.many": "{n} strips {width} wide over {extent}, {run}",
	"reckoned.lap":         "lapped by {lap}",
	"reckoned.more.one":    "{n} more where a doorway or the end of a roll asks for it",
	"reckoned.more.many":   "{n} more where doorways or ends of rolls ask for them",
	"strips-run.along":     "along the rows",
	"strips-run.across":    "across the rows",

	"cutting.price":    "No way to cut these pieces costs less: proven.",
	"cutting.material": "No way to cut these pieces takes less material: proven.",
	"cutting.open":     "It is not proven that no other way to cut these pieces costs less.",
	"cutting.on-hand":  "on hand",
	"cutting.left":     "{left} left",

	// The order for the supplier.
	"supply":              "Order for the supplier",
	"supply.number":       "No.",
	"supply.what":         "Item",
	"supply.size":         "Size",
	"supply.count":        "Quantity",
	"supply.unit":         "Unit",
	"supply.each":         "Price each",
	"supply.amount":       "Amount",
	"supply.lot":          "Lot",
	"supply.return":       "May be returned",
	"supply.total":        "Sum of the prices known",
	"supply.planks":       "{size}, {planks} to a box",
	"supply.pack":         "{n} to a pack",
	"supply.thick":        "{thickness} thick",
	"supply.any-size":     "as you have it in stock",
	"supply.as-agreed":    "as agreed",
	"supply.one-lot":      "all of one lot; its number:",
	"supply.return.box":   "unopened boxes",
	"supply.return.stick": "uncut sticks",
	"supply.return.roll":  "unopened rolls",
	"supply.return.pack":  "unopened packs",
	"unit-of.box.one":     "box",
	"unit-of.box.many":    "boxes",
	"unit-of.stick.one":   "stick",
	"unit-of.stick.many":  "sticks",
	"unit-of.roll.one":    "roll",
	"unit-of.roll.many":   "rolls",
	"unit-of.pack.one":    "pack",
	"unit-of.pack.many":   "packs",
	"supply.blanks": `Ordered by
Deliver to
Wanted on
Date`,
	"supply.notes": "All boxes of planks are to be of one production lot. If that is not possible do not ship, but " +
		"tell us first.\n" +
		"Write the lot number on the delivery note.\n" +
		"What may be returned is what we ask for: confirm it with your terms, and until when.\n" +
		"Prices are those we know, for one unit each. No tax, delivery or labour is included.",

	"height.door.clear": "the door clears the floor, which rises by {rise}, by {left}",
	"height.door.tight": "the door clears the floor, which rises by {rise}, by {left} only: try whether it swings " +
		"over a " +
		"rug or mat before it is hung again",
	"height.door.short": "the floor rises by {rise} and there are {under} under the door: shorten the door by " +
		"{left} and " +
		"what it shall clear",
	"height.appliance.clear": "with the floor, which rises by {rise}, {left} are left above it",
	"height.appliance.tight": "with the floor, which rises by {rise}, only {left} are left above it: try whether it " +
		"comes out over the edge of the floor",
	"height.appliance.short": "with the floor, which rises by {rise}, it is {left} too high for its opening of " +
		"{under}: " +
		"lay the floor up to its feet only, or raise the counter",
}
