package words_test

import (
	"slices"
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/words"
)

const in = measure.Inch

// Every kind of fact has words in every language, whose places are its fields or made of them.
func TestFactsHaveWords(t *testing.T) {
	made := map[string][]cutopt.FactField{
		"{place}": {cutopt.FieldEnd, cutopt.FieldEdge, cutopt.FieldAt, cutopt.FieldAcross},
	}
	// said by the wall; by the row, whose longest run it is
	silent := []cutopt.FactField{cutopt.FieldDoorway, cutopt.FieldRun}
	for _, kind := range cutopt.FactKinds() {
		keys := []string{"fact." + kind.String()}
		if slices.Contains(kind.Fields(), cutopt.FieldCount) {
			keys = []string{keys[0] + ".one", keys[0] + ".many"}
		}
		for _, key := range keys {
			for _, language := range words.Languages() {
				text, ok := words.Vocabulary(language)[key]
				if !ok {
					t.Errorf("%s has no words for %q", language, key)
				}
				said := slices.Clone(silent)
				for _, place := range placeIn.FindAllString(text, -1) {
					if fields, ok := made[place]; ok {
						said = append(said, fields...)
						continue
					}
					field := cutopt.FactField(strings.Trim(place, "{}"))
					if !slices.Contains(kind.Fields(), field) {
						t.Errorf("%s, %s: %s is no field of the kind", language, key, place)
					}
					said = append(said, field)
				}
				for _, field := range kind.Fields() {
					if !slices.Contains(said, field) && !(field == cutopt.FieldCount && strings.HasSuffix(key,
						".one")) {
						t.Errorf("%s, %s does not say %q", language, key, field)
					}
				}
			}
		}
	}
}

// What comes off is rounded up and what is left down, places to the nearest, and what a rule names not at all.
func TestFact(t *testing.T) {
	job := &cutopt.Job{Rooms: []cutopt.Room{{Name: "Den"}, {}}}
	for _, c := range []struct {
		fact            cutopt.Fact
		english, german string
	}{
		{
			cutopt.Fact{Kind: cutopt.FactDoorway, Room: 1, Wall: 3, Doorway: 2},
			"the doorway in wall 3 of Den is no wider than the gaps at its sides: no floor runs into it",
			"der Durchgang in Wand 3 (Den) ist nicht breiter als die Fugen an seinen Seiten: kein Boden läuft hinein",
		},
		{
			cutopt.Fact{Kind: cutopt.FactDoorway, Room: 2, Wall: 3, Doorway: 2},
			"the doorway in wall 3 of Room 2 is no wider than the gaps at its sides: no floor runs into it",
			"der Durchgang in Wand 3 (Raum 2) ist nicht breiter als die Fugen an seinen Seiten: kein Boden läuft " +
				"hinein",
		},
		{
			cutopt.Fact{Kind: cutopt.FactSlivers, Count: 2, Most: in / 4, Area: measure.Area(in*in) * 3 / 2},
			"left 2 slivers under the trim, each narrower than 1/4 in, 1.5 sq in together",
			"2 Splitter, jeder schmaler als 1/4 in, bleiben ohne Diele unter der Leiste: zusammen 1,5 sq in",
		},
		{
			cutopt.Fact{Kind: cutopt.FactJogs, Count: 1, Most: in / 8},
			"straightened one jog shorter than 1/8 in",
			"ein " +
				"Versprung, kürzer als 1/8 in, ist begradigt",
		},
		{
			cutopt.Fact{Kind: cutopt.FactJogs, Count: 2, Most: in/8 + 1},
			"straightened 2 jogs shorter than 0.1251 in",
			"2 " +
				"Versprünge, kürzer als 0,1251 in, sind begradigt",
		},
		{
			cutopt.Fact{Kind: cutopt.FactBreakDoorway, Room: 2, Doorway: 1, Length: 32 * in, Width: in / 4},
			"this field ends at a break in doorway 1 of Room 2: a transition of 32 in; what stands in it is 1/4 in " +
				"wide, with the gap on both sides",
			"dieses Feld endet an einer Trennfuge in Durchgang 1 von Raum 2: ein Übergangsprofil von 32 in; was " +
				"darin steht, ist 1/4 in breit, die Fuge zu beiden Seiten",
		},
		{
			cutopt.Fact{Kind: cutopt.FactRip, Edge: cutopt.EdgesBack, Width: in + 9},
			"rip 1 1/16 in off the edge away from the starting wall",
			"1 1/16 in an der Kante weg von der Startwand abtrennen",
		},
		{
			cutopt.Fact{
				Kind: cutopt.FactNotch, End: cutopt.EndsLeft, Edge: cutopt.EdgesFront, Length: 2*in + in/4,
				Width: in +
					in/2 - 3,
			},
			"notch 2 1/4 x 1 1/2 in at the left corner toward the starting wall",
			"2 1/4 x 1 1/2 in ausklinken an der linken Ecke zur Startwand",
		},
		{
			cutopt.Fact{Kind: cutopt.FactCutOut, At: 3*in + 9, Across: 5*in - 9, Length: 2*in + 3, Width: 2*in + 5},
			"cut out 2 x 2 1/16 in 3 in from the left end and 5 in from the edge toward the starting wall",
			"2 x 2 1/16 in ausschneiden, 3 in vom linken Ende und 5 in von der Kante zur Startwand",
		},
		{
			cutopt.Fact{Kind: cutopt.FactEndCut, End: cutopt.EndsRight, Front: 20*in - 9, Back: 17*in + 9},
			"cut the right end aslant: 19 15/16 along the edge toward the starting wall, 17 in along the other",
			"das rechte Ende schräg sägen: 19 15/16 an der Kante zur Startwand, 17 in an der anderen",
		},
		{
			cutopt.Fact{Kind: cutopt.FactEdgeCut, Edge: cutopt.EdgesBack, Left: 5 * in, Right: 4 * in},
			"rip the edge away from the starting wall aslant: 5 wide at the left end, 4 in at the right",
			"die Kante weg von der Startwand schräg sägen: Breite 5 am linken, 4 in am rechten Ende",
		},
		{
			cutopt.Fact{
				Kind: cutopt.FactScribe, End: cutopt.EndsBoth, Edge: cutopt.EdgesFront, Length: 48 * in,
				Width: in,
			},
			"scribe within 48 x 1 in along the edge toward the starting wall",
			"innerhalb von 48 x 1 in anreißen und sägen entlang der Kante zur Startwand",
		},
	} {
		for language, want := range map[string]string{"en": c.english, "de": c.german} {
			if got := words.New(language, nil, measure.UnitInch, in/16).Fact(job, &c.fact); got != want {
				t.Errorf("%s: %q, want %q", language, got, want)
			}
		}
	}
}

