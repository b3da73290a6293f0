package sheet_test

import (
	"math"
	"testing"

	"plank.example/cutopt/sheet"
)

// luminance and contrast as WCAG 2.1 defines them (relative luminance, contrast ratio).
func luminance(c sheet.Colour) float64 {
	channel := func(v sheet.Colour) float64 {
		s := float64(v&0xff) / 255
		if s <= 0.03928 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*channel(c>>16) + 0.7152*channel(c>>8) + 0.0722*channel(c)
}

func contrast(a, b sheet.Colour) float64 {
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// Ink is read on every ground (7 to 1, success criterion 1.4.6), lesser text on paper and whole planks (4.5 to 1,
// criterion 1.4.3), hatches are seen on their ground, and starters and enders differ in grey print too.
func TestThemes(t *testing.T) {
	for name, theme := range map[string]*sheet.Theme{"light": sheet.LightTheme(), "grey": sheet.GreyTheme()} {
		for ground, c := range map[string]sheet.Colour{
			"paper": theme.Paper, "whole": theme.Whole, "starter": theme.Starter, "ender": theme.Ender, "only": theme.Only,
			"lies": theme.Lies,
		} {
			if v := contrast(theme.Ink, c); v < 7 {
				t.Errorf("%s: ink on %s has a contrast of %.1f", name, ground, v)
			}
		}
		for ground, c := range map[string]sheet.Colour{
			"paper": theme.Paper, "whole": theme.Whole, "lies": theme.Lies,
		} {
			if v := contrast(theme.Soft, c); v < 4.5 {
				t.Errorf("%s: soft text on %s has a contrast of %.1f", name, ground, v)
			}
		}
		for ground, c := range map[string]sheet.Colour{"starter": theme.Starter, "ender": theme.Ender, "only": theme.Only} {
			if v := contrast(theme.Hatch, c); v < 2 {
				t.Errorf("%s: hatch on %s has a contrast of %.1f", name, ground, v)
			}
		}
		if v := contrast(theme.Starter, theme.Ender); v < 1.15 {
			t.Errorf("%s: starter and ender differ by %.2f in grey", name, v)
		}
		theme.Ink = 0xffffff
	}
	if sheet.LightTheme().Ink == 0xffffff {
		t.Error("a changed theme changed the default")
	}
}
