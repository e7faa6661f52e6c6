// Package tell holds the words and the counts that all writers of results share, so that the workbook, the data files and the
// pages say the same thing in the same way.
//
// Nothing here decides anything: it names what package matrix found and counts it.
package tell

import (
	"slices"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/matrix"
)

// Place returns where an item of the catalogue comes from.
func Place(s catalog.Source) finding.Place {
	return finding.Place{File: s.File, Sheet: s.Sheet, Row: s.Row}
}

// Deciding returns the reason that weighs most in a fit, and false where a fit has none.
func Deciding(fit *fitcalc.Fit) (fitcalc.Reason, bool) {
	for r := range fit.Reasons() {
		return r, true
	}
	return fitcalc.Reason{}, false
}

// Input is one file that results were made from, for the record.
type Input struct {
	// Name is the file's name as findings call it.
	Name string `json:"file"`
	// Kind is heads, ferrules, tips, readings or settings.
	Kind string `json:"kind"`
	// Bytes is the file's size, and SHA256 its digest in hexadecimal, by which a reader can tell whether a file has changed
	// since. Either may be left out.
	Bytes  int64  `json:"bytes,omitempty"`
	SHA256 string `json:"sha256,omitempty"`
}

// AllInputs returns the inputs named, and those of the catalogue's tables that are not among them.
func AllInputs(r *matrix.Result, named []Input) []Input {
	return append(slices.Clone(named), Inputs(r, nil)...)
}

// Inputs returns the inputs named, or where none are, the files of the catalogue's tables.
func Inputs(r *matrix.Result, named []Input) []Input {
	inputs := append([]Input{}, named...)
	if len(inputs) > 0 {
		return inputs
	}
	for i := range r.Catalogue.Tables {
		t := &r.Catalogue.Tables[i]
		if !slices.ContainsFunc(inputs, func(in Input) bool { return in.Name == t.File }) {
			inputs = append(inputs, Input{Name: t.File, Kind: t.Kind.String()})
		}
	}
	return inputs
}
