package sheet

import (
	"iter"

	"plank.example/cutopt/sheet/internal/draw"
)

// sheetPages sets the whole job sheet.
func (b *book) sheetPages(s setting) iter.Seq[*draw.Drawing] {
	s.running = true
	return func(yield func(*draw.Drawing) bool) {
		s := s
		s.dense = b.density(s)
		f := b.newFlow(s, b.Say("sheet"), yield)
		b.setSheet(f)
		f.finish()
	}
}

// setSheet sets all sections.
func (b *book) setSheet(f *flow) {
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
}

// density returns how much smaller than usual the text is set, so that the last page is not one of a few lines. Sheets
// of many pages are set as usual: they are not set several times for that.
func (b *book) density(s setting) float64 {
	const few, many = 0.25, 40
	for _, dense := range []float64{0, 0.03, 0.06, 0.09} {
		s.dense = dense
		pages := 0
		f := b.newFlow(s, "", func(*draw.Drawing) bool { pages++; return pages < many })
		b.setSheet(f)
		if f.stopped {
			return 0
		}
		if f.page == 1 || f.y-f.margin > few*(f.bottom()-f.margin) {
			return dense
		}
	}
	return 0
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
			if sec.ID == formID {
				keep = formLines*formPitch + 60 // lines to write on stay together
			}
			f.heading(sec.Title, f.size(13), keep)
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
	case "form":
		b.form(f, k.Form)
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
		if k.Strong { // it heads what follows
			f.need(6 * body.size)
		}
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
	title := f.head(f.size(9.5))
	if st.Lies { // nothing is to be done
		title.bold, title.colour = false, f.look.soft
		f.para(st.Title, title)
		return
	}
	f.boxed(st.Title, title)
	for _, line := range st.Lines {
		f.item("–", line, body)
	}
	f.para(st.Pile, small)
}
