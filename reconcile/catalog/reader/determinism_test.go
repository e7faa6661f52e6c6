package reader_test

import (
	"encoding/json"
	"testing"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
)

// TestSameInputSameBytes reads the same books again and again.
func TestSameInputSameBytes(t *testing.T) {
	first := ""
	for range 20 {
		s := grid("Mixed", plainHeads+"\n"+plainFerrules)
		s.Rows[1][2].Format, s.Rows[2][2].Format = `0.0"mm"`, `0.000"in"`
		inputs := []reader.Input{
			{Book: book("orrin.xlsx", s, grid("All", headsWithFerrules))},
			{Book: book("cost.csv", grid("", "Part No | Hosel OD (mm) | Hosel length (mm) | C'sink mouth (mm) | C'sink depth (mm) | Counterbore (mm)\nKR-21 | 13.4 | 60 | 11.5 | 1 | 11"))},
			{Book: book("belmar.csv", grid("", "Part No | Hosel OD (in) | Bore\nKR-20 | .536 | .370\nKR-21 | .600 | .373"))},
		}
		text, err := json.Marshal(catalog.JSON(reader.Read(inputs, reader.Options{})))
		if err != nil {
			t.Fatal(err)
		}
		if first == "" {
			first = string(text)
		}
		if string(text) != first {
			t.Fatalf("two readings differ:\n%s\n%s", first, text)
		}
	}
}
