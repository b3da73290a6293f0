package words

// sheetGerman holds the words of the job sheet and the pocket sheet in German, by key.
var sheetGerman = map[string]string{
	// The order.
	"sheet":            "Arbeitsblatt",
	"sheet.order":      "Einkauf",
	"order.buy.one":    "1 Paket kaufen.",
	"order.buy.many":   "{n} Pakete kaufen.",
	"order.takes.one":  "1 Paket reicht, wenn keine Diele bricht.",
	"order.takes.many": "{n} Pakete reichen, wenn keine Diele bricht.",
	"risk.buy": "{boxes} Pakete kaufen: Wenn {loss} der Dielen brechen, sind es die wenigsten, bei denen die " +
		"Gefahr, dass sie nicht reichen, höchstens {limit} ist.",
	"risk.enough": "Wenn {loss} der Dielen brechen, ist die Gefahr, dass {boxes} Pakete nicht reichen, " +
		"höchstens {limit}.",
	"risk.plain": "Gerechnet, als kostete jede gebrochene Diele eine ganze. Wie viele Dielen brechen, ist eine " +
		"Annahme. Dielen übrig: wenn keine bricht.",
	"risk.counted": "Gezählt, indem der Boden {times}-mal mit Bruch verlegt und aus dem Rest weitergeplant " +
		"wurde. Wie viele Dielen brechen, ist eine Annahme. Dielen übrig: wenn keine bricht.",
	"risk.floors": "Bei weniger als {boxes} Paketen: für einen Boden aus {fewest} Dielen, den wenigsten. Ab " +
		"{boxes}: " +
		"für diesen Plan aus {planks}.",
	"risk.floors-found": "Bei weniger als {boxes} Paketen: für einen Boden aus {fewest} Dielen, den wenigsten, die " +
		"gefunden wurden, bevor die Pakete feststanden; einen aus weniger kann es geben, und der reicht öfter. Ab " +
		"{boxes}: für diesen Plan aus {planks}.",
	"risk.boxes":       "Pakete",
	"risk.verdict":     "Reichen",
	"risk.left":        "Dielen übrig",
	"risk.added":       "Zuschlag",
	"risk.share":       "Anteil",
	"risk.short":       "Reicht nicht",
	"risk.no":          "bewiesen zu wenige",
	"risk.open":        "unbekannt",
	"risk.yes":         "ja",
	"risk.none":        "–",
	"order.price":      "Preis: {price}.",
	"order.use":        "Das sind {bought} Dielen, {per} je Paket. Der Boden braucht {used}.",
	"order.kept":       "Ganze Dielen als Vorrat für Reparaturen: {kept}.",
	"order.kept-boxes": "Dielen als Vorrat für Reparaturen, in ungeöffneten Paketen: {kept}.",
	"order.reserve":    "Ganze Dielen als Reserve, weil {loss} brechen können: {reserve}.",
	"order.over":       "Ganze Dielen übrig: {over}.",
	"order.proven": "Bewiesen: Mit diesen Reihen kommt kein Zuschnitt, der die Regeln einhält, mit weniger " +
		"Paketen aus als {boxes}.",
	"order.proven-rooms": "Bewiesen: Kein Zuschnitt, der die Regeln einhält, kommt mit weniger Paketen aus als {boxes}, " +
		"{whatever}.",
	"order.open": "Mit diesen Reihen sind mindestens {bound} Pakete nötig; ob weniger als {boxes} reichen, ist " +
		"nicht entschieden.",
	"order.thumb": "Nach der Faustregel, {percent} auf die Bodenfläche, würde man {boxes} kaufen.",
	"order.lot": "Alle Pakete aus einer Charge bestellen und die Chargennummern vergleichen, bevor das erste " +
		"geöffnet wird.",
	"waste.what":       "Verschnitt, in seinen drei Bedeutungen",
	"waste.value":      "Wert",
	"waste.net":        "Bodenfläche ohne Inseln",
	"waste.bought":     "Gekaufte Fläche",
	"waste.added":      "Zuschlag auf die Bodenfläche (das, was eine Faustregel aufschlägt)",
	"waste.share":      "Anteil des Einkaufs, der nicht Boden wird",
	"waste.afterwards": "Anteil der angebrochenen Dielen, der nicht verlegt wird",
	"rules.plank":      "Dielen {length} lang und {width} breit.",
	"rules.gap":        "Dehnungsfuge {gap} an Wänden und festen Dingen, wenn eine Zeichnung nichts anderes sagt.",
	"rules.pieces": "Kein Anfangs- oder Endstück kürzer als {piece}; Stöße benachbarter Reihen mindestens " +
		"{stagger} auseinander.",
	"rules.kerf": "Jeder Sägeschnitt nimmt {kerf}.",
	"rules.source": "Diese Zahlen gehören zum Auftrag. Sagt die Anleitung des Produkts etwas anderes, gilt sie, " +
		"und der Plan ist neu zu machen.",

	// The steps.
	"sheet.steps": "Reihe für Reihe",
	"steps.intro": stepsIntroGerman,
	"product.ends.angle": "Erst das Ende einer Diele schräg an der vorigen Diele einhängen, dann ihre Längskante " +
		"an der vorigen Reihe.",
	"product.ends.drop": "Erst die Längskante einer Diele schräg in die vorige Reihe einhängen, dann ihr Ende auf " +
		"die vorige Diele niederdrücken.",
	"product.ends.unset": "Ob erst das Ende oder die Längskante einer Diele verbunden wird: siehe Anleitung des " +
		"Produkts.",
	"product.to-wall.tongue": "Die Feder der ersten Reihe zeigt zur Startwand.",
	"product.to-wall.groove": "Die Nut der ersten Reihe zeigt zur Startwand.",
	"product.to-wall.unset":  "Welche Längskante zur Startwand zeigt, Feder oder Nut: siehe Anleitung des Produkts.",
	"product.from.product":   "Jede Reihe vom {hand} Ende her verlegen, wie das Produkt es verlangt.",
	"product.from.asked":     "Jede Reihe vom {hand} Ende her verlegen, wie der Auftrag es verlangt.",
	"product.from.unset": "Jede Reihe vom {hand} Ende her verlegen, außer das Produkt verlangt das andere: siehe " +
		"Anleitung des Produkts, und dann neu planen.",
	"product.face": "Breiten und Fugen sind auf der Nutzseite gemessen, ohne die Feder.",

	"step.title":            "Reihe {row} von {n}",
	"step.first":            ", an der Startwand",
	"step.doorway":          ", im Durchgang",
	"step.last":             ", die letzte",
	"step.far":              ", an der Wand gegenüber",
	"step.length":           ", {length} zwischen den Fugen",
	"step.start-whole.one":  "Mit einer ganzen Diele beginnen.",
	"step.start-whole.many": "Mit {n} ganzen Dielen beginnen.",
	"step.whole.one":        "Weiter mit einer ganzen Diele.",
	"step.whole.many":       "Weiter mit {n} ganzen Dielen.",
	"step.starter.new": "Mit {length} von der neuen Diele {plank} beginnen, gemessen von ihrem {hand} Ende; das " +
		"gesägte Ende kommt an die Wand.",
	"step.starter.offcut": "Mit dem Abschnitt „{mark}“ aus {origin} beginnen: Er ist {have} lang, auf " +
		"{length} sägen, gemessen von seinem {hand} Ende.",
	"step.starter.ready": "Mit dem Abschnitt „{mark}“ aus {origin} beginnen, {length}, so wie er ist; das " +
		"gesägte Ende kommt an die Wand.",
	"step.starter.as-it-comes": "Mit dem Abschnitt „{mark}“ aus {origin} beginnen, wie er kommt, {range}, ohne " +
		"zu sägen; das gesägte Ende kommt an die Wand.",
	"step.ender.new": "Das letzte Stück nach Maß von der neuen Diele {plank} sägen, etwa {length}, gemessen von " +
		"ihrem {hand} Ende.",
	"step.ender.offcut": "Das letzte Stück nach Maß vom Abschnitt „{mark}“ aus {origin} ({have}) sägen, " +
		"etwa {length}, gemessen von seinem {hand} Ende.",
	"step.ender.ready": "Mit dem Abschnitt „{mark}“ aus {origin} enden, etwa {length}.",
	"step.only.new": "Ein Stück füllt diesen Zug: etwa {length} von der neuen Diele {plank} sägen, gemessen von " +
		"ihrem {hand} Ende.",
	"step.only.offcut": "Ein Stück füllt diesen Zug: etwa {length} vom Abschnitt „{mark}“ aus {origin} " +
		"({have}) sägen, gemessen von seinem {hand} Ende.",
	"step.only.ready": "Ein Stück füllt diesen Zug: der Abschnitt „{mark}“ aus {origin}, etwa {length}.",
	"step.keep":       "Den {hand} Teil, {length}, aufheben: „{mark}“ daraufschreiben, er kommt {use}.",
	"step.left-over":  "Der Teil am {hand} Ende, {length}, bleibt übrig.",
	"step.rip": "Die Stücke dieser Reihe werden schmaler: jedes erst ablängen, dann vor dem Legen auf {width} " +
		"längs schneiden; der Streifen wird {edge} abgetrennt.",
	"step.rip-own": "Die Stücke dieser Reihe werden schmaler: jedes erst ablängen, dann vor dem Legen längs " +
		"schneiden, auf die Breite, die beim Stück steht, sonst auf {width}; der Streifen wird {edge} abgetrennt.",
	"step.shape":            "Danach, vor dem Legen (Hinweis {notes} auf dem Plan): {shaping}.",
	"step.shape-whole.one":  "Vor dem Legen sägen (Hinweis {notes} auf dem Plan): {shaping}.",
	"step.shape-whole.many": "Jede vor dem Legen sägen (Hinweis {notes} auf dem Plan): {shaping}.",
	"step.profile":          "Die Kante zur Startwand verliert {profile}: absägen, damit nichts in der Fuge steht.",
	"step.profile-ripped":   "Diese Kante verliert mit dem Streifen {profile}: nichts davon bleibt in der Fuge.",
	"profile.unset":         "ihr Profil (Feder oder Nut)",
	"profile.tongue":        "ihre Feder",
	"profile.groove":        "ihre Nut",
	"step.last-row": "Den Dielen dieser Reihe Platz zum Einwinkeln lassen und die Fugen mit dem Zugeisen " +
		"schließen. Wo kein Platz ist, die Lippe abnehmen, das Stück flach einschieben und leimen (übliche " +
		"Praxis).",
	"step.door-last": "Durchgang {door}: Das Stück kommt zuletzt und lässt sich nicht kippen. Die Lippe seiner " +
		"Verbindung abtrennen, es flach einschieben, unter eine hölzerne Zarge, und leimen (übliche Praxis).",
	"step.beside-line": "Reihe {row} greift in diese und endet an der Linie, die für sie geschnürt wird: Die Kante, in " +
		"die sie greift, liegt {beyond} hinter der Wandfläche.",
	"step.profile-beside": "An der Wand verliert die Kante zu ihr das Profil, Feder oder Nut, damit nichts in " +
		"der Fuge steht; im Durchgang behält sie es und greift in die Reihe davor.",
	"stretch.left":  "Zug {name}, links, {length} zwischen den Fugen:",
	"stretch.right": "Zug {name}, rechts, {length} zwischen den Fugen:",
	"stretch.of":    "Zug {name}, der {k}. von {n} von links, {length} zwischen den Fugen:",
	"edge.off":      "an der Kante {edge}",
	"place.row":     "Reihe {row}",
	"place.room":    "Reihe {row} in {room}",
	"place.plank":   "Diele {plank}",
	"use.whole":     "in {place}",
	"use.starter":   "an den Anfang von {place}",
	"use.ender":     "an das Ende von {place}",
	"use.only":      "in {place}",
	"pile":          "Jetzt aufgehobene Abschnitte: {items}.",
	"pile.item":     "„{mark}“ {length}",
	"pile.empty":    "Jetzt ist kein Abschnitt aufzuheben.",

	// The pocket sheet.
	"mark":               "{row} {letter}",
	"pocket":             "Taschenblatt",
	"pocket.row":         "Reihe",
	"pocket.starter":     "Anfang",
	"pocket.from":        "Von",
	"pocket.whole":       "Ganze",
	"pocket.ender":       "Ende, etwa",
	"pocket.keep":        "Aufheben: beschriften",
	"pocket.then":        "Danach",
	"pocket.plank":       "ganz",
	"pocket.new":         "neu",
	"pocket.as-it-comes": "Abschnitt, wie er kommt",
	"pocket.ready":       "Abschnitt, wie er ist",
	"pocket.offcut":      "Abschnitt {length}",
	"pocket.alone":       "ein Stück",
	"pocket.kept":        "{length}: {mark}",
	"pocket.note.one":    "Hinweis {numbers}",
	"pocket.note.many":   "Hinweise {numbers}",
	"pocket.use":         "{bought} Dielen: {used} zum Sägen und Legen",
	"pocket.kept-planks": ", {n} als Vorrat für Reparaturen",
	"pocket.reserve":     ", {n} in Reserve, weil {loss} brechen können",
	"pocket.over":        ", {n} übrig",
	"pocket.rules": "Fuge {gap}; kein Stück unter {piece}; Stöße {stagger} von denen der Reihen daneben; ein " +
		"Schnitt nimmt {kerf}. Die Anleitung des Produkts geht vor.",
	"pocket.read": "Mit dem Gesicht zur Startwand, in {unit}. A Anfang, E Ende (messen, dann sägen), O ein " +
		"Stück. Eine für Anfang oder Ende gesägte Diele lässt einen Abschnitt: das Zeichen " +
		"daraufschreiben, 5 A für den Anfang von Reihe 5; dort heißt er „Abschnitt“. Was kein Zeichen " +
		"hat, bleibt übrig. Erst ablängen, dann längs schneiden.",
	"pocket.cautions": "Alte Böden, Kleber und Spachtelmassen (bis 1980) können Asbest enthalten, alte Farbe " +
		"(vor 1978) Blei: prüfen lassen, bevor man sie anfasst. Leitungen und Rohre suchen, bevor man nagelt " +
		"oder sägt. Schutz an der Maschine, Augen- und Gehörschutz, Staubmaske. Örtliche Vorschriften und " +
		"Fachbetriebe gehen vor; das Arbeitsblatt hat alle Hinweise.",

	// Edge rows and doorways.
	"sheet.edges": "Randreihen",
	"edges.intro": "Die letzte Reihe Diele für Diele ausmessen: Eine Wand ist selten gerade. Die Breiten sind " +
		"die des Plans.",
	"edges.room":          "Raum",
	"edges.width":         "Breite",
	"edges.edge":          "Abnehmen",
	"edges.full":          "nichts: volle Breite",
	"sheet.doorways":      "Durchgänge",
	"doors.number":        "Nr.",
	"doors.name":          "Durchgang",
	"doors.wall":          "Seite",
	"doors.width":         "Lichte Breite",
	"doors.depth":         "Tiefe",
	"doors.casing":        "Zarge",
	"doors.rows":          "Reihen",
	"doors.to":            "Ende des Bodens",
	"doors.through":       "keines: läuft weiter nach {to}",
	"doors.transition":    "am Übergangsprofil",
	"doors.transition-to": "am Übergangsprofil nach {to}",
	"doors.kind-to":       "{kind}, nach {to}",
	"doors.how": "Holzzargen: auf die Höhe von Diele und Unterlage kürzen, der Boden läuft darunter (übliche " +
		"Praxis).\nMetallzargen: ganz lassen und die Diele mit der Fuge darum schneiden (übliche Praxis).\n" +
		"Das Stück im Durchgang einpassen, bevor die Reihe daneben liegt: Später ist kein Platz zum Einwinkeln.",
	"side.start":   "Startwand",
	"side.far":     "Wand gegenüber",
	"side.left":    "linke Wand",
	"side.right":   "rechte Wand",
	"casing.wood":  "Holz",
	"casing.metal": "Metall",

	// What to do when, and what to heed.
	"sheet.broken": "Wenn eine Diele bricht oder ein Schnitt misslingt",
	"lead.above": "Sockelleisten von {height} Höhe entlang {length} Wand in {room}: {area}, mehr als 6 sq ft " +
		"(0,56 m²).",
	"lead.below": "Sockelleisten von {height} Höhe entlang {length} Wand in {room}: {area}, ohne die Zargen " +
		"nicht mehr als 6 sq ft (0,56 m²).",
	"lead.rooms.one":  "Sockelleisten von {height} Höhe sind in einem von {all} Räumen mehr als 6 sq ft (0,56 m²).",
	"lead.rooms.many": "Sockelleisten von {height} Höhe sind in {n} von {all} Räumen mehr als 6 sq ft (0,56 m²).",
	"checks.rise": "Der Boden wird um {rise} höher, Diele und Unterlage: Türen, Schwellen und was unter " +
		"Arbeitsplatten steht daran gemessen.",
	"after.kept.one":  "Die ganze Diele für Reparaturen liegend im Haus aufbewahrt, mit der Chargennummer.",
	"after.kept.many": "Die {n} ganzen Dielen für Reparaturen liegend im Haus aufbewahrt, mit der Chargennummer.",
	"after.left.one": "Die ganze Diele, die übrig ist, wenn keine brach, liegend im Haus aufbewahrt, mit der " +
		"Chargennummer.",
	"after.left.many": "Was von {n} ganzen Dielen übrig ist, liegend im Haus für Reparaturen aufbewahrt, mit " +
		"der Chargennummer.",
	"after.none":       "Die Chargennummer im Haus gelassen: keine ganze Diele ist für Reparaturen übrig.",
	"spares.kept.one":  "Eine ganze Diele gehört zum Vorrat für Reparaturen.",
	"spares.kept.many": "{n} ganze Dielen gehören zum Vorrat für Reparaturen.",
	"spares.free": "Keine ganze Diele gehört zum Vorrat für Reparaturen; eine aufzuheben (spare: 1) kostet " +
		"kein Paket mehr.",
	"spares.costs.one": "Keine ganze Diele gehört zum Vorrat für Reparaturen; eine aufzuheben (spare: 1) " +
		"kostet ein Paket mehr",
	"spares.costs.many": "Keine ganze Diele gehört zum Vorrat für Reparaturen; eine aufzuheben (spare: 1) " +
		"kostet {n} Pakete mehr",
	"spares.price":      ", {price}",
	"broken.spare.one":  "Eine ganze Diele ist da, falls eine bricht.",
	"broken.spare.many": "{n} ganze Dielen sind da, falls welche brechen.",
	"broken.none": "Keine Diele ist da, falls eine bricht: Wer eine Reserve will, kauft jetzt ein Paket " +
		"derselben Charge mehr.",
	"broken.kept.one": "Eine ganze Diele gehört zum Vorrat für Reparaturen: sie zuletzt nehmen und aus " +
		"derselben Charge ersetzen.",
	"broken.kept.many": "{n} ganze Dielen gehören zum Vorrat für Reparaturen: sie zuletzt nehmen und aus " +
		"derselben Charge ersetzen.",
	"broken":         brokenGerman,
	"sheet.before":   "Vor dem Beginn",
	"checks.before":  beforeGerman,
	"sheet.during":   "Beim Verlegen",
	"checks.during":  duringGerman,
	"sheet.after":    "Wenn der Boden liegt",
	"checks.after":   afterGerman,
	"sheet.cautions": "Vorsicht",
	"cautions.intro": "Örtliche Vorschriften und die Anleitung des Produkts gehen vor. Dieses Blatt beurteilt " +
		"weder Gebäude noch Material.",
	"cautions": cautionsGerman,
	"cautions.stair": "Ein Treppenkantenprofil wird nach seiner Anleitung an der Treppe befestigt, nie am schwimmenden " +
		"Boden: Auf einem losen stürzt man. Wie Stufen und ihre Kanten sein müssen, sagen die örtlichen Vorschriften.",
	"cautions.step": "Der Boden macht die oberste Stufe der Treppe um {rise} höher als die anderen, wenn diese " +
		"bleiben, wie sie sind: Wie ungleich Stufen sein dürfen, begrenzen die örtlichen Vorschriften.",

	// The HTML sheet.
	"html.skip":      "Zu den Reihen",
	"html.contents":  "Inhalt",
	"html.zoom":      "Größe des Bildes",
	"html.to-map":    "Plan",
	"html.progress":  "{rows} von {of} Reihen liegen: {pieces} von {all} Stücken, {percent} %",
	"html.done":      "Alle Reihen liegen.",
	"html.next":      "Nächste Reihe",
	"html.storage":   "Die Haken bleiben nur in diesem Browser und gehören zu diesem Plan.",
	"html.reset":     "Alle Haken entfernen",
	"html.reset-ask": "Wirklich alle Haken auf diesem Blatt entfernen?",
}

