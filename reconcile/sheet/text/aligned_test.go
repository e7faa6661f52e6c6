package text_test

import (
	"strings"
	"testing"
	"unicode"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/text"
)

func TestAligned(t *testing.T) {
	for _, test := range []struct {
		name, data string
		want       [][]string
	}{
		{"left", "Part    OD      Bore\nK1      13.6    9.35\nK2      12.9    9\n", [][]string{{"Part", "OD", "Bore"}, {"K1", "13.6", "9.35"}, {"K2", "12.9", "9"}}},
		{"right, heading on the left", "Part   Price        Stock\nK1          13.60       7\nK2           2.90     120\nK3          11.90       9\n",
			[][]string{{"Part", "Price", "Stock"}, {"K1", "13.60", "7"}, {"K2", "2.90", "120"}, {"K3", "11.90", "9"}}},
		{"title, blank line, section", "Price list of ferrules for spring and summer\n\nPart    OD      Bore\nBlack\nK1      13.6    9.35\nK2      12.9    9.00\n",
			[][]string{{"Price list of ferrules for spring and summer"}, nil, {"Part", "OD", "Bore"}, {"Black"}, {"K1", "13.6", "9.35"}, {"K2", "12.9", "9.00"}}},
		{"a column that few lines fill", "Part    OD      Note    Bore\nK1      13.6            9.35\nK2      13.6            9.35\nK3      12.9    new     9.00\nK4      12.9            9.00\nK5      12.9            9.00\n",
			[][]string{{"Part", "OD", "Note", "Bore"}, {"K1", "13.6", "", "9.35"}, {"K2", "13.6", "", "9.35"}, {"K3", "12.9", "new", "9.00"}, {"K4", "12.9", "", "9.00"}, {"K5", "12.9", "", "9.00"}}},
		{"decimal commas", "Teil    Außen-Ø    Bohrung\nK 1     13,6       9,35\nK 2     12,9       9,00\n", [][]string{{"Teil", "Außen-Ø", "Bohrung"}, {"K 1", "13,6", "9,35"}, {"K 2", "12,9", "9,00"}}},
		{"characters of double width, padded so", "品番    外径    内径\nＫ1     13.6    9.35\n黒2     12.9    9.00\n", [][]string{{"品番", "外径", "内径"}, {"Ｋ1", "13.6", "9.35"}, {"黒2", "12.9", "9.00"}}},
		{"one blank apart, told by dashes", "PART NAME       OD\n---- ---------- ----\nK001 Ring black 13.6\nK002 Ring       12.9\n", [][]string{{"PART", "NAME", "OD"}, nil, {"K001", "Ring black", "13.6"}, {"K002", "Ring", "12.9"}}},
		{"a text that pushes its line", "Part   Name      OD     Bore\nK1     Ring      13.6   9.35\nK2     Ring      13.6   9.35\nK3     Ring with a silver band   12.9   9.00\nK4     Ring      12.9   9.00\n",
			[][]string{{"Part", "Name", "OD", "Bore"}, {"K1", "Ring", "13.6", "9.35"}, {"K2", "Ring", "13.6", "9.35"}, {"K3", "Ring with a silver band", "12.9", "9.00"}, {"K4", "Ring", "12.9", "9.00"}}},
		{"a heading over two columns, with gaps for as many as there are, and one at the end with nothing below",
			"Model   OD inch   ID mm   Height   Note\nZ1      0,485     8,45    30\nZ2      0,460 mm  8,82    25\nZ3      0,510     8,85    20\nZ4      0,450     8,46    19\n",
			[][]string{{"Model", "OD inch", "ID mm", "Height", "Note"}, {"Z1", "0,485", "8,45", "30"}, {"Z2", "0,460 mm", "8,82", "25"}, {"Z3", "0,510", "8,85", "20"}, {"Z4", "0,450", "8,46", "19"}}},
		{"headings at both ends and between with nothing below",
			"Pos   Part   OD     Finish   Bore   Note\n      K1     13.6            9.35\n      K2     12.9            9.00\n      K3     12.9            9.00\n      K4     12.9            9.00\n      K5     12.9            9.00\n",
			[][]string{{"Pos", "Part", "OD", "Finish", "Bore", "Note"}, {"", "K1", "13.6", "", "9.35"}, {"", "K2", "12.9", "", "9.00"}, {"", "K3", "12.9", "", "9.00"}, {"", "K4", "12.9", "", "9.00"}, {"", "K5", "12.9", "", "9.00"}}},
		{"two tables", "Part    OD      Bore\nK1      13.6    9.35\nK2      12.9    9.00\nK3      12.9    9.00\n\nShaft  Tip    Flex   Weight\nS1     .370   R      60\nS2     .355   S      65\nS3     .335   X      70\n",
			[][]string{{"Part", "OD", "Bore"}, {"K1", "13.6", "9.35"}, {"K2", "12.9", "9.00"}, {"K3", "12.9", "9.00"}, nil, {"Shaft", "Tip", "Flex", "Weight"}, {"S1", ".370", "R", "60"}, {"S2", ".355", "S", "65"}, {"S3", ".335", "X", "70"}}},
		{"pages, whose heads have gaps of their own and whose headings two words", "Mill        Rings        Page 1 of 2\n\nPart    Name     OD mm  Bore mm   Price  Note\nK1      black    13.6   9.35        1.1  a\nK2      black    12.9   9.00        1.1  b\nMill        Rings        Page 2 of 2\n\nPart    Name     OD mm  Bore mm   Price  Note\nK3      black    13.6   9.35        1.1  c\nK4      black    12.9   9.00        1.1  d\n",
			[][]string{{"Mill        Rings        Page 1 of 2"}, nil, {"Part", "Name", "OD mm", "Bore mm", "Price", "Note"}, {"K1", "black", "13.6", "9.35", "1.1", "a"}, {"K2", "black", "12.9", "9.00", "1.1", "b"},
				{"Mill        Rings        Page 2 of 2"}, nil, {"Part", "Name", "OD mm", "Bore mm", "Price", "Note"}, {"K3", "black", "13.6", "9.35", "1.1", "c"}, {"K4", "black", "12.9", "9.00", "1.1", "d"}}},
		{"words of a heading above numbers below one of them",
			"Part   Top OD   Outside diameter (base)   Bore\nK1     10.4     13.1                      8.95\nK2     10.5     12.9                      9.35\nK3     10.4     13.1                      8.95\nK4     10.5     12.9                      9.35\n\n" +
				"Part   Top OD   Outside diameter (base)   Bore\nK5     10.4     13.1                      8.95\nK6     10.5     12.9                      9.35\nK7     10.4     13.1                      8.95\nK8     10.5     12.9                      9.35\n",
			[][]string{{"Part", "Top OD", "Outside diameter (base)", "Bore"}, {"K1", "10.4", "13.1", "8.95"}, {"K2", "10.5", "12.9", "9.35"}, {"K3", "10.4", "13.1", "8.95"}, {"K4", "10.5", "12.9", "9.35"}, nil,
				{"Part", "Top OD", "Outside diameter (base)", "Bore"}, {"K5", "10.4", "13.1", "8.95"}, {"K6", "10.5", "12.9", "9.35"}, {"K7", "10.4", "13.1", "8.95"}, {"K8", "10.5", "12.9", "9.35"}}},
		{"blank lines among the rows, units below the heading",
			"Part   Outside diameter (base)   Bore\n       mm                        mm\nK1     12.9                      9.35\nK2     13.1                      8.95\n\nK3     12.9                      9.35\nK4     13.1                      8.95\nK5     13.2                      8.95\n",
			[][]string{{"Part", "Outside diameter (base)", "Bore"}, {"", "mm", "mm"}, {"K1", "12.9", "9.35"}, {"K2", "13.1", "8.95"}, nil,
				{"K3", "12.9", "9.35"}, {"K4", "13.1", "8.95"}, {"K5", "13.2", "8.95"}}},
		{"headings drawn out over columns",
			"                 ----- SIZES IN INCHES -----   <--- PRICE EACH --->\nPART   FINISH    BASE     BORE     LENGTH      1-11     12-49     50 UP\nF-1    black     .530     .366     1.00        .65      .48       .40\nF-2    silver    --       .366     --          1.30     1.05      .90\n--- SPECIALS ---\nF-3    red       .540     .366     1.10        .65      .48       .40\n",
			[][]string{{"", "", "SIZES IN INCHES", "", "", "PRICE EACH"}, {"PART", "FINISH", "BASE", "BORE", "LENGTH", "1-11", "12-49", "50 UP"}, {"F-1", "black", ".530", ".366", "1.00", ".65", ".48", ".40"},
				{"F-2", "silver", "--", ".366", "--", "1.30", "1.05", ".90"}, {"SPECIALS"}, {"F-3", "red", ".540", ".366", "1.10", ".65", ".48", ".40"}}},
		{"a heading drawn out from above the end of the column before, attached to its dashes",
			"                    ======Preis je Stück======\nTeil   Bohrung   Länge   1-9     10-99    ab 100\nH-1    9,25      25,0    0,95    0,75     0,60\nH-2    9,25      28,0    1,45    1,20     1,05\nH-3    8,40      20,0    0,90    0,70     0,55\n",
			[][]string{{"", "", "", "Preis je Stück"}, {"Teil", "Bohrung", "Länge", "1-9", "10-99", "ab 100"}, {"H-1", "9,25", "25,0", "0,95", "0,75", "0,60"}, {"H-2", "9,25", "28,0", "1,45", "1,20", "1,05"}, {"H-3", "8,40", "20,0", "0,90", "0,70", "0,55"}}},
		{"texts longer than the dashes under their headings, and a title of as many words as there are columns",
			"QUANTITY PRICES - ALL SIZES IN INCHES - SAME NUMBER\n\nPART    STYLE             FITS    BASE    BORE\n----    -----             ----    ----    ----\nF-1     BLACK             .370    .530    .366\nF-2     BLACK/GOLD RING   .370    .540    .366\nF-3     BLACK/2 GOLD RINGS .370   .550    .366\n",
			[][]string{{"QUANTITY PRICES - ALL SIZES IN INCHES - SAME NUMBER"}, nil, {"PART", "STYLE", "FITS", "BASE", "BORE"}, nil, {"F-1", "BLACK", ".370", ".530", ".366"}, {"F-2", "BLACK/GOLD RING", ".370", ".540", ".366"},
				{"F-3", "BLACK/2 GOLD RINGS", ".370", ".550", ".366"}}},
		{"tabs stay separators", "a\tbc  d\n1\t2   3\n", [][]string{{"a", "bc  d"}, {"1", "2   3"}}},
		{"commas stay separators", "a,bc  d\nK,2   3\n", [][]string{{"a", "bc  d"}, {"K", "2   3"}}},
		{"padded cells with separators", "a    ;b   ;c\n1,0  ;2   ;3\n", [][]string{{"a    ", "b   ", "c"}, {"1,0  ", "2   ", "3"}}},
		{"grid", "+----+------+\n| a  | b    |\n+====+======+\n| 1  | 13,6 |\n+----+------+\n", [][]string{nil, {"a", "b"}, nil, {"1", "13,6"}}},
		{"grid with a heading over two", "+----+------+------+\n| a  | sizes       |\n|    | b    | c    |\n+----+------+------+\n| 1  | 13,6 | 9,4  |\n| 2  |      | 9,5  |\n+----+------+------+\n",
			[][]string{nil, {"a", "sizes", ""}, {"", "b", "c"}, nil, {"1", "13,6", "9,4"}, {"2", "", "9,5"}}},
		{"table of Markdown", "| a | b |\n|---|:-:|\n| x\\|y | 2 |\n", [][]string{{"a", "b"}, nil, {"x|y", "2"}}},
		{"box", "┌───┬──────┐\n│ a │ 外径 │\n├───┼──────┤\n│ 1 │ 13.6 │\n└───┴──────┘\n", [][]string{nil, {"a", "外径"}, nil, {"1", "13.6"}}},
	} {
		t.Run(test.name, func(t *testing.T) {
			got, _ := grid(t, test.data)
			if diff := cmp.Diff(test.want, got); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
		})
	}
}

