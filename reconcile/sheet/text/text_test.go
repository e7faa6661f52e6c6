package text_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/japanese"
	"golang.org/x/text/encoding/korean"
	"golang.org/x/text/encoding/simplifiedchinese"
	"golang.org/x/text/encoding/traditionalchinese"
	"golang.org/x/text/encoding/unicode"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/text"
)

// grid returns the raw values of the one sheet.
func grid(t *testing.T, data string) ([][]string, *sheet.Book) {
	t.Helper()
	book, err := text.Read("list.csv", []byte(data))
	if err != nil {
		t.Fatalf("Read(%q): %v", data, err)
	}
	var rows [][]string
	for _, row := range book.Sheets[0].Rows {
		var cells []string
		for _, cell := range row {
			if cell.Shown != cell.Raw || (cell.Kind == sheet.Text) != (cell.Raw != "") || cell.Format != "" || cell.Formula != "" {
				t.Errorf("the cell %+v is not plain text", cell)
			}
			cells = append(cells, cell.Raw)
		}
		rows = append(rows, cells)
	}
	return rows, book
}

func TestRead(t *testing.T) {
	for _, test := range []struct {
		name, data string
		want       [][]string
	}{
		// RFC 4180, section 2: the examples of its rules.
		{"rule 1", "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", [][]string{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}},
		{"rule 2", "aaa,bbb,ccc\r\nzzz,yyy,xxx", [][]string{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}},
		{"rule 5", "\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx", [][]string{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}},
		{"rule 6", "\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx", [][]string{{"aaa", "b\nbb", "ccc"}, {"zzz", "yyy", "xxx"}}},
		{"rule 7", "\"aaa\",\"b\"\"bb\",\"ccc\"", [][]string{{"aaa", "b\"bb", "ccc"}}},

		{"decimal comma", "13,6;9,4\n13,7;9,5\n", [][]string{{"13,6", "9,4"}, {"13,7", "9,5"}}},
		{"decimal comma in one row", "13,6;9,4", [][]string{{"13,6", "9,4"}}},
		{"decimal comma in one column", "OD\n13,6\n9,4\n", [][]string{{"OD"}, {"13,6"}, {"9,4"}}},
		{"decimal commas beside words", "Karte A-1 Loch 9,25\ndół 13,5  góra 10,1\nczarny, 2,50 zł\n", [][]string{{"Karte A-1 Loch 9,25"}, {"dół 13,5  góra 10,1"}, {"czarny, 2,50 zł"}}},
		{"words before numbers, cut by commas", "Iron 5,13.5\nIron 6,13.4\nIron 7,13.6\n", [][]string{{"Iron 5", "13.5"}, {"Iron 6", "13.4"}, {"Iron 7", "13.6"}}},
		{"decimal comma and tabs", "OD\tID\n13,6\t9,4\n", [][]string{{"OD", "ID"}, {"13,6", "9,4"}}},
		{"whole numbers and commas", "1,2,3\n4,5,6\n", [][]string{{"1", "2", "3"}, {"4", "5", "6"}}},
		{"decimal points and commas", "13.6,9.4\n13.7,9.5\n", [][]string{{"13.6", "9.4"}, {"13.7", "9.5"}}},
		{"quoted decimal comma", "\"13,6\",\"9,4\"\n\"13,7\",\"9,5\"\n", [][]string{{"13,6", "9,4"}, {"13,7", "9,5"}}},
		{"commas within numbers, and others with blanks", "A1: bore 9,35, OD 13,6\nA2: bore 9,4, OD 14\n", [][]string{{"A1: bore 9,35", " OD 13,6"}, {"A2: bore 9,4", " OD 14"}}},
		{"decimal points and commas with blanks", "1,5, 2\n3,4\n", [][]string{{"1", "5", " 2"}, {"3", "4"}}},
		{"one line of many without blanks behind its comma", "Hi,\nX-1: bore 9,35, OD 13,6\nX-2: bore 9,4, OD 14\nX-3: bore 9,4, OD 14,5\nX-2 is 14,1 now\n",
			[][]string{{"Hi", ""}, {"X-1: bore 9,35", " OD 13,6"}, {"X-2: bore 9,4", " OD 14"}, {"X-3: bore 9,4", " OD 14,5"}, {"X-2 is 14,1 now"}}},
		{"a talk", "[12.03.27, 14:02] P. Orr: X-1, OD 13.6\n[12.03.27, 14:03] P. Orr: X-2\n", [][]string{{"[12.03.27, 14:02] P. Orr: X-1, OD 13.6"}, {"[12.03.27, 14:03] P. Orr: X-2"}}},
		{"a talk with days of the week", "[Di., 14:02] P. Orr: X-1, OD 13,6\n[śr., 14:03] P. Orr: X-2\n", [][]string{{"[Di., 14:02] P. Orr: X-1, OD 13,6"}, {"[śr., 14:03] P. Orr: X-2"}}},
		{"a talk whose days have no year", "[12/03, 14:02] P. Orr: X-1, OD 13,6\n[12/03, 14:03] P. Orr: X-2\n", [][]string{{"[12/03, 14:02] P. Orr: X-1, OD 13,6"}, {"[12/03, 14:03] P. Orr: X-2"}}},
		{"days and times in cells", "12/03/27, 14:02, X-1\n12/03/27, 14:03, X-2\n", [][]string{{"12/03/27", " 14:02", " X-1"}, {"12/03/27", " 14:03", " X-2"}}},
		{"commas in a line or two", "What we have, by the piece\nX-1 13.6\nX-2 13.6\nX-3 13.6\nX-4 13.6\nX-5 13.6\nX-6 13.6\nX-7 13.6\nX-8 13.6\n",
			[][]string{{"What we have, by the piece"}, {"X-1 13.6"}, {"X-2 13.6"}, {"X-3 13.6"}, {"X-4 13.6"}, {"X-5 13.6"}, {"X-6 13.6"}, {"X-7 13.6"}, {"X-8 13.6"}}},
		{"commas in most labels", "Hosel O.D., mm: 12,9\nBore (mm): 9,07\nHosel L, mm: 70\nC'sink, mm: 10,4\n", [][]string{{"Hosel O.D., mm: 12,9"}, {"Bore (mm): 9,07"}, {"Hosel L, mm: 70"}, {"C'sink, mm: 10,4"}}},
		{"a comma in labels", "Length, mm: 9,35\nOD (mm): 13,6\nColour: red\n", [][]string{{"Length, mm: 9,35"}, {"OD (mm): 13,6"}, {"Colour: red"}}},
		{"semicolons in notes", "part,note\nA1,red; blue\nA2,plain\nA3,x; y\n", [][]string{{"part", "note"}, {"A1", "red; blue"}, {"A2", "plain"}, {"A3", "x; y"}}},
		{"vertical bars", "a|b, c|d\ne|f|g\n", [][]string{{"a", "b, c", "d"}, {"e", "f", "g"}}},
		{"sep line", "sep=;\r\na;b,c\r\n", [][]string{{"a", "b,c"}}},
		{"sep line, quoted, another sign", "\"sep=^\"\na^b;c\n", [][]string{{"a", "b;c"}}},
		{"inch marks", "part,od,bore\nA1,.550\",.370\"\nA2,3/8\",.335\"\n", [][]string{{"part", "od", "bore"}, {"A1", ".550\"", ".370\""}, {"A2", "3/8\"", ".335\""}}},
		{"inch mark in quotes that were not doubled", "a,\"3/8\" steel\",b\n", [][]string{{"a", "3/8\" steel", "b"}}},
		{"dittos between tabs", "a\tb\tc\n1\t\"\t\"\n\"\t2\t\"\n", [][]string{{"a", "b", "c"}, {"1", `"`, `"`}, {`"`, "2", `"`}}},
		{"dittos between commas", "a,b,c\n1,\",\"\n\",2,\"\n\"x,y\",3,4\n", [][]string{{"a", "b", "c"}, {"1", `"`, `"`}, {`"`, "2", `"`}, {"x,y", "3", "4"}}},
		{"semicolons in cells between semicolons", "a;\";\";b\nc;d;e\n", [][]string{{"a", ";", "b"}, {"c", "d", "e"}}},
		{"a comma within quotes", "a,b\n\", and more\",2\n", [][]string{{"a", "b"}, {", and more", "2"}}},
		{"a quote that never closes", "a,\"b\nc,d\n", [][]string{{"a", "\"b"}, {"c", "d"}}},
		{"spaces around quotes", "a, \"b,c\" ,d\n", [][]string{{"a", "b,c", "d"}}},
		{"ragged", "Price list\n\na,b,c\n1,2\n1,2,3,4\n", [][]string{{"Price list"}, nil, {"a", "b", "c"}, {"1", "2"}, {"1", "2", "3", "4"}}},
		{"old line ends", "a;b\rc;d\r", [][]string{{"a", "b"}, {"c", "d"}}},
		{"one column", "a\nb\n", [][]string{{"a"}, {"b"}}},
		{"blanks in a row", "a,,c\n,,\n", [][]string{{"a", "", "c"}, {"", "", ""}}},
		{"end mark of old systems", "a;b\n\x1a", [][]string{{"a", "b"}}},
	} {
		t.Run(test.name, func(t *testing.T) {
			got, _ := grid(t, test.data)
			if diff := cmp.Diff(test.want, got); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
		})
	}
}

