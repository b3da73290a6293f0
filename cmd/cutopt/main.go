// Command cutopt plans a floating plank floor from a job file or from flags, and checks plans.
//
//	cutopt plan JOB          plan the floor: what to buy, how every row is cut
//	cutopt continue JOB PLAN plan on from what lies, what was lost and what is here
//	cutopt compare JOB       plan it with other directions, starts, rules and products
//	cutopt takeoff JOB       list everything else to order
//	cutopt check JOB PLAN    recount a plan and verify its proof
//	cutopt export JOB        write the bare problem for other solvers
//	cutopt new FILE          write a job file with comments for a room given by flags
//
// It exits with 0 when done, 1 when it failed by its own fault, 2 on bad input or usage, 3 when no plan keeps the
// rules and 4 when check found violations.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime/debug"
	"strings"
	"syscall"

	"plank.example/cutopt/solve"
)

// Exit codes.
const (
	exitDone       = 0
	exitFault      = 1 // our fault
	exitInput      = 2 // bad input or usage
	exitNoPlan     = 3 // no plan keeps the rules
	exitViolations = 4 // check found violations
)

func main() {
	ctx, stop := context.WithCancel(context.Background())
	e := &env{stdin: os.Stdin, stdout: os.Stdout, stderr: os.Stderr, temps: new(tempFiles)}
	signals := make(chan os.Signal, 1)
	for _, s := range []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP} {
		if !signal.Ignored(s) { // as nohup has it
			signal.Notify(signals, s)
		}
	}
	go func() {
		<-signals // the first asks for the best plan so far
		stop()
		s := <-signals // the second ends the process, and leaves nothing behind
		e.temps.close()
		if number, ok := s.(syscall.Signal); ok {
			os.Exit(128 + int(number))
		}
		os.Exit(exitFault)
	}()
	os.Exit(run(ctx, e, os.Args[1:]))
}

// A command is one sub-command.
type command struct {
	name, args, short string
	run               func(ctx context.Context, env *env, args []string) error
}

// An env is what a sub-command reads from and writes to.
type env struct {
	stdin          io.Reader
	stdout, stderr io.Writer
	temps          *tempFiles
	groups         *[]flagGroup // not nil: a command only tells its flags, for completion
}

func commands() []command {
	return []command{
		{"plan", "JOB", "plan the floor: what to buy, how each row is cut", runPlan},
		{"continue", "JOB PLAN.json [SITE]", "plan on from what lies and what is here", runContinue},
		{"compare", "JOB", "plan it other ways and compare what each needs", runCompare},
		{"takeoff", "JOB [PLAN.json]", "list everything else to order, and how it is cut", runTakeoff},
		{"check", "JOB PLAN.json", "recount a plan from its pieces and verify its proof", runCheck},
		{"waste", "JOB [PLAN.json]", "what a job that is done really wasted and lost", runWaste},
		{"export", "JOB", "write the bare problem for other solvers", runExport},
		{"new", "[FILE]", "write a first job file, with comments", runNew},
		{"completion", "SHELL", "print a script that completes commands and flags", runCompletion},
		{"help", "[TOPIC]", "explain a command, or \"job\" or \"site\": the files", runHelp},
		{"version", "", "print the version", runVersion},
	}
}

// run is the whole program.
func run(ctx context.Context, e *env, args []string) int {
	return guard(e.stderr, func() error { return dispatch(ctx, e, args) })
}

// guard runs a command, tells its error and returns its exit code; a panic is our fault.
func guard(stderr io.Writer, command func() error) (code int) {
	defer func() {
		if p := recover(); p != nil {
			fmt.Fprintf(stderr, "cutopt: internal fault: %v\n%s", p, debug.Stack())
			code = exitFault
		}
	}()
	err := command()
	if err == nil {
		return exitDone
	}
	var silent *silentError
	if !errors.As(err, &silent) {
		fmt.Fprintf(readable(stderr), "cutopt: %s\n", indentRest(err.Error()))
	}
	return exitCode(err)
}

func dispatch(ctx context.Context, e *env, args []string) error {
	if len(args) == 0 {
		usage(e.stderr)
		return &silentError{code: exitInput}
	}
	name := args[0]
	switch name {
	case "-h", "--help", "-help":
		name = "help"
	case "--version", "-version", "-V":
		name = "version"
	}
	var names []string
	for _, c := range commands() {
		if c.name == name {
			return c.run(ctx, e, args[1:])
		}
		names = append(names, c.name)
	}
	if isJobFile(name) {
		return usagef("%q is no command. To plan that job: cutopt plan %s", name, name)
	}
	if meant := didYouMean(name, names); meant != "" {
		return usagef("%q is no command%s", name, meant)
	}
	return usagef(
		"%q is no command: the commands are %s, and \"cutopt help\" explains them",
		name,
		strings.Join(names, ", "),
	)
}

func isJobFile(name string) bool {
	info, err := os.Stat(name)
	return err == nil && info.Mode().IsRegular()
}

// A usageError is the user's to mend: exit code 2.
type usageError struct{ err error }

func (u *usageError) Error() string { return u.err.Error() }
func (u *usageError) Unwrap() error { return u.err }

func usagef(format string, args ...any) error { return &usageError{fmt.Errorf(format, args...)} }

// A silentError has been told already; only its exit code is left.
type silentError struct{ code int }

func (s *silentError) Error() string { return fmt.Sprintf("exit code %d", s.code) }

func exitCode(err error) int {
	var silent *silentError
	var usage *usageError
	var system *os.PathError
	switch {
	case errors.As(err, &silent):
		return silent.code
	case errors.Is(err, solve.ErrNoPlan):
		return exitNoPlan
	case errors.As(err, &usage), errors.As(err, &system): // a full disk is not our fault
		return exitInput
	}
	return exitFault
}

// indentRest indents all lines but the first, so that a message of several lines reads as one.
func indentRest(s string) string { return strings.ReplaceAll(strings.TrimRight(s, "\n"), "\n", "\n  ") }
