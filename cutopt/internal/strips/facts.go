package strips

import (
	"plank.example/cutopt"
)

func (f *Floor) tell(fact cutopt.Fact) { f.Facts = append(f.Facts, fact) }
