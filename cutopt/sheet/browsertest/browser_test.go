package browsertest

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"

	"plank.example/cutopt/jobfile"
	"plank.example/cutopt/sheet"
	"plank.example/cutopt/solve"
)

// kitchen is a room with an island, with names that would be a script if they were not escaped.
const kitchen = `
name: "<script>document.title='broken'</script>"
unit: in
plank: {length: 48, width: 7}
box: {planks: 8}
rooms:
  - name: "<script>alert(1)</script>"
    size: 14' x 12'
    islands:
      - name: "<img src=http://203.0.113.1/x.png>"
        corners: [[60, 60], [100, 60], [100, 90], [60, 90]]
`

// sheetFile writes the job sheet of the kitchen to a file and returns its address.
func sheetFile(t *testing.T) string { return kitchenFile(t, (*sheet.Sheet).HTML) }

// pocketFile does the same with the pocket sheet.
func pocketFile(t *testing.T) string { return kitchenFile(t, (*sheet.Sheet).Pocket) }

func kitchenFile(t *testing.T, document func(*sheet.Sheet, io.Writer) error) string {
	return jobFile(t, strings.NewReader(kitchen), nil, document)
}

func jobFile(
	t *testing.T, text io.Reader, opt *sheet.Options, document func(*sheet.Sheet, io.Writer) error,
) string {
	t.Helper()
	job, err := jobfile.Decode(text, "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	result, err := solve.Job(context.Background(), job, nil)
	if err != nil {
		t.Fatal(err)
	}
	var buf bytes.Buffer
	s, err := sheet.New(job, result.Plan, opt)
	if err == nil {
		err = document(s, &buf)
	}
	if err != nil {
		t.Fatal(err)
	}
	return write(t, "sheet.html", buf.String())
}

func write(t *testing.T, name, text string) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return "file://" + file
}

// A watch records what a page should not do.
type watch struct {
	mu    sync.Mutex
	found []string
}

func (w *watch) add(format string, args ...any) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.found = append(w.found, fmt.Sprintf(format, args...))
}

func (w *watch) all() []string {
	w.mu.Lock()
	defer w.mu.Unlock()
	return append([]string(nil), w.found...)
}

// see takes note of errors, of anything told to the console, and of every request beyond the file itself.
func (w *watch) see(page string) func(any) {
	return func(ev any) {
		switch ev := ev.(type) {
		case *runtime.EventExceptionThrown:
			w.add("exception: %s", ev.ExceptionDetails.Text)
		case *runtime.EventConsoleAPICalled:
			w.add("console: %s", ev.Type)
		case *log.EventEntryAdded:
			w.add("log: %s", ev.Entry.Text)
		case *network.EventRequestWillBeSent:
			if u := ev.Request.URL; !strings.HasPrefix(u, page) && !strings.HasPrefix(u, "data:") {
				w.add("request: %s", u)
			}
		}
	}
}

// open starts a browser at a page, with its profile kept in the test's own folder.
func open(t *testing.T, page string) (context.Context, *watch) {
	t.Helper()
	path := ""
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if p, err := exec.LookPath(name); err == nil {
			path = p
			break
		}
	}
	if path == "" {
		t.Skip("no Chromium is installed")
	}
	ctx, stop := context.WithTimeout(context.Background(), 2*time.Minute)
	t.Cleanup(stop)
	ctx, stop = chromedp.NewExecAllocator(
		ctx,
		chromedp.ExecPath(path),
		chromedp.Headless,
		chromedp.NoSandbox,
		chromedp.DisableGPU,
		chromedp.NoFirstRun,
		chromedp.WindowSize(1100, 900),
	)
	t.Cleanup(stop)
	ctx, stop = chromedp.NewContext(ctx)
	t.Cleanup(stop)
	w := new(watch)
	if err := chromedp.Listen(ctx, w.see(page)); err != nil {
		t.Fatal(err)
	}
	if err := chromedp.Do(ctx, chromedp.Navigate(page)); err != nil {
		t.Fatal(err)
	}
	return ctx, w
}

// eval runs an expression in the page.
func eval[T any](t *testing.T, ctx context.Context, expression string) T {
	t.Helper()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](expression))
	if err != nil {
		t.Fatalf("%s: %v", expression, err)
	}
	return v
}

