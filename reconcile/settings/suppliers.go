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
type Suppliers map[string]Supplier

// Supplier is what the shop knows of one supplier's sheets.
type Supplier struct {
	// FerruleBores is [catalog.BoresAreTips] or [catalog.BoresAreBores], and empty where the file does not say.
	FerruleBores string
}

// suppliersTable is the name of the table that holds a table for each supplier, and ferruleBores that of its one key.
const (
	suppliersTable = "suppliers"
	ferruleBores   = "ferrule_bores"
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

// set takes a key of one supplier. It returns what is wrong, and what to do about it.
func (s *Suppliers) set(name, key string, value *unstable.Node) (advice string, problem error) {
	text := string(value.Data)
	switch {
	case key != ferruleBores:
		return "a supplier has " + ferruleBores, errors.New("there is no such key of a supplier")
	case value.Kind != unstable.String || !catalog.IsFerruleBores(text):
		return fmt.Sprintf("write %q where the sizes are the names of tips, or %q where they are true bores", catalog.BoresAreTips, catalog.BoresAreBores),
			fmt.Errorf("%q does not say what the bores are", text)
	}
	if *s == nil {
		*s = Suppliers{}
	}
	(*s)[name] = Supplier{FerruleBores: text}
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
