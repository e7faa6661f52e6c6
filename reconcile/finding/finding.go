// Package finding is how the reader tells a person about the input: a code, how serious it is, where it stands, what
// it says and what settles it. Findings are data: they are collected while the work goes on, then sorted, merged and
// shown together.
package finding

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
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
	// Settle is the key of the mapping file that answers the finding, empty where only the source can. Of a finding that stands for several
	// it is that of the first.
	Settle string `json:"settle,omitempty"`
	// Cause is what brought the finding about, where it may bring about others: those of one severity, code and cause are one in the end,
	// see [List.ByCause]. It is for comparing only.
	Cause string `json:"-"`
	// each are the findings that this one stands for, nil where it stands for itself.
	each List
}

// Each are the findings that a finding stands for, one for each cell with the key that answers it: itself where it stands for no other.
func (f *Finding) Each() List {
	if f.each == nil {
		return List{*f}
	}
	return f.each
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

// Each are the findings of a list, those that one stands for each by itself, by their places.
func (l List) Each() List {
	var out List
	for i := range l {
		out = append(out, l[i].Each()...)
	}
	slices.SortStableFunc(out, compare)
	return out
}

// Places are all places that a finding speaks of, its own first, each cell by itself.
func (f *Finding) Places() []Place {
	var places []Place
	for _, one := range f.Each() {
		places = append(append(places, one.Place), one.Related...)
	}
	return places
}

// ByCause returns the list with those of one cause, on one sheet, as one finding in the place of the first: with its sentence, their number,
// and the places of all.
func (l List) ByCause() List {
	type cause struct {
		severity                 Severity
		code, file, sheet, cause string
	}
	var out List
	first := map[cause]int{}
	for _, f := range l {
		key := cause{f.Severity, f.Code, f.Place.File, f.Place.Sheet, f.Cause}
		at, known := first[key]
		switch {
		case f.Cause == "":
			out.Add(f)
		case !known:
			first[key] = len(out)
			out.Add(f)
		default:
			out[at].each = append(out[at].Each(), f)
		}
	}
	for i := range out {
		out[i].speakForAll()
	}
	return out
}

// speakForAll makes a finding that stands for several say how many they are and where.
func (f *Finding) speakForAll() {
	if f.each == nil {
		return
	}
	f.Message = fmt.Sprintf("%s; %d in all", f.Message, len(f.each))
	places := make([]Place, 0, len(f.each))
	for _, one := range f.each[1:] {
		places = append(places, one.Place)
	}
	f.Related = append(slices.Clip(f.Related), ranges(places)...)
	for _, one := range f.each[1:] {
		f.Related = append(f.Related, one.Related...)
	}
}

// ranges returns places with the cells that follow each other down a column as one range.
func ranges(places []Place) []Place {
	var out []Place
	for _, p := range places {
		if n := len(out) - 1; n >= 0 && follows(out[n], p) {
			from, _, _ := strings.Cut(out[n].Cell, ":")
			out[n].Cell = from + ":" + p.Cell
			continue
		}
		out = append(out, p)
	}
	return out
}

// follows reports whether a cell is the one below the end of another place.
func follows(before, p Place) bool {
	_, end, ranged := strings.Cut(before.Cell, ":")
	if !ranged {
		end = before.Cell
	}
	column, row := cutRow(end)
	column2, row2 := cutRow(p.Cell)
	return before.File == p.File && before.Sheet == p.Sheet && column != "" && column == column2 && row > 0 && row2 == row+1
}

// cutRow returns the letters and the number of an address, 0 where it is none.
func cutRow(cell string) (column string, row int) {
	column = strings.TrimRight(cell, "0123456789")
	row, err := strconv.Atoi(cell[len(column):])
	if err != nil {
		return column, 0
	}
	return column, row
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