func TestQuiet(t *testing.T) {
	page := sheetFile(t)
	ctx, w := open(t, page)
	if title := eval[string](t, ctx, "document.title"); !strings.Contains(title, "<script>") {
		t.Errorf("the title is %q: the job's name did not stay text", title)
	}
	if n := eval[int](t, ctx, "document.querySelectorAll('img, main script, iframe, object').length"); n != 0 {
		t.Errorf("names became %d elements", n)
	}
	if h1 := eval[string](t, ctx,
		"document.querySelector('h1').textContent"); h1 != "<script>document.title='broken'</script>" {
		t.Errorf("the heading is %q", h1)
	}
	if found := w.all(); len(found) > 0 {
		t.Errorf("the page is not quiet: %q", found)
	}
}

// A page that does what the sheet must not do is noticed: the watch of the tests above sees something.
func TestWatchSees(t *testing.T) {
	page := write(
		t,
		"loud.html",
		`<title>x</title>
<script>console.log("a"); fetch("http://127.0.0.1:9/").catch(() => {}); throw new Error("b")</script>`,
	)
	ctx, w := open(t, page)
	eval[int](t, ctx, "1")
	deadline := time.Now().Add(10 * time.Second)
	for {
		found := strings.Join(w.all(), "\n")
		if strings.Contains(found, "exception:") && strings.Contains(found, "console:") &&
			strings.Contains(found, "request: http://127.0.0.1:9/") {
			return
		}
		if time.Now().After(deadline) {
			t.Fatalf("only this was seen: %q", found)
		}
		time.Sleep(50 * time.Millisecond)
	}
}

// Ticks survive a reload and move the figure; those of another plan are not touched.
func TestTicksPersist(t *testing.T) {
	ctx, _ := open(t, sheetFile(t))
	click := func(selector string) { eval[bool](t, ctx, "document.querySelector("+selector+").click(), true") }
	before := eval[string](t, ctx, "document.getElementById('figure').textContent")
	click("'#row-1-1 input'")
	click("'#row-1-2 input'")
	click("'#before input'")
	after := eval[string](t, ctx, "document.getElementById('figure').textContent")
	if !strings.HasPrefix(before, "0 of") || !strings.HasPrefix(after, "2 of") {
		t.Errorf("the figure went from %q to %q", before, after)
	}
	pieces := eval[int](
		t,
		ctx,
		"+document.querySelector('#row-1-1 input').dataset.pieces + "+
			"+document.querySelector('#row-1-2 input').dataset.pieces",
	)
	if v := eval[int](t, ctx, "document.getElementById('bar').value"); v != pieces {
		t.Errorf("the bar stands at %d, the two rows have %d pieces", v, pieces)
	}
	if err := chromedp.Do(ctx, chromedp.Reload()); err != nil {
		t.Fatal(err)
	}
	if n := eval[int](t, ctx, "document.querySelectorAll('input[data-key]:checked').length"); n != 3 {
		t.Errorf("%d ticks after loading again, want 3", n)
	}
	if again := eval[string](t, ctx, "document.getElementById('figure').textContent"); again != after {
		t.Errorf("the figure is %q after loading again, was %q", again, after)
	}
	keys := eval[string](t, ctx, "Object.keys(localStorage).join()")
	if !regexp.MustCompile(`^cutopt-[0-9a-f]{16}$`).MatchString(keys) {
		t.Errorf("the storage has the keys %q", keys)
	}
	eval[bool](t, ctx, "document.getElementById('next').click(), true")
	if id := eval[string](t, ctx, "document.activeElement.closest('.step').id"); id != "row-1-3" {
		t.Errorf("the next row is %s, want row-1-3", id)
	}
	// A done row is folded on the screen.
	if h := eval[float64](t, ctx, "document.querySelector('#row-1-1 .lines').getBoundingClientRect().height"); h != 0 {
		t.Errorf("the lines of a done row are %v pixels high", h)
	}
}

// On a telephone 375 pixels wide nothing but the pictures and tables in their own frames scrolls sideways, and boxes
// are large enough for a thumb.
func TestPhone(t *testing.T) {
	ctx, _ := open(t, sheetFile(t))
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(375, 800, chromedp.EmulateMobile)); err != nil {
		t.Fatal(err)
	}
	if w := eval[int](t, ctx, "document.documentElement.scrollWidth"); w > 375 {
		t.Errorf("the page is %d pixels wide", w)
	}
	small := eval[int](
		t,
		ctx,
		"[...document.querySelectorAll('main label, button')].filter("+
			"e => e.getBoundingClientRect().height < 44).length",
	)
	if small > 0 {
		t.Errorf("%d labels and buttons are lower than 44 pixels", small)
	}
}

