package jobfile

import (
	"fmt"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/outline"
	"plank.example/cutopt/measure"
)

// endAtWalls ends islands at the walls that they reach beyond by no more than measures may miss each other by: a
// cabinet is square and the corner it stands in is not.
func (d *decoder) endAtWalls(path string, room *cutopt.Room, misclosure measure.Length) {
	for k := range room.Islands {
		island := &room.Islands[k]
		ended, most, wall, ok := outline.Ended(island.Outline, room.Outline, misclosure)
		if !ok {
			continue
		}
		island.Outline = ended
		field := fmt.Sprintf("%s.islands[%d]", path, k+1)
		at := d.file.places[field]
		d.file.Warnings = append(d.file.Warnings, Warning{
			File: d.file.name, Line: at.line, Column: at.column, Key: field,
			Text: fmt.Sprintf("it reaches %s beyond wall %d: it ends at the wall",
				most.Ceil(d.tapeMark()).Format(d.file.Job.Unit, d.tapeMark()), wall+1),
		})
	}
}
