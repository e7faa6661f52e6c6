// Package finding is how the reader tells a person about the input: a code, how serious it is, where it stands, what
// it says and what settles it. Findings are data: they are collected while the work goes on, then sorted, merged and
// shown together.
package finding

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Severity is how serious a finding is. The zero Severity is invalid, so that none is ever left out by mistake.
type Severity uint8

const (
	// Note is a leniency or an assumption: the value was used, and this says how it was read.
	Note Severity = iota + 1
	// Warning is doubtful: the value was used, but a person should look.
	Warning
	// Error is a value, row or file that was not used because of it.
	Error
)

// String returns the severity as it stands in outputs: note, warning or error.
func (s Severity) String() string {
	switch s {
	case Note:
		return "note"
	case Warning:
		return "warning"
	case Error:
		return "error"
	}
	return fmt.Sprintf("Severity(%d)", uint8(s))
}

// MarshalText implements [encoding.TextMarshaler].
func (s Severity) MarshalText() ([]byte, error) {
	if s < Note || s > Error {
		return nil, fmt.Errorf("a finding has no severity: %v", s)
	}
	return []byte(s.String()), nil
}

// Place is where something stands. Cell is an address (B7) or a range (B7:B9); it is empty for a whole row, sheet or
// file. Row is 0 where no single row is meant.
type Place struct {
	File  string `json:"file"`
	Sheet string `json:"sheet,omitempty"`
	Row   int    `json:"row,omitempty"`
	Cell  string `json:"cell,omitempty"`
}

// String returns the place as a person would say it: irons.xlsx, Heads!B7.
func (p Place) String() string {
	text := p.File
	if p.Sheet != "" {
		text += ", " + p.Sheet
	}
	switch {
	case p.Cell != "":
		return text + "!" + p.Cell
	case p.Row > 0:
		return fmt.Sprintf("%s, row %d", text, p.Row)
	}
	return text
}

// Short is the place by its file's own name, without the folders: what a sentence calls it.
func (p Place) Short() string {
	p.File = p.File[strings.LastIndexAny(p.File, `/\`)+1:]
	return p.String()
}

// Finding is one thing about the input that a person should know.
type Finding struct {
	Severity Severity `json:"severity"`
	// Code names the kind of finding, in two parts: data.unit. Codes are only ever added.
	Code  string `json:"code"`
	Place Place  `json:"place"`
	// Related are other places that the finding speaks of: the heading, the other of two cells that disagree.
	Related []Place `json:"related,omitempty"`
	// Message is one sentence with the numbers in it.
	Message string `json:"message"`
	// Settle is the key of the mapping file that answers the finding, empty where only the source can.
	Settle string `json:"settle,omitempty"`
}

// List is a collection of findings. The zero List is empty and ready to use.
type List []Finding

// Add appends a finding.
func (l *List) Add(f Finding) { *l = append(*l, f) }

// Sort orders the findings by place, the most serious first within a place, and drops repeats.
func (l *List) Sort() {
	slices.SortStableFunc(*l, compare)
	*l = slices.CompactFunc(*l, func(a, b Finding) bool { return compare(a, b) == 0 })
}

// Count returns how many findings are of a severity.
func (l List) Count(s Severity) int {
	count := 0
	for _, f := range l {
		if f.Severity == s {
			count++
		}
	}
	return count
}

// Group is all findings of one code and severity: how many there are and the first few of them.
type Group struct {
	Code     string
	Severity Severity
	// Count is the true number, also where Sample holds fewer.
	Count  int
	Sample []Finding
}

// Groups gathers the findings by severity and code, the most serious first, with at most limit samples each.
func (l List) Groups(limit int) []Group {
	var groups []Group
	index := map[string]int{}
	for _, f := range l {
		key := f.Severity.String() + " " + f.Code
		at, known := index[key]
		if !known {
			at = len(groups)
			index[key] = at
			groups = append(groups, Group{Code: f.Code, Severity: f.Severity})
		}
		groups[at].Count++
		if len(groups[at].Sample) < limit {
			groups[at].Sample = append(groups[at].Sample, f)
		}
	}
	slices.SortStableFunc(groups, func(a, b Group) int {
		return cmp.Or(cmp.Compare(b.Severity, a.Severity), cmp.Compare(b.Count, a.Count), strings.Compare(a.Code, b.Code))
	})
	return groups
}

func compare(a, b Finding) int {
	return cmp.Or(
		strings.Compare(a.Place.File, b.Place.File),
		strings.Compare(a.Place.Sheet, b.Place.Sheet),
		cmp.Compare(a.Place.Row, b.Place.Row),
		compareCells(a.Place.Cell, b.Place.Cell),
		cmp.Compare(b.Severity, a.Severity),
		strings.Compare(a.Code, b.Code),
		strings.Compare(a.Message, b.Message),
		strings.Compare(a.Settle, b.Settle),
	)
}

// compareCells puts B before AA.
func compareCells(a, b string) int {
	return cmp.Or(cmp.Compare(len(a), len(b)), strings.Compare(a, b))
}
