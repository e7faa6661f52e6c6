package tell

import (
	"fmt"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/phrase"
)

// MeasuredFields returns the fields of a pair whose sizes come from readings.
func MeasuredFields(r *matrix.Result, p matrix.Pair) []fitcalc.Field {
	return fitcalc.MeasuredFields(&r.Catalogue.Heads[p.Head].Head, &r.Tips[p.Tip].Tip, &r.Catalogue.Ferrules[p.Ferrule].Ferrule)
}

// Measured says in a sentence what readings contributed; nothing where none did.
func Measured(m *catalog.Measurements) string {
	if !m.Any() {
		return ""
	}
	text := fmt.Sprintf("%s of %s by %s", phrase.Count(m.Sizes, "size"), phrase.Count(m.Parts, "part"), phrase.Count(m.Readings, "reading"))
	if l := m.Rows; l.Rows > 0 {
		text += fmt.Sprintf("; %s of readings: %d used, %d held, %d set aside", phrase.Count(l.Rows, "row"), l.Used, l.Held, l.SetAside)
	}
	return text
}

// Learned says in a sentence what was learned of a supplier's parts.
func Learned(c *catalog.Catalogue, l *catalog.Learned, u fitcalc.Units) string {
	text := fmt.Sprintf("%s of %s, %s: ± %s about what is stated, by %s of %s; ", catalog.FieldOf(l.Kind, l.Role), c.SupplierCalled(l.Supplier), l.Kind, u.Show(l.PlusMinus),
		phrase.Count(l.Readings, "reading"), phrase.Count(l.Parts, "part"))
	if l.Taken > 0 {
		text += "taken for " + phrase.Count(l.Taken, "other") + " without a tolerance"
	} else {
		text += "every other one states a tolerance"
	}
	bias, err := measure.FromMillimetres(l.Bias)
	if err != nil || !l.BiasShows() {
		return text
	}
	way := "larger"
	if bias.Sign() < 0 {
		way = "smaller"
	}
	return text + fmt.Sprintf("; on average they are %s %s than stated", u.Show(bias.Abs()), way)
}
