package main

import (
	"cmp"
	"context"
	"embed"
	"fmt"
	"io"
	"runtime/debug"
	"strings"
)

// helpTexts explain the commands, in paragraphs: a file of each name.
//
//go:embed help
var helpTexts embed.FS

// helpText returns the text that explains a command.
func helpText(name string) string {
	text, err := helpTexts.ReadFile("help/" + name + ".txt")
	if err != nil {
		panic("cutopt: the help of " + name + ": " + err.Error()) // a file is missing in this tree
	}
	return strings.TrimSpace(string(text))
}

// usage prints the commands.
func usage(w io.Writer) error {
	width := reportWidth(w)
	var b strings.Builder
	para := func(text string) { b.WriteString(strings.Join(wrap(text, width, ""), "\n") + "\n") }
	para("cutopt plans floating plank floors: what to buy, how every row is cut, and why fewer boxes cannot do.")
	b.WriteString("\n")
	const nameWidth = 29
	for _, c := range commands() {
		name := strings.TrimRight("  cutopt "+c.name+" "+c.args, " ")
		switch {
		case width < 80:
			b.WriteString(name + "\n      " + strings.Join(wrap(c.short, width-6, ""), "\n      ") + "\n")
		case len(name) < nameWidth:
			fmt.Fprintf(&b, "%-*s%s\n", nameWidth, name, c.short)
		default: // what it is for stands below, in line with that of the others
			fmt.Fprintf(&b, "%s\n%*s%s\n", name, nameWidth, "", c.short)
		}
	}
	b.WriteString("\n")
	para("A first plan, without a file:")
	const first = "cutopt plan --room 174x131 --plank 48x7 --box-planks 8"
	b.WriteString("\n  " + strings.Join(wrap(first, width-4, ""), " \\\n    ") + "\n\n")
	para(
		"\"cutopt help plan\" lists the flags, \"cutopt help job\" explains the job file. Exit codes: 0 done, 1 our fault, " +
			"2 bad input or usage, 3 no plan keeps the rules, 4 check found violations.",
	)
	_, err := io.WriteString(w, b.String())
	return err
}

func runHelp(ctx context.Context, e *env, args []string) error {
	if len(args) == 0 {
		return usage(e.stdout)
	}
	if args[0] == "job" {
		return jobHelp(e.stdout)
	}
	if args[0] == "site" {
		return siteHelp(e.stdout)
	}
	names := []string{"job", "site"}
	for _, c := range commands() {
		names = append(names, c.name)
		if c.name == args[0] {
			if c.name == "help" || c.name == "version" {
				return commandHelp(e, c.name, nil)
			}
			return c.run(ctx, e, []string{"--help"})
		}
	}
	return usagef("%q is no command and no topic%s", args[0], didYouMean(args[0], names))
}

// release is the version that .ci/release builds; empty in any other build.
var release string

func runVersion(_ context.Context, e *env, args []string) error {
	if err := positional("version", args, 0, "nothing"); err != nil {
		return err
	}
	version, goVersion := "(unknown)", ""
	if info, ok := debug.ReadBuildInfo(); ok {
		version, goVersion = cmp.Or(release, info.Main.Version), info.GoVersion
		if version == "" {
			version = "(devel)"
		}
	}
	_, err := fmt.Fprintf(e.stdout, "cutopt %s %s\n", version, goVersion)
	return err
}