const stepsIntroGerman = "" +
	"Mit dem Gesicht zur Startwand stehen: Links und rechts, auch bei Dielen, gilt von dort, mit der " +
	"Nutzseite oben. Eine lange Kante liegt zur Startwand oder weg von ihr.\n" +
	"Für jede ganze Diele und überall, wo eine neue Diele genannt ist, eine neue nehmen. Was aufgehoben " +
	"wird, heißt nach seinem Ziel: „5 A“ ist für den Anfang von Reihe 5, „5 E“ für ihr Ende, „5 " +
	"O“ für das eine Stück, das sie füllt.\n" +
	"„Etwa“ heißt: messen, was in der Reihe noch fehlt, die Fuge abziehen und danach sägen.\n" +
	"Erst ablängen, dann längs schneiden."

const brokenGerman = "" +
	"Eine ganze Diele: eine andere ganze nehmen.\n" +
	"Ein Anfangs- oder Endstück: irgendeinen Abschnitt derselben Hand nehmen, der lang genug ist. Es darf " +
	"auch länger oder kürzer sein als geplant, solange kein Stück kürzer wird als {piece} und jeder " +
	"Stoß {stagger} von den Stößen der Reihen daneben entfernt bleibt.\n" +
	"Ein Anfangsstück braucht seine rechte Werkskante (die linke, wenn von rechts verlegt wird), ein " +
	"Endstück die andere. Ein gesägtes Ende kommt an eine Wand, nie in einen Stoß.\n" +
	"Einen Abschnitt messen, bevor man mit ihm rechnet: Jeder Schnitt nimmt {kerf}, und eine etwas krumme " +
	"Wand nimmt den Rest.\n" +
	"Ist ein Abschnitt verbraucht, der für eine spätere Reihe aufgehoben war, das spätere Stück von " +
	"einer übrigen Diele sägen."

