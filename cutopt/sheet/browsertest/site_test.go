package browsertest

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"plank.example/cutopt/sheet"
)

// command builds the command and returns a function that runs it in a folder.
func command(t *testing.T, dir string) func(args ...string) string {
	t.Helper()
	bin := filepath.Join(t.TempDir(), "cutopt")
	build := exec.Command("go", "build", "-o", bin, "./cmd/cutopt")
	build.Dir = filepath.Join("..", "..", "..")
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	return func(args ...string) string {
		t.Helper()
		run := exec.Command(bin, args...)
		run.Dir = dir
		out, err := run.Output()
		if err != nil {
			t.Fatalf("cutopt %q: %v", args, err)
		}
		return string(out)
	}
}

// tick ticks rows as a thumb does.
func tick(t *testing.T, ctx context.Context, rows ...string) {
	t.Helper()
	for _, row := range rows {
		eval[bool](t, ctx, "document.querySelector('#"+row+" input').click(), true")
	}
}

// TestTicksPlanOn goes the way of a layer: ticks on the sheet, the text that they are copied as, saved as a file; the
// command plans on from it, and the new sheet has those rows done and goes on from there.
func TestTicksPlanOn(t *testing.T) {
	dir := t.TempDir()
	job, err := os.ReadFile(filepath.Join("..", "..", "..", "examples", "hall.yaml"))
	if err == nil {
		err = os.WriteFile(filepath.Join(dir, "hall.yaml"), job, 0o600)
	}
	if err != nil {
		t.Fatal(err)
	}
	cutopt := command(t, dir)
	cutopt("plan", "hall.yaml", "--json", "hall.json", "--sheet", "hall.html")

	ctx, w := open(t, "file://"+filepath.Join(dir, "hall.html"))
	text := func() string { return eval[string](t, ctx, "document.getElementById('text').value") }
	if got, want := text(), "job: hall.yaml\nplan: hall.json\nhappened: |\n"; got != want {
		t.Errorf("without a tick the text is %q, want %q", got, want)
	}
	// Row 5 is ticked before row 4: only rows that lie one after the other from the first are told.
	tick(t, ctx, "row-1-1", "row-1-2", "row-1-3", "row-1-5", "row-2-1")
	if got, want := text(), "job: hall.yaml\nplan: hall.json\nhappened: |\n  Hall 3\n  Broom closet 1\n"; got != want {
		t.Errorf("the text is %q, want %q", got, want)
	}
	tick(t, ctx, "row-1-4", "row-2-1")
	state := text()
	if want := "job: hall.yaml\nplan: hall.json\nhappened: |\n  Hall 5\n"; state != want {
		t.Errorf("the text is %q, want %q", state, want)
	}

	// The button copies it, or marks it where the clipboard is refused or there is none.
	eval[bool](t, ctx, "document.getElementById('copy').click(), true")
	said := "new Promise(r => setTimeout(() => r(document.getElementById('copied').textContent), 300))"
	if got := await(t, ctx, said); !strings.HasPrefix(got, "Copied") && !strings.HasPrefix(got, "The text is marked") {
		t.Errorf("the button says %q", got)
	}
	eval[bool](t, ctx, "Object.defineProperty(navigator, 'clipboard', {value: undefined}), "+
		"document.getElementById('copy').click(), true")
	if got := await(t, ctx, said); !strings.HasPrefix(got, "Copied") && !strings.HasPrefix(got, "The text is marked") {
		t.Errorf("without a clipboard the button says %q", got)
	}
	if got := eval[string](t, ctx, "getSelection().toString() || "+
		"text.value.slice(text.selectionStart, text.selectionEnd)"); got != state {
		t.Errorf("marked is %q, want %q", got, state)
	}
	if found := w.all(); len(found) > 0 {
		t.Errorf("the page is not quiet: %q", found)
	}

	// Saved as it is, with a line more typed below, it is what the command goes on from.
	state += "  lost 40\n"
	if err := os.WriteFile(filepath.Join(dir, "site.yaml"), []byte(state), 0o600); err != nil {
		t.Fatal(err)
	}
	out := cutopt("continue", "site.yaml", "--json", "on.json", "--sheet", "on.html")
	if !strings.HasPrefix(out, "What is here will do") {
		t.Errorf("the answer begins with %.60q", out)
	}
	cutopt("check", "hall.yaml", "on.json")

	ctx, w = open(t, "file://"+filepath.Join(dir, "on.html"))
	if h2 := eval[string](t, ctx, "document.querySelector('main h2').textContent"); h2 != "Will it do, and what changed" {
		t.Errorf("the new sheet begins with %q", h2)
	}
	if got := eval[string](t, ctx, "[...document.querySelectorAll('.step.lies')].map(e => e.id).join()"); got !=
		"row-1-1,row-1-2,row-1-3,row-1-4,row-1-5" {
		t.Errorf("these rows are told to lie: %s", got)
	}
	if got := eval[string](t, ctx, "document.getElementById('figure').textContent"); !strings.HasPrefix(got, "5 of 17") {
		t.Errorf("the figure is %q", got)
	}
	eval[bool](t, ctx, "document.getElementById('next').click(), true")
	if id := eval[string](t, ctx, "document.activeElement.closest('.step').id"); id != "row-1-6" {
		t.Errorf("the next row is %s, want row-1-6", id)
	}
	tick(t, ctx, "row-1-6")
	if got, want := text(), "job: hall.yaml\nplan: on.json\nhappened: |\n  Hall 6\n"; got != want {
		t.Errorf("the text is %q, want %q", got, want)
	}
	eval[bool](t, ctx, "window.confirm = () => true, document.getElementById('reset').click(), true")
	if n := eval[int](t, ctx, "document.querySelectorAll('input[data-pieces]:checked').length"); n != 5 {
		t.Errorf("%d rows are ticked once all is unticked, want the 5 that lie", n)
	}
	if found := w.all(); len(found) > 0 {
		t.Errorf("the new page is not quiet: %q", found)
	}
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(375, 800, chromedp.EmulateMobile)); err != nil {
		t.Fatal(err)
	}
	if over := eval[string](t, ctx, beyond); over != "" {
		t.Errorf("these reach beyond the right edge: %s", over)
	}
	_, printedText := printed(t, ctx, sheet.PaperLetter)
	if strings.Contains(printedText, "Copy it") || !strings.Contains(printedText, "What happened") {
		t.Error("printed, the sheet has the button, or lacks the form")
	}
}

// await returns what a promise of the page comes to.
func await(t *testing.T, ctx context.Context, promise string) string {
	t.Helper()
	eval[bool](t, ctx, "window.said = null, "+promise+".then(v => { window.said = v }), true")
	for range 100 {
		if v := eval[string](t, ctx, "window.said === null ? '' : 'got ' + window.said"); v != "" {
			return strings.TrimPrefix(v, "got ")
		}
		time.Sleep(20 * time.Millisecond)
	}
	return ""
}
