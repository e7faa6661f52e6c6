// Command generate writes the demo shop's files from the plain text they are kept in. It runs in the shop's directory
// (go generate does) and takes no arguments.
package main

import (
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/simplifiedchinese"
	"golang.org/x/text/encoding/unicode"

	"example.com/seatline/reconcile/sheet/workbook/workbooktest"
)

// file is one of the shop's files and the text it is made from.
type file struct {
	name, text string
	make       func(text string) ([]byte, error)
}

var shop = []file{
	{"osterwhin_heads_2026.xlsx", "osterwhin_heads_2026.txt", workbooktest.Build},
	{"brackenfold_price_list.csv", "brackenfold_price_list.txt", encoded(unicode.UTF8BOM)},
	{"varnhusen_koepfe.csv", "varnhusen_koepfe.txt", encoded(charmap.Windows1252)},
	{"lantangling_2026.csv", "lantangling_2026.txt", encoded(simplifiedchinese.GB18030)},
	{"kettlewisp_ferrules.xlsx", "kettlewisp_ferrules.txt", workbooktest.Build},
	{"norrumdal_ferrules.xlsx", "norrumdal_ferrules.txt", workbooktest.Build},
	{"fennimarsh_stock.tsv", "fennimarsh_stock.txt", encoded(unicode.UTF16(unicode.LittleEndian, unicode.UseBOM))},
	{"tollerby_trim.csv", "tollerby_trim.txt", asIs},
	{"harrowpike_plan_2026.xlsx", "harrowpike_plan_2026.txt", workbooktest.Build},
	{"harrowpike_readings.csv", "harrowpike_readings.txt", asIs},
	{"shop_tips.csv", "shop_tips.txt", asIs},
	{"shop.toml", "shop.toml", asIs},
}

// encoded returns what writes text in an encoding, with the line ends of the programs that use it.
func encoded(e encoding.Encoding) func(string) ([]byte, error) {
	return func(text string) ([]byte, error) {
		return e.NewEncoder().Bytes([]byte(strings.ReplaceAll(text, "\n", "\r\n")))
	}
}

func asIs(text string) ([]byte, error) { return []byte(text), nil }

// build makes every file of the shop from the texts in a directory.
func build(texts fs.FS) (map[string][]byte, error) {
	made := map[string][]byte{}
	for _, f := range shop {
		text, err := fs.ReadFile(texts, f.text)
		if err != nil {
			return nil, err
		}
		if made[f.name], err = f.make(string(text)); err != nil {
			return nil, fmt.Errorf("%s: %w", f.text, err)
		}
	}
	return made, nil
}

func main() {
	if err := run(); err != nil {
		fmt.Fprintln(os.Stderr, "generate:", err)
		os.Exit(1)
	}
}

func run() error {
	made, err := build(os.DirFS("sheets"))
	if err != nil {
		return err
	}
	for _, name := range slices.Sorted(maps.Keys(made)) {
		if err := os.WriteFile(filepath.Join("files", name), made[name], 0o644); err != nil {
			return err
		}
	}
	return nil
}
