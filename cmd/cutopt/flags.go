package main

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/pflag"
)

// A flagGroup is a set of flags with the heading that help prints above it.
type flagGroup struct {
	heading string
	set     *pflag.FlagSet
}

// parseFlags reads the arguments of a command and returns the positional ones. Help, when asked for, is printed and
// reported as done.
func parseFlags(e *env, c string, args []string, groups ...flagGroup) (rest []string, done bool, err error) {
	if e.groups != nil {
		*e.groups = groups
		return nil, true, nil
	}
	all := pflag.NewFlagSet(c, pflag.ContinueOnError)
	all.SetOutput(io.Discard)
	all.SortFlags = false
	all.Usage = func() {}
	for _, g := range groups {
		all.AddFlagSet(g.set)
	}
	help := all.BoolP("help", "h", false, "")
	given := make(map[string]string)
	err = all.ParseAll(args, func(f *pflag.Flag, value string) error {
		was, twice := given[f.Name]
		if _, ok := f.Value.(gatherer); twice && !ok && was != value {
			return fmt.Errorf("--%s is given twice, %q and %q: keep one of them", f.Name, was, value)
		}
		given[f.Name] = value
		return all.Set(f.Name, value)
	})
	if err != nil {
		return nil, false, mendFlagError(err, all)
	}
	if *help {
		return nil, true, commandHelp(e, c, groups)
	}
	return all.Args(), false, nil
}

// mendFlagError says what is wrong with a flag and what may have been meant.
func mendFlagError(err error, all *pflag.FlagSet) error {
	var unknown *pflag.NotExistError
	var invalid *pflag.InvalidValueError
	var missing *pflag.ValueRequiredError
	switch {
	case errors.As(err, &unknown):
		return usagef("%s", unknownFlag(unknown, all))
	case errors.As(err, &invalid):
		f := invalid.GetFlag()
		return usagef("--%s %q: not %s", f.Name, invalid.GetValue(), kindOf(f))
	case errors.As(err, &missing):
		return usagef("--%s needs %s after it", missing.GetFlag().Name, kindOf(missing.GetFlag()))
	}
	return usagef("%w", err)
}

// unknownFlag names an unknown flag and the one that may have been meant.
func unknownFlag(unknown *pflag.NotExistError, all *pflag.FlagSet) string {
	if letters := unknown.GetSpecifiedShortnames(); letters != "" {
		return fmt.Sprintf(
			"-%s is no flag; flags begin with two dashes, and \"cutopt help %s\" lists them",
			letters,
			all.Name(),
		)
	}
	name := unknown.GetSpecifiedName()
	var known []string
	all.VisitAll(func(f *pflag.Flag) { known = append(known, "--"+f.Name) })
	if meant := didYouMean("--"+name, known); meant != "" {
		return fmt.Sprintf("--%s is no flag%s", name, meant)
	}
	return fmt.Sprintf("--%s is no flag; \"cutopt help %s\" lists them", name, all.Name())
}

// kindOf says in words what a flag takes.
func kindOf(f *pflag.Flag) string {
	switch f.Value.Type() {
	case "int":
		return "a whole number"
	case "uint64":
		return "a whole number of 0 or more"
	case "float64":
		return "a number"
	case "duration":
		return "a time such as 5s or 2m"
	case "bool":
		return "true or false"
	}
	name, _ := pflag.UnquoteUsage(f)
	return "a " + name
}

// positional refuses more than so many arguments that are no flags.
func positional(c string, args []string, most int, what string) error {
	if len(args) > most {
		return usagef("%s takes %s; %q is one too many", c, what, args[most])
	}
	return nil
}

// commandHelp prints what a command takes.
func commandHelp(e *env, name string, groups []flagGroup) error {
	width := reportWidth(e.stdout)
	var b strings.Builder
	for _, c := range commands() {
		if c.name != name {
			continue
		}
		line := "cutopt " + c.name
		if c.args != "" {
			line += " " + c.args
		}
		if len(groups) > 0 {
			line += " [flags]"
		}
		fmt.Fprintf(&b, "%s\n\n", line)
		for _, text := range strings.Split(helpText(name), "\n\n") {
			b.WriteString(strings.Join(wrap(text, width, ""), "\n") + "\n\n")
		}
	}
	for _, g := range groups {
		fmt.Fprintf(&b, "%s\n%s\n", g.heading, flagUsages(g.set, width))
	}
	_, err := io.WriteString(e.stdout, strings.TrimRight(b.String(), "\n")+"\n")
	return err
}

// flagUsages lists flags and what they mean: side by side, or one below the other on a narrow page.
func flagUsages(set *pflag.FlagSet, width int) string {
	const side = 28 // columns for the flag where both stand side by side
	var b strings.Builder
	set.VisitAll(func(f *pflag.Flag) {
		if f.Hidden {
			return
		}
		kind, usage := pflag.UnquoteUsage(f)
		name := strings.TrimRight("  --"+f.Name+" "+kind, " ")
		if width < 2*side {
			b.WriteString(name + "\n      " + strings.Join(wrap(usage, width-6, ""), "\n      ") + "\n")
			return
		}
		for i, line := range wrap(usage, width-side, "") {
			if i > 0 {
				name = ""
			}
			fmt.Fprintf(&b, "%-*s%s\n", side, name, line)
		}
	})
	return b.String()
}

// A textFlag is a flag that takes text of some kind, which help names and errors speak of.
type textFlag struct {
	text *string
	kind string
}

func (f *textFlag) String() string     { return *f.text }
func (f *textFlag) Set(s string) error { *f.text = s; return nil }
func (f *textFlag) Type() string       { return f.kind }

// textVar defines a flag that takes text of the kind named.
func textVar(s *pflag.FlagSet, text *string, name, kind, value, usage string) {
	*text = value
	s.Var(&textFlag{text, kind}, name, usage)
}

// wordsKey marks the words that a flag takes, for completion.
const wordsKey = "words"

// takes says which words a flag takes.
func takes(s *pflag.FlagSet, name string, words ...string) { s.SetAnnotation(name, wordsKey, words) }

// A gatherer is a flag that may be given several times, each for one more. The others are refused when they are given
// twice with two values, as keys of files are: which of them is meant only who typed them knows.
type gatherer interface{ gathers() }

func (f *listFlag) gathers() {}
func (l *lineFlag) gathers() {}
func (o *outFile) gathers()  {}

// A listFlag is a textFlag that may be given several times.
type listFlag struct {
	list *[]string
	kind string
}

func (f *listFlag) String() string     { return strings.Join(*f.list, ", ") }
func (f *listFlag) Set(s string) error { *f.list = append(*f.list, s); return nil }
func (f *listFlag) Type() string       { return f.kind }
