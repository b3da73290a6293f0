package site

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// rest reads what belongs to the kind.
func (p *parser) rest() (err error) {
	e := &p.e
	switch e.Kind {
	case KindLaid:
		return p.laid()
	case KindStarter:
		p.take("starter")
		if err = p.row(); err == nil {
			p.skip("of", "is")
			e.Length, err = p.length("the starter")
		}
		return err
	case KindLost:
		return p.lost()
	case KindCulled:
		return p.culled()
	case KindMiscut:
		return p.miscut()
	case KindOffcut:
		p.take("offcut")
		e.Length, e.Ends, err = p.lengthAndEnd(true)
		return err
	case KindPlanks, KindBoxes:
		return p.stock()
	case KindLot:
		p.skip("is", "of", "laid")
		e.Lot, err = p.lot()
		return err
	case KindMix:
		p.skip("mix", "lot", "all")
		return nil
	case KindLonger, KindMeasured:
		return p.measured()
	}
	return p.changed()
}

// laid reads "8", "row 8", "9 3 pieces", "9b", "all".
func (p *parser) laid() error {
	p.skip("laid", "row", "to", "from", "is", "of")
	if p.skip("all") {
		p.e.Row = p.g.floors[p.e.Floor].rows
		p.skip("laid", "row")
		return nil
	}
	if err := p.row(); err != nil {
		return err
	}
	p.mark(",")
	p.skip("laid", "is")
	if len(p.toks) == 0 {
		return nil
	}
	n, err := p.count("the pieces of that row that lie", 1, 1_000_000)
	if err != nil {
		return err
	}
	if !p.skip("piece") {
		return p.fail("what is counted?", fmt.Sprintf("write %d pieces, or one row a line", n))
	}
	p.e.Pieces = n
	p.skip("laid", "is")
	return nil
}

// row reads the number of a row, and the letter of a run.
func (p *parser) row() error {
	p.skip("row", "from", "to", "at", "in", "of")
	rows := p.g.floors[p.e.Floor].rows
	if len(p.toks) == 0 || p.toks[0].kind != tokenNumber {
		return p.fail("which row?", fmt.Sprintf("the rows have the numbers 1 to %d", rows))
	}
	t := p.toks[0]
	text, run, dotted := strings.Cut(t.text, ".")
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 || n > rows {
		return p.failAt(t, fmt.Sprintf("the rows have the numbers 1 to %d", rows), "count from the starting wall")
	}
	p.e.Row, p.toks = n, p.toks[1:]
	if dotted {
		if p.e.Run, err = strconv.Atoi(run); err != nil || p.e.Run < 1 || p.e.Run > 1_000_000 {
			return p.failAt(t, "which run?", "write 9b, or 9.27 for the 27th")
		}
	}
	if len(p.toks) > 0 && p.toks[0].kind == tokenWord && p.toks[0].from == t.to && len(p.toks[0].text) == 1 {
		if c := p.toks[0].text[0]; 'a' <= c && c <= 'z' {
			p.e.Run, p.toks = int(c-'a')+1, p.toks[1:]
		}
	}
	return nil
}

// count reads a whole number in a range.
func (p *parser) count(what string, least, most int) (int, error) {
	p.skip("number")
	p.mark("#")
	if len(p.toks) == 0 || p.toks[0].kind != tokenNumber {
		return 0, p.fail("a number is missing", "write "+what)
	}
	t := p.toks[0]
	n, err := strconv.Atoi(t.text)
	if err != nil || n < least || n > most {
		return 0, p.failAt(t, fmt.Sprintf("this should be a whole number from %d to %d", least, most), "write "+what)
	}
	p.toks = p.toks[1:]
	return n, nil
}

// mostPlanks is the highest number of a plank, and the most planks or boxes counted.
const mostPlanks = cutopt.MaxPieces

