package main

import (
	"strings"

	"github.com/spf13/cobra"

	"example.com/seatline/fitcalc/say"
)

// languageFlags say in which language reasons, fields, assumptions and cautions are put into words.
type languageFlags struct{ tag, words string }

func (f *languageFlags) add(cmd *cobra.Command) {
	flags := cmd.Flags()
	flags.StringVar(&f.tag, "language", "", "the language of reasons, fields, assumptions and cautions: "+strings.Join(say.Languages(), ", ")+" (default en)")
	flags.StringVar(&f.words, "words", "", "a file of words: another language, or other words for one that there is")
}

// read returns the language, nil where none is asked for, and the files that were read for it.
func (f *languageFlags) read() (*say.Language, []string, error) {
	if f.tag == "" && f.words == "" {
		return nil, nil, nil
	}
	var file []byte
	var inputs []string
	if f.words != "" {
		var err error
		if file, err = readSettings(f.words); err != nil {
			return nil, nil, err
		}
		inputs = append(inputs, f.words)
	}
	l, err := say.In(f.tag, file)
	return l, inputs, err
}
