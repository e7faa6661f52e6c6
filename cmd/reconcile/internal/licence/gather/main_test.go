package main

import (
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"example.com/seatline/cmd/reconcile/internal/licence"
)

// What is linked travels with its licence, word for word. On failure run go run ./cmd/reconcile/internal/licence/gather.
func TestEveryLinkedModuleHasItsText(t *testing.T) {
	linked, err := linkedOn(runtime.GOOS)
	if err != nil {
		t.Fatal(err)
	}
	if len(linked) < 5 {
		t.Fatalf("only %v are linked", linked)
	}
	for module, at := range linked {
		want, err := wordsOf(at)
		if err != nil {
			t.Errorf("%s: %v", module, err)
			continue
		}
		got, err := os.ReadFile(filepath.Join("..", "texts", licence.FileOf(module)))
		if err != nil {
			t.Error(err)
			continue
		}
		if string(got) != string(want) {
			t.Errorf("the text of %s is not that of the module as it is linked now", module)
		}
	}
}
