package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
)

// TestFilesAreUpToDate sees that the committed files are what their texts make, and that every text makes one.
func TestFilesAreUpToDate(t *testing.T) {
	made, err := build(os.DirFS("../sheets"))
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range made {
		got, err := os.ReadFile(filepath.Join("..", "files", name))
		if err != nil {
			t.Error(err)
			continue
		}
		if !bytes.Equal(got, want) {
			t.Errorf("files/%s is not what its text makes; run go generate in examples/shop", name)
		}
	}
	for _, dir := range []string{"files", "sheets"} {
		entries, err := os.ReadDir(filepath.Join("..", dir))
		if err != nil {
			t.Fatal(err)
		}
		if len(entries) != len(made) {
			t.Errorf("%s has %d files, the shop %d", dir, len(entries), len(made))
		}
	}
}
