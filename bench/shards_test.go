package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"go.yaml.in/yaml/v4"
)

// TestManifest reads the indexed job as a cluster would, runs the command line of every pod here on a small range of
// seeds, and merges: the totals are those of the run in one piece, byte for byte.
func TestManifest(t *testing.T) {
	data, err := os.ReadFile("shards/job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var job struct {
		Kind string
		Spec struct {
			CompletionMode string `yaml:"completionMode"`
			Completions    int
			Template       struct {
				Spec struct {
					Containers []struct{ Args []string }
				}
			}
		}
	}
	first, _, _ := strings.Cut(string(data), "\n---\n")
	if err := yaml.Unmarshal([]byte(first), &job); err != nil {
		t.Fatal(err)
	}
	if job.Kind != "Job" || job.Spec.CompletionMode != "Indexed" || len(job.Spec.Template.Spec.Containers) != 1 {
		t.Fatalf("%+v", job)
	}
	const shards = 4
	dir := t.TempDir()
	of := fmt.Sprintf("/%d", job.Spec.Completions)
	args := func(index int, edit func(string) string) []string {
		var out []string
		for _, a := range job.Spec.Template.Spec.Containers[0].Args {
			a = strings.ReplaceAll(a, "$(JOB_COMPLETION_INDEX)", fmt.Sprint(index))
			a = strings.ReplaceAll(a, "--to=100000000", "--to=24")
			out = append(out, edit(strings.ReplaceAll(a, "/results/", dir+"/")))
		}
		return out
	}
	merge := []string{"merge", "-o", filepath.Join(dir, "total.json")}
	cut := 0
	for k := range shards {
		must(t, args(k, func(a string) string {
			if strings.HasPrefix(a, "--shard=") {
				if !strings.HasSuffix(a, of) {
					t.Fatalf("%s: the job has %d completions", a, job.Spec.Completions)
				}
				cut++
				return strings.TrimSuffix(a, of) + fmt.Sprintf("/%d", shards)
			}
			return a
		})...)
		merge = append(merge, filepath.Join(dir, fmt.Sprintf("shard-%d.json", k)))
	}
	if cut != shards {
		t.Errorf("%d of %d pods have a shard", cut, shards)
	}
	must(t, merge...)
	var whole []string
	for _, a := range args(0, func(a string) string { return a }) {
		switch {
		case strings.HasPrefix(a, "--shard="):
		case strings.HasPrefix(a, "--summary="):
			whole = append(whole, "--summary="+filepath.Join(dir, "whole.json"))
		default:
			whole = append(whole, a)
		}
	}
	must(t, whole...)
	if read(t, filepath.Join(dir, "total.json")) != read(t, filepath.Join(dir, "whole.json")) {
		t.Error("the pods together have other totals than the run in one piece")
	}
}
