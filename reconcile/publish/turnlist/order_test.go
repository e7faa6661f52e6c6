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
		"zeros":     {"head,qty\n00471,1\n", []Wanted{{Head: "00471", Count: 1}}},
	} {
		got, err := ParseOrder(name+".csv", []byte(test.text))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if diff := cmp.Diff(test.want, got, cmpopts.IgnoreFields(Wanted{}, "Place")); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
}

func TestParseOrderErrors(t *testing.T) {
	for name, test := range map[string]struct {
		text  string
		rows  []int
		quote string
	}{
		"no headings": {"A-1,F-2\n", []int{0}, "no row of headings"},
		"no rows":     {"head,ferrule\n", []int{0}, "no row below"},
		"quantities":  {"head,qty\nA,0\nB,1.5\nC,501\nD,2\nE,two\n", []int{2, 3, 4, 6}, `quantity "1.5": write a whole number from 1 to 500`},
		"no head":     {"head,ferrule\n,F-1\nA,\n", []int{2}, "names no head"},
	} {
		_, err := ParseOrder("order.csv", []byte(test.text))
		var rows []int
		for err := range eachError(err) {
			var wrong *OrderError
			if !errors.As(err, &wrong) || wrong.Place.File != "order.csv" {
				t.Fatalf("%s: %v", name, err)
			}
			rows = append(rows, wrong.Place.Row)
		}
		if diff := cmp.Diff(test.rows, rows); diff != "" || !strings.Contains(err.Error(), test.quote) {
			t.Errorf("%s: %v (-want +got):\n%s", name, err, diff)
		}
	}
	if _, err := ParseOrder("order.xlsx", []byte("PK\x03\x04 and no more")); err == nil {
		t.Error("a damaged workbook is read")
	}
}

func eachError(err error) func(func(error) bool) {
	return func(yield func(error) bool) {
		if joined, is := err.(interface{ Unwrap() []error }); is {
			for _, one := range joined.Unwrap() {
				if !yield(one) {
					return
				}
			}
			return
		}
		if err != nil {
			yield(err)
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
	if diff := cmp.Diff(want, got, cmpopts.IgnoreFields(Wanted{}, "Place")); diff != "" || got[0].Place.Sheet != "Orders" || got[0].Place.Row != 2 {
		t.Errorf("%v (-want +got):\n%s", got[0].Place, diff)
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
		for _, w := range order {
			if w.Head == "" || w.Count < 1 || w.Count > mostJoints || w.Place.Row < 2 {
				t.Errorf("%+v", w)
			}
		}
	})
}
