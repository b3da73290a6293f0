package oracle

import (
	"math"

	"plank.example/cutopt"
)

// Kept counts planks and boxes one by one. A percentage has at most two decimals.
func Kept(s cutopt.Spare, planks, per int) int {
	kept := s.Planks
	for hundredths := int(math.Round(s.Percent * 100)); kept*10_000 < hundredths*planks; {
		kept++
	}
	if s.BoxPer > 0 {
		opened, left := 0, 0 // left of the last box, in which lay one plank after the other
		for range planks {
			if left == 0 {
				if opened%s.BoxPer == 0 {
					kept += per
				}
				opened, left = opened+1, per
			}
			left--
		}
	}
	return kept
}
