package words

// takeoffGerman holds the words of the take-off and of the order to a supplier in German.
var takeoffGerman = map[string]string{
	"takeoff":         "Alles, was zu bestellen ist",
	"takeoff.also":    "Außerdem zu kaufen:",
	"takeoff.what":    "Was",
	"takeoff.needed":  "Bedarf",
	"takeoff.buy":     "Zu kaufen",
	"takeoff.price":   "Preis",
	"takeoff.total":   "Zusammen {sum}, ohne Steuer, Lieferung und Arbeit.",
	"takeoff.how":     "Wie gerechnet wurde",
	"takeoff.cuts":    "Wie Leisten, Profile und Rollen geschnitten werden",
	"takeoff.heights": "Höhen",
	"takeoff.measure": "Jedes Stück vor dem Schnitt im Raum messen: Wände und Öffnungen sind nie ganz wie " +
		"gezeichnet.",
	"takeoff.none":     "keine: befestigt",
	"takeoff.if-asked": "{area}, wenn verlangt",

	"takeoff.open.one":  "Von {n} Posten ist der Preis nicht bekannt, oder nicht, in welchen Größen es ihn gibt.",
	"takeoff.open.many": "Von {n} Posten ist der Preis nicht bekannt, oder nicht, in welchen Größen es sie gibt.",

	"takeoff.pieces.one":  "{n} Stück",
	"takeoff.pieces.many": "{n} Stücke",
	"takeoff.strips.one":  "{n} Bahn",
	"takeoff.strips.many": "{n} Bahnen",

	"takeoff.doorway":      "Türöffnung {n}",
	"takeoff.break":        "Trennfuge ab Wand {n} bei {at}",
	"takeoff.break-on":     "Trennfuge zwischen Trennfugen",
	"takeoff.wall":         "Wand {n}",
	"takeoff.island":       "Insel {n}",
	"takeoff.appliance":    "Gerät {n}",
	"takeoff.edge":         "{island}, Kante {n}",
	"takeoff.mitres.left":  "Gehrung links",
	"takeoff.mitres.right": "Gehrung rechts",
	"takeoff.mitres.both":  "Gehrungen an beiden Enden",

	"item.planks":        "Dielen",
	"item.kept":          "Für Reparaturen",
	"item.underlay":      "Unterlage",
	"item.film":          "Folie",
	"item.tape":          "Klebeband",
	"item.spacers":       "Abstandskeile",
	"item.disposal":      "Zu entsorgen",
	"trim.any":           "Sockel-, Vorsatz- oder Viertelstableiste",
	"trim.base":          "Sockelleiste",
	"trim.shoe":          "Vorsatzleiste",
	"trim.quarter-round": "Viertelstab",
	"transition.open":    "Übergänge",
	"transition.level":   "Übergangsprofil, gleich hoch",
	"transition.lower":   "Übergangsprofil zu tieferem Boden",
	"transition.edge":    "Abschlussprofil",
	"transition.nosing":  "Treppenkantenprofil",

	"goods.box.one":    "{n} Paket zu {size}",
	"goods.box.many":   "{n} Pakete zu {size}",
	"goods.stick.one":  "{n} Stange zu {size}",
	"goods.stick.many": "{n} Stangen zu {size}",
	"goods.roll.one":   "{n} Rolle zu {size}",
	"goods.roll.many":  "{n} Rollen zu {size}",
	"goods.pack.one":   "{n} Packung zu {size}",
	"goods.pack.many":  "{n} Packungen zu {size}",

	"reckoned.planks": "{n} zu schneiden und zu verlegen, {reserve} als Reserve für Bruch, {over} übrig",
	"reckoned.kept":   "ganze Dielen, die mit der Chargennummer im Paket bleiben; sie sind oben mitgekauft",
	"reckoned.area":   "die Fläche des Bodens; der Auftrag nennt keine Rollen",
	"reckoned.film": "die Fläche des Bodens, nur wo der Untergrund feucht sein kann und die Anleitung des " +
		"Produkts sie " +
		"verlangt; der Auftrag nennt keine",
	"reckoned.attached": "an den Dielen befestigt, also keine zu verlegen",
	"reckoned.tape":     "die Fugen der Bahnen, längs und an den Enden",
	"reckoned.spacers": "einer an jedem Ende eines Stücks Wand oder fester Dinge und dazwischen mindestens einer je " +
		"{every}, auf {length}",
	"reckoned.disposal": "{area} Abschnitte, Streifen und Sägemehl, {thickness} dick, ohne Luft gestapelt",
	"reckoned.disposal-area": "die Fläche der Abschnitte, Streifen und des Sägemehls; die Dicke der Diele ist " +
		"unbekannt",
	"reckoned.openings": "so lang, wie die Öffnung breit oder die Trennfuge lang ist",
	"reckoned.transition-open": "Welches Profil passt, ist offen: die Höhe des Bodens dahinter angeben oder den " +
		"Übergang",
	"reckoned.stretches.one":  "ein Stück für das Stück Wand zwischen Türöffnungen und festen Dingen",
	"reckoned.stretches.many": "ein Stück für jedes von {n} Stücken Wand zwischen Türöffnungen und festen Dingen",
	"reckoned.outside.one":    "{n} Ende an einer Außenecke ist um {add} länger, bis zur langen Spitze",
	"reckoned.outside.many":   "{n} Enden an Außenecken sind um bis zu {add} länger, bis zur langen Spitze",
	"reckoned.spliced.one":    "{n} Stück Wand ist länger als jede Stange und wird gestoßen",
	"reckoned.spliced.many":   "{n} Stücke Wand sind länger als jede Stange und werden gestoßen",
	"reckoned.bare": "alle Leisten zusammen sind um {bare} zu dünn, um die Fuge und das zu decken, was " +
		"der Plan daneben offen lässt (cover)",
	"reckoned.unseen.one": "{n} Türöffnung führt in einen Raum des Auftrags, der sie nicht zeigt: dort ist " +
		"die Wand ohne sie gerechnet",
	"reckoned.unseen.many": "{n} Türöffnungen führen in Räume des Auftrags, die sie nicht zeigen: dort sind " +
		"die Wände ohne sie gerechnet",
	"reckoned.no-trim":     "der Auftrag nennt keine Leiste, und Gehrungen an Außenecken sind nicht gezählt",
	"reckoned.strips.one":  "{n} Bahn von {width} Breite über {extent}, {run}",
	"reckoned.strips.many": "{n} Bahnen von {width} Breite über {extent}, {run}",
	"reckoned.lap":         "{lap} überlappt",
	"reckoned.more.one":    "{n} mehr, wo eine Türöffnung oder das Ende einer Rolle es verlangt",
	"reckoned.more.many":   "{n} mehr, wo Türöffnungen oder Enden von Rollen es verlangen",
	"strips-run.along":     "längs der Reihen",
	"strips-run.across":    "quer zu den Reihen",

	"cutting.price":    "Kein anderer Zuschnitt dieser Stücke kostet weniger: bewiesen.",
	"cutting.material": "Kein anderer Zuschnitt dieser Stücke braucht weniger Material: bewiesen.",
	"cutting.open":     "Nicht bewiesen ist, dass kein anderer Zuschnitt dieser Stücke weniger kostet.",
	"cutting.on-hand":  "vorhanden",
	"cutting.left":     "{left} bleiben",

	// The order for the supplier.
	"supply":              "Bestellung beim Händler",
	"supply.number":       "Nr.",
	"supply.what":         "Posten",
	"supply.size":         "Größe",
	"supply.count":        "Menge",
	"supply.unit":         "Einheit",
	"supply.each":         "Einzelpreis",
	"supply.amount":       "Betrag",
	"supply.lot":          "Charge",
	"supply.return":       "Rückgabe",
	"supply.total":        "Summe der bekannten Preise",
	"supply.planks":       "{size}, {planks} im Paket",
	"supply.pack":         "{n} in der Packung",
	"supply.thick":        "{thickness} dick",
	"supply.any-size":     "wie bei Ihnen vorrätig",
	"supply.as-agreed":    "nach Absprache",
	"supply.one-lot":      "alle aus einer Charge; ihre Nummer:",
	"supply.return.box":   "ungeöffnete Pakete",
	"supply.return.stick": "ungeschnittene Stangen",
	"supply.return.roll":  "ungeöffnete Rollen",
	"supply.return.pack":  "ungeöffnete Packungen",
	"unit-of.box.one":     "Paket",
	"unit-of.box.many":    "Pakete",
	"unit-of.stick.one":   "Stange",
	"unit-of.stick.many":  "Stangen",
	"unit-of.roll.one":    "Rolle",
	"unit-of.roll.many":   "Rollen",
	"unit-of.pack.one":    "Packung",
	"unit-of.pack.many":   "Packungen",
	"supply.blanks": `Besteller
Lieferung an
Gewünscht am
Datum`,
	"supply.notes": "Alle Pakete Dielen sollen aus einer Charge sein. Wenn das nicht geht, bitte nicht liefern, " +
		"sondern zuerst melden.\n" +
		"Die Chargennummer bitte auf den Lieferschein schreiben.\n" +
		"Zurückgegeben werden soll, was oben steht: bitte mit Ihren Bedingungen und der Frist bestätigen.\n" +
		"Preise sind die uns bekannten, je Einheit. Steuer, Lieferung und Arbeit sind nicht enthalten.",

	"height.door.clear": "über dem Boden, der um {rise} aufträgt, bleiben unter der Tür {left}",
	"height.door.tight": "über dem Boden, der um {rise} aufträgt, bleiben unter der Tür nur {left}: vor dem " +
		"Einhängen " +
		"prüfen, ob sie über Teppich oder Matte schwingt",
	"height.door.short": "der Boden trägt um {rise} auf, unter der Tür sind {under}: die Tür um {left} kürzen " +
		"und um die " +
		"Luft, die bleiben soll",
	"height.appliance.clear": "mit dem Boden, der um {rise} aufträgt, bleiben darüber {left}",
	"height.appliance.tight": "mit dem Boden, der um {rise} aufträgt, bleiben darüber nur {left}: prüfen, ob es " +
		"über die " +
		"Kante des Bodens herauskommt",
	"height.appliance.short": "mit dem Boden, der um {rise} aufträgt, ist es um {left} zu hoch für seine " +
		"Öffnung von " +
		"{under}: den Boden nur bis an die Füße verlegen oder die Platte heben",
}
