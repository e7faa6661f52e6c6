package stock

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/seatline/fitcalc/measure"
)

// Settings are what the choice depends on beyond the matrix. Money is in Currency.
type Settings struct {
	// Currency is that of every sum, as three capitals; empty: that of the prices, where they all have one.
	Currency string
	// Rates are what one unit of another currency is worth in Currency.
	Rates map[string]float64
	// PricesIn is the currency of prices that name none, by the name of their file.
	PricesIn map[string]string
	// IgnorePrices leaves prices out: the least bench time with the cost of carrying.
	IgnorePrices bool
	// PricePerPack says that prices of which a sheet says nothing are for a pack and not for a piece.
	PricePerPack bool

	// BenchPerMinute is what a minute at the bench costs.
	BenchPerMinute float64
	// CarryPerYear is what it costs to carry a part number for a year.
	CarryPerYear float64
	// Holding is what money in stock costs in a year, as a part of it.
	Holding float64
	// MinimumOrder is the fewest pieces that can be ordered, by ferrule.
	MinimumOrder map[int]int

	// Yearly is how many of each head are made in a year; nil: EachHead of every head.
	Yearly   []float64
	EachHead float64
	// LeaveOut are heads that need not be served, such as those of which none is made.
	LeaveOut []int

	// MostTurnDown is the most that may have to come off nominally, on the diameter; nothing is no limit beyond the shop's.
	MostTurnDown measure.Length
	// NoPrep leaves out pairs that need work on hosel, tip or bore.
	NoPrep bool
	// Measured lets pairs serve that suit only some of a head's pieces, so that the bench has to measure before it chooses.
	Measured bool
	// Must and MustNot are ferrules, by index, that are carried in any case, or in none.
	Must, MustNot []int
	// Exclude are pairs not to be used.
	Exclude []Exclusion
	// AtMost is the most part numbers to carry; 0 is no limit.
	AtMost int
	// SecondSource are heads for each of which ferrules of two suppliers are to be carried that fit it.
	SecondSource []int
	// CurvePoints is up to how many part numbers the cost is worked out for; 0: no curve.
	CurvePoints int
}

// Exclusion is a pair not to be used, by indexes into the catalogue.
type Exclusion struct{ Head, Ferrule int }

// DefaultSettings returns values to start from, all of them common practice without a published source: a bench minute at 1, carrying a
// part number for a year at 25, money in stock at 20 % a year, and 12 of each head a year.
func DefaultSettings() Settings {
	return Settings{BenchPerMinute: 1, CarryPerYear: 25, Holding: 0.2, EachHead: 12, CurvePoints: 20}
}

// What settings and arguments can be refused for; a [*SettingError] wraps one of these.
var (
	ErrAmount = errors.New("must be a finite number and not negative")
	ErrIndex  = errors.New("is none of those in the catalogue")
	ErrLength = errors.New("must have an entry for each head")
)

// SettingError says which setting cannot be used.
type SettingError struct {
	Name string
	Err  error
}

func (e *SettingError) Error() string { return "stock: " + e.Name + " " + e.Err.Error() }

func (e *SettingError) Unwrap() error { return e.Err }

// CurrencyError reports prices that cannot be added up.
type CurrencyError struct {
	// Wanted is the currency of the settings, empty where they name none.
	Wanted string
	// Found has, by currency, a part that is priced in it.
	Found map[string]string
}

func (e *CurrencyError) Error() string {
	found := make([]string, 0, len(e.Found))
	for currency, part := range e.Found {
		found = append(found, fmt.Sprintf("%s (%s)", currency, part))
	}
	slices.Sort(found)
	wanted := ""
	if e.Wanted != "" {
		wanted = " beside " + e.Wanted
	}
	return "stock: prices are in " + strings.Join(found, ", ") + wanted + "; give what each is worth in one currency"
}

func (s *Settings) validate(heads, ferrules int) error {
	amounts := []struct {
		name  string
		value float64
	}{
		{"the cost of a bench minute", s.BenchPerMinute}, {"the cost of carrying a part", s.CarryPerYear},
		{"the cost of money in stock", s.Holding}, {"the yearly number of each head", s.EachHead},
		{"the most part numbers", float64(s.AtMost)}, {"the number of points", float64(s.CurvePoints)},
	}
	for _, a := range amounts {
		if !isAmount(a.value) {
			return &SettingError{a.name, ErrAmount}
		}
	}
	for currency, rate := range s.Rates {
		if !isAmount(rate) || rate == 0 {
			return &SettingError{"the rate of " + currency, ErrAmount}
		}
	}
	if err := checkYearly(s.Yearly, heads); err != nil {
		return err
	}
	return s.validateIndexes(heads, ferrules)
}

func (s *Settings) validateIndexes(heads, ferrules int) error {
	none := func(i, n int) bool { return i < 0 || i >= n }
	for _, i := range slices.Concat(s.Must, s.MustNot) {
		if none(i, ferrules) {
			return &SettingError{fmt.Sprintf("the ferrule %d", i), ErrIndex}
		}
	}
	for i, pieces := range s.MinimumOrder {
		if none(i, ferrules) {
			return &SettingError{fmt.Sprintf("the ferrule %d", i), ErrIndex}
		}
		if pieces < 0 {
			return &SettingError{fmt.Sprintf("the least order of ferrule %d", i), ErrAmount}
		}
	}
	for _, x := range s.Exclude {
		if none(x.Head, heads) || none(x.Ferrule, ferrules) {
			return &SettingError{fmt.Sprintf("the pair of head %d and ferrule %d", x.Head, x.Ferrule), ErrIndex}
		}
	}
	for _, h := range slices.Concat(s.SecondSource, s.LeaveOut) {
		if none(h, heads) {
			return &SettingError{fmt.Sprintf("the head %d", h), ErrIndex}
		}
	}
	return nil
}

func isAmount(x float64) bool { return x >= 0 && !math.IsInf(x, 1) }

func checkYearly(yearly []float64, heads int) error {
	if yearly != nil && len(yearly) != heads {
		return &SettingError{"the list of yearly numbers", ErrLength}
	}
	if slices.ContainsFunc(yearly, func(x float64) bool { return !isAmount(x) }) {
		return &SettingError{"a yearly number", ErrAmount}
	}
	return nil
}

func (s *Settings) yearly(head int) float64 {
	if s.Yearly == nil {
		return s.EachHead
	}
	return s.Yearly[head]
}
