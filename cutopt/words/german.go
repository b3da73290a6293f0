package words

// german holds the words of maps, sheets and lists in German, by key. Lines of a list are separated by line breaks.
var german = map[string]string{
	// Facts of plans. Adjectives are stems.
	"fact.doorway": "der Durchgang in Wand {wall} ({room}) ist nicht breiter als die Fugen an seinen Seiten: " +
		"kein Boden läuft hinein",
	"fact.jogs.one":    "ein Versprung, kürzer als {most}, ist begradigt",
	"fact.jogs.many":   "{count} Versprünge, kürzer als {most}, sind begradigt",
	"fact.slivers.one": "ein Splitter, schmaler als {most}, bleibt ohne Diele unter der Leiste: {area}",
	"fact.slivers.many": "{count} Splitter, jeder schmaler als {most}, bleiben ohne Diele unter der Leiste: " +
		"zusammen {area}",
	"fact.edge-asked": "mit der ersten Reihe wie verlangt sind die Randreihen {first} und {last} breit; " +
		"Mindestbreite ist {least}",
	"fact.edge-forced": "keine Lage der Reihen hält beide Randreihen bei mindestens {least}, ohne dass Streifen " +
		"bleiben, die schlechter zu halten sind: wo sie am schmalsten sind, ist die Reihe an der Startwand {first} " +
		"breit, die an der Wand gegenüber {last}",
	"fact.strip": "Reihe {row}, Stück {piece}: ein Streifen von {width} auf {length}, {at} von seinem linken " +
		"Ende und {across} von der Kante der Reihe zur Startwand, ist schmaler als {least} und schwer zu halten",
	"fact.doorway-row": "Reihe {row} liegt nur in einem Durchgang und ist {width} breit, schmaler als {least}, wo " +
		"jeder darauf tritt; eine andere erste Reihe oder ein kleineres min-rip lässt dort vielleicht mehr",
	"fact.base.one": "die Reihen sind von Wand {wall} ({room}) aus angelegt, der längsten: {length}",
	"fact.base.many": "die Reihen sind von Wand {wall} ({room}) aus angelegt, {length}: von {count} auf 1 % " +
		"gleich langen Wänden die zuerst gemessene",
	"fact.base-asked": "die Reihen sind von Wand {wall} ({room}) aus angelegt, wie der Auftrag es verlangt",
	"fact.taper": "von der Verjüngung des Raums nimmt die erste Reihe {first} auf, die letzte {last}: die letzte " +
		"allein würde schmaler als {least}",
	"fact.line": "eine Linie {width} von Wand {wall} ({room}) schnüren: an ihr endet Reihe {row}",
	"fact.line-at": "Reihe {row} endet an einer Linie, die {at} vom linken Ende von Wand {wall} ({room}) {width} von " +
		"ihr entfernt ist",
	"facts.line-at": "Reihe {row} endet an einer Linie schräg zu Wand {wall} ({room}); vom linken Ende der Wand | von " +
		"der Wand, in {unit}: {places}",
	"fact.line-fixed": "eine Linie {width} vor {island} ({room}) schnüren: an ihr endet Reihe {row}",
	"fact.line-fixed-at": "Reihe {row} endet an einer Linie, die {at} vom linken Ende von {island} ({room}) {width} " +
		"davor liegt",
	"facts.line-fixed-at": "Reihe {row} endet an einer Linie schräg zu {island} ({room}); vom linken Ende | von der " +
		"Vorderkante, in {unit}: {places}",
	"facts.strip": "Reihen {from} bis {to}, Stück {piece}: Streifen von {widths}, {at} vom linken Ende, sind schmaler " +
		"als {least} und schwer zu halten",
	"fact.through.one": "ein Boden durch mehrere Räume: Reihe für Reihe verlegen, jede in allen Räumen, in " +
		"die sie reicht, vor der nächsten; keine Linie zwischen Reihen läuft durch zwei Räume: die am Ende von " +
		"Reihe {row}, {across} von der Startseite, durch den Durchgang übertragen",
	"fact.through.many": "ein Boden durch mehrere Räume: Reihe für Reihe verlegen, jede in allen Räumen, in " +
		"die sie reicht, vor der nächsten; die Linie am Ende von Reihe {row}, {across} von der Startseite, " +
		"durch {count} Räume schnüren und einhalten",
	"fact.room-rows.one":  "{room}: Reihe {row}",
	"fact.room-rows.many": "{room}: {count} Reihen, ab Reihe {row}",
	"fact.break": "dieses Feld endet an einer Trennfuge in {room}, ab Wand {wall}, {at} von der Ecke, an der die " +
		"Wand beginnt, gerade hinüber: ein Übergangsprofil von {length}; was darin steht, ist {width} breit, die " +
		"Fuge zu beiden Seiten",
	"fact.break-on": "dieses Feld endet an einer Trennfuge in {room}, von Trennfuge zu Trennfuge: ein " +
		"Übergangsprofil von {length}; was darin steht, ist {width} breit, die Fuge zu beiden Seiten",
	"fact.break-doorway": "dieses Feld endet an einer Trennfuge in Durchgang {doorway} von {room}: ein " +
		"Übergangsprofil von {length}; was darin steht, ist {width} breit, die Fuge zu beiden Seiten",
	"shaping.rip":  "auf {width} Breite sägen, an der Kante {edge}",
	"fact.rip":     "{width} an der Kante {edge} abtrennen",
	"fact.notch":   "{length} x {width} ausklinken {place}",
	"fact.cut-out": "{length} x {width} ausschneiden, {place}",
	"fact.hole": "ein rundes Loch von {diameter} schneiden, seine Mitte {at} vom linken Ende und {across} von der " +
		"Kante zur Startwand",
	"fact.round": "rund ausklinken, {length} x {width} eines Kreises von {diameter}, {place}",
	"fact.slit": "einen Block von {length} x {width} heraussägen {place}, mit zwei Schnitten bis an das Loch, " +
		"und ihn hinter dem festen Teil wieder einleimen, sobald das Stück liegt; er lässt sich nicht kippen: wo er " +
		"an ein Stück stößt, das schon liegt, die Lippe seiner Verbindung abtrennen und ihn flach einsetzen " +
		"(übliche Praxis)",
	"fact.end-cut":    "das {end}e Ende schräg sägen: {front} an der Kante zur Startwand, {back} an der anderen",
	"fact.edge-cut":   "die Kante {edge} schräg sägen: Breite {left} am linken, {right} am rechten Ende",
	"fact.corner-cut": "die {end}e Ecke {edge} schräg absägen, {length} x {width}",
	"fact.scribe":     "innerhalb von {length} x {width} anreißen und sägen {place}",
	"fact.outline":    "nach dem gezeichneten Umriss sägen: {length} x {width}",
	"where.edge":      "entlang der Kante {edge}",
	"where.length":    "über die ganze Länge, {across} von der Kante zur Startwand",
	"where.corner":    "an der {end}en Ecke {edge}",
	"where.end":       "am {end}en Ende, über die ganze Breite",
	"where.in-end":    "im {end}en Ende, {across} von der Kante zur Startwand",
	"where.width":     "über die ganze Breite, {at} vom linken Ende",
	"where.in-edge":   "in der Kante {edge}, {at} vom linken Ende",
	"where.within":    "{at} vom linken Ende und {across} von der Kante zur Startwand",
	"end.none":        "kein",
	"end.left":        "link",
	"end.right":       "recht",
	"end.both":        "beid",
	"edge.none":       "kein",
	"edge.front":      "zur Startwand",
	"edge.back":       "weg von der Startwand",
	"edge.both":       "auf beiden Seiten",

	"decimal": ",",
	"numbers": "eine zwei drei vier fünf sechs sieben acht neun zehn elf zwölf",

	"unit.in": "Zoll",
	"unit.ft": "Fuß und Zoll",
	"unit.mm": "Millimeter",
	"unit.cm": "Zentimeter",
	"unit.m":  "Meter",

	"hand.left":  "linken",
	"hand.right": "rechten",

	// The floor map.
	"map":             "Verlegeplan",
	"nothing":         "Dieser Plan enthält keinen Boden.",
	"room":            "Raum {n}",
	"page":            "Seite {n}",
	"tile":            "Blatt {k} von {n}",
	"tile-rows":       "Reihen {from} bis {to}",
	"tile-part":       "Teil {k} von {n} von links",
	"rows.one":        "1 Reihe",
	"rows.many":       "{n} Reihen",
	"plank-size":      "Dielen {length} x {width}",
	"gap":             "Fuge {gap}",
	"starting-wall":   "Startwand",
	"towards-start":   "zur Startwand",
	"field":           "{room}, Feld {n}",
	"wall.break":      "Übergangsprofil · {length}",
	"wall.transition": "Übergangsprofil",
	"wall.full":       "Wand {n} · {length}",
	"wall.short":      "{n} · {length}",
	"turned.90":       "gegen die Skizze ein Viertel nach rechts gedreht",
	"turned.180":      "gegen die Skizze halb herum gedreht",
	"turned.270":      "gegen die Skizze ein Viertel nach links gedreht",
	"turned.degrees":  "gegen die Skizze um {degrees}° nach rechts gedreht",
	"turned.mirrored": "gegen die Skizze gespiegelt",
	"sketch-top":      "oben in der Skizze",
	"row-link":        "Reihe {row}",
	"range":           "{from} bis {to}",
	"as-it-comes":     "wie er kommt, {range}",
	"no-cut":          "wie er kommt, {range}: nicht sägen",
	"rip-mark":        "Breite {width}",
	"rip-mark-notes":  "Breite: Hinweise",
	"door-letter":     "T",
	"legend.whole":    "ganze Diele",
	"legend.starter":  "A Anfangsstück",
	"legend.ender":    "E Endstück, nach Maß",
	"legend.only":     "O ein Stück füllt den Zug",
	"legend.plain":    "Nummer der Diele",
	"legend.shared":   "dieselbe Diele gibt zwei Stücke: das andere dunkle Feld suchen. Längen in {unit}.",
	"legend.text": "A Anfangsstück, E Endstück (nach Maß), O ein Stück füllt den Zug, #7 dieselbe Diele 7 gibt " +
		"zwei Stücke. Längen in {unit}.",
	"letter.whole":   "G",
	"letter.starter": "A",
	"letter.ender":   "E",
	"letter.only":    "O",
	"piece-title":    "Reihe {row}: {kind}, {length}, Diele {plank}",
	"note":           "Reihe {row}, {piece}: {shaping}",
	"note.numbered":  "Hinweis {n}: {text}",
	"corners":        "nach diesen Ecken sägen, vom linken Ende | von der Kante zur Startwand, in {unit}: {corners}",
	"piece.in-row":   "Stück {n} von links",
	"piece.in-run":   "Stück {n} von links im Zug {k} von {runs}",

	"piece.in-row.many": "Stücke {n} von links",
	"piece.in-run.many": "Stücke {n} von links im Zug {k} von {runs}",

	"kind.whole":     "ganze Diele",
	"kind.starter":   "Anfangsstück",
	"kind.ender":     "Endstück",
	"kind.only":      "einzelnes Stück",
	"kind.left-over": "Rest",

	// The plank sheet and the list of cuts.
	"strips": "So werden die Dielen gesägt",
	"strips.read": "Jeder Streifen ist eine Diele, ihr linkes Ende links, wenn die Nutzseite oben liegt und man " +
		"zur Startwand blickt. Zahlen unter dem Streifen: vom linken Ende bis zum Schnitt. Dunkle Nummer: Diele " +
		"wird zweimal gebraucht. Gestrichelt: Rest.",
	"strip.piece":     "{letter} {length} · Reihe {row}",
	"strip.row":       "{letter} {row}",
	"strip.left-over": "Rest {length}",
	"strips.whole.one": "Eine Diele behält ihre volle Länge; in einer Randreihe wird sie nur längs" +
		" geschnitten: Nummer",
	"strips.whole.many": "{n} Dielen behalten ihre volle Länge; in Randreihen werden sie nur längs" +
		" geschnitten: Nummern",
	"shapes": "Stücke mit Ausschnitten und Schrägen",
	"shapes.read": "Wie sie liegen, die Kante zur Startwand oben; gestrichelt: das volle Stück. Zahlen unten: " +
		"vom linken Ende; links: von der oberen Kante, in der Breite der Reihe. Vor dem Sägen im Raum messen.",
	"shapes.title": "Hinweis {n}: Reihe {row}, {kind} von Diele {plank}",
	"cuts":         "Zuschnittliste",
	"cuts.order": "Erst ablängen, dann längs schneiden: Nur das Stück, das schmaler werden muss, wird längs " +
		"geschnitten; der Abschnitt behält seine volle Breite.",
	"cuts.plank":      "Diele",
	"cuts.part":       "Teil",
	"cuts.room":       "Raum",
	"cuts.row":        "Reihe",
	"cuts.length":     "Länge ({unit})",
	"cuts.from":       "Ab linkem Ende",
	"cuts.to":         "Bis",
	"cuts.sawn":       "Werkskanten",
	"cuts.note":       "Danach",
	"cuts.whole.one":  "Eine Diele wird ganz verlegt: Nummer",
	"cuts.whole.many": "{n} Dielen werden ganz verlegt: Nummern",
	"sawn.none":       "keine",
	"sawn.left":       "links",
	"sawn.right":      "rechts",
	"sawn.both":       "beide",
}
