// Package licence holds the licences of everything that is linked into the command, as each has to travel with it.
//
// The texts are gathered from the modules by
//
//	go run ./cmd/reconcile/internal/licence/gather
//
// and a test holds them to what is linked.
package licence

import (
	"embed"
	"fmt"
	"io"
	"path"
	"strings"
)

//go:embed texts
var texts embed.FS

// Text is what has to travel with one module: its licence, its notices, and those of what it has taken in.
type Text struct {
	Module string // its path, such as "golang.org/x/text"
	Words  string
}

// All are the texts, by module.
func All() ([]Text, error) {
	entries, err := texts.ReadDir("texts")
	if err != nil {
		return nil, err
	}
	all := make([]Text, 0, len(entries))
	for _, e := range entries {
		words, err := texts.ReadFile(path.Join("texts", e.Name()))
		if err != nil {
			return nil, err
		}
		all = append(all, Text{Module: ModuleOf(e.Name()), Words: string(words)})
	}
	return all, nil
}

// Write writes all texts one after the other, with the names of the modules before.
func Write(w io.Writer) error {
	all, err := All()
	if err != nil {
		return err
	}
	var b strings.Builder
	b.WriteString("This program contains work of others, whose licences follow:\n\n")
	for _, t := range all {
		fmt.Fprintf(&b, "  %s\n", t.Module)
	}
	for _, t := range all {
		fmt.Fprintf(&b, "\n%s\n%s\n%s\n\n%s\n", strings.Repeat("=", 78), t.Module, strings.Repeat("=", 78), strings.TrimSpace(t.Words))
	}
	_, err = io.WriteString(w, b.String())
	return err
}

// FileOf is the name of the file that holds a module's text.
func FileOf(module string) string { return strings.ReplaceAll(module, "/", "!") + ".txt" }

// ModuleOf is the module whose text is in a file of that name.
func ModuleOf(file string) string {
	return strings.ReplaceAll(strings.TrimSuffix(file, ".txt"), "!", "/")
}