// samples are short sheets as suppliers write them, in each language that is read.
var samples = map[string]string{
	"German":              "Artikel;Außen-Ø;Länge;Farbe\nTÜ-01;13,6;25,4;weiß\nTÜ-02;13,7;25,4;grün, glänzend\n",
	"French":              "Référence;Diamètre extérieur;Numéro;Prix\nA1;13,6;3;2,50 €\n",
	"degree":              "part;loft\nA1;10.5°\nA2;9°\n",
	"one sign":            "part;od\nA1;Ø 13.6\n",
	"simplified Chinese":  "型号,外径,内径,长度,颜色\nTJ-01,13.6,9.4,25.4,黑色\nTJ-02,13.7,9.5,25.4,红色\n",
	"short Chinese":       "外径,内径\n13.6,9.4\n",
	"traditional Chinese": "型號,外徑,內徑,長度,顏色\nTJ-01,13.6,9.4,25.4,黑色\nTJ-02,13.7,9.5,25.4,紅色\n",
	"Japanese":            "品番,外径,内径,長さ,色\nTJ-01,13.6,9.4,25.4,ブラック\nTJ-02,13.7,9.5,25.4,レッド\n",
	"short Japanese":      "フェルール,外径\nA1,13.6\n",
	"narrow katakana":     "ﾌｪﾙｰﾙ,ｶﾗｰ\nA1,ﾌﾞﾗｯｸ\n",
	"Korean":              "품번,외경,내경,길이,색상\nTJ-01,13.6,9.4,25.4,검정\nTJ-02,13.7,9.5,25.4,빨강\n",
	"short Korean":        "페룰,외경\nA1,13.6\n",
	"Polish":              "Symbol;Średnica zewnętrzna;Długość;Kolor\nPO-1;13,6;25,4;żółty\n",
	"short Polish":        "Nr;Śr. wewn.;Dł.\n1;9,35;19\n",
	"Czech":               "Číslo zboží;Vnější průměr;Délka;Barva\nOK-1;13,6;25,4;žlutá\n",
	"Portuguese":          "Código;Descrição;Diâmetro externo\nPV-1;virola de aço;13,6\n",
	"Swedish":             "Art.nr;Benämning;Längd\nFH-1;ändhylsa, röd;19\n",
	"Thai":                "รหัส,เส้นผ่านศูนย์กลางนอก,ความยาว,สี\nTF-1,13.6,25.4,ดำ\n",
	"short Thai":          "สี,ยาว\nดำ,19\n",
}

