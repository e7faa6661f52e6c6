package turnlist

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.com/seatline/reconcile/sheet/workbook/workbooktest"
)

func TestParseOrder(t *testing.T) {
	for name, test := range map[string]struct {
		text string
		want []Wanted
	}{
		"plain":     {"head,ferrule,quantity,note\nA-1,F-2,3,now\n", []Wanted{{Head: "A-1", Ferrule: "F-2", Count: 3, Note: "now"}}},
		"heads":     {"Head\nA-1\nA-2\n", []Wanted{{Head: "A-1", Count: 1}, {Head: "A-2", Count: 1}}},
		"semicolon": {"QTY;Ferrule part;Head part\n2;F;H\n", []Wanted{{Head: "H", Ferrule: "F", Count: 2}}},
		"title":     {"Order of Monday,,\n,,\nhead,qty,colour\nH,1,red\n,,\n", []Wanted{{Head: "H", Count: 1}}},
		"catalogue": {"Club head no.;Colour;Ferrule;Menge;Bemerkung\nH;black;F-2;2;bald\n", []Wanted{{Head: "H", Ferrule: "F-2", Count: 2, Note: "bald"}}},
		"german":    {"Kopf;Ferrule Nr.;Stück;Bemerkung\nH;F;2;bald\n", []Wanted{{Head: "H", Ferrule: "F", Count: 2, Note: "bald"}}},
		"japanese":  {"ヘッド,フェルール,数量\nH,F,2\n", []Wanted{{Head: "H", Ferrule: "F", Count: 2}}},
		"part":      {"Item no.,Ferrule SKU,Pcs,Customer\nH,F,2,Ames\n", []Wanted{{Head: "H", Ferrule: "F", Count: 2, Note: "Ames"}}},
		"zeros":     {"head,qty\n00471,1\n", []Wanted{{Head: "00471", Count: 1}}},
	} {
		got, err := ParseOrder(name+".csv", []byte(test.text))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if diff := cmp.Diff(test.want, got.Wanted, cmpopts.IgnoreFields(Wanted{}, "Place")); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
}

func TestParseOrderErrors(t *testing.T) {
	for name, test := range map[string]struct{ text, quote string }{
		"no headings": {"A-1,F-2\n", "no row of headings"},
		"no rows":     {"head,ferrule\n", "no row below"},
		"none read":   {"head,qty\nA,0\n", `row 2: quantity "0": write a whole number from 1 to 500`},
	} {
		_, err := ParseOrder("order.csv", []byte(test.text))
		var wrong *OrderError
		if !errors.As(err, &wrong) || wrong.Place.File != "order.csv" || !strings.Contains(err.Error(), test.quote) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := ParseOrder("order.xlsx", []byte("PK\x03\x04 and no more")); err == nil {
		t.Error("a damaged workbook is read")
	}
}

// A row that cannot be read is a finding with its place, and the rest of the order is taken.
func TestParseOrderGoesOn(t *testing.T) {
	for name, test := range map[string]struct {
		text string
		rows []int
		took int
	}{
		"quantities": {"head,qty\nA,0\nB,1.5\nC,501\nD,2\nE,two\n", []int{2, 3, 4, 6}, 1},
		"no head":    {"head,ferrule\n,F-1\nA,\n", []int{2}, 1},
	} {
		got, err := ParseOrder("order.csv", []byte(test.text))
		var rows []int
		for _, u := range got.Unread {
			rows = append(rows, u.Finding().Place.Row)
		}
		if diff := cmp.Diff(test.rows, rows); err != nil || diff != "" || len(got.Wanted) != test.took {
			t.Errorf("%s: %d rows taken, %v (-want +got):\n%s", name, len(got.Wanted), err, diff)
		}
	}
}

const orderBook = `sheet Orders
| Head | Ferrule | Quantity |
| 7041 {0} | T-370 | 4 |
`

// TestOrderInAWorkbook: numbers that stand for part numbers are read as they are shown.
func TestOrderInAWorkbook(t *testing.T) {
	content, err := workbooktest.Build(orderBook)
	if err != nil {
		t.Fatal(err)
	}
	got, err := ParseOrder("order.xlsx", content)
	if err != nil {
		t.Fatal(err)
	}
	want := []Wanted{{Head: "7041", Ferrule: "T-370", Count: 4}}
	if diff := cmp.Diff(want, got.Wanted, cmpopts.IgnoreFields(Wanted{}, "Place")); diff != "" || got.Wanted[0].Place.Sheet != "Orders" || got.Wanted[0].Place.Row != 2 {
		t.Errorf("%v (-want +got):\n%s", got.Wanted, diff)
	}
}

func FuzzParseOrder(f *testing.F) {
	f.Add([]byte("head,ferrule,quantity,note\nA-1,F-2,3,now\n"))
	f.Add([]byte("head;qty\n;\n\"a\nb\";9"))
	f.Add([]byte("\xff\xfeh\x00e\x00a\x00d\x00"))
	f.Fuzz(func(t *testing.T, data []byte) {
		order, err := ParseOrder("order.csv", data)
		if err != nil {
			return
		}
		for _, w := range order.Wanted {
			if w.Head == "" || w.Count < 1 || w.Count > mostJoints || w.Place.Row < 2 {
				t.Errorf("%+v", w)
			}
		}
	})
}
