// Package shoptest opens the sheets of the demo's shop for tests.
package shoptest

import (
	"io/fs"
	"testing"

	"example.com/seatline/examples/shop"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/open"
)

// Book opens one of [shop.Files].
func Book(t testing.TB, name string) *sheet.Book {
	t.Helper()
	content, err := fs.ReadFile(shop.Files(), name)
	if err != nil {
		t.Fatal(err)
	}
	book, err := open.Bytes(name, content)
	if err != nil {
		t.Fatal(err)
	}
	return book
}

// Inputs opens all catalogues of the shop as the demo does: those of heads, then those of ferrules, then the tips.
func Inputs(t testing.TB) []reader.Input {
	t.Helper()
	var inputs []reader.Input
	for _, group := range []struct {
		kind  catalog.Kind
		names []string
	}{{catalog.Heads, shop.Heads()}, {catalog.Ferrules, shop.Ferrules()}, {catalog.Tips, shop.Tips()}} {
		for _, name := range group.names {
			inputs = append(inputs, reader.Input{Book: Book(t, name), Kind: group.kind})
		}
	}
	return inputs
}