// Everything that can be operated has a name, every field of a table head its scope, and headings go down by one.
func TestAccessible(t *testing.T) {
	t.Run("sheet", func(t *testing.T) { accessible(t, sheetFile(t)) })
	t.Run("pocket", func(t *testing.T) { accessible(t, pocketFile(t)) })
}

func accessible(t *testing.T, page string) {
	t.Helper()
	ctx, _ := open(t, page)
	for what, expression := range map[string]string{
		"inputs without a label": "[...document.querySelectorAll('input')].filter(e => !e.labels.length || " +
			"!e.labels[0].textContent.trim()).length",
		"head cells without scope": "[...document.querySelectorAll('th')].filter(e => !e.scope).length",
		"pictures without a title": "[...document.querySelectorAll('svg')].filter(e => " +
			"!e.querySelector('title').textContent.trim()).length",
		"sections without a heading": "[...document.querySelectorAll('section')].filter(e => " +
			"!document.getElementById(e.getAttribute('aria-labelledby'))).length",
		"ids used twice": "(() => { const ids = [...document.querySelectorAll('[id]')].map(e => e.id); " +
			"return ids.length - new Set(ids).size })()",
		"links that lead nowhere": "[...document.querySelectorAll('a')].filter(e => " +
			"!document.getElementById(e.getAttribute('href').slice(1))).length",
		"headings that skip a level": "(() => { let last = 0, n = 0; for (const h of " +
			"document.querySelectorAll('h1,h2,h3,h4')) { const l = +h.tagName[1]; if (l > last + 1) n++; last = l } " +
			"return n })()",
		"pages without a language": "document.documentElement.lang ? 0 : 1",
		"frames not reached by keyboard": "[...document.querySelectorAll('figure, .table')].filter(" +
			"e => e.tabIndex !== 0).length",
		"texts with less contrast than 4.5": contrast,
	} {
		if n := eval[int](t, ctx, expression); n != 0 {
			t.Errorf("%d %s", n, what)
		}
	}
}

// contrast counts texts that stand out from their ground less than WCAG 2.1, success criterion 1.4.3, asks for. The
// formulas are those of its definitions of contrast ratio and relative luminance.
const contrast = `(() => {
  const channel = v => (v /= 255) <= 0.03928 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
  const light = c => { const [r, g, b] = c.match(/\d+(\.\d+)?/g).map(Number);
    return 0.2126 * channel(r) + 0.7152 * channel(g) + 0.0722 * channel(b) };
  const ground = e => { for (; e; e = e.parentElement) {
    const c = getComputedStyle(e).backgroundColor; if (c !== 'rgba(0, 0, 0, 0)') return c }
    return 'rgb(255, 255, 255)' };
  let n = 0;
  for (const e of document.querySelectorAll('p, li, td, th, h1, h2, h3, span, button:not(:disabled), a, label')) {
    const a = light(getComputedStyle(e).color), b = light(ground(e));
    if ((Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05) < 4.5) n++;
  }
  return n })()`

// Printed, the sheet has a handful of pages, shows done rows in full, and leaves out what only a screen can use.
func TestPrint(t *testing.T) {
	ctx, _ := open(t, sheetFile(t))
	eval[bool](t, ctx, "document.querySelector('#row-1-1 input').click(), true")
	pages, text := printed(t, ctx, sheet.PaperLetter)
	if pages < 4 || pages > 12 {
		t.Errorf("%d pages, want 4 to 12", pages)
	}
	first, _, _ := strings.Cut(text, "Row 2 of")
	if _, row, ok := strings.Cut(first, "Row 1 of"); !ok || !strings.Contains(row, "Start") {
		t.Error("the lines of a done row are not printed")
	}
	for _, gone := range []string{"Next row", "Untick all"} {
		if strings.Contains(text, gone) {
			t.Errorf("%q is printed", gone)
		}
	}
	if !strings.Contains(text, "Starting wall") || !strings.Contains(text, "Cautions") {
		t.Error("the print lacks the map or the cautions")
	}
}

