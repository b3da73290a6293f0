package words

// findingGerman holds the words of findings in German: what was found, then what must hold.
var findingGerman = map[string]string{
	// Places, and parts of sentences.
	"at.row":           "Reihe {n}",
	"at.run":           "Zug {n}",
	"at.piece":         "Stück {n}",
	"at.plank":         "Diele {n}",
	"between":          "; ",
	"nowhere":          "keiner Stelle",
	"part.cut":         "ein Schnitt",
	"part.offcut":      "ein Abschnitt",
	"part.axes":        "der Ursprung der Achsen",
	"part.row":         "die Reihe",
	"part.run":         "der Zug",
	"part.piece":       "das Stück",
	"part.shape":       "sein Umriss",
	"direction.along":  "längs",
	"direction.free":   "frei",
	"direction.across": "quer",
	"direction.angle":  "schräg",
	"start.near":       "nahen",
	"start.far":        "fernen",

	// The plan as a file, and the job.
	"finding.job-broken":   "{error}; verlangt: ein Auftrag, der in Ordnung ist",
	"finding.no-plan":      "es gibt keinen; verlangt: ein Plan",
	"finding.figure-off":   "{field} ist {got}; verlangt: {want}",
	"finding.percent-off":  "{field} ist {got} %; verlangt: {want} %",
	"finding.unit-unknown": "die Einheit ist {unit}; verlangt: eine Längeneinheit",
	"finding.other-job":    "der Plan gehört zum Auftrag „{got}“; verlangt: „{want}“",
	"finding.beyond":       "{part} hat eine Länge von {length}; verlangt: Längen bis 4 km",
	"finding.turn-out":     "die Achsen sind um {turn} Grad gedreht; verlangt: -360 bis 360",
	"finding.hand-unknown": "die Reihen beginnen bei {hand}; verlangt: left oder right",
	"finding.ends-unknown": "seine Werkskanten sind {ends}; verlangt: none, left, right oder both",
	"finding.floors-other": "der Plan hat {got} Böden; verlangt: {want}, die sich aus den Räumen des " +
		"Auftrags ergeben",
	"finding.floor-name": "der Boden heißt „{got}“; verlangt: „{want}“ wie im Auftrag",
	"finding.laid-from":  "die Reihen beginnen am {got} Ende; verlangt: am {want}, wie im Auftrag",
	"finding.axes-unmirrored": "seine Achsen sind nicht gespiegelt, links und rechts also vertauscht; " +
		"verlangt: x nach rechts und y zum Betrachter hin, in einer Zeichnung mit y nach oben",
	"finding.first-row-other": "keine Reihe endet bei {across}; verlangt: eine erste Reihe von {width} wie " +
		"im Auftrag",
	"finding.angle-other": "die Reihen laufen unter {got} Grad; verlangt: {want} Grad oder umgekehrt, wie " +
		"im Auftrag",
	"finding.direction-other": "die Reihen laufen unter {turn} Grad; verlangt: Reihen {direction} zur " +
		"längsten Wand von „{room}“, von der {side} Seite aus, wie im Auftrag",

	// Rows and runs.
	"finding.row-width": "sie liegt von {from} bis {to} und gibt als Breite {got} an; verlangt: {want}",
	"finding.row-wide":  "sie ist {width} breit; verlangt: mehr als 0 und höchstens eine Diele, {most}",
	"finding.row-inner": "sie ist {width} breit, mit Reihen auf beiden Seiten; verlangt: eine ganze Diele, " +
		"{want}",
	"finding.row-begins": "sie beginnt bei {at}; verlangt: nicht vor {least}, wo die Reihe davor endet",
	"finding.runs-order": "er beginnt bei {at}; verlangt: Züge von links nach rechts: der davor beginnt " +
		"bei {before}",
	"finding.run-empty":    "er geht von {from} bis {to}; verlangt: eine Länge über 0",
	"finding.run-bare":     "er hat kein Stück; verlangt: Stücke von Ende zu Ende",
	"finding.run-begins":   "es beginnt bei {at}; verlangt: {want}, wo der Zug beginnt",
	"finding.piece-begins": "es beginnt bei {at}; verlangt: {want}, wo das Stück davor endet",
	"finding.run-ends":     "sein letztes Stück endet bei {at}; verlangt: {want}, wo der Zug endet",
	"finding.piece-two-rooms": "bis {at} liegt es zu beiden Seiten einer Wand: in {room} und in {other}; " +
		"verlangt: Dielen, die an den Wänden zwischen Räumen enden",
	"finding.runs-beside": "bei {at} liegt er neben Zug {run}, ohne dass eine Wand zwischen zwei Räumen " +
		"sie trennt; verlangt: ein Zug über die ganze Reihe",
	"finding.run-goes-on": "der Boden geht ohne Wand dazwischen in Zug {run} über; verlangt: Züge von Wand " +
		"zu Wand",
	"finding.piece-length": "es liegt von {from} bis {to} und gibt als Länge {got} an; verlangt: {want}",
	"finding.piece-long":   "es ist {length} lang; verlangt: mehr als 0 und höchstens eine Diele, {most}",
	"finding.whole-ends":   "ein Stück so lang wie eine Diele hat Werkskanten: {ends}; verlangt: beide",
	"finding.sawn-ends":    "ein Stück von {length} hat beide Werkskanten; verlangt: eine ganze Diele, {want}",
	"finding.starter-ends": "ein gesägtes Anfangsstück hat Werkskanten: {ends}; verlangt: rechts, wo die " +
		"nächste Diele einrastet",
	"finding.ender-ends": "ein gesägtes Endstück hat Werkskanten: {ends}; verlangt: links, wo es in die " +
		"Diele davor einrastet",
	"finding.field-sawn":    "eine Diele mitten im Zug ist {length} lang; verlangt: eine ganze Diele, {want}",
	"finding.starter-short": "ein Anfangsstück von {length}; verlangt: mindestens {least}",
	"finding.ender-short":   "ein Endstück von {length}; verlangt: mindestens {least}",
	"finding.starter-short-with-fit": "ein Anfangsstück von {length}; verlangt: mindestens {least}, das " +
		"kürzeste Stück und die Passtoleranz",
	"finding.ender-short-with-fit": "ein Endstück von {length}; verlangt: mindestens {least}, das kürzeste " +
		"Stück und die Passtoleranz",
	"finding.off-grid": "das zuerst verlegte Stück ist {length} lang; verlangt: ein Vielfaches von {grid}",
	"finding.joints-near": "der Stoß an seinem rechten Ende, bei {at}, liegt {distance} neben dem bei " +
		"{other} in Reihe {row}, Zug {run}; verlangt: mindestens {least}",
	"finding.pattern-one-piece": "er hat Stöße; verlangt: ein einziges Stück, denn die Stöße des Musters " +
		"ließen zu kurze Stücke",
	"finding.pattern-starter": "das zuerst verlegte Stück ist {got} lang; verlangt: {want} nach dem Muster",

	// How pieces lie on the floor.
	"finding.shape-corners": "sein Umriss hat {n} Ecken; verlangt: drei oder mehr, oder kein Umriss für " +
		"ein volles Rechteck",
	"finding.shape-beyond": "sein Umriss hat eine Ecke bei {at}; verlangt: Ecken zwischen {from} und {to}",
	"finding.shape-empty":  "sein Umriss hat keine Fläche; verlangt: eine Fläche über 0",
	"finding.open":         "{area} zwischen {from} und {to} liegen offen; verlangt: Boden bis unter die Leiste",
	"finding.open-before": "{area} davor, zwischen {from} und {to}, liegen offen; verlangt: Boden bis " +
		"unter die Leiste",
	"finding.open-after": "{area} danach, zwischen {from} und {to}, liegen offen; verlangt: Boden bis " +
		"unter die Leiste",
	"finding.overlap": "es liegt bei {at} auf Reihe {row}, Zug {run}, Stück {piece}, auf {area}; verlangt: " +
		"Stücke nebeneinander",
	"finding.outside": "{area} davon, zwischen {from} und {to}, liegen außerhalb des Raums oder auf einer " +
		"Insel; verlangt: Stücke auf dem Boden",
	"finding.near-wall": "bei {at} kommt es bis auf {distance} an Wand {wall}; verlangt: mindestens {least}",
	"finding.near-wall-of": "bei {at} kommt es bis auf {distance} an Wand {wall} ({room}); verlangt: " +
		"mindestens {least}",
	"finding.near-island": "bei {at} kommt es bis auf {distance} an Kante {edge} von Insel {n}; verlangt: " +
		"mindestens {least}",
	"finding.near-island-named": "bei {at} kommt es bis auf {distance} an Kante {edge} von {name}; " +
		"verlangt: mindestens {least}",
	"finding.near-pipe":       "bei {at} kommt es bis auf {distance} an Rohr {n}; verlangt: mindestens {least}",
	"finding.near-pipe-named": "bei {at} kommt es bis auf {distance} an {name}; verlangt: mindestens {least}",
	"finding.near-break": "bei {at} kommt es bis auf {distance} an die Mitte von Trennfuge {n}; " +
		"verlangt: mindestens {least}",
	"finding.near-casing": "bei {at} kommt es bis auf {distance} an die Zarge von Durchgang {n}; verlangt: " +
		"mindestens {least}",
	"finding.near-casing-named": "bei {at} kommt es bis auf {distance} an die Zarge von {name}; verlangt: " +
		"mindestens {least}",

	// Facts about floors.
	"finding.fact-alien":     "Angabe {n} ist {fact}; verlangt: Angaben über Böden, mit den Feldern ihrer Art",
	"finding.fact-again":     "es heißt {fact}; verlangt: eine Angabe dieser Art je Boden",
	"finding.base-other":     "es heißt {fact}; verlangt: eine Wand von Raum {room}, dem ersten des Bodens",
	"finding.base-untold":    "es heißt {fact}; verlangt: Wand {wall}, wie der Auftrag sagt",
	"finding.base-longest":   "es heißt {fact}; verlangt: die längste Wand, {wall}, {length} lang, und count {count}",
	"finding.base-not-asked": "es heißt {fact}; verlangt: ein Auftrag, der diese Wand verlangt",
	"finding.base-at-angle":  "es heißt {fact}; verlangt: Reihen längs oder quer zur Wand",
	"finding.taper-other": "es heißt {fact}; verlangt: wie weit die Wände beider Seiten von den Reihen abweichen, " +
		"und mindestens {least}",
	"finding.line-slanted": "es heißt {fact}; verlangt: die Abstände an beiden Enden einer Wand, die nicht " +
		"gleichlaufend zu den Reihen ist",
	"finding.line-other": "es heißt {fact}; verlangt: der Abstand der hinteren Kante der ersten Reihe von der " +
		"Wand, von einem Ende ihrer {length} zum anderen",
	"finding.line-no-wall": "es heißt {fact}; verlangt: eine Wand, an der die erste Reihe liegt",
	"finding.doorway-open": "es heißt {fact}; verlangt: ein Durchgang dieses Bodens, einmal, dessen Zarge " +
		"und Fugen keinen Boden lassen",
	"finding.doorway-row-other": "es heißt {fact}; verlangt: eine Reihe jenseits der Wände, {width} breit, die schmaler " +
		"als {least} ist und sich halten lässt",
	"finding.doorway-row-nowhere": "es heißt {fact}; verlangt: eine Reihe dieses Bodens",
	"finding.doorway-row-untold": "sie liegt nur in einem Durchgang, ist {width} breit, und nichts ist davon gesagt; " +
		"verlangt: eine Angabe, denn das ist weniger als {least}",
	"finding.doorway-untold": "nichts ist gesagt von Durchgang {doorway} in Raum {room}; verlangt: eine " +
		"Angabe, denn die Fugen an seinen Seiten lassen keinen Boden",
	"finding.jogs-other":    "es heißt {fact}; verlangt: most {most}, count {count}",
	"finding.jogs-untold":   "nichts ist gesagt von {count} Versprüngen, kürzer als {most}; verlangt: eine Angabe",
	"finding.slivers-width": "es heißt {fact}; verlangt: most {most}, was die Leiste deckt",
	"finding.slivers-area":  "es heißt {fact}; verlangt: eine Fläche von {least} bis {most}, die offen liegt",
	"finding.slivers-count": "es heißt {fact}; verlangt: count {least} bis {most}",
	"finding.slivers-untold": "{area} liegen unter der Leiste offen, und nichts ist davon gesagt; verlangt: " +
		"eine Angabe",
	"finding.field-long-along": "es reicht längs der Reihen {length} weit; verlangt: eine Trennfuge, " +
		"höchstens {most} ohne",
	"finding.field-long-across": "es reicht quer zu den Reihen {length} weit; verlangt: eine Trennfuge, " +
		"höchstens {most} ohne",
	"finding.through-alone":  "es heißt {fact}; verlangt: ein Boden durch mehrere Räume",
	"finding.through-untold": "nichts ist gesagt von der Linie durch die Räume; verlangt: eine Angabe",
	"finding.through-other": "es heißt {fact}; verlangt: das Ende einer Reihe, und durch wie viele Räume es " +
		"läuft",
	"finding.room-rows-other": "es heißt {fact}; verlangt: die Reihen, die in einen Raum dieses Bodens " +
		"reichen, einmal",
	"finding.room-rows-untold": "nichts ist gesagt von den Reihen von {room}; verlangt: eine Angabe",
	"finding.break-astray": "Trennfuge {n} teilt keinen Raum; verlangt: von Wand zu Wand, im Raum, " +
		"frei von Einbauten",
	"finding.break-figure": "{field} von Trennfuge {n} ist {got}; verlangt: {want}",
	"finding.break-missing": "die Trennfuge in {room} ab Wand {wall}, {at} von deren erster Ecke, " +
		"fehlt; der Auftrag verlangt sie",
	"finding.break-open": "der Auftrag gibt eine Trennfuge in Durchgang {doorway} von {room} vor, und der Boden läuft " +
		"durch; verlangt: dort eine Trennfuge",
	"finding.break-unasked": "Trennfuge {n} heißt verlangt; verlangt: eine, die der Auftrag vorgibt",
	"finding.break-needless": "Trennfuge {n} teilt einen Boden, der keine braucht; verlangt: " +
		"Trennfugen, wo Auftrag oder Grenzen sie fordern",
	"finding.break-untold": "nichts ist gesagt von Trennfuge {n}, an der der Boden endet; verlangt: eine Angabe",
	"finding.break-other": "es heißt {fact}; verlangt: die Trennfugen, an denen der Boden endet, " +
		"wie der Plan sie hat",
	"finding.edge-narrow": "eine Randreihe von {width}; verlangt: mindestens {least} oder die Angabe, dass " +
		"keine Lage der Reihen es erlaubt",
	"finding.edge-other": "es heißt {fact}; verlangt: die Reihen, wo sie am schmalsten sind: die erste " +
		"{first}, die letzte {last}, eine davon unter {least}",
	"finding.edge-unasked": "es heißt {fact}; verlangt: ein Auftrag, der die Breite der ersten Reihe vorgibt",
	"finding.edge-is-asked": "es heißt {fact}; verlangt: edge-asked, denn der Auftrag gibt die erste Reihe " +
		"mit {width} vor",
	"finding.edge-unforced": "Randreihen von {first} und {last} gelten als erzwungen; verlangt: Reihen, " +
		"die an beiden Rändern {least} halten: eine andere Lage tut das",
	"finding.strip-unasked": "es heißt {fact}; verlangt: ein Auftrag mit einer Mindestbreite",
	"finding.strip-again":   "es heißt {fact}; verlangt: eine Angabe je Stück, unter {least}",
	"finding.strip-nowhere": "es heißt {fact}; verlangt: ein Stück dieses Bodens",
	"finding.strip-other": "es heißt {fact}; verlangt: ein Streifen von {width}, wo dieses Stück am " +
		"schmalsten ist",
	"finding.strip-elsewhere": "es heißt {fact}; verlangt: wo der Streifen ist und wie lang",
	"finding.strip-untold": "es hat einen nur {width} breiten Streifen, den der Plan nicht nennt; " +
		"verlangt: mindestens {least} oder eine Angabe, wo er ist",

	// Facts about the shapes of pieces.
	"finding.sawn-rectangle": "{n} Angaben sagen, wie ein volles Rechteck zu sägen ist; verlangt: keine",
	"finding.sawn-too-much": "{n} Angaben sagen, wie {corners} Ecken zu sägen sind; verlangt: ein Umriss, " +
		"der sich sägen lässt",
	"finding.sawn-alien": "es heißt {fact}; verlangt: eine Angabe über den Umriss eines Stücks, mit den " +
		"Feldern ihrer Art",
	"finding.sawn-sizes": "es heißt {fact}; verlangt: Maße, Enden und Kanten, die zusammenpassen, an einem " +
		"Stück dieser Größe",
	"finding.sawn-scribed": "es heißt {fact}; verlangt: dass darin etwas anderes als ein Rechteck abfällt",
	"finding.sawn-loose":   "es heißt {fact}; verlangt: das kleinste Rechteck um das, was abfällt",
	"finding.sawn-own":     "es heißt {fact}; verlangt: dass nichts vom Stück selbst abfällt",
	"finding.sawn-again":   "es heißt {fact}; verlangt: was keine andere Angabe schon abnimmt",
	"finding.sawn-no-pipe": "es heißt {fact}; verlangt: ein Rohr des Auftrags an dieser Stelle, mit der Fuge " +
		"im Durchmesser",
	"finding.sawn-no-slit": "es heißt {fact}; verlangt: ein Schlitz von einem Ausschnitt, der das Stück " +
		"festhält, zum nächsten Ende oder zur nächsten Kante",
	"finding.sawn-held": "ein festes Teil steht darin zwischen {from} und {to} von seinem linken Ende, und von " +
		"keinem Schlitz ist die Rede; verlangt: einer, da das Stück sich nicht darum legen lässt",
	"finding.sawn-more": "{n} Angaben sagen, wie es zu sägen ist; verlangt: dass nicht mehr abfällt, als " +
		"dem Umriss fehlt",
	"finding.sawn-less": "{n} Angaben sagen, wie es zu sägen ist; verlangt: eine Angabe für jeden Teil, " +
		"der abfällt",
	"finding.sawn-short": "{n} Angaben sagen, wie es zu sägen ist; verlangt: Teile, die so weit reichen, " +
		"wie dem Umriss fehlt",

	// Planks.
	"finding.plank-number": "sie hat die Nummer {got}; verlangt: {want}",
	"finding.plank-unused": "kein Stück ist aus ihr; verlangt: Dielen, die gesägt oder verlegt werden",
	"finding.piece-nowhere": "sie nennt das Stück Boden {floor}, Reihe {row}, Zug {run}, Stück {piece}; " +
		"verlangt: Stücke des Plans",
	"finding.piece-again":    "das Stück ist zweimal aufgeführt; verlangt: einmal, bei der Diele, aus der es ist",
	"finding.piece-of-other": "die Diele nennt ein Stück von Diele {plank}; verlangt: ihre eigenen Stücke",
	"finding.piece-unlisted": "es soll aus Diele {plank} sein, und keine Diele nennt es; verlangt: eine " +
		"Diele, die es nennt",
	"finding.plank-short": "{n} Stücke und die Sägeschnitte dazwischen brauchen {length}; verlangt: " +
		"höchstens {most}",
	"finding.plank-short-with-fit": "{n} Stücke und die Sägeschnitte dazwischen brauchen {length}, und " +
		"{last} davon können {fit} länger werden; verlangt: höchstens {most}",
	"finding.left-end-again": "ihr Stück {n} hat die linke Werkskante; verlangt: nur das erste, denn eine " +
		"Diele hat ein linkes Ende",
	"finding.right-end-early": "ihr Stück {n} von {of} hat die rechte Werkskante; verlangt: nur das " +
		"letzte, denn eine Diele hat ein rechtes Ende",
	"finding.left-end-other": "ihr Stück {n} beginnt {at} vom linken Ende und hat Werkskanten: {ends}; " +
		"verlangt: die linke, wo es am linken Ende beginnt, und nur dort",
	"finding.right-end-other": "ihr Stück {n} endet am rechten Ende und hat Werkskanten: {ends}; verlangt: " +
		"die rechte",
	"finding.offcut-untold": "nichts ist gesagt von {from} bis {to} der Diele; verlangt: ein Abschnitt",
	"finding.offcut-astray": "ein Abschnitt von {from} bis {to} liegt nicht zwischen Stücken und " +
		"Sägeschnitten; verlangt: was die Stücke lassen",
	"finding.offcut-beyond": "ein Abschnitt von {from} bis {to}; verlangt: eine Länge über 0 auf der Diele",
	"finding.offcut-ends":   "ein Abschnitt von {from} bis {to} hat Werkskanten: {got}; verlangt: {want}",
	"finding.plank-full": "Abschnitte und Sägeschnitte nehmen den Platz des letzten Stücks; verlangt: was " +
		"die Stücke lassen",
	// Anfangsstücke, die verlegt werden, wie ihre Abschnitte kommen.
	"finding.loose-no-starter": "es wird verlegt, wie es kommt; verlangt: nur gesägte Anfangsstücke von " +
		"mehreren Stücken",
	"finding.loose-interval": "es wird verlegt, wie es kommt, von {length} bis {longest}; verlangt: mehr als " +
		"{length} und höchstens {most}",
	"finding.loose-pattern": "es wird verlegt, wie es kommt; verlangt: Stöße, wo das Muster sie hat",
	"finding.loose-shape": "es wird verlegt, wie es kommt, und Stück {n} seines Zuges ist kein volles " +
		"Rechteck; verlangt: ein Schnitt",
	"finding.loose-whole": "es wird verlegt, wie es kommt, und Stück {n} seines Zuges ist eine ganze Diele, " +
		"die zu sägen wäre; verlangt: ein Schnitt",
	"finding.loose-new": "ihr Stück {n} wird verlegt, wie es kommt, und ist nicht das letzte, das von ihr " +
		"gesägt wird; verlangt: ein Schnitt",
	"finding.loose-leaves": "ihr Anfangsstück wird verlegt, wie es kommt, und von {from} bis {to} ist ein " +
		"Abschnitt; verlangt: keiner",
	"finding.loose-long": "ihr Anfangsstück von {length} wird verlegt, wie es kommt, und der Abschnitt ist " +
		"{offcut}; verlangt: höchstens {most}",
	"finding.loose-beyond": "ihr Anfangsstück von {length} kann mit {longest} kommen; verlangt: höchstens " +
		"{most}, da es verlegt wird, wie es kommt",
	"finding.offcut-longer": "ihr letztes Stück von {length} kann mit {longest} kommen, und kein Schnitt ist " +
		"dafür geplant; verlangt: eine Spanne",
	"finding.ender-shorter": "ihr letztes Stück von {length} muss vielleicht auf {least}, und kein Schnitt ist " +
		"dafür geplant; verlangt: einer",
	"finding.joints-come-near": "der Stoß an seinem rechten Ende, nach Plan bei {at}, kann {distance} neben " +
		"den bei {other} von Reihe {row} Zug {run} kommen; verlangt: mindestens {least}",
	"finding.ender-short-as-it-comes": "ein Endstück von {length}; verlangt: mindestens {least}, das kürzeste " +
		"Stück, die Passtoleranz und was sein Anfangsstück länger kommen kann",
	"finding.cuts-other": "sie wird bei {got} gesägt; verlangt: {want}",

	// What is bought, and what is proven.
	"finding.price-other": "order.price ist {got}; verlangt: {boxes} Pakete zu {price}",
	"finding.fewest-out": "order.fewest ist {got}; verlangt: {least} bis {most}, die Schranke und die " +
		"Dielen des Plans",
	"finding.fewest-boxes": "order.fewest ist {got}, wofür man {boxes} Pakete kaufte; verlangt: Dielen, " +
		"für die man {want} Pakete kauft",
	"finding.loss-other": "order.loss ist {loss} % und order.risk_limit {limit} %; verlangt: {wantloss} % " +
		"und {wantlimit} % wie im Auftrag",
	"finding.bound-out": "bound.planks ist {got}; verlangt: 0 bis {most}, die Dielen des Plans",
	"finding.areas-sum": "laid, offcuts, ripped, kerf, lost und whole_left ohne brought ergeben zusammen {got}; " +
		"verlangt: bought, das sind {want}",

	// A job that is begun.
	"finding.count-out":    "{field} ist {got}; verlangt: eine Anzahl, die ein Auftrag haben kann",
	"finding.lies-nowhere": "das Stück soll liegen; verlangt: ein Plan, der sagt, wie der Auftrag steht",
	"finding.lies-alone": "das Stück soll liegen, und Stück {n}, das vor ihm verlegt wird, nicht; verlangt: " +
		"Stücke, die " +
		"von dem Ende an liegen, das zuerst verlegt wird",
	"finding.lies-whole": "das Stück soll liegen, und seine Diele {plank} ist nicht angebrochen; verlangt: eine " +
		"angebrochene Diele",
	"finding.loose-of-rest": "ein geplantes Stück einer Diele, von der etwas fehlt, wird verlegt, wie es " +
		"kommt; verlangt: " +
		"ein Schnitt",
	"finding.marks-nowhere": "sie trägt Vermerke eines begonnenen Auftrags; verlangt: ein Plan, der sagt, wie " +
		"der Auftrag " +
		"steht",
	"finding.gone-of-whole": "etwas von ihr fehlt, oder sie ist mitgebracht, und sie ist nicht angebrochen; verlangt: " +
		"angebrochen",
	"finding.opened-whole": "sie ist angebrochen, und nichts von ihr liegt oder fehlt; verlangt: ein Stück, " +
		"das liegt, " +
		"oder ein Teil, der fehlt",
	"finding.brought-whole": "sie ist ein mitgebrachter Abschnitt, und was ihr fehlt, ist nicht gesagt; verlangt: der " +
		"Teil, der fehlt",
	"finding.gone-astray": "von {from} bis {to} fehlt sie; verlangt: Teile, die auf der Diele aufeinander folgen",
	"finding.gone-ends":   "was von {from} bis {to} fehlt, hat die Werksenden {got}; verlangt: {want}",
	"finding.lot-other":   "sie ist aus Charge „{got}“; verlangt: die des Bodens, „{want}“",
	"finding.lot-again":   "Charge „{name}“ ist zweimal aufgeführt; verlangt: jede einmal",
	"finding.lot-boxes": "Charge {n} hat {boxes} ungeöffnete Pakete und {planks} ganze Dielen; verlangt: nicht mehr " +
		"Pakete, als die Dielen füllen",
	"finding.lot-of-mixed": "der Boden ist aus Charge „{got}“, wo Chargen gemischt werden; verlangt: keine",
	"finding.planks-astray": "{bought} Pakete und {brought} mitgebrachte Dielen kamen herein, {opened} Dielen sind " +
		"angebrochen und {here} sind da; verlangt: so viele, wie hereinkamen",
	"finding.least-out": "site.least ist {got}; verlangt: höchstens {most}, was der Rest braucht",
	"finding.returns-other": "{got} Pakete können zurück, nach Chargen; verlangt: {want}, ungeöffnet und " +
		"nicht gebraucht",
	"finding.reaches-other": "von Boden {n} lassen sich {got} Reihen fertigstellen; verlangt: {want}",
	"finding.waits-other": "{got} Böden sollen die anderen fertig werden lassen; verlangt: {want}, nach " +
		"dem, was da ist",
	"finding.changed-astray": "Änderung {n} ist von keinem Zug des Plans; verlangt: Züge des Plans",
	"finding.changed-other": "Änderung {n} nennt einen Anfang von {was} vorher und {is} von nun an; verlangt: " +
		"{want}, ein " +
		"Zug, der nicht begonnen ist, und Züge in der Reihenfolge des Verlegens",

	// Why rows cannot be laid, and what would do.
	"finding.no-starters": "es fanden sich keine Anfangsstücke, die jeden Versatz halten, wo sich Reihen " +
		"um Inseln teilen; ein kleinerer stagger oder --effort thorough könnte helfen",
	"finding.row-short": "{row} ist {length} lang: mit Dielen von {plank} braucht sie ein Anfangs- und ein " +
		"Endstück von je mindestens min-piece {least}; ein kürzeres min-piece erlauben",
	"finding.no-joints": "für {row} und die Reihen davor bleiben keine Stöße, die stagger {stagger} mit " +
		"min-piece {least} und Dielen von {plank} einhalten; einen kleineren stagger erlauben",
	"finding.fit-ender":   "fit {fit} macht das kürzeste Endstück um so viel länger",
	"finding.fit-stagger": "fit {fit} kommt zweimal zum stagger hinzu",
	"finding.pattern-pieces": "das Muster gibt für {row} ein Anfangsstück von {starter} und ein " +
		"Endstück von {ender}",
	"finding.pattern-beyond": "das Muster gibt für {row} ein Anfangsstück von {starter}, mehr als die " +
		"Reihe lang ist",
	"finding.least-piece": "Anfangs- und Endstücke haben mindestens min-piece {least}",
	"finding.least-piece-with-fit": "Anfangs- und Endstücke haben mindestens min-piece {least}, " +
		"Endstücke fit {fit} mehr, und so viel weniger als eine Diele",
	"finding.pattern-near": "das Muster bringt Stöße von {row} und Reihe {other} bis auf {distance} " +
		"zusammen",
	"finding.least-stagger":          "Stöße halten stagger {stagger}",
	"finding.least-stagger-with-fit": "Stöße halten stagger {stagger} und zweimal fit {fit}",
	"finding.pattern-moved":          "um {by} verschoben ginge es: {starters}",
	"finding.pattern-unmoved": "auch verschoben hält es die Regeln nicht ein: andere Anfangsstücke " +
		"wählen oder die Reihen frei verlegen",
	"finding.lies-turned-with": "mit Reihen {direction} und einer ersten Reihe von {width} lässt es sich " +
		"verlegen",
	"finding.lies-turned-free": "mit Reihen {direction} und frei gewählter erster Reihe lässt es sich " +
		"verlegen",
	"finding.lies-turned": "mit Reihen {direction} lässt es sich verlegen",
	"finding.lies-with":   "mit einer ersten Reihe von {width} lässt es sich verlegen",
	"finding.lies-free":   "mit frei gewählter erster Reihe lässt es sich verlegen",

	// Plans that there are not, and how far a search is.
	"refused":                "kein Plan hält die Regeln ein: {why}",
	"refused.clash":          "{rule} geht nicht auf in {row}",
	"refused.clash-anywhere": "{rule} geht nicht auf",
	"relaxed":                "{rule} {to} statt {from}",
	"relaxed.offer":          "Mit {what} lässt es sich verlegen: --relax plant das",
	"relaxed.none":           "Keine einzelne Regel zu lockern reicht: die Richtung der Reihen oder die Diele ändern",
	"relaxed.note": "Gelockert: {what}, das Wenigste, das einen Plan ergibt. Prüfen, ob die Anleitung des " +
		"Produkts es erlaubt, und in den Auftrag schreiben, bevor dieser Plan gegen ihn geprüft wird.",
	"stopped":         "abgebrochen, bevor es einen ersten Plan gab",
	"stopped.limit":   "--limit war erreicht, bevor es einen ersten Plan gab: mehr Zeit lassen",
	"phase.floor":     "Boden",
	"phase.bound":     "Schranke",
	"phase.search":    "Suche",
	"phase.branch":    "Fälle",
	"phase.quality":   "Aussehen",
	"phase.check":     "Prüfung",
	"progress.planks": ": bisher {planks}",
	"progress.bound":  ", mindestens {n} nötig",
	"progress.risk":   "Risiko: {n} von {times} Mal verlegt",

	// Was bei einer angefangenen Arbeit angenommen wird, und was anders liegt als nach den Regeln.
	"finding.lies-short": "{row} hat ein Stück von {length}, kürzer als {least}: es liegt und bleibt",
	"finding.lies-near": "ein Stoß von {row} liegt {distance} neben einem von Reihe {other}, näher als {least}: " +
		"er liegt und bleibt",
	"finding.other-plank": "ein Stück von {length} in {row} ist nicht aus der Diele geschnitten, die der Plan dafür " +
		"hat: es zählt als Diele {plank}",
	"finding.cut-to-fit": "{row} endet {length} anders als geplant: das deckt die Passzugabe von {fit}, also passend " +
		"zuschneiden",
	"finding.counts-from":      "{row} liegt schon: was zu ihrer Länge gesagt ist, gilt ab Reihe {other}",
	"finding.wall-from":        "Reihen, die liegen, enden an Wand {n}, wo sie war: ab {row} steht sie anders",
	"finding.measured-longer":  "ab {row} sind die Reihen {length} länger als geplant",
	"finding.measured-shorter": "ab {row} sind die Reihen {length} kürzer als geplant",
	"finding.planks-brought":   "ganze Dielen über die für die Arbeit gekauften hinaus: {n}; sie zählen als mitgebracht",
	"finding.boxes-missing":    "Pakete weniger, als der Plan zu kaufen sagt: {n}; sie zählen als nicht gekauft",
	"finding.planks-missing":   "Dielen weniger, als der Plan sagt: {n}; sie zählen als verloren",
}
