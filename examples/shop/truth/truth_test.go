package truth_test

import (
	"encoding/csv"
	"math/big"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.com/seatline/examples/shop"
	"example.com/seatline/examples/shop/truth"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/sheet"
)

func load(t *testing.T) truth.Truth {
	t.Helper()
	all, err := truth.Load()
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// grids are the cells of the texts that the shop's files are made from, by file and sheet. They are read here with no
// more than a split at the separators, so that the truth is compared with the sheets and not with the reader.
func grids(t *testing.T) map[[2]string][][]string {
	t.Helper()
	all := map[[2]string][][]string{}
	for _, name := range slices.Concat(shop.Heads(), shop.Ferrules(), shop.Tips()) {
		extension := filepath.Ext(name)
		data, err := os.ReadFile(filepath.Join("..", "sheets", strings.TrimSuffix(name, extension)+".txt"))
		if err != nil {
			t.Fatal(err)
		}
		text := string(data)
		switch extension {
		case ".xlsx":
			readDescription(all, name, text)
		case ".tsv":
			for line := range strings.Lines(text) {
				all[[2]string{name}] = append(all[[2]string{name}], strings.Split(strings.TrimSpace(line), "\t"))
			}
		default:
			reader := csv.NewReader(strings.NewReader(text))
			if strings.Count(text, ";") > strings.Count(text, ",") {
				reader.Comma = ';'
			}
			if all[[2]string{name}], err = reader.ReadAll(); err != nil {
				t.Fatalf("%s: %v", name, err)
			}
		}
	}
	return all
}

func readDescription(all map[[2]string][][]string, name, text string) {
	key := [2]string{name}
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		if title, begins := strings.CutPrefix(line, "sheet "); begins {
			key[1] = title
		}
		if !strings.HasPrefix(line, "|") {
			continue
		}
		var row []string
		for _, cell := range strings.Split(line, "|")[1:] {
			row = append(row, strings.TrimSpace(cell))
		}
		all[key] = append(all[key], row)
	}
}

func cell(t *testing.T, grid [][]string, address string) string {
	t.Helper()
	ref, err := sheet.ParseRef(address)
	if err != nil {
		t.Fatal(err)
	}
	if ref.Row > len(grid) || ref.Col > len(grid[ref.Row-1]) {
		return ""
	}
	return grid[ref.Row-1][ref.Col-1]
}

// TestEveryRowOnce sees that the truth knows every row of every sheet, in order, and that each part stands in its row.
func TestEveryRowOnce(t *testing.T) {
	all := grids(t)
	last := map[[2]string]int{}
	parts := map[string]int{}
	for _, row := range load(t).Rows {
		key := [2]string{row.File, row.Sheet}
		if row.Row != last[key] && row.Row != last[key]+1 {
			t.Errorf("%v: row %d follows row %d", key, row.Row, last[key])
		}
		last[key] = row.Row
		if row.Row > len(all[key]) {
			t.Fatalf("%v: there is no row %d", key, row.Row)
		}
		parts[row.Kind]++
		part, _, _ := strings.Cut(row.Part, " ")
		if text := strings.Join(all[key][row.Row-1], " "); !strings.Contains(text, strings.TrimLeft(part, "0")) {
			t.Errorf("%v: part %s is not in row %d: %s", key, row.Part, row.Row, text)
		}
		if !slices.Contains([]string{"used", "assumed", "held", "set_aside"}, row.Outcome) || (row.Part == "") != (row.Outcome == "set_aside") {
			t.Errorf("%v, row %d: outcome %q of part %q", key, row.Row, row.Outcome, row.Part)
		}
		if row.Outcome != "used" && row.Why == "" {
			t.Errorf("%v, row %d is %s and nothing says why", key, row.Row, row.Outcome)
		}
	}
	for key, grid := range all {
		if last[key] != len(grid) {
			t.Errorf("%v: the truth ends at row %d of %d", key, last[key], len(grid))
		}
	}
	if parts["heads"] < 120 || parts["ferrules"] < 60 || parts["tips"] < 4 {
		t.Errorf("a smaller shop than promised: %v", parts)
	}
}

// inInches are the files whose bare numbers are inches.
var inInches = map[string]bool{
	"brackenfold_price_list.csv": true, "kettlewisp_ferrules.xlsx": true, "fennimarsh_stock.tsv": true, "shop_tips.csv": true,
	"tollerby_trim.csv": true,
}

// TestLengthsAreTheSheets compares every length with its cell, exactly, except where the truth says that the cell is
// wrong or unusual.
func TestLengthsAreTheSheets(t *testing.T) {
	all := grids(t)
	known := load(t)
	trapped := map[string]bool{}
	for _, trap := range known.Traps {
		trapped[trap.File+trap.Sheet+trap.Cell] = true
	}
	skipped := 0
	for _, field := range known.Fields {
		if field.Form != "mm" {
			continue
		}
		if field.Limits && (field.Length.Less(field.Least) || field.Most.Less(field.Length)) {
			t.Errorf("%s %s lies outside its limits", field.Part, field.Role)
		}
		if trapped[field.File+field.Sheet+field.Cell] {
			skipped++
			continue
		}
		text := cell(t, all[[2]string{field.File, field.Sheet}], field.Cell)
		want := millimetres(text, inInches[field.File])
		got, ok := new(big.Rat).SetString(field.Text)
		if want == nil || !ok || want.Cmp(got) != 0 {
			t.Errorf("%s %s is %s mm, but %s of %s says %q", field.Part, field.Role, field.Text, field.Cell, field.File, text)
		}
	}
	if skipped > len(known.Traps) {
		t.Errorf("%d lengths were not compared, more than there are traps", skipped)
	}
}

