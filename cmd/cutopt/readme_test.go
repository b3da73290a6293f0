package main

import (
	"bytes"
	"context"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "rewrite the outputs quoted in README.md and the picture examples/den.svg")

const root = "../.."

var fence = regexp.MustCompile("(?ms)^```(\\w+)\n(.*?)^```$")

// TestReadmeFirstCommands runs the first command of README.md as it stands there, from the root of the tree. The second
// is what runs this test.
func TestReadmeFirstCommands(t *testing.T) {
	first := fence.FindStringSubmatch(readReadme(t))
	if first == nil || first[1] != "sh" {
		t.Fatal("README.md does not open with a block of shell commands")
	}
	lines := strings.Split(strings.TrimSpace(first[2]), "\n")
	if len(lines) != 2 || lines[1] != "go test ./..." {
		t.Fatalf("the first block of README.md is %q, want one command and go test ./...", lines)
	}
	cmd := exec.Command("sh", "-c", lines[0])
	cmd.Dir = root
	if out, err := cmd.CombinedOutput(); err != nil || !bytes.Contains(out, []byte("boxes")) {
		t.Fatalf("%s: %v\n%s", lines[0], err, out)
	}
}

// TestReadmeCommands runs every command that README.md shows after a $, through a shell, in a folder that holds the
// examples, and compares what it prints with what README.md quotes below it; where nothing is quoted it must only
// succeed.
func TestReadmeCommands(t *testing.T) {
	dir := t.TempDir()
	if err := os.CopyFS(filepath.Join(dir, "examples"), os.DirFS(filepath.Join(root, "examples"))); err != nil {
		t.Fatal(err)
	}
	bin := t.TempDir()
	build := exec.Command("go", "build", "-o", filepath.Join(bin, "cutopt"), ".")
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("go build: %v\n%s", err, out)
	}
	if *update { // the plan that examples/site.yaml goes on from
		plan := exec.Command(filepath.Join(bin, "cutopt"), "plan", "hall.yaml", "--json", "hall.json")
		for _, plan.Dir = range []string{filepath.Join(root, "examples"), filepath.Join(dir, "examples")} {
			again := *plan
			if out, err := again.CombinedOutput(); err != nil {
				t.Fatalf("%v\n%s", err, out)
			}
		}
	}
	commands := 0
	readme := readReadme(t)
	now := fence.ReplaceAllStringFunc(readme, func(block string) string {
		m := fence.FindStringSubmatch(block)
		if m[1] != "console" {
			return block
		}
		var said strings.Builder
		quoted := false
		for _, line := range strings.Split(strings.TrimRight(m[2], "\n"), "\n") {
			command, is := strings.CutPrefix(line, "$ ")
			if !is {
				quoted = true
				continue
			}
			commands++
			cmd := exec.Command("sh", "-c", command)
			cmd.Dir = dir
			path := "PATH=" + bin + string(os.PathListSeparator) + os.Getenv("PATH")
			cmd.Env = append(os.Environ(), "COLUMNS=80", "LC_ALL=C.UTF-8", path)
			out, err := cmd.CombinedOutput()
			if err != nil {
				t.Errorf("%s: %v\n%s", line, err, out)
			}
			said.WriteString(line + "\n" + string(out))
		}
		if !quoted { // commands alone: they must only succeed
			return block
		}
		return "```console\n" + said.String() + "```"
	})
	if commands == 0 {
		t.Error("README.md shows no command")
	}
	if now == readme {
		return
	}
	if *update {
		if err := os.WriteFile(filepath.Join(root, "README.md"), []byte(now), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	t.Errorf(
		"README.md quotes other output than the commands print now; go test ./cmd/cutopt -update rewrites it:\n%s",
		now,
	)
}

// TestReadmeProgram finds the lines of Go in README.md in the program that is run by its own test.
func TestReadmeProgram(t *testing.T) {
	source, err := os.ReadFile(filepath.Join(root, "examples/ordering/main.go"))
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range fence.FindAllStringSubmatch(readReadme(t), -1) {
		if m[1] != "go" {
			continue
		}
		if n := strings.Count(m[2], "\n"); n > 12 {
			t.Errorf("%d lines of Go, want about ten", n)
		}
		lines := "\t" + strings.ReplaceAll(strings.TrimRight(m[2], "\n"), "\n", "\n\t") + "\n"
		if !strings.Contains(string(source), lines) {
			t.Errorf("README.md shows other lines than examples/ordering/main.go:\n%s", m[2])
		}
		return
	}
	t.Error("README.md shows no Go")
}

// TestJobExample plans the job file that "cutopt help job" shows.
func TestJobExample(t *testing.T) {
	var out, errs bytes.Buffer
	if code := run(context.Background(), testEnv(jobExample, &out, &errs), []string{"plan", "-"}); code != exitDone {
		t.Errorf("exit code %d: %s\n%s", code, &errs, jobExample)
	}
}

// TestPictureIsCurrent draws the picture that README.md shows and compares it byte by byte.
func TestPictureIsCurrent(t *testing.T) {
	drawn := filepath.Join(t.TempDir(), "den.svg")
	var out, errs bytes.Buffer
	args := []string{"plan", filepath.Join(root, "examples/den.yaml"), "--map", drawn}
	if code := run(context.Background(), testEnv("", &out, &errs), args); code != exitDone {
		t.Fatalf("exit code %d: %s", code, errs.String())
	}
	now, err := os.ReadFile(drawn)
	if err != nil {
		t.Fatal(err)
	}
	picture := filepath.Join(root, "examples/den.svg")
	if *update {
		if err := os.WriteFile(picture, now, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	was, err := os.ReadFile(picture)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(now, was) {
		t.Errorf("%s is not what the command draws now; go test ./cmd/cutopt -update rewrites it", picture)
	}
}

func readReadme(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(root, "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}
