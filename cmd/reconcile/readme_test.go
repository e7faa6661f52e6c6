package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// TestReadmeTellsWhatTheDemoPrints: the account in the README and the figures that it tells of the demo are those of the demo.
func TestReadmeTellsWhatTheDemoPrints(t *testing.T) {
	readme, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	dir := filepath.Join(t.TempDir(), "demo")
	var out, errOut bytes.Buffer
	if status := run([]string{"demo", "--out", dir}, strings.NewReader(""), &out, &errOut); status != 0 {
		t.Fatalf("status %d: %s", status, errOut.String())
	}
	_, rest, found := strings.Cut(string(readme), "```\nheads ")
	account, _, closed := strings.Cut(rest, "```")
	if !found || !closed || !strings.Contains(out.String(), "heads "+account) {
		t.Errorf("the README's account is not what the demo prints:\n%s\n%s", account, out.String())
	}
	var vet struct {
		Verdict  string
		Ferrules struct {
			Before  int     `json:"served_before"`
			After   int     `json:"served_after"`
			Minutes float64 `json:"minutes_saved"`
		}
	}
	var stock struct{ Carry []any }
	var summary struct{ Pairs struct{ Ferrules int } }
	for name, into := range map[string]any{"vet/vet.json": &vet, "stock/stock.json": &stock, "summary.json": &summary} {
		text, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(name)))
		if err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(text, into); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
	}
	words := []string{"no", "one", "two", "three", "four", "five"}
	for _, want := range []string{
		fmt.Sprintf("In the demo: `%s`; %s more heads could be built and %.0f minutes a year saved", vet.Verdict, words[vet.Ferrules.After-vet.Ferrules.Before], vet.Ferrules.Minutes),
		fmt.Sprintf("In the demo %d of %d ferrules\n  serve every head", len(stock.Carry), summary.Pairs.Ferrules),
	} {
		if !strings.Contains(string(readme), want) {
			t.Errorf("the README does not say %q", want)
		}
	}
}

// TestReadmeExplainsTheWords: what the README says the words mean is what help says.
func TestReadmeExplainsTheWords(t *testing.T) {
	readme, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	answers, rows, _ := glossary()
	var table strings.Builder
	for _, e := range slices.Concat(answers, rows) {
		fmt.Fprintf(&table, "| `%s` | %s |\n", e.word, e.meaning)
	}
	if !strings.Contains(string(readme), "\n|---|---|\n"+table.String()+"\n") {
		t.Errorf("the README has not the table\n%s", &table)
	}
}
