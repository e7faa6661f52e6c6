// Package reconcile puts the batch job together up to its result: suppliers' files become a catalogue, the catalogue a matrix. Package
// [example.com/seatline/reconcile/publish] writes what goes out; whoever only reads and decides links no writer.
//
// It does no input or output of its own: sources come as bytes.
package reconcile

import (
	"crypto/sha256"
	"fmt"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/open"
)

// Source is one supplier's file.
type Source struct {
	// Name is how findings call the file.
	Name string
	Data []byte
	// Kind is what the file lists, or [catalog.UnknownKind] to find out.
	Kind catalog.Kind
	// Limits bound the reading; the zero value stands for the default.
	Limits sheet.Limits
}

// SHA256 is the digest of the file in hexadecimal, by which a reader can tell whether it has changed since.
func (s Source) SHA256() string { return fmt.Sprintf("%x", sha256.Sum256(s.Data)) }

// Read reads sources into a catalogue. A file that cannot be read at all is an error that names it; everything else that is
// wrong is a finding in the catalogue. Progress, which may be nil, is called before each file.
func Read(sources []Source, opts reader.Options, progress func(stage string)) (*catalog.Catalogue, error) {
	c, _, err := ReadBooks(sources, opts, progress)
	return c, err
}

// ReadBooks is Read with the sheets themselves, to be shown beside what was understood.
func ReadBooks(sources []Source, opts reader.Options, progress func(stage string)) (*catalog.Catalogue, []*sheet.Book, error) {
	inputs, books := make([]reader.Input, 0, len(sources)), make([]*sheet.Book, 0, len(sources))
	for _, s := range sources {
		if progress != nil {
			progress("reading " + s.Name)
		}
		book, err := open.Within(s.Name, s.Data, s.Limits)
		if err != nil {
			return nil, nil, err
		}
		inputs, books = append(inputs, reader.Input{Book: book, Kind: s.Kind}), append(books, book)
	}
	if progress != nil {
		progress("understanding the sheets")
	}
	return reader.Read(inputs, opts), books, nil
}

// Decide decides a catalogue by the limits of a shop.
func Decide(c *catalog.Catalogue, shop fitcalc.Shop) *matrix.Result { return matrix.Decide(c, shop) }

// DecideAll is Decide with every pair in reach listed.
func DecideAll(c *catalog.Catalogue, shop fitcalc.Shop) *matrix.Result {
	return matrix.DecideAll(c, shop)
}

// DecideBy is Decide with options.
func DecideBy(c *catalog.Catalogue, shop fitcalc.Shop, opts matrix.Options) *matrix.Result {
	return matrix.DecideBy(c, shop, opts)
}

// Undecided reports whether rows are held or pairs cannot be decided: what a strict run does not let pass.
func Undecided(r *matrix.Result) bool {
	return r.Counts()[fitcalc.Ask] > 0 || Held(r.Catalogue) > 0
}

// Held returns how many source rows are held, those of readings included.
func Held(c *catalog.Catalogue) int {
	held := c.Measurements.Rows.Held
	for i := range c.Tables {
		held += c.Tables[i].Ledger.Held
	}
	return held
}
