package main

import (
	"strings"

	"github.com/spf13/pflag"

	"plank.example/cutopt"
	"plank.example/cutopt/words"
)

// languageFlag adds --language to the flags, the language of what is written. What it returns tells the language asked
// for, once the flags are read.
func languageFlag(s *pflag.FlagSet, what string) (spoken func() (string, error)) {
	languages, name := words.Languages(), ""
	textVar(s, &name, "language", "language", "en", "language of "+what+": "+strings.Join(languages,
		" or ")+"; errors about input are in English (en)")
	takes(s, "language", languages...)
	return func() (language string, err error) {
		err = oneOf("language", name, languages, func(i int) { language = languages[i] })
		return language, err
	}
}

// speak prepares to say what is printed in a language, with lengths as the job has them.
func speak(language string, job *cutopt.Job) *words.Speech {
	return words.New(language, readableWords(language), job.Unit, job.Rules.Grid)
}

// A spokenError is an error told in the language asked for.
type spokenError struct {
	text string
	err  error
}

func (e *spokenError) Error() string { return e.text }
func (e *spokenError) Unwrap() error { return e.err }
