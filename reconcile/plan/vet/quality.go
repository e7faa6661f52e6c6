package vet

import (
	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
)

// Completeness is how many parts of a kind give what a column is for.
type Completeness struct {
	Kind catalog.Kind
	Role catalog.Role
	// Given of Of parts give it, Limited of these with limits: stated for the size, its column or the sheet.
	Given, Of, Limited int
}

// Quality is how complete and consistent the new sheets are.
type Quality struct {
	// Ledger is the sum of all tables'.
	Ledger catalog.Ledger
	// Complete has what a joint needs first, then what else a shop wants to know.
	Complete []Completeness
	// Groups are the findings by severity and code, with true counts.
	Groups []finding.Group
	// Needed and NeededGiven count the values without which no pair can be decided, over all parts.
	Needed, NeededGiven int
}

// HeldShare is the share of the rows with parts that are held.
func (q Quality) HeldShare() float64 {
	parts := q.Ledger.Used + q.Ledger.Assumed + q.Ledger.Held
	if parts == 0 {
		return 0
	}
	return float64(q.Ledger.Held) / float64(parts)
}

// samplesPerGroup is how many findings of a code are kept to show.
const samplesPerGroup = 3

func quality(c *catalog.Catalogue) Quality {
	var q Quality
	for i := range c.Tables {
		l := c.Tables[i].Ledger
		q.Ledger.Rows += l.Rows
		q.Ledger.Used += l.Used
		q.Ledger.Assumed += l.Assumed
		q.Ledger.Held += l.Held
		q.Ledger.SetAside += l.SetAside
	}
	q.Groups = c.Findings.Groups(samplesPerGroup)
	q.heads(c.Heads)
	q.ferrules(c.Ferrules)
	return q
}

// tally counts one column; needed says whether pairs cannot be decided without it.
func (q *Quality) tally(kind catalog.Kind, role catalog.Role, parts int, needed bool, given func(int) (measure.Dim, bool)) {
	if parts == 0 {
		return
	}
	c := Completeness{Kind: kind, Role: role, Of: parts}
	for i := range parts {
		dim, known := given(i)
		if known {
			c.Given++
		}
		if dim.Given() && dim.HasLimits() {
			c.Limited++
		}
	}
	if needed {
		q.Needed += parts
		q.NeededGiven += c.Given
	}
	q.Complete = append(q.Complete, c)
}

func (q *Quality) heads(heads []catalog.Head) {
	dim := func(role catalog.Role, of func(*fitcalc.Head) measure.Dim, needed bool) {
		q.tally(catalog.Heads, role, len(heads), needed, func(i int) (measure.Dim, bool) {
			d := of(&heads[i].Head)
			return d, d.Given()
		})
	}
	word := func(role catalog.Role, needed bool, of func(*catalog.Head) bool) {
		q.tally(catalog.Heads, role, len(heads), needed, func(i int) (measure.Dim, bool) { return measure.Dim{}, of(&heads[i]) })
	}
	dim(catalog.HoselOD, (*fitcalc.Head).JointOD, true)
	word(catalog.TipTaken, true, func(h *catalog.Head) bool { return len(h.TipTaken) > 0 || jointBore(&h.Head) })
	dim(catalog.Bore, func(h *fitcalc.Head) measure.Dim { return h.Bore }, false)
	dim(catalog.BoreDepth, func(h *fitcalc.Head) measure.Dim { return h.BoreDepth }, false)
	word(catalog.Top, false, func(h *catalog.Head) bool { return h.Head.Top != fitcalc.TopUnknown })
	word(catalog.Category, false, func(h *catalog.Head) bool { return h.Category != fitcalc.AnyCategory })
	word(catalog.Price, false, func(h *catalog.Head) bool { return h.HasPrice })
}

func (q *Quality) ferrules(ferrules []catalog.Ferrule) {
	dim := func(role catalog.Role, of func(*fitcalc.Ferrule) measure.Dim, needed bool) {
		q.tally(catalog.Ferrules, role, len(ferrules), needed, func(i int) (measure.Dim, bool) {
			d := of(&ferrules[i].Ferrule)
			return d, d.Given()
		})
	}
	word := func(role catalog.Role, of func(*catalog.Ferrule) bool) {
		q.tally(catalog.Ferrules, role, len(ferrules), false, func(i int) (measure.Dim, bool) { return measure.Dim{}, of(&ferrules[i]) })
	}
	q.tally(catalog.Ferrules, catalog.Bore, len(ferrules), true, func(i int) (measure.Dim, bool) {
		f := &ferrules[i].Ferrule
		return f.Bore, f.Bore.Given() || f.ForTip.Known() // a ferrule is as well known by its tip
	})
	dim(catalog.BaseOD, func(f *fitcalc.Ferrule) measure.Dim { return f.BaseOD }, true)
	dim(catalog.Length, func(f *fitcalc.Ferrule) measure.Dim { return f.Length }, true)
	word(catalog.Style, func(f *catalog.Ferrule) bool { return f.Ferrule.Style != fitcalc.StyleUnknown })
	word(catalog.Material, func(f *catalog.Ferrule) bool { return f.Ferrule.Material != fitcalc.MaterialUnknown })
	word(catalog.Price, func(f *catalog.Ferrule) bool { return f.HasPrice })
	word(catalog.Pack, func(f *catalog.Ferrule) bool { return f.Pack > 0 })
}

// jointBore reports whether the bore that takes the tip is given.
func jointBore(h *fitcalc.Head) bool { bore := h.JointBore(); return bore.Given() }
