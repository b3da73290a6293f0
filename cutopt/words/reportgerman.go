package words

// reportGerman holds the words of the command's report in German.
var reportGerman = map[string]string{
	"nouns": "capital",

	// Numbers of things.
	"things.box.none":   "kein Paket",
	"things.box.one":    "{n} Paket",
	"things.box.many":   "{n} Pakete",
	"things.plank.none": "keine Diele",
	"things.plank.one":  "{n} Diele",
	"things.plank.many": "{n} Dielen",
	"things.row.one":    "{n} Reihe",
	"things.row.many":   "{n} Reihen",

	// What to buy, and why.
	"report.buy":             "{boxes} zu {planks} kaufen",
	"report.in-all":          "zusammen {price}",
	"report.why":             "Warum",
	"why.too-few.one":        "{n} Paket ist für diese Reihen bewiesen zu wenig.",
	"why.too-few.many":       "{n} Pakete sind für diese Reihen bewiesen zu wenige.",
	"why.too-few-rooms.one":  "{n} Paket ist bewiesen zu wenig, {whatever}.",
	"why.too-few-rooms.many": "{n} Pakete sind bewiesen zu wenige, {whatever}.",
	"whatever.first":         "gleich wie breit die erste Reihe ist",
	"whatever.free":          "gleich wie breit die erste Reihe ist, längs oder quer",
	"why.first-open":         "Ob mit einer anderen ersten Reihe weniger Pakete reichen, ist nicht entschieden.",
	"why.least":              "Weniger reicht nicht.",
	"why.too-risky.one": "{n} Paket fasst den Boden, doch die Gefahr, dass es nicht reicht, ist {chance}, wenn " +
		"{loss} der Dielen brechen; hingenommen werden {limit}.",
	"why.too-risky.many": "{n} Pakete fassen den Boden, doch die Gefahr, dass sie nicht reichen, ist {chance}, " +
		"wenn {loss} der Dielen brechen; hingenommen werden {limit}.",
	"why.chance-between": "{least} bis {found}",
	"why.risky-at-best.one": "Bei {n} Paket ist die Gefahr, dass es nicht reicht, {chance} oder mehr, wenn " +
		"{loss} der Dielen brechen: Mindestens {planks} brauchen diese Reihen, das ist bewiesen; hingenommen " +
		"werden {limit}.",
	"why.risky-at-best.many": "Bei {n} Paketen ist die Gefahr, dass sie nicht reichen, {chance} oder mehr, wenn " +
		"{loss} der Dielen brechen: Mindestens {planks} brauchen diese Reihen, das ist bewiesen; hingenommen " +
		"werden {limit}.",
	"why.open.one":            "Ob {n} Paket reichen würde, ist offen: Der Boden dürfte nur {most} brauchen",
	"why.open.many":           "Ob {n} Pakete reichen würden, ist offen: Der Boden dürfte nur {most} brauchen",
	"why.open-from.one":       ", und {n} ist für diese Reihen bewiesen zu wenig",
	"why.open-from.many":      ", und {n} sind für diese Reihen bewiesen zu wenige",
	"why.floor":               "Der Boden braucht {planks} zum Sägen und Verlegen",
	"why.looks.one":           ", {n} mehr als nötig, für sein Aussehen und weniger Schnitte",
	"why.looks.many":          ", {n} mehr als nötig, für sein Aussehen und weniger Schnitte",
	"why.found.one":           ", {n} mehr als die wenigsten, die gefunden wurden, für sein Aussehen und weniger Schnitte",
	"why.found.many":          ", {n} mehr als die wenigsten, die gefunden wurden, für sein Aussehen und weniger Schnitte",
	"why.floor-least.one":     "; {n} ist für diese Reihen bewiesen zu wenig",
	"why.floor-least.many":    "; {n} sind für diese Reihen bewiesen zu wenige",
	"why.none-left":           "Die Pakete enthalten keine Diele mehr als das.",
	"why.rest.one":            "Die andere von {bought} gekauften Dielen: {parts}.",
	"why.rest.many":           "Die anderen {n} von {bought} gekauften Dielen: {parts}.",
	"report.kept":             "{n} als Vorrat für Reparaturen",
	"report.kept-in.one":      "in {n} ungeöffneten Paket",
	"report.kept-in.many":     "in {n} ungeöffneten Paketen",
	"report.reserve":          "{n} als Reserve, falls Dielen brechen",
	"report.over":             "{n} übrig",
	"why.thumb":               "Nach der Faustregel, {percent} % mehr, würde man ",
	"why.thumb-same":          "ebenso viele kaufen.",
	"why.for":                 "{boxes} für {price}",
	"why.thumb-more":          "{boxes} kaufen, {difference} mehr",
	"why.thumb-fewer":         "{boxes} kaufen, {difference} weniger",
	"why.thumb-too-few":       ": für diese Reihen bewiesen zu wenige.",
	"why.thumb-too-few-rooms": ": bewiesen zu wenige, {whatever}.",
	"why.thumb-risk":          ": Die Gefahr, dass sie nicht reichen, ist {chance}.",
	"why.thumb-short":         ": zu wenige für den geplanten Boden; ob ein anderer damit auskäme, ist offen.",
	"why.counted.one": "Gezählt, indem der Boden mit Bruch verlegt und aus dem Rest weitergeplant wurde, " +
		"würde {n} reichen: siehe die nächste Tabelle.",
	"why.counted.many": "Gezählt, indem der Boden mit Bruch verlegt und aus dem Rest weitergeplant wurde, " +
		"würden {n} reichen: siehe die nächste Tabelle.",
	"report.strips": "Bewiesen ist das für Stücke, die je eine volle Dielenbreite brauchen: Hier kann ein " +
		"Streifen, der von einem Stück abfällt, ein anderes ergeben.",

	// Numbers of boxes.
	"report.fewer-boxes":    "Reichen weniger Pakete, wenn {loss} der Dielen brechen?",
	"report.no":             "bewiesen nicht",
	"report.left":           "Übrig",
	"report.price":          "Preis",
	"report.short":          "Gefahr",
	"report.interval":       "Spanne",
	"report.plain":          "Einfach",
	"report.from-to":        "{low} bis {high}",
	"report.beyond":         ", ohne den Vorrat für Reparaturen ({n})",
	"report.no-means":       "Bewiesen nicht: für diese Reihen, was auch bricht.",
	"report.no-means-rooms": "Bewiesen nicht: was auch bricht, und {whatever}.",
	"report.left-means": "Übrig: ganze Dielen, wenn keine bricht{beyond}. Zuschlag, Anteil: die ersten zwei " +
		"Bedeutungen von Verschnitt, siehe unten; die dritte, {percent}, ist für jede Zahl von Paketen gleich. " +
		"Gefahr: dass die Pakete nicht reichen.",
	"report.enough.one":  "{n} Paket reicht, wenn keine Diele bricht",
	"report.enough.many": "{n} Pakete reichen, wenn keine Diele bricht",
	"report.fewest": "{enough}; {n} sind die wenigsten, bei denen die Gefahr, dass sie nicht reichen, höchstens " +
		"{limit} ist",
	"report.if-break": "{enough}; wenn Dielen brechen, ist die Gefahr, dass es nicht reicht, höchstens {limit}",
	"report.reckoned": "{advice}, gerechnet, als kostete jede verlorene Diele eine ganze. --risk verlegt den Boden " +
		"stattdessen mit Bruch und plant aus dem Rest weiter. Wie viele Dielen brechen, ist eine Annahme: --loss " +
		"legt sie fest.",
	"report.counted.one": "{advice}, gezählt, indem der Boden {n}-mal mit Bruch verlegt und aus dem Rest " +
		"weitergeplant wurde.",
	"report.counted.many": "{advice}, gezählt, indem der Boden {n}-mal mit Bruch verlegt und aus dem Rest " +
		"weitergeplant wurde.",
	"report.close":     "Es ist knapp: {limit} liegt in einer Spanne.",
	"report.more":      "--risk={n} sagt mehr.",
	"report.left-at":   "Pakete, die früh klar zu wenige oder zu riskant waren, wurden nicht weiter gezählt.",
	"report.intervals": intervalsGerman,

	// Waste.
	"report.waste":      "Verschnitt, in den drei Bedeutungen des Wortes",
	"report.added":      "Zuschlag auf den Boden: {bought} gekauft für {net} Boden",
	"report.share":      "Anteil des Einkaufs: der Teil des Gekauften, der nicht Boden wird",
	"report.afterwards": "nachher gemessen: der Teil der angebrochenen Dielen, der nicht verlegt wird",
	"report.areas": "{bought} gekauft = {laid} verlegt + {offcuts} Abschnitte + {ripped} längs abgeschnitten + " +
		"{kerf} Sägespäne + {whole} in ganzen Dielen",

	// How the floor looks and lays.
	"report.looks":         "Aussehen und Verlegen",
	"looks.in-line.none":   "keine Stöße zwei Reihen auseinander in einer Flucht",
	"looks.in-line.one":    "{n} Paar Stöße zwei Reihen auseinander in einer Flucht",
	"looks.in-line.many":   "{n} Paare Stöße zwei Reihen auseinander in einer Flucht",
	"looks.chain.none":     "keine fünf Stufen in einer Richtung",
	"looks.chain.one":      "{n} Folge von fünf oder mehr Stufen in einer Richtung",
	"looks.chain.many":     "{n} Folgen von fünf oder mehr Stufen in einer Richtung",
	"looks.staircase.none": "keine Treppen",
	"looks.staircase.one":  "{n} Treppe aus vier Stößen",
	"looks.staircase.many": "{n} Treppen aus vier Stößen",
	"looks.cluster.none":   "keine Häufungen von Stößen",
	"looks.cluster.one":    "{n} Häufung von vier Stößen",
	"looks.cluster.many":   "{n} Häufungen von vier Stößen",
	"report.apart":         "Stöße benachbarter Reihen liegen mindestens {stagger} auseinander.",
	"report.apart-planned": "Stöße benachbarter Reihen liegen nach Plan mindestens {stagger} auseinander, wo " +
		"Abschnitte verlegt werden, wie sie kommen, mindestens {least}.",
	"report.loose.one":      "{n} Abschnitt wird verlegt, wie er kommt",
	"report.loose.many":     "{n} Abschnitte werden verlegt, wie sie kommen",
	"report.crosscuts.one":  "{n} Schnitt quer",
	"report.crosscuts.many": "{n} Schnitte quer",
	"report.no-offcut":      "kein Abschnitt wird für eine spätere Reihe aufgehoben",
	"report.at-once.one":    "höchstens {n} Abschnitt ist zugleich für spätere Reihen aufgehoben",
	"report.at-once.many":   "höchstens {n} Abschnitte sind zugleich für spätere Reihen aufgehoben",
	"report.waited.one":     "zusammen über {n} Reihe hinweg",
	"report.waited.many":    "zusammen über {n} Reihen hinweg",
	"report.odd.one":        "{n} Anfangsstück hat kein rundes Maß",
	"report.odd.many":       "{n} Anfangsstücke haben kein rundes Maß",
	"report.round":          "alle Anfangsstücke sind ganz oder haben runde Maße",
	"report.pattern": "Das Muster kostet {planks} und {boxes} mehr als die beste gefundene Verlegung ohne Muster " +
		"({than}). Was bewiesen zu wenig ist, ist es für alle Stöße, mit und ohne Muster.",

	// The rows of a room.
	"report.room":       "Raum",
	"report.laid.left":  "{room}: {rows} von der Startwand aus, jede von links nach rechts verlegt",
	"report.laid.right": "{room}: {rows} von der Startwand aus, jede von rechts nach links verlegt",
	"report.lengths":    "Längen in {unit}.",
	"report.legend": "R.: Reihe. Aus neu: von einer neuen Diele; aus R. 5: vom Abschnitt, der aus Reihe 5 aufgehoben " +
		"ist. Abschnitt: was aufgehoben wird und welche Reihe es beginnt oder beendet; was übrig und kürzer als " +
		"{least} ist, steht nicht da.",
	"report.range": "{from}\nbis {to}",
	"report.as-it-comes": "Ein Anfangsstück von einer Länge bis zu einer anderen ist sein Abschnitt, wie er " +
		"kommt, ohne Schnitt.",
	"report.runs":         "Wo eine Reihe unterbrochen ist, heißen ihre Züge von links a, b und so weiter.",
	"report.head.row":     "R.",
	"report.head.width":   "Breite",
	"report.head.starter": "Anfang",
	"report.head.from":    "aus",
	"report.head.whole":   "Ganze",
	"report.head.ender":   "Ende",
	"report.head.offcut":  "Abschnitt",
	"report.rip":          "auf {width}",
	"report.new":          "neu",
	"report.whole":        "ganz",
	"report.one-piece":    "ein Stück",
	"report.row":          "R. {row}",
	"report.row-of":       "{room} R. {row}",
	"becomes.over":        "{length} übrig",
	"becomes.starter":     "{length} beginnt {place}",
	"becomes.ender":       "{length} beendet {place}",
	"becomes.only":        "{length} liegt in {place}",
	"stack.row":           "Reihe {row}, {width} breit:",
	"stack.row-ripped":    "Reihe {row}, {width} breit gesägt:",
	"stack.one-piece":     "ein Stück {piece}",
	"stack.starter":       "Anfang {piece}",
	"stack.whole":         "Ganze Dielen {n}",
	"stack.ender":         "Ende {piece}",
	"stack.offcut":        "Abschnitt {offcut}",
	"stack.new":           "{length}, neu",
	"stack.from":          "{length}, aus {from}",
	"report.shapes":       "Stücke mit besonderer Form, in ihrer Reihe von links gezählt:",
	"report.shape":        "Reihe {row}, Stück {k} von {n}: {shaping}",
	"report.shape.many":   "Reihe {row}, Stücke {k} von {n}: {shaping}",
	"report.note":         "Hinweis: {text}",
	"report.map":          "Verlegeplan",

	// Cautions, and what was left undone.
	"report.before":   "Vor dem Sägen",
	"report.cautions": reportCautionsGerman,
	"report.exhausted": "Der Aufwand ist verbraucht, bevor der Beweis vollständig ist; --effort thorough " +
		"rechnet länger.",
	"report.curtailed": "Der Aufwand für andere erste Reihen ist verbraucht; --effort thorough rechnet an ihnen " +
		"länger.",
	"report.limit":     "Von --limit beendet: Das ist der beste Plan bis hierher.",
	"report.cancelled": "Abgebrochen: Das ist der beste Plan bis hierher.",
	"report.not-counted": "Abgebrochen, bevor der Boden oft genug verlegt war: Die Gefahr, dass es nicht reicht, ist " +
		"einfach gerechnet.",
	"report.wrote": "Geschrieben: {file}",

	// What a job that is done took.
	"account.bought.one":  "{n} Paket zu {planks} gekauft",
	"account.bought.many": "{n} Pakete zu {planks} gekauft",
	"account.opened":      "{opened} angebrochen: {lost} verloren, {left} ganz übrig.",
	"account.planned":     "Nach dem Plan: {planks}.",
	"account.loss":        "Verlust",
	"account.next": "{loss} der angebrochenen Dielen gingen verloren. Für den nächsten Auftrag: --loss {plain}, oder in " +
		"seiner Datei unter rules loss: {plain} %.",
	"account.interval": "Ein Auftrag sagt wenig: Nach seinen Zahlen liegt der Verlust zwischen {low} und {high}, eine " +
		"Spanne, die in 95 von 100 Zählungen stimmt.",

	// Plans compared.
	"compare.job":         "Auftrag und Boden",
	"compare.first-rows":  "Andere erste Reihen",
	"compare.rules":       "Andere Regeln",
	"compare.products":    "Andere Produkte",
	"compare.planks":      "Dielen",
	"compare.waste":       "Zuschlag",
	"compare.cuts":        "Schnitte",
	"compare.edge":        "Rand",
	"compare.in-line":     "Flucht",
	"compare.as-it-is":    "unverändert",
	"compare.rows.along":  "Reihen längs",
	"compare.rows.across": "Reihen quer",
	"compare.rows.angle":  "Reihen schräg",
	"compare.other-side":  "von der anderen Seite aus",
	"compare.other-end":   "vom anderen Ende der Reihen aus",
	"compare.first-row":   "erste Reihe {width}",
	"compare.stagger":     "Versatz {length}",
	"compare.min-piece":   "kürzestes Stück {length}",
	"compare.product":     "Produkt {n}",
	"compare.cannot":      "{name} lässt sich nicht verlegen: {why}",
	"compare.legend": "* das Beste, das die Regeln des Auftrags einhält: das billigste, wenn jedes Paket einen " +
		"Preis hat, sonst das mit den wenigsten Paketen, dann Dielen, dann Schnitten. Zuschlag ist, was über " +
		"die Bodenfläche hinaus gekauft wird. Rand ist die schmalste erste oder letzte Reihe; Flucht zählt die " +
		"Stöße, die zwei Reihen auseinander in einer Flucht liegen. Jede Zeile hat die wenigsten Dielen, die " +
		"ihr Aufwand findet; „plan“ hört auf, wo die Pakete feststehen, und verlegt Dielen, die diese hergeben, " +
		"für das Aussehen.",
	"compare.costs":         "Was die Regeln kosten",
	"compare.instead":       "{change} statt {before}",
	"compare.costs-nothing": "{what} kostet nichts und spart nichts.",
	"compare.costs-both":    "{what} kostet {planks} und {boxes}.",
	"compare.saves-both":    "{what} spart {planks} und {boxes}.",
	"compare.costs-planks":  "{what} kostet {planks} und spart {boxes}.",
	"compare.saves-planks":  "{what} spart {planks} und kostet {boxes}.",
	"compare.interrupted":   "Abgebrochen: Das sind die Zeilen, die bis hierher geplant sind.",

	// A plan checked.
	"check.recounted":       "Nachgezählt: {pieces} aus {planks} in {runs} von {floors}.",
	"check.pieces.one":      "{n} Stück",
	"check.pieces.many":     "{n} Stücke",
	"check.runs.one":        "{n} Zug",
	"check.runs.many":       "{n} Zügen",
	"check.floors.one":      "{n} Boden",
	"check.floors.many":     "{n} Böden",
	"check.kept":            "Jede Regel ist eingehalten; Dielen, Pakete und Verschnitt gehen auf.",
	"check.violations.one":  "{n} Verstoß:",
	"check.violations.many": "{n} Verstöße:",
	"check.more":            "und {n} weitere; --all zeigt sie",
	"check.stopped":         "abgebrochen, bevor alles geprüft war",
	"check.no-proof": "Der Plan enthält kein Zertifikat; dass mindestens so viel nötig ist, wie er sagt " +
		"({planks}), ist nicht geprüft.",
	"check.unsound": "Das Zertifikat gilt nicht: {why}",
	"check.sound":   "Das Zertifikat gilt: Keine Verlegung dieser Reihen braucht weniger als {planks} oder {boxes}.",
	"check.sound-least": "Auch keine andere erste Reihe braucht weniger Pakete:" +
		" wie lang die Züge einer jeden mindestens sind, ist aus den Umrissen nachgerechnet.",
	"check.sound-rooms.one": "Auch keine andere erste Reihe braucht weniger Pakete:" +
		" {n} Weise, wie die Reihen eines Bodens liegen können, ist aus den Umrissen nachgerechnet.",
	"check.sound-rooms.many": "Auch keine andere erste Reihe braucht weniger Pakete:" +
		" {n} Weisen, wie die Reihen eines Bodens liegen können, sind aus den Umrissen nachgerechnet.",
}

const intervalsGerman = `Eine Spanne stimmt in 95 von 100 Zählungen; einfach ist die Gefahr, wenn jede verlorene ` +
	`Diele eine ganze kostet. Wie viele Dielen brechen, ist eine Annahme: --loss legt sie fest.`

const reportCautionsGerman = "" +
	"Die Anleitung des Produkts geht jeder Regel hier vor, örtliche Vorschriften gehen allem vor.\n" +
	"Vor jedem letzten Stück noch einmal messen: Wände sind selten gerade, und das Endstück wird nach " +
	"Maß gesägt.\n" +
	"Alles aus einer Charge kaufen: Die nächste kann im Ton abweichen.\n" +
	"Ein elastischer Boden, der bis 1980 verlegt wurde, sein Kleber und seine Spachtelmasse können Asbest " +
	"enthalten, Farbe aus der Zeit vor 1978 Blei: prüfen lassen, bevor man daran arbeitet (USA: 29 CFR " +
	"1926.1101; EPA-Regel RRP).\n" +
	"Leitungen, Rohre und Heizkabel suchen, bevor man nagelt, bohrt oder kürzt."
