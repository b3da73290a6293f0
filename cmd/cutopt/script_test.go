package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"syscall"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"cutopt": main})
}

// TestScripts runs the scripts of testdata/script against the real command. Each starts in a folder of its own that
// holds the project's examples.
func TestScripts(t *testing.T) {
	examples, err := filepath.Abs("../../examples")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup: func(env *testscript.Env) error {
			// What the developer's own terminal is set to must not change what the scripts see.
			env.Vars = append(env.Vars, "COLUMNS=", "NO_COLOR=", "TERM=xterm", "LANG=C.UTF-8", "PATIENCE="+patience)
			return os.CopyFS(filepath.Join(env.WorkDir, "examples"), os.DirFS(examples))
		},
		Condition: func(name string) (bool, error) {
			if name != "hangup" {
				return false, fmt.Errorf("there is no condition %q", name)
			}
			return !signal.Ignored(syscall.SIGHUP), nil // nohup has it ignored, and so do the commands run here
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits":   exits,
			"refuses": refuses,
			"width":   width,
		},
	})
}

// exits CODE COMMAND… runs a command that must exit with the code.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE COMMAND ARG...")
	}
	if code := runCode(ts, args[1:]); strconv.Itoa(code) != args[0] {
		ts.Fatalf("exit code %d, want %s", code, args[0])
	}
}

func runCode(ts *testscript.TestScript, args []string) int {
	err := ts.Exec(args[0], args[1:]...)
	var exit *exec.ExitError
	switch {
	case err == nil:
		return 0
	case errors.As(err, &exit):
		return exit.ExitCode()
	}
	ts.Fatalf("%v", err)
	return -1
}

// refuses CODE PATTERN ARG… runs "cutopt plan" with the arguments and every file asked for. The command must exit with
// the code, say something on standard error that matches the pattern (spaces match any space, line breaks too), say
// nothing on standard output, and write no file.
func refuses(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: refuses CODE PATTERN ARG...")
	}
	out := ts.MkAbs("refused")
	ts.Check(os.RemoveAll(out))
	ts.Check(os.MkdirAll(out, 0o755))
	command := append([]string{"cutopt", "plan"}, args[2:]...)
	for flag, name := range map[string]string{
		"--json": "p.json", "--map": "m.svg", "--sheet": "s.html",
		"--cuts": "c.csv",
	} {
		command = append(command, flag, filepath.Join(out, name))
	}
	exits(ts, false, append([]string{args[0]}, command...))
	pattern := strings.ReplaceAll(args[1], " ", `\s+`)
	if said := ts.ReadFile("stderr"); !regexp.MustCompile("(?s)" + pattern).MatchString(said) {
		ts.Fatalf("no match for %q in:\n%s", args[1], said)
	}
	if said := ts.ReadFile("stdout"); said != "" {
		ts.Fatalf("refused, and yet on standard output: %s", said)
	}
	left, err := os.ReadDir(out)
	ts.Check(err)
	if len(left) > 0 {
		ts.Fatalf("refused, and yet wrote %s", left[0].Name())
	}
}

// width N FILE fails when a line of the file (stdout, stderr or a name) takes more than N columns.
func width(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: width N FILE")
	}
	most, err := strconv.Atoi(args[0])
	ts.Check(err)
	for i, line := range strings.Split(ts.ReadFile(args[1]), "\n") {
		if n := columns(line); n > most {
			ts.Fatalf("line %d takes %d columns, more than %d: %s", i+1, n, most, line)
		}
	}
}
