package trial

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"strconv"
)

// WriteHeader writes the first line of a file of records: the spec.
func WriteHeader(w io.Writer, spec *Spec) error {
	return json.NewEncoder(w).Encode(map[string]*Spec{"spec": spec})
}

// WriteRecords appends the records of a seed, one JSON line each.
func WriteRecords(w io.Writer, records []Record) error {
	enc := json.NewEncoder(w)
	for i := range records {
		if err := enc.Encode(&records[i]); err != nil {
			return err
		}
	}
	return nil
}

// ReadRecords reads a file of records of the given spec and hands the seeds in it, in order, to each. A seed whose
// records are not all there, as an interrupted run leaves it, ends the reading; it returns the length in bytes of what
// was whole.
func ReadRecords(r io.Reader, spec *Spec, each func(seed uint64, records []Record) error) (int64, error) {
	settings, err := spec.Settings()
	if err != nil {
		return 0, err
	}
	in := bufio.NewReader(r)
	line, err := in.ReadBytes('\n')
	if err != nil {
		return 0, nil // not even a header
	}
	var header struct{ Spec *Spec }
	if err := json.Unmarshal(line, &header); err != nil || header.Spec == nil {
		return 0, errors.New(`trial: a file of records begins with a line {"spec": …}`)
	}
	if !reflect.DeepEqual(header.Spec, spec) {
		return 0, errors.New(
			"trial: the file holds records of another spec: name another file, or ask for the same rooms, planks, rules and " +
				"strategies",
		)
	}
	whole, at := int64(len(line)), int64(len(line))
	per := len(settings) * len(spec.Strategies)
	var records []Record
	for {
		line, err := in.ReadBytes('\n')
		if err != nil { // what follows the last line end is no whole line
			return whole, nil
		}
		at += int64(len(line))
		var rec Record
		dec := json.NewDecoder(bytes.NewReader(line))
		dec.DisallowUnknownFields()
		if err := dec.Decode(&rec); err != nil {
			return whole, fmt.Errorf("trial: record after byte %d: %w", whole, err)
		}
		if len(records) > 0 && rec.Seed != records[0].Seed {
			return whole, fmt.Errorf("trial: seed %d has %d records, the spec makes %d", records[0].Seed, len(records), per)
		}
		if records = append(records, rec); len(records) < per {
			continue
		}
		if err := each(rec.Seed, records); err != nil {
			return whole, err
		}
		whole, records = at, nil
	}
}

// csvHeader names the columns of WriteCSV.
var csvHeader = []string{
	"seed", "kind", "shape", "setting", "strategy", "net_mm2", "rows", "runs", "outcome", "planks", "opened_pile",
	"opened_last", "boxes", "bound", "box_bound", "area_bound", "thumb_boxes", "planks_per_box", "plank_mm2",
	"steps", "micros", "note",
}

// WriteCSVHeader writes the names of the columns.
func WriteCSVHeader(w *csv.Writer) error { return w.Write(csvHeader) }

// WriteCSV appends records.
func WriteCSV(w *csv.Writer, records []Record) error {
	n := func(x int64) string { return strconv.FormatInt(x, 10) }
	for _, r := range records {
		err := w.Write([]string{
			strconv.FormatUint(r.Seed, 10), r.Kind, r.Shape, r.Setting, r.Strategy,
			n(r.Net), n(int64(r.Rows)), n(int64(r.Runs)), r.Outcome, n(int64(r.Planks)), n(int64(r.OpenedPile)),
			n(int64(r.OpenedLast)), n(int64(r.Boxes)), n(int64(r.Bound)), n(int64(r.BoxBound)), n(int64(r.AreaBound)),
			n(int64(r.Thumb)), n(int64(r.PerBox)),
			n(r.Plank), n(r.Steps), n(r.Micros), r.Note,
		})
		if err != nil {
			return err
		}
	}
	return nil
}
