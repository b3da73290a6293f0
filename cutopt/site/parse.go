package site

import (
	"slices"
	"strings"
	"unicode/utf8"

	"plank.example/internal/nearest"
)

// Parse reads one line of a state. The error is an [*Error] with the column. It takes time in proportion to the line
// and the rooms; a line of more than 400 bytes is refused, and one that is not in UTF-8.
func (g *Grammar) Parse(line string) (Event, error) {
	if len(line) > mostText {
		return Event{}, &Error{Column: 1, Value: line, Msg: "this line is too long", Mend: "write an event a line"}
	}
	if at := notUTF8(line); at >= 0 {
		return Event{}, &Error{
			Column: utf8.RuneCountInString(line[:at]) + 1, Value: line, Msg: "this line is not in UTF-8",
			Mend: "set the terminal or the editor to UTF-8",
		}
	}
	p := &parser{g: g, runes: []rune(line)}
	p.toks = lex(p.runes)
	p.e.Text = strings.TrimSpace(line)
	if err := p.line(); err != nil {
		return Event{}, err
	}
	return p.e, nil
}

// Blank reports whether a line says nothing: it is empty, or a comment.
func Blank(line string) bool { return len(line) <= mostText && len(lex([]rune(line))) == 0 }

// A parser reads one line.
type parser struct {
	g     *Grammar
	runes []rune
	toks  []token // those not read yet
	e     Event
	named bool // a floor or room is named
	room  int  // that is named; -1 for none
	pair  bool // of two lengths a comma may stand between
}

// fail returns an error at the next token, or at the end of the line.
func (p *parser) fail(msg, mend string) *Error {
	if len(p.toks) == 0 {
		return &Error{Column: len(p.runes) + 1, Value: p.e.Text, Msg: msg, Mend: mend}
	}
	return p.failAt(p.toks[0], msg, mend)
}

func (p *parser) failAt(t token, msg, mend string) *Error {
	return &Error{Column: t.from + 1, Value: string(p.runes[t.from:t.to]), Msg: msg, Mend: mend}
}

// word returns what the next token stands for in the vocabulary; "" for none.
func (p *parser) word() string { return p.wordAt(0) }

func (p *parser) wordAt(i int) string {
	if i >= len(p.toks) || p.toks[i].kind != tokenWord {
		return ""
	}
	return vocabulary[p.toks[i].text]
}

// skip reads over words, and reports whether there was one.
func (p *parser) skip(words ...string) bool {
	any := false
	for w := p.word(); w != "" && (slices.Contains(words, w) || fillers[w]); w = p.word() {
		any = any || !fillers[w]
		p.toks = p.toks[1:]
	}
	return any
}

// mark reads over a mark.
func (p *parser) mark(text string) bool {
	if len(p.toks) > 0 && p.toks[0].kind == tokenMark && p.toks[0].text == text {
		p.toks = p.toks[1:]
		return true
	}
	return false
}

// take removes the first token that stands for a word, wherever it is.
func (p *parser) take(word string) bool {
	for i := range p.toks {
		if p.wordAt(i) == word {
			p.toks = slices.Delete(slices.Clone(p.toks), i, i+1)
			return true
		}
	}
	return false
}

// line reads the whole line: the name wherever it stands, then what is told.
func (p *parser) line() error {
	for p.mark("-") || p.mark("•") || p.mark("*") { // items of a list
	}
	for n := len(p.toks); n > 0 && p.toks[n-1].kind == tokenMark && strings.Contains(".,;!", p.toks[n-1].text); n-- {
		p.toks = p.toks[:n-1] // at the end of a sentence
	}
	if len(p.toks) == 0 {
		return p.fail("this line says nothing", "write an event such as "+p.sample())
	}
	if err := p.name(); err != nil {
		return err
	}
	kind, ok := p.kind()
	if !ok {
		return p.unknown()
	}
	p.e.Kind = kind
	if err := p.whose(); err != nil {
		return err
	}
	if err := p.rest(); err != nil {
		return err
	}
	p.skip()
	if len(p.toks) > 0 {
		return p.fail("this is too much for an event", "write an event a line, such as "+p.sample())
	}
	return nil
}

