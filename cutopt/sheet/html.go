package sheet

import (
	"bytes"
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"encoding/binary"
	"encoding/hex"
	"html/template"
	"io"
	"iter"
	"strconv"
	"sync"
)

//go:embed sheet.html.tmpl
var pageText string

//go:embed sheet.css
var styleText string

//go:embed sheet.js
var scriptText string

// pageTemplate is parsed where a page is written: most plans are not.
var pageTemplate = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("sheet").Parse(pageText))
})

// A page is a book as the template sees it.
type page struct {
	b        *book
	document Document
}

// Kind returns what the page is: its document's name.
func (p *page) Kind() string { return p.b.Say(documentKeys[p.document]) }

// Steps reports whether the page has steps to tick.
func (p *page) Steps() bool { return p.document == DocumentSheet }

// Say returns the words of a key.
func (p *page) Say(key string) string { return p.b.Say(key) }

// Samples are lines that could be written on the form.
func (p *page) Samples() []string { return p.b.samples() }

// Name returns the job's name.
func (p *page) Name() string {
	if p.b.job.Name == "" {
		return p.Kind()
	}
	return p.b.job.Name
}

// Title returns the title of the window.
func (p *page) Title() string { return p.b.fullTitle(p.Kind()) }

// Language returns the language's tag.
func (p *page) Language() string { return p.b.Language }

// Sections returns the parts of the sheet.
func (p *page) Sections() []section {
	if p.document == DocumentPocket {
		return p.b.pocketSections()
	}
	return p.b.sections()
}

// Key names this plan in the browser's storage.
func (p *page) Key() string { return "cutopt-" + p.b.planKey() }

// RowCount and PieceCount return what is to be laid.
func (p *page) RowCount() int {
	n := 0
	for _, rows := range p.b.lay.Floors {
		n += len(rows)
	}
	return n
}

// PieceCount returns how many pieces the floor has.
func (p *page) PieceCount() int { return len(p.b.lay.Pieces) }

// Style returns the style sheet with the size of the paper.
func (p *page) Style() template.CSS {
	margin, more := "12mm", ""
	if p.document == DocumentPocket {
		margin, more = "8mm", p.b.pocketStyle()
	}
	return template.CSS(styleText + "@page{size:" + p.b.opt.Paper.String() + ";margin:" + margin + "}\n" + more)
}

// Script returns the script.
func (p *page) Script() template.JS { return template.JS(scriptText) }

// Policy returns the page's content security policy: its own style and script, and nothing else.
func (p *page) Policy() string {
	hash := func(s string) string {
		sum := sha256.Sum256([]byte(s))
		return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
	}
	return "default-src 'none'; style-src " + hash(string(p.Style())) + "; script-src " + hash(scriptText) +
		"; img-src data:; base-uri 'none'; form-action 'none'"
}

// Pictures returns the drawings of a block as elements, with their numbers from 0. The drawing model escapes every
// text in them.
func (p *page) Pictures(k block) iter.Seq2[int, template.HTML] {
	return func(yield func(int, template.HTML) bool) {
		n := 0
		for d := range p.b.drawings(k) {
			var buf bytes.Buffer
			if d.InlineSVG(&buf, pictureName(k, n)) != nil || !yield(n, template.HTML(buf.String())) {
				return
			}
			n++
		}
	}
}

// Zooms lists how many times as wide as the window a picture may be.
func (p *page) Zooms() []int { return []int{1, 2, 4} }

// ZoomName names the choice of a picture's width: that of the block's picture n, from 0.
func (p *page) ZoomName(k block, n int) string { return pictureName(k, n) + "zoom" }

// pictureName begins every name within a picture of a block, from 0.
func pictureName(k block, n int) string {
	return "p" + strconv.Itoa(int(k.picture)) + "-" + strconv.Itoa(k.floor) + "-" + strconv.Itoa(n+1) + "-"
}

// planKey is a digest of the plan's pieces: the same for the same floor, whatever the language or the theme.
func (b *book) planKey() string {
	h := sha256.New()
	for _, p := range b.lay.Pieces {
		var key []byte
		for _, v := range []int{p.Ref.Floor, p.Ref.Row, p.Ref.Run, p.Ref.Piece, p.Plank, int(p.From), int(p.To)} {
			key = binary.AppendVarint(key, int64(v))
		}
		h.Write(key)
	}
	for _, room := range b.plan.Floors {
		io.WriteString(h, room.Name+"\x00")
	}
	return hex.EncodeToString(h.Sum(nil)[:8])
}