func TestEncodings(t *testing.T) {
	for _, test := range []struct {
		sample, want string
		encoding     encoding.Encoding
	}{
		{"German", "Windows-1252", charmap.Windows1252},
		{"French", "Windows-1252", charmap.Windows1252},
		{"degree", "Windows-1252", charmap.Windows1252},
		{"one sign", "Windows-1252", charmap.Windows1252},
		{"simplified Chinese", "GB 18030", simplifiedchinese.GB18030},
		{"short Chinese", "GB 18030", simplifiedchinese.GB18030},
		{"traditional Chinese", "Big5", traditionalchinese.Big5},
		{"Japanese", "Shift-JIS", japanese.ShiftJIS},
		{"short Japanese", "Shift-JIS", japanese.ShiftJIS},
		{"narrow katakana", "Shift-JIS", japanese.ShiftJIS},
		{"Korean", "EUC-KR", korean.EUCKR},
		{"short Korean", "EUC-KR", korean.EUCKR},
		{"Polish", "Windows-1250", charmap.Windows1250},
		{"short Polish", "Windows-1250", charmap.Windows1250},
		{"Czech", "Windows-1250", charmap.Windows1250},
		{"Portuguese", "Windows-1252", charmap.Windows1252},
		{"Swedish", "Windows-1252", charmap.Windows1252},
		{"Thai", "Windows-874", charmap.Windows874},
		{"short Thai", "Windows-874", charmap.Windows874},
		{"German", "UTF-8", unicode.UTF8}, {"Korean", "UTF-8", unicode.UTF8}, {"Japanese", "UTF-8", unicode.UTF8BOM},
		{"German", "UTF-16 (little-endian)", unicode.UTF16(unicode.LittleEndian, unicode.UseBOM)},
		{"Japanese", "UTF-16 (big-endian)", unicode.UTF16(unicode.BigEndian, unicode.UseBOM)},
		{"simplified Chinese", "UTF-16 (little-endian)", unicode.UTF16(unicode.LittleEndian, unicode.IgnoreBOM)},
		{"German", "UTF-16 (big-endian)", unicode.UTF16(unicode.BigEndian, unicode.IgnoreBOM)},
	} {
		t.Run(test.sample+" in "+test.want, func(t *testing.T) {
			plain := samples[test.sample]
			data, err := test.encoding.NewEncoder().String(plain)
			if err != nil {
				t.Fatal(err)
			}
			want, _ := grid(t, plain)
			got, book := grid(t, data)
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
			if !strings.HasSuffix(book.Format, test.want) {
				t.Errorf("read as %q, want %s", book.Format, test.want)
			}
			if book.Notes[0].Code != text.CodeEncoding || !strings.Contains(book.Notes[0].Message, test.want) {
				t.Errorf("the encoding is not noted: %+v", book.Notes)
			}
		})
	}
}

