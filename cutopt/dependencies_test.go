package cutopt_test

import (
	"os/exec"
	"strings"
	"testing"
)

const (
	own   = "plank.example/cutopt"
	inner = own + "/internal/"
)

// reaches lists the packages that a package links, the standard library's not among them.
func reaches(t *testing.T, pkg string) []string {
	t.Helper()
	out, err := exec.Command("go", "list", "-deps", "-f", "{{if not .Standard}}{{.ImportPath}}{{end}}", pkg).Output()
	if err != nil {
		t.Fatalf("go list -deps %s: %v", pkg, err)
	}
	return strings.Fields(string(out))
}

// TestDependencies holds what each package links, as the compiler sees it, against what may be promised of it: the
// checker and the verifier share no code with the solver, and importers of the model link nothing but the standard
// library.
func TestDependencies(t *testing.T) {
	if testing.Short() {
		t.Skip("go list reads all packages")
	}
	model := []string{
		own,
		own + "/measure",
		own + "/proof",
		own + "/rows",
		own + "/stock", // cut lists and their judge: a take-off holds them, as a plan holds its certificate
		inner + "enum",
		"plank.example/internal/nearest",
		inner + "outline",
	}
	with := func(more ...string) []string { return append(append([]string(nil), model...), more...) }
	spoken := func(more ...string) []string {
		return with(append([]string{own + "/words", own + "/check", inner + "recount"}, more...)...)
	}
	for _, c := range []struct {
		pkg     string
		allowed []string // "..." at the end stands for whatever follows
		reason  string
	}{
		{own, model, "the model has no algorithm"},
		{
			own + "/proof",
			[]string{own + "/proof", own + "/rows", own + "/measure"},
			"a verifier is worth what it does not " +
				"share",
		},
		{own + "/rows", []string{own + "/rows", own + "/measure"}, "the bare problem is solver-neutral"},
		{own + "/stock", []string{own + "/stock", own + "/measure"}, "sticks are judged without a solver"},
		{
			own + "/stock/cut",
			[]string{own + "/stock/cut", own + "/stock", own + "/measure", inner + "simplex"},
			"sticks are cut without floors",
		},
		{own + "/check", with(own+"/check", inner+"recount"), "the checker shares no code with the solver"},
		{own + "/planfile", with(own+"/planfile", "github.com/go-json-experiment/json..."), "files link no solver"},
		{own + "/words", spoken(), "words link no solver"},
		{own + "/outline", with(own + "/outline"), "outlines link no solver"},
		{own + "/laying", with(own + "/laying"), "reading a plan links no solver"},
		{
			own + "/takeoff", with(own+"/takeoff", own+"/stock/cut", inner+"simplex"),
			"a take-off links no solver of floors",
		},
		{
			own + "/site", with(own+"/site", own+"/laying", own+"/solve", own+"/check", inner+"...", "go.yaml.in/yaml/v4..."),
			"a state is read and worked in without files, words or sheets",
		},
		{own + "/jobfile", with(own+"/jobfile", "go.yaml.in/yaml/v4..."), "job files link YAML alone"},
		{own + "/sheet", spoken(own+"/sheet", own+"/laying", own+"/sheet/internal/draw"), "a sheet links no " +
			"solver, and no PDF, PNG or fonts"},
		{own + "/sheet/paper", spoken(own+"/sheet/paper", own+"/sheet", own+"/laying", own+"/sheet/internal/draw",
			own+"/sheet/internal/print",
			"codeberg.org/go-pdf/fpdf", "golang.org/x/..."), "paper links no solver"},
	} {
		for _, dep := range reaches(t, c.pkg) {
			ok := false
			for _, pattern := range c.allowed {
				prefix, all := strings.CutSuffix(pattern, "...")
				ok = ok || dep == pattern || all && strings.HasPrefix(dep, prefix)
			}
			if !ok {
				t.Errorf("%s reaches %s: %s", c.pkg, dep, c.reason)
			}
		}
	}
	for pkg, never := range map[string]string{inner + "bound": inner + "search", inner + "search": inner + "bound"} {
		for _, dep := range reaches(t, pkg) {
			if dep == never {
				t.Errorf("%s reaches %s: they meet in fewest alone", pkg, dep)
			}
		}
	}
}