// A strip that comes off one edge is said by what is left, which is rounded down; two by what comes off.
func TestShaping(t *testing.T) {
	job := &cutopt.Job{}
	rip := func(edge cutopt.Edges, width measure.Length) cutopt.Fact {
		return cutopt.Fact{Kind: cutopt.FactRip, Edge: edge, Width: width}
	}
	notch := cutopt.Fact{
		Kind: cutopt.FactNotch, End: cutopt.EndsLeft, Edge: cutopt.EdgesBack, Length: 4 * in, Width: 2 * in,
	}
	for _, c := range []struct {
		width   measure.Length
		shaping []cutopt.Fact
		en, de  string
	}{
		{7 * in, nil, "", ""},
		{
			7 * in,
			[]cutopt.Fact{rip(cutopt.EdgesFront, 3*in/2)},
			"rip to 5 1/2 in, off the edge toward the starting wall",
			"auf 5 1/2 in Breite sägen, an der Kante zur Startwand",
		},
		{
			5*in + in/4,
			[]cutopt.Fact{rip(cutopt.EdgesBack, in+in/32), notch},
			"rip to 4 3/16 in, off the edge away from the starting wall; notch 4 x 2 in at the left corner away from the " +
				"starting wall",
			"auf 4 3/16 in Breite sägen, an der Kante weg von der Startwand; 4 x 2 in ausklinken an der linken Ecke weg von " +
				"der Startwand",
		},
		{
			7 * in,
			[]cutopt.Fact{rip(cutopt.EdgesFront, in), rip(cutopt.EdgesBack, 2*in)},
			"rip 1 in off the edge toward the starting wall; rip 2 in off the edge away from the starting wall",
			"1 in an der Kante zur Startwand abtrennen; 2 in an der Kante weg von der Startwand abtrennen",
		},
	} {
		for language, want := range map[string]string{"en": c.en, "de": c.de} {
			s := words.New(language, nil, measure.UnitInch, in/16)
			if got := s.Shaping(job, c.width, &cutopt.Piece{Shaping: c.shaping}); got != want {
				t.Errorf("%s: %q, want %q", language, got, want)
			}
		}
	}
}

// The block behind a pipe lies between pieces that lie already, so that its joint must be trimmed where they meet.
func TestBlockBehindAPipe(t *testing.T) {
	slit := cutopt.Fact{Kind: cutopt.FactSlit, Edge: cutopt.EdgesFront, At: 3 * in, Length: 2 * in, Width: 3 * in}
	for language, want := range map[string][]string{
		"en": {"trim the lip of its joint", "flat", "glue it back"},
		"de": {"die Lippe seiner Verbindung abtrennen", "flach", "einleimen"},
	} {
		said := words.New(language, nil, measure.UnitInch, in/16).Fact(&cutopt.Job{}, &slit)
		for _, part := range want {
			if !strings.Contains(said, part) {
				t.Errorf("%s: %q does not say %q", language, said, part)
			}
		}
	}
}

