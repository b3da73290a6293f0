package main

import (
	_ "embed" // for the example
	"fmt"
	"io"
	"strings"

	"plank.example/cutopt"
	"plank.example/cutopt/jobfile"
)

//go:embed help/job.yaml
var jobExample string

// aimHelp says what each aim improves; the doc comments of cutopt.Quality have the definitions.
var aimHelp = map[cutopt.Aim]string{
	cutopt.AimHJoints:    "fewest pairs of end joints two rows apart in line, within in-line",
	cutopt.AimChains:     "no five steps the same way, one row after the other, whatever their size",
	cutopt.AimStaircases: "fewest sets of four joints in successive rows that step the same way",
	cutopt.AimClusters:   "fewest sets of four joints in successive rows within a third of a plank",
	cutopt.AimStagger:    "largest least distance of end joints in neighbouring rows, up to prefer-stagger",
	cutopt.AimCrosscuts:  "fewest saw cuts across planks",
	cutopt.AimOffcuts:    "fewest offcuts kept for later rows at once; the one in hand is as good as none",
	cutopt.AimWaiting:    "fewest rows that offcuts wait beyond the next one",
	cutopt.AimFigures:    "fewest sawn starters that are no multiple of round",
	cutopt.AimPlanks:     "fewest planks; what the other figures do not need stays whole",
}

// A page is a text under construction, as wide as the terminal.
type page struct {
	strings.Builder
	width int
}

func (p *page) heading(text string) {
	p.WriteString("\n")
	p.paragraph(text, "")
}

// paragraph adds text, its lines after the first indented.
func (p *page) paragraph(text, indent string) {
	p.WriteString(strings.Join(wrap(text, p.width, indent), "\n") + "\n")
}

// entry adds a name and what it means: side by side, or one below the other on a narrow page.
func (p *page) entry(name, text string) {
	const side = 28
	if p.width < 2*side {
		p.WriteString("  " + name + "\n      " + strings.Join(wrap(text, p.width-6, ""), "\n      ") + "\n")
		return
	}
	lines := wrap(text, p.width-side, "")
	name = "  " + name
	if columns(name) >= side {
		p.WriteString(name + "\n")
		name = ""
	}
	for _, line := range lines {
		fmt.Fprintf(p, "%-*s%s\n", side, name, line)
		name = ""
	}
}

// jobHelp prints the reference of job files: keys from the schema, rules from their table.
func jobHelp(w io.Writer) error {
	p := &page{width: reportWidth(w)}
	p.paragraph("The job file: what was measured, the product, and the rules a plan must keep.", "")
	sections := strings.Split(helpText("job"), "\n# ")
	p.WriteString("\n")
	p.paragraph(sections[0], "")
	p.heading("An example:")
	p.WriteString("\n  " + strings.ReplaceAll(strings.TrimRight(jobExample, "\n"), "\n", "\n  ") + "\n")
	for _, m := range jobfile.Reference() {
		switch m.Path {
		case "":
			p.heading("Keys of the file (* required):")
		case "rules":
			p.rules()
			continue
		case "products[]":
			continue // a plank and a box
		default:
			p.heading("Keys of " + m.Path + ":")
		}
		for _, k := range m.Keys {
			name := k.Name
			if k.Required {
				name += " *"
			}
			if k.Takes != "" && k.Takes != k.Name {
				name += " (" + k.Takes + ")"
			}
			p.entry(name, k.Help)
		}
	}
	p.heading("Aims, all of them in this order unless the job says otherwise:")
	for _, a := range cutopt.DefaultAims() {
		p.entry(a.String(), aimHelp[a])
	}
	p.heading("Kinds of values:")
	for _, k := range jobfile.Kinds() {
		p.entry(k.Name, k.Help)
	}
	for _, s := range sections[1:] {
		title, body, _ := strings.Cut(strings.TrimSpace(s), "\n")
		p.heading(title + ":")
		for _, line := range strings.Split(body, "\n") {
			if item, is := strings.CutPrefix(line, "- "); is {
				p.paragraph("  - "+item, "    ")
			} else {
				p.paragraph(line, "")
			}
		}
	}
	_, err := io.WriteString(w, p.String())
	return err
}

// rules lists the rules with their defaults and where those come from.
func (p *page) rules() {
	p.heading("Keys of rules, and flags of the same names:")
	for _, r := range cutopt.RuleTable() {
		p.entry(r.Key+" ("+r.Kind()+")", (&ruleFlag{rule: r}).usage()+". "+strings.ToUpper(r.Source[:1])+r.Source[1:]+".")
	}
	p.paragraph(
		"In brackets the default, of inch and foot jobs | of metric jobs. No published norm fixes these figures for "+
			"click-lock "+
			"planks: the product's own instruction overrides every one.",
		"",
	)
}
