package catalog

import (
	"fmt"

	"example.com/seatline/reconcile/finding"
)

// Elsewhere returns the findings that stand in no table: about whole files, and about the mapping file.
func (c *Catalogue) Elsewhere() finding.List {
	inTable := map[string]bool{}
	for i := range c.Tables {
		for _, f := range c.Tables[i].Findings {
			inTable[identity(f)] = true
		}
	}
	var elsewhere finding.List
	for _, f := range c.Findings {
		if !inTable[identity(f)] {
			elsewhere.Add(f)
		}
	}
	return elsewhere
}

// identity tells findings apart.
func identity(f finding.Finding) string {
	return fmt.Sprintln(f.Severity, f.Code, f.Place, f.Message)
}
