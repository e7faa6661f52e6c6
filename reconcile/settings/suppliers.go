package settings

import (
	"errors"
	"fmt"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"

	"example.com/seatline/reconcile/catalog"
)

// Suppliers is the table suppliers: what the shop knows of its suppliers' sheets, by the supplier's name.
//
//	[suppliers."Harrow Mouldings"]
//	ferrule_bores = "tip"      # their bores are the names of the tips; "bore" where they are true
//	name          = "Harrow"   # what customers know them by
//
// A supplier whose sheets do not name it goes by the name of its file without the ending.
type Suppliers map[string]Supplier

// Supplier is what the shop knows of one supplier's sheets.
type Supplier struct {
	// FerruleBores is [catalog.BoresAreTips] or [catalog.BoresAreBores], and empty where the file does not say.
	FerruleBores string
	// Name is what customers know the supplier by, empty where the file does not say.
	Name string
}

// suppliersTable is the name of the table that holds a table for each supplier, and the others are its keys.
const (
	suppliersTable = "suppliers"
	ferruleBores   = "ferrule_bores"
	supplierName   = "name"
)

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

// set takes a key of one supplier. It returns what is wrong, and what to do about it.
func (s *Suppliers) set(name, key string, value *unstable.Node) (advice string, problem error) {
	text := string(value.Data)
	switch {
	case key != ferruleBores && key != supplierName:
		return "a supplier has " + ferruleBores + " and " + supplierName, errors.New("there is no such key of a supplier")
	case key == supplierName && (value.Kind != unstable.String || strings.TrimSpace(text) == ""):
		return "write it in quotes", errors.New("is not a name")
	case key == supplierName:
		said := (*s)[name]
		said.Name = strings.TrimSpace(text)
		s.put(name, said)
		return "", nil
	case value.Kind != unstable.String || !catalog.IsFerruleBores(text):
		return fmt.Sprintf("write %q where the sizes are the names of tips, or %q where they are true bores", catalog.BoresAreTips, catalog.BoresAreBores),
			fmt.Errorf("%q does not say what the bores are", text)
	}
	said := (*s)[name]
	said.FerruleBores = text
	s.put(name, said)
	return "", nil
}

func (s *Suppliers) put(name string, said Supplier) {
	if *s == nil {
		*s = Suppliers{}
	}
	(*s)[name] = said
}

// supplierKey returns the supplier and the key that a line of the file is about, in whichever table it stands; false for any other.
func supplierKey(table, parts []string) (name, key string, own bool) {
	all := append(append([]string(nil), table...), parts...)
	if len(all) < 2 || all[0] != suppliersTable {
		return "", "", false
	}
	return all[1], strings.Join(all[2:], "."), true
}
