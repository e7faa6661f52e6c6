package chart

import (
	"encoding/base64"
	"fmt"
	"html/template"
	"net/http"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

// Options are the seller's own look and choices. The zero Options are a page in English and millimetres without a name.
type Options struct {
	// ShopName stands at the top; Contact below it, as text.
	ShopName, Contact string
	// Accent is the seller's colour, #rrggbb; empty is the page's own. Where it is to be read it is darkened or lightened
	// until it can be.
	Accent string
	// Logo is the content of an image file: PNG, JPEG, GIF, WebP or SVG, of at most [MostLogo] bytes.
	Logo []byte
	// Language is the tag of the page's language, one of [Languages] or that of the file in Words; empty is English.
	Language string
	// Words is the content of a file of words to add, nil for none.
	Words []byte
	// Units are the reader's.
	Units fitcalc.Units
	// Columns are shown besides those that every answer has; nil is supplier and length.
	Columns []Column
	// Prices is whether prices are shown: those of a piece, in Currency, with Margin added. Where a sheet has none in that currency none is.
	Prices bool
	// Currency is the seller's, as three capitals; empty is that of the sheets, where they have one.
	Currency string
	// Margin is added to the prices of the sheets, as a share of them.
	Margin float64
	// PricePerPack says that prices of which a sheet says nothing are for a pack and not for a piece.
	PricePerPack bool
	// Suppliers are what customers know suppliers by, by the names that the sheets give or, where they give none, by those of the files
	// without their endings. A supplier without a name but its file's is not named.
	Suppliers map[string]string
	// Caliper is the tolerance, ±, of a measured hosel; nothing is the shop's hosel_od_tolerance.
	Caliper measure.Length
}

// Column is a column of answers that a seller may show or not.
type Column string

const (
	ColumnSupplier Column = "supplier"
	ColumnLength   Column = "length"
	ColumnBase     Column = "base"
	ColumnBore     Column = "bore"
	ColumnColour   Column = "colour"
	ColumnMinutes  Column = "minutes"

	columnPrice Column = "price"
)

// Columns returns all columns that may be chosen.
func Columns() []Column {
	return []Column{ColumnSupplier, ColumnLength, ColumnBase, ColumnBore, ColumnColour, ColumnMinutes}
}

// usualColumns are shown where none are named.
var usualColumns = []Column{ColumnSupplier, ColumnLength}

// MostLogo is how many bytes a logo may have. It is part of every copy of the page.
const MostLogo = 300_000

// OptionError reports an option that cannot be used.
type OptionError struct{ Option, Value, Reason string }

func (e *OptionError) Error() string { return fmt.Sprintf("%s %q %s", e.Option, e.Value, e.Reason) }

func (o *Options) validate() error {
	if o.Accent != "" {
		if _, err := parseColour(o.Accent); err != nil {
			return err
		}
	}
	for i, c := range o.Columns {
		if !known(c) {
			return &OptionError{"column", string(c), fmt.Sprintf("does not exist; there are %v", Columns())}
		}
		for _, earlier := range o.Columns[:i] {
			if c == earlier {
				return &OptionError{"column", string(c), "is named twice"}
			}
		}
	}
	if o.Caliper.Sign() < 0 || measure.Millimetres(1).Less(o.Caliper) {
		return &OptionError{"caliper", o.Caliper.String(), "must lie between 0 and 1 mm"}
	}
	if _, err := logo(o.Logo); err != nil {
		return err
	}
	return o.validatePrices()
}

func known(c Column) bool {
	for _, k := range Columns() {
		if c == k {
			return true
		}
	}
	return false
}

// logo returns an image as a data: address, empty where there is none.
func logo(content []byte) (template.URL, error) {
	if len(content) == 0 {
		return "", nil
	}
	if len(content) > MostLogo {
		return "", &OptionError{"logo", fmt.Sprintf("of %d bytes", len(content)), fmt.Sprintf("is too large; at most %d bytes", MostLogo)}
	}
	kind := http.DetectContentType(content)
	switch kind {
	case "image/png", "image/jpeg", "image/gif", "image/webp":
	default:
		if !strings.Contains(string(content[:min(len(content), 1000)]), "<svg") {
			return "", &OptionError{"logo", kind, "is not an image that browsers show; give a PNG, JPEG, GIF, WebP or SVG file"}
		}
		kind = "image/svg+xml"
	}
	return template.URL("data:" + kind + ";base64," + base64.StdEncoding.EncodeToString(content)), nil
}
