package settings

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/internal/pattern"
)

// Suppliers is the table suppliers: what the shop knows of its suppliers' sheets, by the supplier's name.
//
//	[suppliers."Harrow Mouldings"]
//	ferrule_bores = "tip"      # their bores are the names of the tips; "bore" where they are true
//	name          = "Harrow"   # what customers and letters call it, where its sheets do not say
//	currency      = "EUR"      # of prices that name none
//	prices        = "dozen"    # what its prices are for: a piece, a dozen or a hundred
//	language      = "de"       # of letters to it
//
// A supplier whose sheets do not name it goes by the name of its file without the ending.
type Suppliers map[string]Supplier

// Supplier is what the shop knows of one supplier's sheets.
type Supplier struct {
	// FerruleBores is [catalog.BoresAreTips] or [catalog.BoresAreBores], and empty where the file does not say.
	FerruleBores string
	// Name is what customers know the supplier by, empty where the file does not say.
	Name string
	// Currency, PricedBy and Language are as those of [catalog.Supplier].
	Currency string
	PricedBy int
	Language string
}

// suppliersTable is the name of the table that holds a table for each supplier, and the others are its keys.
const (
	suppliersTable = "suppliers"
	ferruleBores   = "ferrule_bores"
	supplierName   = "name"
)

// supplierKeys are the keys of a supplier.
var supplierKeys = []string{ferruleBores, supplierName, "currency", "prices", "language"}

// pricedBy are how many pieces prices are for.
var pricedBy = map[string]int{"piece": 1, "dozen": 12, "hundred": 100}

var currencyForm = pattern.Lazy(`^[A-Z]{3}$`) // ISO 4217

// FerruleBores returns by supplier what the bores of ferrules are, for the options of package reader.
func (s Suppliers) FerruleBores() map[string]string {
	said := map[string]string{}
	for name, supplier := range s {
		if supplier.FerruleBores != "" {
			said[name] = supplier.FerruleBores
		}
	}
	return said
}

// Names returns by supplier what customers know it by.
func (s Suppliers) Names() map[string]string {
	said := map[string]string{}
	for name, supplier := range s {
		if supplier.Name != "" {
			said[name] = supplier.Name
		}
	}
	return said
}

// Known returns by supplier what is known of it, for the options of package reader.
func (s Suppliers) Known() map[string]catalog.Supplier {
	known := map[string]catalog.Supplier{}
	for name, supplier := range s {
		known[name] = catalog.Supplier{Name: supplier.Name, Currency: supplier.Currency, PricedBy: supplier.PricedBy, Language: supplier.Language}
	}
	return known
}

// set takes a key of one supplier. It returns what is wrong, and what to do about it.
func (s *Suppliers) set(name, key string, value *unstable.Node) (advice string, problem error) {
	text, said := strings.TrimSpace(string(value.Data)), (*s)[name]
	switch {
	case !slices.Contains(supplierKeys, key):
		return "a supplier has " + strings.Join(supplierKeys, ", "), errors.New("there is no such key of a supplier")
	case key == ferruleBores && (value.Kind != unstable.String || !catalog.IsFerruleBores(text)):
		return fmt.Sprintf("write %q where the sizes are the names of tips, or %q where they are true bores", catalog.BoresAreTips, catalog.BoresAreBores),
			fmt.Errorf("%q does not say what the bores are", text)
	case value.Kind != unstable.String || text == "":
		return "write it in quotes", errors.New("is not a text")
	case key == "currency" && !currencyForm().MatchString(text):
		return `write its three capitals, like "EUR"`, fmt.Errorf("%q is not a currency", text)
	case key == "prices" && pricedBy[text] == 0:
		return `write "piece", "dozen" or "hundred"`, fmt.Errorf("%q does not say what prices are for", text)
	case key == "language" && !languageForm().MatchString(text):
		return `write its tag, like "de"`, fmt.Errorf("%q is not a language", text)
	}
	switch key {
	case ferruleBores:
		said.FerruleBores = text
	case supplierName:
		said.Name = text
	case "currency":
		said.Currency = text
	case "prices":
		said.PricedBy = pricedBy[text]
	case "language":
		said.Language = text
	}
	if *s == nil {
		*s = Suppliers{}
	}
	(*s)[name] = said
	return "", nil
}

// supplierKey returns the supplier and the key that a line of the file is about, in whichever table it stands; false for any other.
func supplierKey(table, parts []string) (name, key string, own bool) {
	all := append(append([]string(nil), table...), parts...)
	if len(all) < 2 || all[0] != suppliersTable {
		return "", "", false
	}
	return all[1], strings.Join(all[2:], "."), true
}