// printed returns how many pages of the paper that it asks for the page takes, and their text.
func printed(t *testing.T, ctx context.Context, paper sheet.Paper) (pages int, text string) {
	t.Helper()
	if _, err := exec.LookPath("pdftotext"); err != nil {
		t.Skip("pdftotext of poppler-utils is not installed")
	}
	data, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPreferCSSPageSize()))
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "print.pdf")
	if err := os.WriteFile(file, data, 0o600); err != nil {
		t.Fatal(err)
	}
	info, err := exec.Command("pdfinfo", file).Output()
	if err != nil {
		t.Fatal(err)
	}
	if m := regexp.MustCompile(`Pages:\s+(\d+)`).FindSubmatch(info); m != nil {
		fmt.Sscan(string(m[1]), &pages)
	}
	if !bytes.Contains(bytes.ToLower(info), []byte("("+paper.String()+")")) {
		t.Errorf("not on %v:\n%s", paper, info)
	}
	said, err := exec.Command("pdftotext", "-layout", file, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return pages, string(said)
}

// The pocket sheet fits a telephone without scrolling sideways, is quiet, and prints the room on one page.
func TestPocket(t *testing.T) {
	ctx, w := open(t, pocketFile(t))
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(375, 800, chromedp.EmulateMobile)); err != nil {
		t.Fatal(err)
	}
	if over := eval[string](t, ctx, beyond); over != "" {
		t.Errorf("these reach beyond the right edge: %s", over)
	}
	if n := eval[int](t, ctx, "document.querySelectorAll('tr[id]').length"); n == 0 {
		t.Error("no line has a name that a link could lead to")
	}
	if found := w.all(); len(found) > 0 {
		t.Errorf("the page is not quiet: %q", found)
	}
	if pages, _ := printed(t, ctx, sheet.PaperLetter); pages != 1 {
		t.Errorf("printed it takes %d pages, want 1", pages)
	}
}

// Rooms share the pages of the pocket sheet as they do in its PDF, on paper of either size.
func TestPocketOfRooms(t *testing.T) {
	for _, row := range []struct {
		example string
		paper   sheet.Paper
		pages   int
	}{{"hall", sheet.PaperLetter, 1}, {"hall", sheet.PaperA4, 1}, {"flat", sheet.PaperA4, 2}} {
		file, err := os.Open(filepath.Join("..", "..", "..", "examples", row.example+".yaml"))
		if err != nil {
			t.Fatal(err)
		}
		defer file.Close()
		ctx, _ := open(t, jobFile(t, file, &sheet.Options{Paper: row.paper}, (*sheet.Sheet).Pocket))
		if pages, _ := printed(t, ctx, row.paper); pages != row.pages {
			t.Errorf("%s on %s: printed it takes %d pages, want %d", row.example, row.paper, pages, row.pages)
		}
	}
}

// beyond names the elements that reach beyond the right edge of the window, other than what is hidden.
const beyond = `[...document.querySelectorAll('body *')].filter(e => {
  if (e.closest('svg') && !e.matches('svg')) return false;
  const r = e.getBoundingClientRect();
  return r.width > 0 && r.right > window.innerWidth + 0.5
}).map(e => e.tagName + '.' + e.getAttribute('class')).join()`

// A tap on a row of the map goes to its step, without a script; the map can be made larger, and then scrolls in its own
// frame.
func TestMapOnPhone(t *testing.T) {
	for name, page := range map[string]string{"sheet": sheetFile(t), "pocket": pocketFile(t)} {
		ctx, _ := open(t, page)
		if err := chromedp.Do(ctx, chromedp.EmulateViewport(375, 800, chromedp.EmulateMobile)); err != nil {
			t.Fatal(err)
		}
		if over := eval[string](t, ctx, beyond); over != "" {
			t.Errorf("%s: these reach beyond the right edge: %s", name, over)
		}
		eval[bool](t, ctx, `document.querySelector('svg a[href="#row-1-7"] path')
			.dispatchEvent(new MouseEvent('click', {bubbles: true})), true`)
		if hash := eval[string](t, ctx, "location.hash"); hash != "#row-1-7" {
			t.Errorf("%s: a tap on row 7 goes to %q", name, hash)
		}
		y := eval[float64](t, ctx, "document.getElementById('row-1-7').getBoundingClientRect().top")
		if y < -1 || y > 700 {
			t.Errorf("%s: row 7 is then at %v of 800", name, y)
		}
		const width = "document.querySelector('.picture svg').getBoundingClientRect().width"
		before := eval[float64](t, ctx, width)
		eval[bool](t, ctx, "document.querySelector('.picture .x4').click(), true")
		if after := eval[float64](t, ctx, width); after < 3.9*before {
			t.Errorf("%s: the map is %v wide, and then %v", name, before, after)
		}
		if w := eval[int](t, ctx, "document.documentElement.scrollWidth"); w > 375 {
			t.Errorf("%s: the page is then %d pixels wide", name, w)
		}
	}
}
