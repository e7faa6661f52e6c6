package joint

import (
	"errors"
	"fmt"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
)

const acceptsTip = `write ".370 in parallel", ".355 in taper", ".355 in taper .0075 in/in to .370 in", ".355 in taper 1:100", readings of it ".3695, .3700 in parallel", or stations "0: .335 in, 1 in: .350 in"`

// TipError is a text that describes no tip.
type TipError struct {
	Text, Reason string
	Err          error
}

func (e *TipError) Error() string {
	return fmt.Sprintf("tip %q: %s; %s", e.Text, e.Reason, acceptsTip)
}

// Unwrap returns the parser's error, if there is one.
func (e *TipError) Unwrap() error { return e.Err }

// ParseTip reads a tip: its diameter and form, or its stations. The form has to be said, since a .355 in tip comes in both.
// The diameter may be readings, of the shaft in hand, by the usual calipers. The shop gives the rate of a taper tip, the diameter up
// to which it tapers, and the tolerance of a profile where the text does not. The error is a [*TipError].
func ParseTip(text string, shop *fitcalc.Shop) (fitcalc.Tip, error) {
	tip, _, err := parseTip(text, shop, sample.DefaultCaliper())
	return tip, err
}

func parseTip(text string, shop *fitcalc.Shop, c sample.Caliper) (fitcalc.Tip, []Measured, error) {
	if strings.Contains(text, ":") && !strings.Contains(text, fitcalc.TipTapered.String()) { // a rate may be a ratio: taper 1:20
		tip, err := parseProfile(text, shop)
		return tip, nil, err
	}
	size, parallel := strings.CutSuffix(strings.TrimSpace(text), fitcalc.TipParallel.String())
	rate := ""
	if !parallel {
		tapered := false
		if size, rate, tapered = strings.Cut(text, fitcalc.TipTapered.String()); !tapered {
			return fitcalc.Tip{}, nil, &TipError{Text: text, Reason: "is it parallel or taper?"}
		}
	}
	d, measured, err := tipSize(size, shop, c)
	if err != nil {
		return fitcalc.Tip{}, nil, wrong(text, err)
	}
	if parallel {
		return fitcalc.ParallelTip(d), measured, nil
	}
	tip, err := parseCone(d, rate)
	if err != nil {
		return fitcalc.Tip{}, nil, wrong(text, err)
	}
	tip = tip.ByShop(shop)
	if end := tip.Diameter(measure.Length{}).Middle(); !end.Less(tip.TaperTo()) {
		return fitcalc.Tip{}, nil, &TipError{Text: text, Reason: fmt.Sprintf(
			"its end is no smaller than %s, where taper tips are parallel; say up to what it tapers, or that it is parallel", fitcalc.Imperial.Show(tip.TaperTo()))}
	}
	return tip, measured, nil
}

// parseCone reads how a taper tip grows from its end as far as that is said: a rate, "to" and a diameter.
func parseCone(end measure.Dim, cone string) (fitcalc.Tip, error) {
	tip := fitcalc.UsualTaperTip(end)
	rate, to, ends := strings.Cut(cone, "to")
	if rate = strings.TrimSpace(rate); rate != "" {
		taper, err := measure.ParseTaper(rate)
		if err != nil {
			return tip, err
		}
		tip = fitcalc.TaperTip(end, taper)
	}
	if !ends {
		return tip, nil
	}
	diameter, err := measure.ParseLength(to)
	if err != nil {
		return tip, err
	}
	tip = tip.UpTo(diameter)
	return tip, tip.Validate()
}

// tipSize reads a diameter, or readings of it.
func tipSize(text string, shop *fitcalc.Shop, c sample.Caliper) (measure.Dim, []Measured, error) {
	d, readings, err := parseSize(strings.TrimSpace(text))
	if err != nil || readings == nil {
		return d, nil, err
	}
	m, err := sized(fitcalc.FieldTip, readings, c, shop)
	return m.Size.Dim, []Measured{m}, err
}

func wrong(text string, err error) error { return &TipError{Text: text, Reason: err.Error(), Err: err} }

// parseProfile reads stations, parted by commas or semicolons, and at the end ± a tolerance.
func parseProfile(text string, shop *fitcalc.Shop) (fitcalc.Tip, error) {
	tolerance := shop.TipTolerance
	var stations []fitcalc.Station
	for _, item := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' }) {
		at, diameter, found := strings.Cut(item, ":")
		if !found {
			stated, isTolerance := cutPlusMinus(item)
			if !isTolerance {
				return fitcalc.Tip{}, &TipError{Text: text, Reason: fmt.Sprintf("%q is neither a station nor a tolerance", strings.TrimSpace(item))}
			}
			var err error
			if tolerance, err = measure.ParseLength(stated); err != nil {
				return fitcalc.Tip{}, wrong(text, err)
			}
			continue
		}
		s, err := parseStation(at, diameter)
		if err != nil {
			return fitcalc.Tip{}, wrong(text, err)
		}
		stations = append(stations, s)
	}
	tip, err := fitcalc.ProfileTip(tolerance, stations...)
	if err != nil {
		return fitcalc.Tip{}, wrong(text, reasonOf(err))
	}
	return tip, nil
}

// reasonOf leaves out that it is the tip, which the place says already.
func reasonOf(err error) error {
	var input *fitcalc.InputError
	if errors.As(err, &input) && input.Size.IsZero() {
		return errors.New(input.Reason)
	}
	return err
}

func cutPlusMinus(item string) (string, bool) {
	item = strings.TrimSpace(item)
	for _, sign := range [...]string{"±", "+/-", "+-"} {
		if rest, found := strings.CutPrefix(item, sign); found {
			return rest, true
		}
	}
	return "", false
}

// parseStation takes a bare 0 for the tip end.
func parseStation(at, diameter string) (s fitcalc.Station, err error) {
	if strings.TrimSpace(at) != "0" {
		if s.At, err = measure.ParseLength(at); err != nil {
			return s, err
		}
	}
	s.Diameter, err = measure.ParseLength(diameter)
	return s, err
}
