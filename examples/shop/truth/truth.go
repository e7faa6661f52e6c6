// Package truth is what the demo shop's sheets mean: for every row what should become of it, for every part the values
// that a careful person reads, and for everything that is wrong on purpose the cell and what should be said about it.
// It was written down together with the sheets and from the same intention, not from what any program printed, and is
// there for tests of the reader.
//
// Three tables hold it. rows.csv has a line for every row of every sheet, and where a row states a set as a range
// (4-PW) a line for each club. fields.csv has a line for every value of every part, with limits where the sheet states
// a tolerance for it: in the heading, in the cell, or in a note, which for "ISO 2768-m unless stated" means
// ISO 2768-1:1989, table 1, class m. traps.csv has a line for everything that is wrong or unusual on purpose.
//
// Where a careful reader could do one thing or another, Outcome is the better and Or the other. The rule behind the
// choice: a value that contradicts its own heading is held, a value that lacks something is used, with the assumption
// named, when only one reading is possible.
package truth

import (
	"bytes"
	_ "embed" // for the tables
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"

	"example.com/seatline/fitcalc/measure"
)

//go:embed rows.csv
var rowsCSV []byte

//go:embed fields.csv
var fieldsCSV []byte

//go:embed traps.csv
var trapsCSV []byte

//go:embed demand.csv
var demandCSV []byte

// Truth is the three tables, each in the order of the sheets.
type Truth struct {
	Rows   []Row
	Fields []Field
	Traps  []Trap
}

// Place is a row of a sheet; Sheet is empty for a text file.
type Place struct {
	File, Sheet string
	Row         int
}

// Row is what should become of one row, or of one club of a set that a row states as a range.
type Row struct {
	Place
	// Kind is heads, ferrules or tips, empty for a row that is set aside.
	Kind string
	// Part is the part number; of one club of a set, the part number, a space and the club.
	Part string
	// Outcome is used, assumed, held or set_aside; Or is another outcome that would be as honest, mostly empty.
	Outcome, Or string
	// Why says why a row is not plainly used.
	Why string
}

// Field is the true reading of one value of a part.
type Field struct {
	Place
	Part, Role string
	// Form is mm for a length, deg for an angle, ratio for a taper, number for a count or price, and text.
	Form string
	// Text is the value as it stands in the table; of a length, in millimetres.
	Text string
	// Length is the value of a length, on the diameter where the role is a diameter.
	Length measure.Length
	// Least and Most are the limits, where the sheet states any; Limits says whether it does.
	Least, Most measure.Length
	Limits      bool
	// Cell is where the value stands; in a merged range, its first cell.
	Cell string
}

// Trap is something that is wrong or unusual on purpose.
type Trap struct {
	Place
	// Cell is empty where the whole row is meant.
	Cell, Part string
	// Code and Severity are those of the finding that should say so.
	Code, Severity string
	// Outcome and Or are those of the row, as in [Row].
	Outcome, Or string
	// Stated is what the sheet says, Reading what is meant, empty where nobody can know from the sheet.
	Stated, Reading string
	Why             string
}

// Load reads the three tables.
func Load() (Truth, error) {
	var t Truth
	err := each("rows.csv", rowsCSV, func(at Place, r map[string]string) error {
		t.Rows = append(t.Rows, Row{at, r["kind"], r["part"], r["outcome"], r["or"], r["why"]})
		return nil
	})
	if err != nil {
		return Truth{}, err
	}
	err = each("fields.csv", fieldsCSV, func(at Place, r map[string]string) error {
		field, err := newField(at, r)
		t.Fields = append(t.Fields, field)
		return err
	})
	if err != nil {
		return Truth{}, err
	}
	err = each("traps.csv", trapsCSV, func(at Place, r map[string]string) error {
		t.Traps = append(t.Traps, Trap{at, r["cell"], r["part"], r["code"], r["severity"], r["outcome"], r["or"],
			r["stated"], r["reading"], r["why"]})
		return nil
	})
	if err != nil {
		return Truth{}, err
	}
	return t, nil
}

func newField(at Place, r map[string]string) (Field, error) {
	field := Field{Place: at, Part: r["part"], Role: r["role"], Form: r["form"], Text: r["value"], Cell: r["cell"]}
	if field.Form != "mm" {
		return field, nil
	}
	field.Limits = r["least"] != ""
	for _, length := range []struct {
		text string
		into *measure.Length
	}{{r["value"], &field.Length}, {r["least"], &field.Least}, {r["most"], &field.Most}} {
		if length.text == "" && length.into != &field.Length {
			continue
		}
		var err error
		if *length.into, err = measure.ParseLength(length.text + " mm"); err != nil {
			return Field{}, err
		}
	}
	return field, nil
}

// each calls add with every line of a table by column name.
func each(name string, data []byte, add func(Place, map[string]string) error) error {
	records, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	for i, record := range records[1:] {
		line := map[string]string{}
		for column, value := range record {
			line[records[0][column]] = value
		}
		row, err := strconv.Atoi(line["row"])
		if err == nil {
			err = add(Place{line["file"], line["sheet"], row}, line)
		}
		if err != nil {
			return fmt.Errorf("%s, line %d: %w", name, i+2, err)
		}
	}
	return nil
}

// DemandRow is what should become of one row of the shop's own sheet of yearly numbers.
type DemandRow struct {
	Place
	Part    string
	Outcome string
	// Heads are the part numbers of the heads that the number is for, Yearly the number for each of them.
	Heads  []string
	Yearly float64
	// Code and Cell are those of the finding that should say what is wrong, empty where nothing is.
	Code, Cell string
	Why        string
}

// LoadDemand reads the table of the shop's own sheet of yearly numbers.
func LoadDemand() ([]DemandRow, error) {
	var rows []DemandRow
	err := each("demand.csv", demandCSV, func(at Place, r map[string]string) error {
		row := DemandRow{Place: at, Part: r["part"], Outcome: r["outcome"], Code: r["code"], Cell: r["cell"], Why: r["why"]}
		if r["heads"] != "" {
			row.Heads = strings.Split(r["heads"], "; ")
		}
		if r["yearly"] != "" {
			var err error
			if row.Yearly, err = strconv.ParseFloat(r["yearly"], 64); err != nil {
				return err
			}
		}
		rows = append(rows, row)
		return nil
	})
	return rows, err
}
