package cutopt

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// MaxName is the length of the longest name, in characters.
const MaxName = 200

// names holds every name of the job against what can be printed anywhere: in one line, in the direction of its letters.
func (v *validator) names() {
	j := v.job
	v.name("name", j.Name)
	v.name("plank.name", j.Plank.Name)
	for i, p := range j.Products {
		v.name(fmt.Sprintf("products[%d].plank.name", i+1), p.Plank.Name)
	}
	for i := range j.Rooms {
		room, field := &j.Rooms[i], fmt.Sprintf("rooms[%d].", i+1)
		v.name(field+"name", room.Name)
		for k := range room.Islands {
			v.name(fmt.Sprintf("%sislands[%d].name", field, k+1), room.Islands[k].Name)
		}
		for k := range room.Pipes {
			v.name(fmt.Sprintf("%spipes[%d].name", field, k+1), room.Pipes[k].Name)
		}
		for k := range room.Doorways {
			d := &room.Doorways[k]
			v.name(fmt.Sprintf("%sdoorways[%d].name", field, k+1), d.Name)
			v.name(fmt.Sprintf("%sdoorways[%d].to", field, k+1), d.To)
		}
	}
	v.materialNames(&j.Materials)
}

func (v *validator) materialNames(m *Materials) {
	for i := range m.Trim {
		v.name(fmt.Sprintf("trim[%d].name", i+1), m.Trim[i].Name)
	}
	for i := range m.Transitions {
		v.name(fmt.Sprintf("transitions[%d].name", i+1), m.Transitions[i].Name)
	}
	v.name("underlay.name", m.Underlay.Name)
	v.name("film.name", m.Film.Name)
	v.name("tape.name", m.Tape.Name)
	for i := range m.Appliances {
		v.name(fmt.Sprintf("appliances[%d].name", i+1), m.Appliances[i].Name)
	}
}

func (v *validator) name(field, name string) {
	const keep = 40 // characters of a long name
	quoted := fmt.Sprintf("%.*q", keep, name)
	switch i := strings.IndexFunc(name, unprintable); {
	case !utf8.ValidString(name):
		v.add(field, quoted, "a name is text in UTF-8", "save the file as text in UTF-8")
	case i >= 0:
		r, _ := utf8.DecodeRuneInString(name[i:])
		v.add(
			field,
			quoted,
			fmt.Sprintf("a name holds no line breaks, control or direction characters, and this one has %U", r),
			"type the name anew",
		)
	case utf8.RuneCountInString(name) > MaxName:
		v.add(field, quoted, fmt.Sprintf("a name has at most %d characters", MaxName), "shorten it")
	}
}

// unprintable reports the characters that would break a line, reorder what stands beside a name, or hide in it. Joiners
// are letters of some scripts and stay.
func unprintable(r rune) bool {
	return unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) || r == '\u2028' || r == '\u2029' ||
		r == '\ufeff'
}
