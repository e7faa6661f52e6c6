package catalog

import "example.com/seatline/reconcile/finding"

// Elsewhere returns the findings that stand in no table: about whole files, and about the mapping file.
func (c *Catalogue) Elsewhere() finding.List {
	inTable := map[identity]bool{}
	for i := range c.Tables {
		for j := range c.Tables[i].Findings {
			inTable[identityOf(&c.Tables[i].Findings[j])] = true
		}
	}
	var elsewhere finding.List
	for i := range c.Findings {
		if !inTable[identityOf(&c.Findings[i])] {
			elsewhere.Add(c.Findings[i])
		}
	}
	return elsewhere
}

// identity tells findings apart.
type identity struct {
	severity      finding.Severity
	code, message string
	place         finding.Place
}

func identityOf(f *finding.Finding) identity {
	return identity{f.Severity, f.Code, f.Message, f.Place}
}
