package reader

import (
	"fmt"
	"reflect"
	"runtime"
	"testing"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/sheettest"
)

// TestWorkersTypeTheSame reads long lists of every kind by one worker and by several.
func TestWorkersTypeTheSame(t *testing.T) {
	var inputs []Input
	for _, list := range []struct {
		name    string
		heading []string
		line    func(i int) []string
	}{
		{"Heads", []string{"Part No", "Hosel OD (mm)", "Bore (in)", "Top", "C'sink mouth (mm)"}, func(i int) []string {
			return []string{fmt.Sprintf("KR-%d", i), fmt.Sprintf("%.2f", 12+float64(i%90)/50), []string{".370", ".355", ".335/.370", "0.374", "x"}[i%5], []string{"flat", "", "countersunk 90°"}[i%3],
				[]string{"", "11", "10.8"}[i%3]}
		}},
		{"Ferrules", []string{"Part No", "Base OD (mm)", "Bore (mm)", "Length (mm)", "Step OD (mm)"}, func(i int) []string {
			return []string{fmt.Sprintf("QF-%d", i), fmt.Sprintf("%.2f", 12+float64(i%90)/50), "9.35", "25.4", []string{"", "10.5"}[i%2]}
		}},
		{"Tips", []string{"Part No", "Tip diameter (in)", "Taper"}, func(i int) []string {
			return []string{fmt.Sprintf("TP-%d", i), []string{".370", ".355"}[i%2], ""}
		}},
	} {
		rows := [][]string{list.heading}
		for i := range 3 * leastTyped {
			rows = append(rows, list.line(i))
		}
		inputs = append(inputs, Input{Book: &sheet.Book{File: list.name + ".xlsx", Sheets: []*sheet.Sheet{sheettest.Texts(list.name, rows, true)}}})
	}
	read := func(workers int) *catalog.Catalogue {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(workers))
		return Read(inputs, Options{})
	}
	one, several := read(1), read(3)
	if len(one.Heads) != 3*leastTyped || len(one.Ferrules) != 3*leastTyped || len(one.Tips) != 3*leastTyped {
		t.Fatalf("%d heads, %d ferrules, %d tips", len(one.Heads), len(one.Ferrules), len(one.Tips))
	}
	if !reflect.DeepEqual(one, several) {
		for i := range one.Heads {
			if !reflect.DeepEqual(one.Heads[i], several.Heads[i]) {
				t.Fatalf("head %d is %+v by several workers, want %+v", i, several.Heads[i], one.Heads[i])
			}
		}
		t.Fatal("ferrules, tips or tables are others by several workers")
	}
}
