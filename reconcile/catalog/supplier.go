package catalog

import "cmp"

// Supplier is what is known of a supplier besides its parts: by its sheets, by the mapping file, or by the shop's settings.
type Supplier struct {
	// Key tells suppliers apart: the name that the sheets or the mapping give, or that of the file without its ending. It is that of the
	// parts, see [Item].
	Key string
	// Name is what others may call it; empty where only the file has a name, which is nobody's business.
	Name string
	// Currency is that of prices that name none, three capitals; empty where nobody has said.
	Currency string
	// PricedBy is how many pieces its prices are for, zero where that is one.
	PricedBy int
	// Language is that of letters to it, a tag such as de; empty: English.
	Language string
}

// SupplierCalled is what the shop itself calls the supplier of a key, which is that of its parts.
func (c *Catalogue) SupplierCalled(key string) string {
	for i := range c.Tables {
		if s := c.Tables[i].Supplier; s.Key == key && s.Name != "" {
			return s.Name
		}
	}
	return key
}

// Called is what the shop itself calls it, by its file where there is no name.
func (s Supplier) Called() string { return cmp.Or(s.Name, s.Key) }
