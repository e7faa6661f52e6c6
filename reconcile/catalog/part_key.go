package catalog

import (
	"strings"

	"example.com/seatline/reconcile/catalog/words"
)

// SamePart reports whether two entries of a catalogue, of one kind, are one part: by their numbers, however they are written,
// and by their suppliers where the number is so short that every supplier has it.
func SamePart(a, b *Item) bool {
	return PartKeyOf(UnknownKind, words.Fold(a.Part), a.Supplier) == PartKeyOf(UnknownKind, words.Fold(b.Part), b.Supplier)
}

// PartKey is what makes two entries the same part: what they list and their part number, however it is written.
type PartKey struct {
	kind Kind
	part string
	// supplier is only set for short numbers, which every supplier gives to parts of his own.
	supplier string
}

// PartKeyOf is the key of a part of a supplier, by its folded number.
func PartKeyOf(kind Kind, folded, supplier string) PartKey {
	key := PartKey{kind: kind, part: folded}
	if key.part != "" && len(key.part) <= 3 && strings.Trim(key.part, "0123456789") == "" {
		key.supplier = supplier
	}
	return key
}