var (
	plain = regexp.MustCompile(`^φ?(\d*[.,]?\d+)("| mm)?( \(.*\))?$`)
	mixed = regexp.MustCompile(`^(?:(\d+)[- ])?(\d+)/(\d+)("| in)?$`)
	span  = regexp.MustCompile(`^(\d+\.\d)~(\d+\.\d)$`)
)

// millimetres reads the ways of writing that the shop's sheets use, and gives nil for any other.
func millimetres(text string, inches bool) *big.Rat {
	inch := big.NewRat(254, 10)
	text = strings.Replace(text, "½", "1/2", 1)
	if m := plain.FindStringSubmatch(text); m != nil {
		value, _ := new(big.Rat).SetString(strings.Replace("0"+m[1], ",", ".", 1))
		if m[2] == `"` || inches && m[2] == "" {
			value.Mul(value, inch)
		}
		return value
	}
	if m := mixed.FindStringSubmatch(text); m != nil && inches {
		value, _ := new(big.Rat).SetString(m[2] + "/" + m[3])
		if whole, ok := new(big.Rat).SetString("0" + m[1]); ok {
			value.Add(value, whole)
		}
		return value.Mul(value, inch)
	}
	if m := span.FindStringSubmatch(text); m != nil {
		low, _ := new(big.Rat).SetString(m[1])
		high, _ := new(big.Rat).SetString(m[2])
		return low.Add(low, high).Quo(low, big.NewRat(2, 1))
	}
	return nil
}

// TestTraps sees that each trap stands where the truth says and agrees with what its row says.
func TestTraps(t *testing.T) {
	all := grids(t)
	known := load(t)
	for _, trap := range known.Traps {
		if trap.Cell != "" && trap.Code != "data.missing" {
			text := cell(t, all[[2]string{trap.File, trap.Sheet}], trap.Cell)
			// What the sheet states may be followed by words; its first word stands in the cell.
			if first, _, _ := strings.Cut(trap.Stated, " "); text == "" || !strings.Contains(text, strings.Trim(first, ",")) {
				t.Errorf("%s %s of %s holds %q, not %q", trap.Code, trap.Cell, trap.File, text, trap.Stated)
			}
		}
		matches := slices.ContainsFunc(known.Rows, func(r truth.Row) bool {
			part, _, _ := strings.Cut(r.Part, " ")
			return r.Place == trap.Place && part == trap.Part && r.Outcome == trap.Outcome && r.Or == trap.Or
		})
		if !matches {
			t.Errorf("%s at %v %s: no row has part %q and outcome %s or %s", trap.Code, trap.Place, trap.Cell, trap.Part, trap.Outcome, trap.Or)
		}
	}
}

// TestHeldRowsHaveATrap sees that nothing is held without saying which cell does it.
func TestHeldRowsHaveATrap(t *testing.T) {
	known := load(t)
	for _, row := range known.Rows {
		named := slices.ContainsFunc(known.Traps, func(trap truth.Trap) bool { return trap.Place == row.Place && trap.Cell != "" })
		if (row.Outcome == "held" || row.Outcome == "assumed") && !named {
			t.Errorf("%s, row %d is %s without a trap", row.File, row.Row, row.Outcome)
		}
	}
}

// TestGeneralTolerances works out the limits that "ISO 2768-m unless stated" gives, from ISO 2768-1:1989, table 1,
// class m, for every size of the supplier that writes so and states no tolerance beside it.
func TestGeneralTolerances(t *testing.T) {
	classM := []struct{ upTo, plusMinus *big.Rat }{
		{big.NewRat(6, 1), big.NewRat(1, 10)}, // 0.5 to 3 and over 3 to 6 mm
		{big.NewRat(30, 1), big.NewRat(2, 10)},
		{big.NewRat(120, 1), big.NewRat(3, 10)},
	}
	general := []string{"hosel_length", "bore_depth", "countersink_mouth", "counterbore", "counterbore_depth"}
	checked := 0
	for _, field := range load(t).Fields {
		asCast := field.Sheet == "Die-cast" && field.Role == "hosel_od"
		if field.File != "osterwhin_heads_2026.xlsx" || !asCast && !slices.Contains(general, field.Role) {
			continue
		}
		size, ok := new(big.Rat).SetString(field.Text)
		if !ok {
			t.Fatalf("%s %s: %q is no number", field.Part, field.Role, field.Text)
		}
		at := slices.IndexFunc(classM, func(step struct{ upTo, plusMinus *big.Rat }) bool { return size.Cmp(step.upTo) <= 0 })
		want := measure.Micrometres(classM[at].plusMinus.Num().Int64() * 1000 / classM[at].plusMinus.Denom().Int64())
		if field.Length.Sub(field.Least) != want || field.Most.Sub(field.Length) != want {
			t.Errorf("%s %s: %s mm is given %v to %v, want ±%v", field.Part, field.Role, field.Text, field.Least, field.Most, want)
		}
		checked++
	}
	if checked == 0 {
		t.Error("no size was checked")
	}
}