// signs are the signs of a text but for blanks and those with which tables are drawn.
func signs(data string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) || unicode.IsControl(r) || strings.ContainsRune("|+-=_:\\\"\u2013\u2014\ufeff\ufffd", r) || r >= 0x2500 && r <= 0x257f {
			return -1
		}
		return r
	}, data)
}

// FuzzAligned holds that nothing of a text is lost or comes to stand elsewhere: all its signs are in the cells, in their order and in the
// row of their line.
func FuzzAligned(f *testing.F) {
	for _, seed := range []string{
		"Part    OD      Bore\nK1      13.6    9.35\nK2      12.9    9\n",
		"+----+------+\n| a  | b    |\n+====+======+\n| 1  | 13,6 |\n",
		"┌───┬──────┐\n│ a │ 外径 │\n├───┼──────┤\n│ 1 │ 13.6 │\n",
		"PART NAME       OD\n---- ---------- ----\nK001 Ring black 13.6\n",
		"品番    外径    内径\n黒2     12.9    9.00\n  x  y  \n",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, data string) {
		book, err := text.Read("list.txt", []byte(data))
		if err != nil || !strings.Contains(book.Format, "columns apart by") {
			return
		}
		lines := strings.Split(strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(data), "\n")
		for i, row := range book.Sheets[0].Rows {
			var cells strings.Builder
			for _, cell := range row {
				cells.WriteString(cell.Raw)
				if cell != sheet.BlankCell && cell.Raw == "" {
					t.Errorf("row %d has a cell that is blank and not BlankCell", i+1)
				}
			}
			if want, got := signs(lines[i]), signs(cells.String()); want != got && strings.HasPrefix(book.Format, "text, columns") && strings.HasSuffix(book.Format, "UTF-8") {
				t.Errorf("line %d: %q became %q", i+1, want, got)
			}
		}
	})
}
