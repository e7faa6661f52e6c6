package sizetext

import (
	"slices"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
)

// PossibleNumber reports whether a bare number can be the size of a role: no sheet has such in units other than three, but for a few.
func PossibleNumber(role catalog.Role, number float64) bool {
	return slices.ContainsFunc(traits.LengthUnits[:3], func(unit string) bool { return PossibleAs(role, number*traits.UnitMM[unit]) })
}

// PossibleAs reports whether a size, in mm, can be that of a role in parts of some kind.
func PossibleAs(role catalog.Role, mm float64) bool {
	if role == catalog.TipTaken {
		return traits.TipBounds[catalog.TipOD].Possible(mm)
	}
	return slices.ContainsFunc([]catalog.Kind{catalog.Heads, catalog.Ferrules, catalog.Tips}, func(kind catalog.Kind) bool {
		b, known := traits.BoundsOf(kind, role)
		return known && b.Possible(mm)
	})
}

// IsTipName reports whether a size is one by which tips are called, in some unit where it has none.
func IsTipName(one value.Reading) bool {
	switch one.Kind {
	case value.Length:
		return traits.IsTipName(traits.MM(one.Dim.Nominal()))
	case value.Number:
		return slices.ContainsFunc(traits.LengthUnits[:3], func(unit string) bool { return traits.IsTipName(one.Number * traits.UnitMM[unit]) })
	}
	return false
}

// PossibleIn reports whether a size can be that of a role in parts of a kind, or of any where the kind is not known.
func PossibleIn(kind catalog.Kind, role catalog.Role, mm float64) bool {
	if b, known := traits.BoundsOf(kind, role); known {
		return b.Possible(mm)
	}
	return PossibleAs(role, mm)
}

// Consistent reports whether sizes of one part are all possible, and its bore less than what is about it.
func Consistent(kind catalog.Kind, roles []catalog.Role, sizes []float64) bool {
	bore, outer := 0.0, 0.0
	for i, role := range roles {
		if role == "" {
			continue
		}
		if !PossibleIn(kind, role, sizes[i]) {
			return false
		}
		switch role {
		case catalog.Bore:
			bore = sizes[i]
		case catalog.BaseOD, catalog.HoselOD:
			outer = sizes[i]
		}
	}
	return outer == 0 || bore < outer
}

// Exchanged returns which of some sizes of one part, in mm, stand in each other's place: together they are not possible, and with two of them
// exchanged they are.
func Exchanged(kind catalog.Kind, roles []catalog.Role, sizes []float64) []int {
	if len(sizes) < 2 || Consistent(kind, roles, sizes) {
		return nil
	}
	var all []int
	for i := range sizes {
		for j := i + 1; j < len(sizes); j++ {
			other := slices.Clone(sizes)
			other[i], other[j] = other[j], other[i]
			if Consistent(kind, roles, other) {
				all = append(all, i, j)
			}
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// OpenText is what a cell says whose number or list cannot be told apart: no reader takes it for a size.
func OpenText(text string) string { return "?? " + text }

// Millimetres returns the sizes of a list in mm, nil where it is none.
func Millimetres(lex *lexicon.Lexicon, pieces []string, unit string) []float64 {
	sizes := make([]float64, len(pieces))
	for i, piece := range pieces {
		one := lex.Read(piece, value.Context{Want: value.WantLength, Unit: unit})
		if one.Kind != value.Length {
			return nil
		}
		sizes[i] = traits.MM(one.Dim.Nominal())
	}
	return sizes
}
