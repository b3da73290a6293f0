package main

import (
	"context"
	"fmt"
	"io"
	"runtime/debug"
	"strings"
)

// helpTexts explain the commands, in paragraphs.
var helpTexts = map[string]string{
	"plan": `Plans the floor of a job file ("-" reads standard input), or of a job given by flags alone. Prints what to ` +
		`buy, whether fewer boxes could do, the waste, and how every row is cut. A flag of the job overrides the job file.

A bare number is in the job's unit. Lengths are written as on a tape: 14'6", 12ft 6 1/2in, 22 1/4, 3.81 m, 1220mm.

--risk lays the planned floor again and again with planks that break, and says how often each number of boxes runs short.

Ctrl-C stops the search and prints the best plan so far.`,
	"compare": `Plans a job as it is and with one thing changed at a time: the direction of the rows, where they start, the ` +
		`stagger, the shortest piece, and each of the job's products. Prints a line for each, marks the best, and says what each ` +
		`rule costs.`,
	"check": `Recounts a plan against its job: cover of the floor, lengths, ends, stagger, kerfs, planks, boxes, waste. Then ` +
		`verifies the certificate, which proves how few planks could do. Neither uses the code that made the plan. ` +
		`Flags of the job that the plan was made with are given again.`,
	"export": `Writes the bare problem of a job: runs, which of them touch, and the plank, with no rooms left. --rows writes ` +
		`it as JSON, --lp as a mixed-integer program in CPLEX-LP text for any solver. The program grows with the square of ` +
		`the graduations in a plank; a coarse --grid keeps it small.`,
	"new": `Writes a job file of the rooms, the product and the rules that the flags give, with a comment beside each key and all ` +
		`rules spelled out, to change and to plan. Without a file name it goes to standard output; a file that is there is not ` +
		`overwritten.`,
	"completion": `Prints a script that completes commands, flags, words and files in bash, zsh or fish. ` +
		`For bash: source <(cutopt completion bash).`,
	"help":    "Explains a command, or with \"job\" the job file.",
	"version": "Prints the version of the command and of Go.",
}

// usage prints the commands.
func usage(w io.Writer) error {
	width := reportWidth(w)
	var b strings.Builder
	para := func(text string) { b.WriteString(strings.Join(wrap(text, width, ""), "\n") + "\n") }
	para("cutopt plans floating plank floors: what to buy, how every row is cut, and why fewer boxes cannot do.")
	b.WriteString("\n")
	for _, c := range commands() {
		name := strings.TrimRight("  cutopt "+c.name+" "+c.args, " ")
		if width < 80 {
			b.WriteString(name + "\n      " + strings.Join(wrap(c.short, width-6, ""), "\n      ") + "\n")
			continue
		}
		fmt.Fprintf(&b, "%-29s%s\n", name, c.short)
	}
	b.WriteString("\n")
	para("A first plan, without a file:")
	const first = "cutopt plan --room 174x131 --plank 48x7 --box-planks 8"
	b.WriteString("\n  " + strings.Join(wrap(first, width-4, ""), " \\\n    ") + "\n\n")
	para("\"cutopt help plan\" lists the flags, \"cutopt help job\" explains the job file. Exit codes: 0 done, 1 our fault, 2 bad input or usage, 3 no plan keeps the " +
		"rules, 4 check found violations.")
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
	names := []string{"job"}
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

func runVersion(_ context.Context, e *env, args []string) error {
	if err := positional("version", args, 0, "nothing"); err != nil {
		return err
	}
	version, goVersion := "(unknown)", ""
	if info, ok := debug.ReadBuildInfo(); ok {
		version, goVersion = info.Main.Version, info.GoVersion
		if version == "" {
			version = "(devel)"
		}
	}
	_, err := fmt.Fprintf(e.stdout, "cutopt %s %s\n", version, goVersion)
	return err
}
