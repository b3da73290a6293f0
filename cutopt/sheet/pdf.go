package sheet

import (
	"iter"

	"plank.example/cutopt/sheet/internal/draw"
)

// sheetPages sets the whole job sheet.
func (b *book) sheetPages(s setting) iter.Seq[*draw.Drawing] {
	return func(yield func(*draw.Drawing) bool) {
		f := b.newFlow(s, b.Say("sheet"), yield)
		f.need(60)
		f.para(b.Say("sheet"), f.small())
		if b.job.Name != "" {
			f.para(b.job.Name, f.head(18))
		}
		for _, sec := range b.sections() {
			if f.stopped {
				return
			}
			b.section(f, sec)
		}
		f.finish()
	}
}

// section sets one section. Maps have pages and headings of their own.
func (b *book) section(f *flow, sec section) {
	headed := false
	for k := range sec.Blocks {
		if f.stopped {
			return
		}
		if k.picture == pictureMap {
			headed = true
		}
		if !headed {
			keep := 40.0
			if k.picture == pictureStrips {
				keep = stripsHead
			}
			f.heading(sec.Title, 13, keep)
			headed = true
		}
		b.block(f, k)
	}
}

// block sets one block.
func (b *book) block(f *flow, k block) {
	body := f.body()
	switch k.Kind() {
	case "step":
		b.stepBlock(f, k.Step)
	case "picture":
		b.onPaper(f, k)
	case "table":
		f.table(k.Head, k.Rows)
	case "ticks":
		for _, item := range k.Items {
			f.boxed(item, body)
			f.skip(2)
		}
	case "list":
		for _, item := range k.Items {
			f.item("–", item, body)
		}
	default:
		body.bold = k.Strong
		f.para(k.Text, body)
	}
	f.skip(3)
}

// stepBlock sets a row to be laid, on one page unless it is very long.
func (b *book) stepBlock(f *flow, st *step) {
	body, small := f.body(), f.small()
	body.indent, small.indent = 14, 14
	h := body.size * 1.35
	for _, line := range st.Lines {
		h += float64(len(wrap(line, body, f.inner()-body.indent-10))) * body.size * 1.35
	}
	h += float64(len(wrap(st.Pile, small, f.inner()-small.indent))) * small.size * 1.35
	f.skip(4)
	f.need(min(h, f.bottom()-f.margin))
	title := f.head(9.5)
	f.boxed(st.Title, title)
	for _, line := range st.Lines {
		f.item("–", line, body)
	}
	f.para(st.Pile, small)
}
