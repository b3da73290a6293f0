package sheet

import (
	"strings"

	"plank.example/cutopt"
)

// takeoffSections is the part of the job sheet on everything else to order, none where there is no list.
func (b *book) takeoffSections() []section {
	if b.opt.Takeoff == nil {
		return nil
	}
	text := b.Takeoff(b.job, b.opt.Takeoff)
	table := block{Head: text.Head}
	for _, row := range text.Rows {
		cells := make([]string, len(row))
		for i, cell := range row {
			cells[i] = strings.ReplaceAll(cell, "\n", "; ")
		}
		table.Rows = append(table.Rows, cells)
	}
	blocks := []block{table}
	if text.Total != "" {
		blocks = append(blocks, block{Text: text.Total})
	}
	blocks = append(blocks, block{Items: text.Reckoned})
	if len(text.Heights) > 0 {
		blocks = append(blocks, block{Text: b.Say("takeoff.heights"), Strong: true}, block{Items: text.Heights})
	}
	list := []section{{"takeoff", b.Say("takeoff"), some(blocks...)}}
	if len(text.Cuts) == 0 {
		return list
	}
	blocks = []block{{Text: b.Say("takeoff.measure")}}
	for _, c := range text.Cuts {
		blocks = append(blocks, block{Text: c.Title, Strong: true}, block{Items: c.Lines}, block{Text: c.Proof})
	}
	return append(list, section{"trim", b.Say("takeoff.cuts"), some(blocks...)})
}

// pocketTakeoff says what else to buy, in one paragraph; none where there is no list, or nothing to buy on it.
func (b *book) pocketTakeoff() []block {
	if b.opt.Takeoff == nil {
		return nil
	}
	var parts []string
	for i := range b.opt.Takeoff.Items {
		item := &b.opt.Takeoff.Items[i]
		if !item.Bought() || item.Kind == cutopt.ItemPlanks {
			continue
		}
		var goods []string
		for k := range item.Goods {
			goods = append(goods, b.Goods(&item.Goods[k]))
		}
		if goods == nil {
			goods = append(goods, b.Need(item))
		}
		parts = append(parts, b.ItemName(item)+": "+strings.Join(goods, ", "))
	}
	if parts == nil {
		return nil
	}
	return []block{{Text: b.Say("takeoff.also") + " " + strings.Join(parts, "; ") + "."}}
}