// sample is an event that could be written.
func (p *parser) sample() string {
	if name := p.g.whole(0); len(p.g.floors) > 1 && name != "" {
		return name + " 8, or lost 31"
	}
	return "row 8, or lost 31"
}

// unknown is the error for a line that tells nothing known.
func (p *parser) unknown() *Error {
	at := slices.IndexFunc(p.toks, func(t token) bool { return t.kind == tokenWord && vocabulary[t.text] == "" })
	if at < 0 {
		return p.fail("this tells no event", "write an event such as "+p.sample())
	}
	t := p.toks[at]
	mend := "the events are told by row, lost, culled, miscut, offcut, planks, boxes, longer, is, wall, pipe, island"
	if list := p.g.list(); !p.named && len(p.g.floors) > 1 {
		mend = "the rooms are " + list + "; " + mend
	}
	if meant := p.g.near(t.text); meant != "" && !p.named {
		mend = "did you mean " + meant + "?"
	} else if meant := nearestWord(t.text); meant != "" {
		mend = "did you mean " + meant + "?"
	}
	return p.failAt(t, "unknown word", mend)
}

// nearestWord returns the word of the vocabulary that was probably meant.
func nearestWord(text string) string {
	words := make([]string, 0, len(vocabulary))
	for w := range vocabulary {
		if len(w) > 2 {
			words = append(words, w)
		}
	}
	slices.Sort(words)
	return nearest.Word(text, words)
}

// kinds are the words that tell a kind wherever they stand, the telling ones first.
var kinds = []struct {
	word string
	kind Kind
}{
	{"miscut", KindMiscut},
	{"lost", KindLost},
	{"culled", KindCulled},
	{"offcut", KindOffcut},
	{"starter", KindStarter},
	{"longer", KindLonger},
	{"shorter", KindLonger},
	{"pipe", KindPipe},
	{"island", KindIsland},
	{"wall", KindWall},
	{"is", KindMeasured},
	{"first", KindFirst},
	{"last", KindLast},
	{"box", KindBoxes},
	{"plank", KindPlanks},
	{"mix", KindMix},
	{"lot", KindLot},
}

// kind finds what the line tells: by its telling word, else a row that lies.
func (p *parser) kind() (Kind, bool) {
	for _, k := range kinds {
		for i := range p.toks {
			if p.wordAt(i) == k.word {
				return k.kind, true
			}
		}
	}
	if slices.ContainsFunc(p.toks, func(t token) bool { return t.text == "=" }) {
		return KindMeasured, true
	}
	for i, t := range p.toks {
		if w := p.wordAt(i); w == "all" || w == "row" || w == "laid" || t.kind == tokenNumber {
			return KindLaid, !slices.ContainsFunc(p.toks, func(t token) bool {
				return t.kind == tokenWord && vocabulary[t.text] == "" && t.to-t.from > 1
			})
		}
	}
	return 0, false
}

// whose settles the floor or room of an event that is about one.
func (p *parser) whose() error {
	kind := p.e.Kind
	if kind == KindLot && !p.named && len(p.g.floors) > 1 {
		return p.fail("a lot of what?", "write planks 14 lot B, boxes 3 lot B, or the room that lies")
	}
	if !kind.ofFloor() && !kind.ofRoom() {
		p.e.Floor = 0
		return nil
	}
	if !p.named {
		if len(p.g.floors) != 1 || kind.ofRoom() && len(p.g.rooms) != 1 {
			return p.fail("which room?", "the rooms are "+p.g.list())
		}
		p.e.Floor, p.room = 0, 0
	}
	if kind.ofRoom() {
		if p.room < 0 {
			return p.fail("which room of it?", "the rooms are "+strings.Join(p.g.rooms, ", "))
		}
		p.e.Room, p.e.Floor = p.room, 0
	}
	return nil
}
