package jobfile

import (
	"encoding"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v4"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

const lengthHint = `write a length such as 14' 6 1/2", 22 1/4 or 3.81 m`

// job reads the whole file. The unit comes first, whatever its place: bare numbers and the rules' defaults need it.
func (d *decoder) job(root *yaml.Node) {
	job := d.file.Job
	if root.Kind == yaml.MappingNode {
		for i := 0; i+1 < len(root.Content); i += 2 {
			if root.Content[i].Value == "unit" {
				d.unit(root.Content[i+1])
				break
			}
		}
	}
	job.Rules = cutopt.DefaultRules(job.Unit)
	d.mapping(root, "",
		key{"name", "", d.string(&job.Name)},
		key{"unit", "add unit: in, ft, mm, cm or m", func(*yaml.Node, string) {}},
		key{"plank", "add plank: {length: …, width: …}", d.plank(&job.Plank)},
		key{"box", "add box: {planks: …} or box: {covers: …}", d.box(&job.Box)},
		key{"products", "", d.products},
		key{"spare", "", d.spare},
		key{"rules", "", d.rules},
		key{"pattern", "", d.pattern},
		key{"aims", "", d.aims},
		key{"rooms", "add rooms: and a - before each room", d.rooms},
		key{"trim", "", d.trim},
		key{"transitions", "", d.transitions},
		key{"underlay", "", d.underlay},
		key{"film", "", d.film},
		key{"tape", "", d.tape},
		key{"spacers", "", d.spacers},
		key{"appliances", "", d.appliances},
	)
	d.setPattern()
}

func (d *decoder) unit(n *yaml.Node) {
	n, s, ok := d.text(n, "unit", "write in, ft, mm, cm or m")
	if !ok {
		return
	}
	unit, err := measure.ParseUnit(s)
	if err != nil {
		d.parseError(n, "unit", 0, err)
		return
	}
	d.file.Job.Unit, d.unitKnown = unit, true
}

// spare reads the planks to keep for repairs.
func (d *decoder) spare(n *yaml.Node, path string) {
	n, s, ok := d.text(n, path, "write planks such as 4, a share such as 3 %, or 1 box per 50")
	if !ok {
		return
	}
	spare, err := cutopt.ParseSpare(s)
	if d.refused(n, path, err) {
		return
	}
	d.file.Job.Spare = spare
}

func (d *decoder) plank(p *cutopt.Plank) func(*yaml.Node, string) {
	return func(n *yaml.Node, path string) {
		d.mapping(n, path,
			key{"name", "", d.string(&p.Name)},
			key{"length", "read it from the label", d.length(&p.Length)},
			key{"width", "read it from the label", d.length(&p.Width)},
			key{"thickness", "", d.length(&p.Thickness)},
			key{"ends", "", d.constant(&p.Ends, "angle", "drop")},
			key{"to-wall", "", d.constant(&p.ToWall, "tongue", "groove")},
			key{"from", "", d.constant(&p.From, "left", "right")},
		)
	}
}

// products reads the list of products to compare with.
func (d *decoder) products(n *yaml.Node, path string) {
	d.items(n, path, "write a - before each product, with plank: and box:", func(n *yaml.Node, path string) {
		var p cutopt.Product
		d.mapping(n, path,
			key{"plank", "add plank: {length: …, width: …}", d.plank(&p.Plank)},
			key{"box", "add box: {planks: …} or box: {covers: …}", d.box(&p.Box)},
		)
		d.file.Job.Products = append(d.file.Job.Products, p)
	})
}

func (d *decoder) box(b *cutopt.Box) func(*yaml.Node, string) {
	return func(n *yaml.Node, path string) { d.boxAt(n, path, b) }
}

func (d *decoder) boxAt(n *yaml.Node, path string, b *cutopt.Box) {
	seen := d.mapping(n, path,
		key{"planks", "", d.whole(&b.Planks)},
		key{"covers", "", func(n *yaml.Node, path string) {
			n, s, ok := d.text(n, path, "write an area such as 19.6 sq ft or 2.2 m2")
			if !ok {
				return
			}
			area, err := measure.ParseArea(s, d.file.Job.Unit)
			if err != nil {
				d.parseError(n, path, 0, err)
				return
			}
			b.Covers = area
		}},
		key{"price", "", d.price(&b.Price)},
	)
	if seen != nil && !seen["planks"] && !seen["covers"] {
		d.fail(n, path, "a box needs planks or covers", "read one of them from the label")
	}
}

// price returns a reader of an amount of money.
func (d *decoder) price(into *cutopt.Money) func(*yaml.Node, string) {
	return func(n *yaml.Node, path string) {
		n, s, ok := d.text(n, path, "write an amount such as 52.50")
		if !ok {
			return
		}
		price, err := cutopt.ParseMoney(s)
		if err != nil {
			d.fail(n, path, "this is no amount",
				"write digits and at most two decimals, such as 52.50, without the currency")
			return
		}
		*into = price
	}
}

// truth returns a reader of true or false.
func (d *decoder) truth(into *bool) func(*yaml.Node, string) {
	return d.word([]string{"true", "false"}, func(word string) { *into = word == "true" })
}

// rules reads the rules of the table.
func (d *decoder) rules(n *yaml.Node, path string) {
	var keys []key
	for _, rule := range cutopt.RuleTable() {
		hint := lengthHint
		switch {
		case rule.Zero != "":
			hint += ", or " + rule.Zero
		case rule.Kind() == "percent":
			hint = "write a percentage such as 10 %"
		case rule.Kind() == "word":
			hint = "write a word such as " + rule.Default
		}
		keys = append(keys, key{rule.Key, "", func(n *yaml.Node, path string) {
			if n, s, ok := d.text(n, path, hint); ok {
				d.refused(n, path, rule.Parse(&d.file.Job.Rules, s, d.file.Job.Unit))
			}
		}})
	}
	d.mapping(n, path, keys...)
}

// string returns a reader of free text.
func (d *decoder) string(into *string) func(*yaml.Node, string) {
	return func(n *yaml.Node, path string) {
		if _, s, ok := d.text(n, path, "write a text"); ok {
			*into = s
		}
	}
}

// length returns a reader of a length of 0 or more.
func (d *decoder) length(into *measure.Length) func(*yaml.Node, string) {
	return func(n *yaml.Node, path string) {
		if n, s, ok := d.text(n, path, lengthHint); ok {
			d.parseLength(n, path, s, 0, into)
		}
	}
}

// parseLength reads a length from a part of n's text that begins at offset, in characters.
func (d *decoder) parseLength(n *yaml.Node, path, s string, offset int, into *measure.Length) bool {
	l, err := measure.Parse(s, d.file.Job.Unit)
	if err != nil {
		d.parseError(n, path, offset, err)
		return false
	}
	*into = l
	return true
}

// whole returns a reader of a whole number.
func (d *decoder) whole(into *int) func(*yaml.Node, string) {
	return func(n *yaml.Node, path string) {
		n, s, ok := d.text(n, path, "write a whole number")
		if !ok {
			return
		}
		v, ok := whole(s)
		if !ok {
			d.fail(n, path, "this is no whole number", "write digits only, such as 12")
			return
		}
		*into = v
	}
}

// whole reads a whole number of at most nine digits.
func whole(s string) (int, bool) {
	if s == "" || len(s) > 9 || strings.Trim(s, "0123456789") != "" {
		return 0, false
	}
	v, err := strconv.Atoi(s)
	return v, err == nil
}

// maxDecimal is the length of the longest decimal number read: any float64 fits.
const maxDecimal = 1100

// decimal reads a decimal number of 0 or more, without an exponent.
func decimal(s string) (float64, bool) {
	units, part, point := strings.Cut(s, ".")
	if units == "" || point && part == "" || strings.Trim(units+part, "0123456789") != "" || len(s) > maxDecimal {
		return 0, false
	}
	v, err := strconv.ParseFloat(s, 64)
	return v, err == nil
}

// word returns a reader of one of several words.
func (d *decoder) word(words []string, set func(word string)) func(*yaml.Node, string) {
	hint := "write one of " + strings.Join(words, ", ")
	return func(n *yaml.Node, path string) {
		n, s, ok := d.text(n, path, hint)
		if !ok {
			return
		}
		for _, w := range words {
			if s == w {
				set(w)
				return
			}
		}
		d.fail(n, path, "unknown word", suggestWord(s, words))
	}
}

// constant returns a reader of a constant by one of its names.
func (d *decoder) constant(into encoding.TextUnmarshaler, names ...string) func(*yaml.Node, string) {
	return d.word(names, func(name string) {
		if err := into.UnmarshalText([]byte(name)); err != nil {
			panic("jobfile: " + err.Error()) // the model has no such name, which any file with it would show
		}
	})
}