const beforeGerman = "" +
	"Pakete, Chargennummern und Etikett mit diesem Blatt verglichen: Länge, Breite, Dielen je Paket.\n" +
	"Alter Boden: Alter bekannt; nichts geschliffen, gebohrt, trocken gekehrt oder herausgebrochen, bevor es " +
	"geklärt ist, auch Kleber und Spachtelmasse nicht (siehe Vorsicht).\n" +
	"Untergrund trocken, sauber und eben: DIN 18202, Tabelle 3, Zeile 3: 4 mm auf 1 m, 10 mm auf 4 m, oder " +
	"nach der Anleitung.\n" +
	"Feuchte des Estrichs gemessen: relative Feuchte nach ASTM F2170, dem Verfahren, mit {tests} Messungen " +
	"für diesen Boden, wie berichtet (3 für die ersten 1.000 sq ft, das sind 93 m², und eine je weitere " +
	"1.000). Die Grenzwerte sind die von ASTM F710, wie berichtet (75 %, oder 3 lb je 1.000 sq ft in 24 " +
	"Stunden nach F1869), oder die des Herstellers.\n" +
	"Raum nachgemessen: Wände, beide Diagonalen, Durchgänge; eine Reihe mehr als {fit} länger oder " +
	"kürzer als in diesem Plan: neuen Plan machen.\n" +
	"Dielen auf Raumtemperatur, üblich 18 bis 29 °C, vor, bei und nach dem Verlegen (übliche Praxis).\n" +
	"Leitungen und Rohre gefunden, in den Wänden und darunter, bevor etwas genagelt, gebohrt oder gekürzt " +
	"wird.\n" +
	"Heizkabel oder Rohre im Boden: ihre Lage ist bekannt, die Heizung nach der Anleitung aus; nichts wird " +
	"in sie geschraubt oder genagelt.\n" +
	"Sockelleisten ab, Zargen gekürzt, Türen gehen über dem neuen Boden auf.\n" +
	"Geräte unter Arbeitsplatten: die Höhe gemessen, die auf dem neuen Boden bleibt; was eingebaut ist, " +
	"kommt sonst nicht mehr heraus.\n" +
	"Schnurschlag für die erste Reihe, gleichlaufend zur Startwand."

