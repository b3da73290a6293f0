package main

import (
	"context"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/pflag"
)

// completionShells are the shells that completion scripts are written for.
var completionShells = map[string]func([]completable) string{
	"bash": bashCompletion, "zsh": zshCompletion, "fish": fishCompletion,
}

// A completable is a command with what may follow it.
type completable struct {
	command
	words []string // after it, in place of files
	flags []completableFlag
}

type completableFlag struct {
	name, usage, kind string
	bool              bool
	words             []string // nil where anything may follow
}

// runCompletion prints a script that completes commands, flags, words and files.
func runCompletion(ctx context.Context, e *env, args []string) error {
	if _, done, err := parseFlags(e, "completion", args); err != nil || done {
		return err
	}
	names := []string{"bash", "zsh", "fish"}
	if len(args) != 1 {
		return usagef("completion needs the name of a shell: %s", strings.Join(names, ", "))
	}
	script, ok := completionShells[args[0]]
	if !ok {
		return usagef(
			"completion is written for %s, not %q%s",
			strings.Join(names, ", "),
			args[0],
			didYouMean(args[0], names),
		)
	}
	all, err := completables(ctx)
	if err != nil {
		return err
	}
	_, err = io.WriteString(e.stdout, script(all))
	return err
}

// completables lists the commands with their flags.
func completables(ctx context.Context) ([]completable, error) {
	var all []completable
	for _, c := range commands() {
		var groups []flagGroup
		if err := c.run(ctx, &env{stdout: io.Discard, stderr: io.Discard, groups: &groups}, nil); err != nil &&
			groups == nil {
			groups = nil // a command without flags
		}
		item := completable{command: c, words: wordsAfter(c.name)}
		for _, g := range groups {
			g.set.VisitAll(func(f *pflag.Flag) {
				if !f.Hidden {
					kind, usage := pflag.UnquoteUsage(f)
					item.flags = append(item.flags, completableFlag{
						name: f.Name, usage: usage, kind: kind, bool: f.Value.Type() == "bool", words: f.Annotations[wordsKey],
					})
				}
			})
		}
		all = append(all, item)
	}
	return all, nil
}

// wordsAfter returns what may follow a command that takes no files.
func wordsAfter(name string) []string {
	switch name {
	case "help":
		words := []string{"job", "site"}
		for _, c := range commands() {
			words = append(words, c.name)
		}
		return words
	case "completion":
		return []string{"bash", "zsh", "fish"}
	case "version":
		return []string{}
	}
	return nil
}

func bashCompletion(all []completable) string {
	var b strings.Builder
	b.WriteString(`# Completion of cutopt for bash: source it, or copy it to the folder of completions.
_cutopt() {
  local current=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} words=
  if [ "$COMP_CWORD" -eq 1 ]; then
`)
	var names []string
	for _, c := range all {
		names = append(names, c.name)
	}
	fmt.Fprintf(&b, "    COMPREPLY=($(compgen -W '%s' -- \"$current\"))\n    return\n  fi\n", strings.Join(names, " "))
	b.WriteString("  case ${COMP_WORDS[1]} in\n")
	for _, c := range all {
		fmt.Fprintf(&b, "  %s)\n", c.name)
		var flags []string
		b.WriteString("    case $before in\n")
		for _, f := range c.flags {
			flags = append(flags, "--"+f.name)
			switch {
			case f.words != nil:
				fmt.Fprintf(
					&b,
					"    --%s) COMPREPLY=($(compgen -W '%s' -- \"$current\")); return ;;\n",
					f.name,
					strings.Join(f.words, " "),
				)
			case f.kind == "file":
				fmt.Fprintf(&b, "    --%s) COMPREPLY=($(compgen -f -- \"$current\")); return ;;\n", f.name)
			case !f.bool:
				fmt.Fprintf(&b, "    --%s) return ;;\n", f.name)
			}
		}
		b.WriteString("    esac\n")
		fmt.Fprintf(&b, "    words='%s' ;;\n", strings.Join(append(flags, c.words...), " "))
	}
	b.WriteString(`  esac
  case $current in
  -*) COMPREPLY=($(compgen -W "$words" -- "$current")) ;;
  *) case ${COMP_WORDS[1]} in
    help | completion | version) COMPREPLY=($(compgen -W "$words" -- "$current")) ;;
    *) COMPREPLY=($(compgen -f -- "$current")) ;;
    esac ;;
  esac
}
complete -o filenames -F _cutopt cutopt
`)
	return b.String()
}

func zshCompletion(all []completable) string {
	quote := func(s string) string {
		return strings.NewReplacer(`\`, `\\`, `'`, `'\''`, `[`, `\[`, `]`, `\]`, `:`, `\:`).Replace(s)
	}
	var b strings.Builder
	b.WriteString(
		"#compdef cutopt\n# Completion of cutopt for zsh: save it as _cutopt in a folder of $fpath.\n_cutopt() {\n  local " +
			"-a commands\n  commands=(\n",
	)
	for _, c := range all {
		fmt.Fprintf(&b, "    '%s:%s'\n", c.name, quote(c.short))
	}
	b.WriteString("  )\n  if (( CURRENT == 2 )); then\n    _describe command commands\n    return\n  fi\n" +
		"  local command=$words[2]\n  shift words\n  (( CURRENT-- ))\n  case $command in\n")
	for _, c := range all {
		fmt.Fprintf(&b, "  %s)\n    _arguments", c.name)
		for _, f := range c.flags {
			switch {
			case f.bool:
				fmt.Fprintf(&b, " \\\n      '--%s[%s]'", f.name, quote(f.usage))
			case f.words != nil:
				fmt.Fprintf(&b, " \\\n      '--%s=[%s]:%s:(%s)'", f.name, quote(f.usage), f.kind, strings.Join(f.words, " "))
			case f.kind == "file":
				fmt.Fprintf(&b, " \\\n      '--%s=[%s]:%s:_files'", f.name, quote(f.usage), f.kind)
			default:
				fmt.Fprintf(&b, " \\\n      '--%s=[%s]:%s: '", f.name, quote(f.usage), f.kind)
			}
		}
		if c.words != nil {
			fmt.Fprintf(&b, " \\\n      '1:word:(%s)'\n    ;;\n", strings.Join(c.words, " "))
		} else {
			b.WriteString(" \\\n      '*:file:_files'\n    ;;\n")
		}
	}
	b.WriteString("  esac\n}\n_cutopt \"$@\"\n")
	return b.String()
}

func fishCompletion(all []completable) string {
	quote := func(s string) string { return strings.NewReplacer(`\`, `\\`, `'`, `\'`).Replace(s) }
	var b strings.Builder
	b.WriteString("# Completion of cutopt for fish: save it as cutopt.fish in ~/.config/fish/completions.\n")
	for _, c := range all {
		fmt.Fprintf(&b, "complete -c cutopt -n __fish_use_subcommand -f -a %s -d '%s'\n", c.name, quote(c.short))
		seen := "-n '__fish_seen_subcommand_from " + c.name + "'"
		if c.words != nil {
			fmt.Fprintf(&b, "complete -c cutopt %s -f -a '%s'\n", seen, strings.Join(c.words, " "))
		}
		for _, f := range c.flags {
			takes := " -x"
			switch {
			case f.bool:
				takes = ""
			case f.words != nil:
				takes = " -x -a '" + strings.Join(f.words, " ") + "'"
			case f.kind == "file":
				takes = " -r -F"
			}
			fmt.Fprintf(&b, "complete -c cutopt %s -l %s%s -d '%s'\n", seen, f.name, takes, quote(f.usage))
		}
	}
	return b.String()
}
