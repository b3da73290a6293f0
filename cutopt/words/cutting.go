package words

import (
	"slices"
	"strconv"
	"strings"

	"plank.example/cutopt"
)

// cuts says how each stick or roll of an item is cut, and what is proven of it. Sticks that are cut alike are one line.
func (s *Speech) cuts(job *cutopt.Job, item *cutopt.Item) CutText {
	c := item.Cutting
	labels := s.labels(job, item)
	proof := "open"
	switch {
	case c.Cost && c.Job.Priced():
		proof = "price"
	case c.Cost:
		proof = "material"
	}
	text := CutText{Title: s.ItemName(item), Proof: s.Say("cutting." + proof)}
	counts := make(map[string]int)
	for i := range c.Plan.Cuttings {
		k := &c.Plan.Cuttings[i]
		stick := &c.Job.Sticks[k.Stick]
		var parts []string
		for _, p := range k.Pieces {
			parts = append(parts, slices.Repeat(labels[p.Piece:p.Piece+1], p.Count)...)
		}
		line := s.Exact(stick.Length)
		if stick.OnHand {
			line += " " + s.Say("cutting.on-hand")
		}
		line += ": " + strings.Join(counted(parts), " + ")
		if k.Offcut > 0 {
			line += "; " + s.Say("cutting.left", "left", s.Length(k.Offcut))
		}
		if counts[line] == 0 {
			text.Lines = append(text.Lines, line)
		}
		counts[line] += k.Count
	}
	for i, line := range text.Lines {
		text.Lines[i] = strconv.Itoa(counts[line]) + " x " + line
	}
	return text
}

// counted puts equal parts together, in the order of the first of each.
func counted(parts []string) []string {
	counts := make(map[string]int)
	var list []string
	for _, p := range parts {
		if counts[p]++; counts[p] == 1 {
			list = append(list, p)
		}
	}
	for i, p := range list {
		if n := counts[p]; n > 1 {
			list[i] = strconv.Itoa(n) + " x " + p
		}
	}
	return list
}

// labels says of each piece of a cutting how long it is and where it goes.
func (s *Speech) labels(job *cutopt.Job, item *cutopt.Item) []string {
	var labels []string
	for i := range item.Stretches {
		st := &item.Stretches[i]
		for k, l := range st.Pieces {
			if item.Kind == cutopt.ItemTransition {
				labels = append(labels, s.Exact(l)+" ("+s.opening(job, st)+")")
				continue
			}
			labels = append(labels, s.Exact(l)+" ("+s.stretch(job, st)+s.mitres(st, k)+")")
		}
	}
	for i := range item.Strips {
		st := &item.Strips[i]
		for _, l := range st.Lengths {
			label := s.Exact(l)
			if len(job.Rooms) > 1 {
				label += " (" + s.room(job, st.Room) + ")"
			}
			labels = append(labels, label)
		}
	}
	return labels
}

// stretch names where a stretch lies.
func (s *Speech) stretch(job *cutopt.Job, st *cutopt.Stretch) string {
	if st.Doorway > 0 {
		return s.doorway(job, st.Room, st.Doorway)
	}
	text := s.Say("takeoff.wall", "n", strconv.Itoa(st.Wall))
	if st.Island > 0 {
		name := job.Rooms[st.Room-1].Islands[st.Island-1].Name
		if name == "" {
			name = s.Say("takeoff.island", "n", strconv.Itoa(st.Island))
		}
		text = s.Say("takeoff.edge", "island", name, "n", strconv.Itoa(st.Wall))
	}
	if len(job.Rooms) > 1 {
		text = s.room(job, st.Room) + " " + text
	}
	return text
}

// mitres says which ends of piece k of a stretch are mitred.
func (s *Speech) mitres(st *cutopt.Stretch, k int) string {
	left, right := k > 0 || st.Outside[0] > 0, k < len(st.Pieces)-1 || st.Outside[1] > 0
	switch {
	case left && right:
		return ", " + s.Say("takeoff.mitres.both")
	case left:
		return ", " + s.Say("takeoff.mitres.left")
	case right:
		return ", " + s.Say("takeoff.mitres.right")
	}
	return ""
}