const duringGerman = "" +
	"Abstandhalter an jeder Wand und jedem festen Ding, so dick wie die Fuge.\n" +
	"Erste Reihe gerade nach der Schnur, bevor die zweite kommt.\n" +
	"Dielen abwechselnd aus mehreren Paketen; keine zwei gleichen Bilder nebeneinander.\n" +
	"Jeder Stoß dicht und bündig vor dem nächsten Stück; mit dem Schlagklotz, kein Hammer auf die bloße " +
	"Kante.\n" +
	"Jede Reihe: Stöße so weit von den Nachbarn wie im Plan.\n" +
	"Inseln, Wannen und Schränke bleiben frei: Der Boden läuft darum, nie darunter.\n" +
	"Die letzte Reihe Diele für Diele gemessen; ihre Fugen mit dem Zugeisen geschlossen."

const afterGerman = "" +
	"Abstandhalter heraus.\n" +
	"Leisten an der Wand befestigt, nie am Boden.\n" +
	"Übergangsprofile in den Durchgängen gesetzt.\n" +
	"Ungeöffnete Pakete zurückgegeben.\n" +
	"Verbrauchte Dielen mit diesem Plan verglichen, für den nächsten Auftrag.\n" +
	"Pflegehinweis des Produkts übergeben."

const cautionsGerman = "" +
	"Elastische Böden, die bis 1980 verlegt wurden, gelten als asbesthaltig, und die Kleber und " +
	"Spachtelmassen darunter können es sein: nicht schleifen, trocken schaben, trocken kehren, bohren, " +
	"brechen oder sägen; prüfen lassen, nur durch Fachbetriebe entfernen (USA: 29 CFR 1926.1101).\n" +
	"Leitungen und Rohre: suchen, bevor genagelt, gebohrt oder gesägt wird, und abschalten, was dort " +
	"läuft; Arbeit an ihnen ist Sache der Fachbetriebe.\n" +
	"Fußbodenheizung: nicht hineinschrauben oder nageln; Oberfläche nicht über 29 °C, wie berichtet; der " +
	"Grenzwert des Produkts gilt.\n" +
	"Estrich schleifen und Zementplatten schneiden setzt Quarzstaub frei: USA 29 CFR 1926.1153, 50 µg/m³ " +
	"über 8 Stunden.\n" +
	"Messer und Sägen: vom Körper weg schneiden, Schutz an der Maschine lassen, erst nach Stillstand " +
	"zugreifen. Augen- und Gehörschutz, Staubmaske, Knieschoner.\n" +
	"Schwere feste Dinge stehen auf dem Untergrund, nicht auf einem schwimmenden Boden (übliche Praxis).\n" +
	"In Häusern aus der Zeit vor 1978 kann Bleifarbe sein: Zargen kürzen und Leisten abnehmen setzt sie " +
	"frei; in den USA gilt über 6 sq ft (0,56 m²) je Raum in 30 Tagen die EPA-Regel für Renovierungen (40 " +
	"CFR 745.83, wie berichtet)."
