package sheet

import (
	"crypto/sha256"
	_ "embed" // for the page and its style
	"encoding/base64"
	"encoding/csv"
	"errors"
	"fmt"
	"html/template"
	"io"
	"slices"
	"strconv"
	"strings"
	"sync"

	"plank.example/cutopt"
	"plank.example/cutopt/words"
)

//go:embed supplier.html.tmpl
var orderText string

//go:embed supplier.css
var orderStyle string

var orderTemplate = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("order").Parse(orderText))
})

// Order writes what a supplier needs of a take-off of the job, as FormatCSV or FormatHTML: what, of which size, how
// many, in which unit, with prices where they are known, the note on the lot and what may be returned. It has no tax
// and no labour. The HTML is one page that loads nothing, with lines to fill in by hand. The language is "" for
// English, or one of words.Languages. Cells of a CSV file that a spreadsheet would take for a formula begin with an
// apostrophe. Other formats are an error.
func Order(w io.Writer, job *cutopt.Job, list *cutopt.Takeoff, format Format, language string) error {
	if language != "" && !slices.Contains(words.Languages(), language) {
		return fmt.Errorf("sheet: the language is %q: one of %s", language, strings.Join(words.Languages(), ", "))
	}
	if job == nil || list == nil {
		return errors.New("sheet: the job or its take-off is nil: give both, as takeoff.New makes it")
	}
	p := &orderPage{words.New(language, nil, job.Unit, job.Rules.Grid), job, list}
	switch format {
	case FormatCSV:
		return p.csv(w)
	case FormatHTML:
		p.Glued = true
		return orderTemplate().Execute(w, p)
	}
	return formatError("the order", format, FormatCSV, FormatHTML)
}

// An orderPage is an order as the template sees it.
type orderPage struct {
	*words.Speech
	job  *cutopt.Job
	list *cutopt.Takeoff
}

// An orderLine is one line of an order.
type orderLine struct {
	Number                    string
	What, Size, Count, Unit   string
	Each, Amount, Lot, Return string
}

// Lines returns what is ordered.
func (p *orderPage) Lines() []orderLine {
	var lines []orderLine
	for i := range p.list.Items {
		item := &p.list.Items[i]
		if !item.Bought() {
			continue
		}
		for k := range item.Goods {
			lines = append(lines, p.line(item, &item.Goods[k]))
		}
		if item.Goods == nil && item.Cutting == nil {
			lines = append(lines, orderLine{
				What: p.ItemName(item), Count: p.Need(item), Size: p.Say("supply.any-size"),
				Return: p.Say("supply.as-agreed"),
			})
		}
	}
	for i := range lines {
		lines[i].Number = strconv.Itoa(i + 1)
	}
	return lines
}

func (p *orderPage) line(item *cutopt.Item, g *cutopt.Goods) orderLine {
	line := orderLine{
		What: p.ItemName(item), Size: p.GoodsSize(g), Count: strconv.Itoa(g.Count),
		Unit:   p.Count("unit-of."+g.Unit.String(), g.Count),
		Return: p.Say("supply.return." + g.Unit.String()),
	}
	switch g.Unit {
	case cutopt.GoodsBox:
		size := p.Exact(g.Length) + " x " + p.Exact(g.Width)
		if item.Thickness > 0 {
			size += " x " + p.Exact(item.Thickness)
		}
		line.Size = p.Say("supply.planks", "size", size, "planks", p.Count("things.plank", g.Holds))
		line.Lot = p.Say("supply.one-lot")
		return p.priced(line, g)
	case cutopt.GoodsPack:
		line.Size = p.Say("supply.pack", "n", strconv.Itoa(g.Holds))
	}
	if item.Thickness > 0 {
		line.Size += ", " + p.Say("supply.thick", "thickness", p.Exact(item.Thickness))
	}
	return p.priced(line, g)
}

// priced adds the price to a line, if it is known.
func (p *orderPage) priced(line orderLine, g *cutopt.Goods) orderLine {
	if g.Each > 0 {
		line.Each, line.Amount = p.Decimal(g.Each.String()), p.Decimal(g.Price().String())
	}
	return line
}

// Total returns the sum of all amounts, "" where there are none.
func (p *orderPage) Total() string {
	sum, _ := p.list.Total()
	if sum == 0 {
		return ""
	}
	return p.Decimal(sum.String())
}

// Open says how many lines have no price.
func (p *orderPage) Open() string {
	if _, open := p.list.Total(); open > 0 {
		return p.Count("takeoff.open", open)
	}
	return ""
}

// Name returns the job's name.
func (p *orderPage) Name() string { return p.job.Name }

// Title returns the title of the window.
func (p *orderPage) Title() string {
	if p.job.Name == "" {
		return p.Say("supply")
	}
	return p.job.Name + " – " + p.Say("supply")
}

// Notes lists what goes for the whole order.
func (p *orderPage) Notes() []string { return p.List("supply.notes") }

// Blanks lists what is filled in by hand.
func (p *orderPage) Blanks() []string { return p.List("supply.blanks") }

// Style returns the style sheet.
func (p *orderPage) Style() template.CSS { return template.CSS(orderStyle) }

// Policy returns the page's content security policy: its own style, and nothing else.
func (p *orderPage) Policy() string {
	sum := sha256.Sum256([]byte(orderStyle))
	return "default-src 'none'; style-src 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) +
		"'; img-src data:; base-uri 'none'; form-action 'none'"
}

// Heads returns the headings of the columns.
func (p *orderPage) Heads() []string {
	return []string{
		p.Say("supply.number"), p.Say("supply.what"), p.Say("supply.size"), p.Say("supply.count"), p.Say("supply.unit"),
		p.Say("supply.each"), p.Say("supply.amount"), p.Say("supply.lot"), p.Say("supply.return"),
	}
}

func (p *orderPage) csv(w io.Writer) error {
	out := csv.NewWriter(w)
	rows := [][]string{p.Heads()}
	for _, l := range p.Lines() {
		rows = append(rows, []string{l.Number, l.What, l.Size, l.Count, l.Unit, l.Each, l.Amount, l.Lot, l.Return})
	}
	if total := p.Total(); total != "" {
		rows = append(rows, []string{"", p.Say("supply.total"), "", "", "", "", total, "", ""})
	}
	for _, row := range rows {
		for k := range row {
			row[k] = noFormula(row[k])
		}
	}
	return out.WriteAll(rows)
}