// The places along one line are one remark, and so are strips that lie in the same place of successive rows.
func TestFacts(t *testing.T) {
	job := &cutopt.Job{Rooms: []cutopt.Room{{Name: "Den", Islands: []cutopt.Island{{}, {Name: "Sink"}}}}}
	fixed := func(island int, at, width measure.Length) cutopt.Fact {
		return cutopt.Fact{Kind: cutopt.FactLineFixedAt, Row: 1, Room: 1, Island: island, At: at, Width: width}
	}
	place := func(at, width measure.Length) cutopt.Fact {
		return cutopt.Fact{Kind: cutopt.FactLineAt, Row: 1, Room: 1, Wall: 2, At: at, Width: width}
	}
	strip := func(row int, at, width measure.Length) cutopt.Fact {
		return cutopt.Fact{
			Kind: cutopt.FactStrip, Row: row, Run: 1, Piece: 1, At: at, Width: width, Length: 7 * in, Least: in,
		}
	}
	jogs := cutopt.Fact{Kind: cutopt.FactJogs, Count: 2, Most: in / 8}
	facts := []cutopt.Fact{
		place(0, 7*in), place(48*in, 7*in-in/32), place(96*in, 7*in-in/16),
		jogs, place(0, 3*in), place(48*in, 3*in+in/4), place(60*in, 4*in), place(0, 5*in), place(10*in, 6*in),
		strip(3, 0, in/2), strip(4, in/16, 5*in/8), strip(5, 20*in, in/2), strip(7, 20*in, in/2), strip(8, 20*in, in/2),
		fixed(1, 0, 4*in), fixed(1, 48*in, 4*in), fixed(2, 48*in, 4*in), fixed(2, 60*in, 5*in),
	}
	for language, want := range map[string][]string{
		"en": {
			"snap a line 7 in from wall 2 of Den: row 1 ends on it",
			"straightened 2 jogs shorter than 1/8 in",
			"row 1 ends on a line aslant to wall 2 of Den; from the wall's left end | from the wall, in inches: 0 | 3, " +
				"48 | 3 1/4, 60 | 4",
			"row 1 ends on a line aslant to wall 2 of Den; from the wall's left end | from the wall, in inches: 0 | 5, " +
				"10 | 6",
			"rows 3 to 4, piece 1: strips of 1/2 to 5/8 in, 0 in from the left end, are narrower than 1 in and hard to " +
				"hold",
			"row 5, piece 1: a strip of 1/2 in over 7 in, 20 in from its left end and 0 in from the row's edge toward " +
				"the starting wall, is narrower than 1 in and hard to hold",
			"rows 7 to 8, piece 1: strips of 1/2 in, 20 in from the left end, are narrower than 1 in and hard to hold",
			"snap a line 4 in from island 1 in Den: row 1 ends on it",
			"row 1 ends on a line aslant to Sink in Den; from its left end | from its front, in inches: 48 | 4, 60 | 5",
		},
		"de": {
			"eine Linie 7 in von Wand 2 (Den) schnüren: an ihr endet Reihe 1",
			"2 Versprünge, kürzer als 1/8 in, sind begradigt",
			"Reihe 1 endet an einer Linie schräg zu Wand 2 (Den); vom linken Ende der Wand | von der Wand, in Zoll: " +
				"0 | 3, 48 | 3 1/4, 60 | 4",
			"Reihe 1 endet an einer Linie schräg zu Wand 2 (Den); vom linken Ende der Wand | von der Wand, in Zoll: " +
				"0 | 5, 10 | 6",
			"Reihen 3 bis 4, Stück 1: Streifen von 1/2 bis 5/8 in, 0 in vom linken Ende, sind schmaler als 1 in und " +
				"schwer zu halten",
			"Reihe 5, Stück 1: ein Streifen von 1/2 in auf 7 in, 20 in von seinem linken Ende und 0 in von der " +
				"Kante der Reihe zur Startwand, ist schmaler als 1 in und schwer zu halten",
			"Reihen 7 bis 8, Stück 1: Streifen von 1/2 in, 20 in vom linken Ende, sind schmaler als 1 in und schwer zu " +
				"halten",
			"eine Linie 4 in vor Insel 1 (Den) schnüren: an ihr endet Reihe 1",
			"Reihe 1 endet an einer Linie schräg zu Sink (Den); vom linken Ende | von der Vorderkante, in Zoll: 48 | 4, " +
				"60 | 5",
		},
	} {
		got := words.New(language, nil, measure.UnitInch, in/16).Facts(job, facts)
		if !slices.Equal(got, want) {
			t.Errorf("%s:\n%s\nwant\n%s", language, strings.Join(got, "\n"), strings.Join(want, "\n"))
		}
	}
}

// A width that is told because it is below another is never printed as that other.
func TestNarrowWidths(t *testing.T) {
	s := words.New("", nil, measure.UnitInch, in/16)
	almost := in - in/100
	for _, f := range []cutopt.Fact{
		{Kind: cutopt.FactStrip, Row: 1, Run: 1, Piece: 1, Width: almost, Length: 7 * in, Least: in},
		{Kind: cutopt.FactDoorwayRow, Row: 1, Width: almost, Least: in},
		{Kind: cutopt.FactEdgeForced, First: almost, Last: almost, Least: in},
	} {
		text := s.Fact(&cutopt.Job{}, &f)
		if strings.Count(text, "1 in") != 1 || !strings.Contains(text, "15/16 in") {
			t.Errorf("%q", text)
		}
	}
}