func TestRefusals(t *testing.T) {
	for name, test := range map[string]struct {
		data string
		want sheet.Reason
	}{
		"empty":       {"", sheet.ReasonEmpty},
		"zeros":       {strings.Repeat("\x00", 100), sheet.ReasonDamaged},
		"zip":         {"PK\x03\x04 and so on", sheet.ReasonMisnamed},
		"pdf":         {"%PDF-1.7\n", sheet.ReasonUnsupported},
		"picture":     {"\x89PNG\r\n\x1a\n\x00", sheet.ReasonUnsupported},
		"page":        {"\r\n<HTML><body><table><tr><td>1</td></tr></table>", sheet.ReasonMisnamed},
		"binary":      {"abc\x00\x01\x02def\n", sheet.ReasonUnsupported},
		"old xls":     {"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + strings.Repeat("\x00", 600), sheet.ReasonUnsupported},
		"UTF-32":      {"\xff\xfe\x00\x00a\x00\x00\x00", sheet.ReasonUnsupported},
		"binary UTF8": {"\xef\xbb\xbfabc\x00def", sheet.ReasonUnsupported},
	} {
		_, err := text.Read("list.csv", []byte(test.data))
		var refusal *sheet.FileError
		if !errors.As(err, &refusal) || refusal.Reason != test.want || refusal.File != "list.csv" || refusal.Next == "" {
			t.Errorf("%s: %v, want the reason %v", name, err, test.want)
		}
	}
}

// TestDittosInTwoRecords: a mark and the one in the next record leave as many fields between them as any record has. In a list of some length
// they are marks; in a short one the text may be one in quotes, with its line end.
func TestDittosInTwoRecords(t *testing.T) {
	for _, sign := range []string{"\t", " | ", ";"} {
		for _, lines := range []int{3, 9} {
			var text strings.Builder
			for range lines {
				text.WriteString(strings.Join([]string{"a", "b", "c", "d"}, sign) + "\n")
			}
			for range 2 {
				text.WriteString(strings.Join([]string{"e", "\"", "f", "g"}, sign) + "\n")
			}
			rows := readRaw(t, []byte(text.String()))
			want := lines + 2
			if lines == 3 {
				want--
			}
			if len(rows) != want {
				t.Errorf("%q, %d lines: %d rows, want %d", sign, lines, len(rows), want)
			}
		}
	}
}
