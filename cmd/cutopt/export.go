package main

import (
	"context"

	"github.com/spf13/pflag"

	"plank.example/cutopt/solve"
)

func runExport(_ context.Context, e *env, args []string) error {
	jf := newJobFlags()
	hide(jf.set, "name", "price", "spare", "aims", "in-line", "prefer-stagger", "round", "waste-allowance", "pattern",
		"max-along", "max-across")
	set := pflag.NewFlagSet("export", pflag.ContinueOnError)
	set.SortFlags = false
	var rows, lp string
	textVar(set, &rows, "rows", "file", "", "runs, neighbours and plank as JSON; - is standard output")
	textVar(
		set,
		&lp,
		"lp",
		"file",
		"",
		"mixed-integer program (the step model of package rows) in CPLEX-LP text; - is standard output",
	)
	rest, done, err := parseFlags(e, "export", args, flagGroup{"The job:", jf.set}, flagGroup{"What to write:", set})
	if err != nil || done {
		return err
	}
	path, err := jobPath(jf, "export", rest)
	if err != nil {
		return err
	}
	switch {
	case rows == "" && lp == "":
		return usagef("export needs --rows FILE.json or --lp FILE.lp: what to write")
	}
	var asked []output
	for _, o := range []output{{flag: "rows", path: rows}, {flag: "lp", path: lp}} {
		if o.path != "" {
			asked = append(asked, o)
		}
	}
	if err := distinct(asked, append(jf.outlines, path)); err != nil {
		return err
	}
	src, err := jf.job(e, path)
	if err != nil {
		return err
	}
	instance, err := solve.Instance(src.job)
	if err != nil {
		return src.inputError(err)
	}
	var files []output
	for _, o := range []output{
		{"rows", rows, instance.Encode},
		{"lp", lp, instance.WriteStepLP},
	} {
		switch o.path {
		case "":
		case "-":
			if err := o.write(e.stdout); err != nil {
				return err
			}
		default:
			files = append(files, o)
		}
	}
	return writeAll(e.temps, files)
}
