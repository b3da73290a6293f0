package main

import (
	"strings"

	"github.com/spf13/pflag"

	"plank.example/cutopt/words"
)

// languageFlag adds --language to the flags, the language of what is written. What it returns tells the language asked
// for, once the flags are read.
func languageFlag(s *pflag.FlagSet, what string) (spoken func() (string, error)) {
	languages, name := words.Languages(), ""
	textVar(s, &name, "language", "language", "en", "language of "+what+": "+strings.Join(languages, " or ")+" (en)")
	takes(s, "language", languages...)
	return func() (language string, err error) {
		err = oneOf("language", name, languages, func(i int) { language = languages[i] })
		return language, err
	}
}
