package jobfile

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
)

// A Mapping documents one kind of mapping in job files.
type Mapping struct {
	Path string // where it stands: "" for the file itself, "plank", "rooms[].doorways[]"
	Keys []Key
}

// A Key documents one key.
type Key struct {
	Name     string
	Takes    string // the kind of its value, such as "length" or "wood | metal"; [Kinds] explains the kinds
	Help     string // what it says
	Required bool
}

// A Kind documents a kind of value.
type Kind struct{ Name, Help string }

// Reference documents every key of job files, in the order of the [Schema], from which it is made.
func Reference() []Mapping {
	root := readTree(Schema())
	defs := root.at("$defs")
	var all []Mapping
	for _, m := range []struct {
		path string
		node *schemaNode
	}{
		{"", root},
		{"plank", defs.at("plank")},
		{"box", defs.at("box")},
		{"products[]", root.at("properties").at("products").at("items")},
		{"rules", root.at("properties").at("rules")},
		{"rooms[]", defs.at("room")},
		{"rooms[].walls[]", defs.at("wall").mapping()},
		{"rooms[].islands[]", defs.at("island").mapping()},
		{"rooms[].pipes[]", defs.at("pipe")},
		{"rooms[].doorways[]", defs.at("doorway")},
		{"rooms[].breaks[]", defs.at("break")},
		{"rooms[].rows", defs.at("rows").mapping()},
		{"trim[]", defs.at("trim")},
		{"trim[].sticks[]", defs.at("stick")},
		{"transitions[]", defs.at("profile")},
		{"transitions[].sticks[]", defs.at("stick")},
		{"underlay", defs.at("underlay")},
		{"underlay.rolls[]", defs.at("roll")},
		{"film", defs.at("film")},
		{"film.rolls[]", defs.at("roll")},
		{"tape", defs.at("tape")},
		{"spacers", defs.at("spacers")},
		{"appliances[]", defs.at("appliance")},
	} {
		doc := Mapping{Path: m.path}
		for _, p := range m.node.at("properties").members {
			doc.Keys = append(doc.Keys, Key{
				Name: p.name, Takes: p.node.takes(), Help: p.node.help(defs),
				Required: slices.Contains(m.node.at("required").texts(), p.name),
			})
		}
		all = append(all, doc)
	}
	return all
}

// Kinds documents the kinds of values that [Reference] names.
func Kinds() []Kind {
	defs := readTree(Schema()).at("$defs")
	var kinds []Kind
	for _, d := range defs.members {
		if text := d.node.at("description").text(); text != "" {
			kinds = append(kinds, Kind{d.name, text})
		}
	}
	return kinds
}

// A schemaNode is a value of the schema; unlike a map it keeps the order of its members. A nil one has nothing.
type schemaNode struct {
	members []member
	items   []*schemaNode
	value   any
}

type member struct {
	name string
	node *schemaNode
}

// readTree reads the schema, which is no input: a fault in it is ours.
func readTree(data []byte) *schemaNode {
	n, err := readNode(json.NewDecoder(bytes.NewReader(data)))
	if err != nil {
		panic("jobfile: the schema: " + err.Error())
	}
	return n
}

func readNode(dec *json.Decoder) (*schemaNode, error) {
	token, err := dec.Token()
	if err != nil {
		return nil, err
	}
	n := new(schemaNode)
	switch token {
	case json.Delim('{'):
		for dec.More() {
			name, err := dec.Token()
			if err != nil {
				return nil, err
			}
			value, err := readNode(dec)
			if err != nil {
				return nil, err
			}
			n.members = append(n.members, member{name.(string), value})
		}
		_, err = dec.Token()
	case json.Delim('['):
		for dec.More() {
			item, err := readNode(dec)
			if err != nil {
				return nil, err
			}
			n.items = append(n.items, item)
		}
		_, err = dec.Token()
	default:
		n.value = token
	}
	return n, err
}

func (n *schemaNode) at(name string) *schemaNode {
	if n != nil {
		for _, m := range n.members {
			if m.name == name {
				return m.node
			}
		}
	}
	return nil
}

// mapping returns the mapping among several forms.
func (n *schemaNode) mapping() *schemaNode {
	for _, form := range n.at("oneOf").items {
		if form.at("properties") != nil {
			return form
		}
	}
	return nil
}

func (n *schemaNode) text() string {
	if n == nil || n.value == nil {
		return ""
	}
	return fmt.Sprint(n.value)
}

func (n *schemaNode) texts() []string {
	if n == nil {
		return nil
	}
	var all []string
	for _, item := range n.items {
		if s := item.text(); !slices.Contains(all, s) { // true stands as a word and as a text
			all = append(all, s)
		}
	}
	return all
}

// ref returns the name of the definition that the node refers to.
func (n *schemaNode) ref() string { return strings.TrimPrefix(n.at("$ref").text(), "#/$defs/") }

// takes names the kind of a value.
func (n *schemaNode) takes() string {
	switch {
	case n.ref() != "":
		return n.ref()
	case n.at("enum") != nil:
		return strings.Join(n.at("enum").texts(), " | ")
	case n.at("type").text() == "array":
		return "list"
	case n.at("type").text() == "object":
		return "mapping"
	}
	return ""
}

// help says what a value is: in its own words, or in those of its kind.
func (n *schemaNode) help(defs *schemaNode) string {
	if own := n.at("description").text(); own != "" {
		return own
	}
	return defs.at(n.ref()).at("description").text()
}