// lost reads "31", "plank 31", "31, 40 and 41", and those with offcut.
func (p *parser) lost() error {
	p.take("lost")
	if p.take("offcut") {
		p.e.Kind = KindOffcuts
	}
	p.skip("is", "of", "plank")
	for {
		t := token{}
		if len(p.toks) > 0 {
			t = p.toks[0]
		}
		n, err := p.count("the number of the plank", 1, mostPlanks)
		if err != nil {
			return err
		}
		if len(p.e.Planks) == 0 && p.e.Kind == KindLost && p.word() == "plank" && p.toks[0].text != "plank" {
			return p.failAt(t, fmt.Sprintf("plank number %d, or %d planks?", n, n),
				fmt.Sprintf("write lost %d for plank number %d, culled %d for so many whole planks", n, n, n))
		}
		p.e.Planks = append(p.e.Planks, n)
		if !p.mark(",") && !p.mark("+") && !p.mark("&") && !p.skip("and") {
			break
		}
		p.skip("and", "plank")
	}
	p.skip("is", "plank")
	return nil
}

// culled reads "2", "2 planks", "plank 31".
func (p *parser) culled() error {
	p.take("culled")
	if p.word() == "plank" && p.toks[0].text == "plank" {
		p.e.Kind = KindLost
		return p.lost()
	}
	p.skip("plank")
	n, err := p.count("how many whole planks", 1, mostPlanks)
	p.e.Count = n
	p.skip("plank", "is")
	return err
}

// miscut reads "12 left 22" and "12 22 left".
func (p *parser) miscut() error {
	p.take("miscut")
	p.skip("plank", "of")
	n, err := p.count("the number of the plank", 1, mostPlanks)
	if err != nil {
		return err
	}
	p.e.Planks = []int{n}
	p.mark(",")
	p.e.Length, p.e.Ends, err = p.lengthAndEnd(false)
	return err
}

// lengthAndEnd reads a length and the factory end that it goes with, in either order.
func (p *parser) lengthAndEnd(none bool) (l measure.Length, ends cutopt.Ends, err error) {
	read := func() bool {
		p.skip("is")
		switch p.word() {
		case "left":
			ends = cutopt.EndsLeft
		case "right":
			ends = cutopt.EndsRight
		case "none":
			ends = cutopt.EndsNone
			if !none {
				return false
			}
		default:
			return false
		}
		p.toks = p.toks[1:]
		return true
	}
	known := read()
	p.skip("is", "at")
	what := "how long the part is that has that end"
	if none {
		what = "how long it is"
	}
	if l, err = p.length(what); err != nil {
		return 0, 0, err
	}
	p.mark(",")
	if !known && !read() {
		if none {
			return 0, 0, p.fail("which of its ends is a factory end?",
				"write left, right or none, as seen facing the starting wall")
		}
		return 0, 0, p.fail("so far from which end?", "write left or right, as seen facing the starting wall")
	}
	return l, ends, nil
}

// stock reads "14 planks", "boxes 3 lot B".
func (p *parser) stock() (err error) {
	p.take(map[Kind]string{KindPlanks: "plank", KindBoxes: "box"}[p.e.Kind])
	p.skip("is")
	if p.word() == "lot" && len(p.toks) > 2 { // the lot stands first: its name is one token
		p.toks = p.toks[1:]
		p.e.Lot, p.toks = string(p.runes[p.toks[0].from:p.toks[0].to]), p.toks[1:]
	}
	if p.e.Count, err = p.count("how many are here", 0, mostPlanks); err != nil {
		return err
	}
	p.mark(",")
	p.skip("of", "is", "from", "at")
	if p.e.Lot == "" && p.word() == "lot" {
		p.e.Lot, err = p.lot()
	}
	return err
}

// lot reads the name of a lot: all that follows.
func (p *parser) lot() (string, error) {
	p.skip("lot")
	if len(p.toks) == 0 {
		return "", p.fail("the name of the lot is missing", "write it as on the label of the box")
	}
	name := strings.TrimSpace(string(p.runes[p.toks[0].from:p.toks[len(p.toks)-1].to]))
	if strings.ContainsFunc(name, func(r rune) bool { return !unicode.IsPrint(r) }) || len(name) > cutopt.MaxName {
		return "", p.fail("a name holds no control characters, and 200 characters at most",
			"write what the label of the box says")
	}
	p.toks = nil
	return name, nil
}

// measured reads "9 longer 1/2", "from 9 shorter 1/2", "9 is 143 1/2".
func (p *parser) measured() (err error) {
	e := &p.e
	shorter := p.take("shorter")
	p.take("longer")
	if err = p.row(); err != nil {
		return err
	}
	p.skip("is", "by", "x", "on")
	p.mark("=")
	if e.Length, err = p.length(map[Kind]string{
		KindLonger: "by how much", KindMeasured: "how long it is, from wall to wall",
	}[e.Kind]); err != nil {
		return err
	}
	if shorter {
		e.Length = -e.Length
	}
	return nil
}

