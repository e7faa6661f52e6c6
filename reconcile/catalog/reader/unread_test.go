package reader_test

import (
	"slices"
	"strings"
	"testing"
)

// TestUnread: rows that look like parts do not vanish without a word, and other rows are not called so.
func TestUnread(t *testing.T) {
	cards := `
Part | A-11
Bore (mm) | 9.35
Base OD (mm) | 13.6
Length (mm) | 18

Part | A-12
Bore (mm) | 9.35
Base OD (mm) | 13.8
Length (mm) | 25
`
	letter := `
- X-1: OD 13.6, bore 9.5
- X-2: OD 13.7, bore 9.5
- X-3: OD 13.8, bore 9.5
`
	for name, c := range map[string]struct {
		rows string
		want []string // cells
	}{
		"below cards":                      {cards + "\nA-15 | 9.35 | 13.6 | 31\nA-16 | 9.35 | 13.8 | 31", []string{"A11"}},
		"two pieces":                       {cards + "\nA-15 | 9.35 | 13.6\n\nA-16 | 9.35 | 13.8", []string{"A11", "A13"}},
		"part numbers of digits":           {cards + "\n40017 | .370 | .535", []string{"A11"}},
		"an address and a date":            {cards + "\nUnit 12 | 4 Mill Lane\nMarch 2026 | page 1", nil},
		"an order":                         {cards + "\nPO-118 | 12 | 14", nil},
		"no table at all":                  {"Hello\n\nA-15 | 9.35 mm | 13.6 mm\nBye", []string{"A3"}},
		"an item behind a letter's":        {letter + "\nX-9 comes in May, OD 14", []string{"A5"}},
		"a number behind a letter":         {letter + "\nX-9 will follow.", []string{"A5"}},
		"a number in an item":              {letter + "- X-4: as X-9, but OD 13.9, bore 9.5", []string{"A4"}},
		"a size of an item without a name": {letter + "- X-4: OD 13.9, bore 9.5, 14.2 somewhere", []string{"A4"}},
		"two sentences taken for headings": {"HK-7: neck 13.5 outside | hole 9.5 and 32 deep | £11.50 each\nHK-7: neck 13.6 outside | hole 9.5 but 30 deep | £11.50 each", []string{"A1"}},
		"numbers that are read":            {letter + "\nX-2 is new. X-1 and X-3 are not.", nil},
		"numbers of another sort":          {letter + "\nOrder XY-9, AX-9 and X-9B.", nil},
		"several numbers for one line":     {letter + "- X-5 and X-6: OD 13.9, bore 9.5\n\nX-5 and X-6 are new", nil},
		"what a table says of its rows":    {"Part | Bore mm | Base OD mm | Length mm\nA-1 | 9.35 | 13.6 | 18\nA-2 | 9.35 | 13.6 | 25\nTotal | 2", nil},
		"a table that lists no parts":      {"Member | Seat | Fee\nA-1 | 9.35 | 13.6\nA-2 | 9.35 | 13.6", nil},
		"a table whose rows are headless":  {"A-1 | 9.35 mm | 13.6 mm | 18 mm\nA-2 | 9.35 mm | 13.6 mm | 25 mm", nil},
	} {
		t.Run(name, func(t *testing.T) {
			got := read(t, grid("Sheet", c.rows))
			var cells []string
			for _, f := range got.Findings {
				if f.Code == "layout.unread" {
					cells = append(cells, f.Place.Cell)
				}
			}
			if slices.Sort(cells); !slices.Equal(cells, c.want) {
				defer show(t, got)
				t.Errorf("at %s, want %s", strings.Join(cells, " "), strings.Join(c.want, " "))
			}
		})
	}
}
