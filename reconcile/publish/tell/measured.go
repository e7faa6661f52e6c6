package tell

import (
	"fmt"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/matrix"
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
	text := fmt.Sprintf("%s of %s by %s", counted(m.Sizes, "size"), counted(m.Parts, "part"), counted(m.Readings, "reading"))
	if l := m.Rows; l.Rows > 0 {
		text += fmt.Sprintf("; %s of readings: %d used, %d held, %d set aside", counted(l.Rows, "row"), l.Used, l.Held, l.SetAside)
	}
	return text
}

// Learned says in a sentence what was learned of a supplier's parts.
func Learned(l *catalog.Learned, u fitcalc.Units) string {
	text := fmt.Sprintf("%s of %s, %s: ± %s about what is stated, by %s of %s; ", catalog.FieldOf(l.Kind, l.Role), l.Supplier, l.Kind, u.Show(l.PlusMinus),
		counted(l.Readings, "reading"), counted(l.Parts, "part"))
	if l.Taken > 0 {
		text += "taken for " + counted(l.Taken, "other") + " without a tolerance"
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

func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