// changed reads what is told of walls, edge rows and fixed things.
func (p *parser) changed() (err error) {
	e := &p.e
	switch e.Kind {
	case KindFirst, KindLast:
		p.skip("first", "last", "row", "is", "of")
		e.Length, err = p.length("how wide it is")
	case KindWall:
		p.skip("wall")
		if e.Wall, err = p.count("the number of the wall", 1, mostPlanks); err != nil {
			return err
		}
		p.mark(",")
		p.skip("is", "from")
		in := p.word() == "in"
		if !in && p.word() != "out" {
			return p.fail("in or out?", "write out 1/2 where it stands farther out, in 1/2 where it stands in the room")
		}
		p.toks = p.toks[1:]
		p.skip("x")
		if e.Length, err = p.length("by how much"); in {
			e.Length = -e.Length
		}
	case KindPipe, KindIsland:
		p.skip("pipe", "island", "at", "is")
		if e.At, err = p.point(","); err != nil {
			if bad := (*Error)(nil); errors.As(err, &bad) {
				if bad.Mend = "write pipe at 40, 12 diameter 2"; e.Kind == KindIsland {
					bad.Mend = "write island at 40, 12 size 24 x 12"
				}
			}
			return err
		}
		p.mark(",")
		if e.Kind == KindPipe {
			p.skip("diameter", "is", "of")
			if e.Length, err = p.length("its diameter"); err == nil {
				p.skip("diameter")
			}
			return err
		}
		p.skip("size", "is")
		e.Size, err = p.point("x")
	}
	return err
}

// point reads two lengths with a mark or the word x between.
func (p *parser) point(between string) (at cutopt.Point, err error) {
	p.pair = true
	defer func() { p.pair = false }()
	p.mark("[")
	p.mark("(")
	if at.X, err = p.signed("how far along x"); err != nil {
		return at, err
	}
	if !p.mark(between) && !(between == "x" && (p.skip("x") || p.mark("×"))) && !p.skip("and") {
		return at, p.fail("two lengths are needed", "write them as 40"+map[string]string{",": ", 12", "x": " x 12"}[between])
	}
	if at.Y, err = p.signed("how far along y"); err != nil {
		return at, err
	}
	p.mark("]")
	p.mark(")")
	return at, nil
}

// signed reads a coordinate.
func (p *parser) signed(what string) (measure.Length, error) {
	minus := p.mark("-") || p.mark("−")
	l, err := p.length(what)
	if minus {
		l = -l
	}
	return l, err
}

// length reads a length of above 0: all tokens that may belong to one.
func (p *parser) length(what string) (measure.Length, error) {
	n := 0
	for n < len(p.toks) {
		t := p.toks[n]
		unit := t.kind == tokenWord && unitWords[t.text] && n > 0
		mark := t.kind == tokenMark && strings.Contains(lengthMarks, t.text) && n > 0
		if t.kind != tokenNumber && !unit && !mark || n > 0 && strings.TrimSpace(
			string(p.runes[p.toks[n-1].to:t.from])) != "" { // something was taken out between
			break
		}
		n++
	}
	if n == 0 {
		return 0, p.fail("a length is missing", "write "+what)
	}
	from, to := p.toks[0].from, p.toks[n-1].to
	l, err := measure.Parse(string(p.runes[from:to]), p.g.unit)
	if err != nil {
		e := &Error{Column: from + 1, Value: string(p.runes[from:to]), Msg: err.Error()}
		var pe *measure.ParseError
		if errors.As(err, &pe) {
			e.Column, e.Msg, e.Mend = from+pe.Column, pe.Reason(), pe.Mend
		}
		return 0, e
	}
	if l > cutopt.MaxLength {
		return 0, p.fail("this is longer than a kilometre", "check the unit")
	}
	if !p.pair && n+1 < len(p.toks) && p.toks[n].text == "," && p.toks[n].from == to && p.toks[n+1].from == to+1 {
		return 0, p.failAt(p.toks[n], "a comma may mean decimals or thousands", "use a point for decimals: 14.5")
	}
	p.toks = p.toks[n:]
	return l, nil
}
