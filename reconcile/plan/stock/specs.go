package stock

import (
	"errors"
	"fmt"
	"runtime"
	"sync"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/plan/sizes"
)

// specifier specifies ferrules for the heads of a catalogue. Heads with the same sizes are specified once, since catalogues repeat them.
type specifier struct {
	result *matrix.Result
	wanted fitcalc.Ferrule
	known  map[specKey]*specified
	heads  []*specified // by head
}

type specKey struct {
	head fitcalc.Head
	tip  int32
}

// specified is what a ferrule must be for a head, or why there is nothing to say.
type specified struct {
	key   specKey
	hosel sizes.Hosel // without its number
	spec  fitcalc.Specification
	why   string
	err   error
}

// newSpecifier specifies plain ferrules of a length; nothing is half an inch.
func newSpecifier(r *matrix.Result, length measure.Length) *specifier {
	if length.Sign() <= 0 {
		length = measure.Thou(500)
	}
	s := &specifier{result: r, wanted: fitcalc.Ferrule{Length: measure.Nominal(length), Style: fitcalc.Plain}, known: map[specKey]*specified{}}
	for h := range r.Catalogue.Heads {
		key := specKey{r.Catalogue.Heads[h].Head, r.HeadTips[h].Tips[0]}
		if s.known[key] == nil {
			s.known[key] = &specified{key: key}
		}
		s.heads = append(s.heads, s.known[key])
	}
	return s
}

func (s *specifier) of(head int) *specified { return s.heads[head] }

// all specifies for all heads, on as many processors as there are. The error is that of the first head that has one.
func (s *specifier) all() error {
	work := make(chan *specified)
	var group sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		group.Go(func() {
			for one := range work {
				s.specify(one)
			}
		})
	}
	for _, one := range s.known {
		work <- one
	}
	close(work)
	group.Wait()
	for h, one := range s.heads {
		if one.err != nil {
			return fmt.Errorf("stock: specifying a ferrule for %s: %w", s.result.Catalogue.Heads[h].Part, one.err)
		}
	}
	return nil
}

func (s *specifier) specify(one *specified) {
	head, tip := one.key.head, s.result.Tips[one.key.tip].Tip
	od := hoselOD(&head)
	switch {
	case head.Top == fitcalc.TopRounded:
		one.why = "the hosel is rounded and takes no ferrule"
		return
	case !od.Given():
		one.why = "the hosel OD is not known"
		return
	case tip.Form() == fitcalc.TipUnknown:
		one.why = "the tip is not known"
		return
	}
	spec, err := fitcalc.Specify(head, tip, s.wanted, s.result.Shop)
	var input *fitcalc.InputError
	switch {
	case errors.As(err, &input): // a size that no head can have is a finding of the matrix
		one.why = input.Error()
		return
	case err != nil:
		one.err = err
		return
	case spec.BaseOD.Empty():
		one.why = "no base OD keeps both the risk of an undersize base and the turn limit"
		return
	}
	one.spec = spec
	one.hosel = sizes.Hosel{OD: od.Middle(), Least: spec.BaseOD.Lower().At(), Most: below(spec.BaseOD), Fixed: s.result.Shop.MinutesToTurn}
	if !spec.FlushOD.Empty() {
		one.hosel.Flush = below(spec.FlushOD)
	}
	one.err = s.rate(one, head, tip)
}

// rate fills in what a millimetre of turning costs: the time at the largest base, divided by what comes off there.
func (s *specifier) rate(one *specified, head fitcalc.Head, tip fitcalc.Tip) error {
	hosel, shop := &one.hosel, s.result.Shop
	off := hosel.Most.Sub(hosel.OD).Millimetres()
	if off <= 0 {
		return nil
	}
	wanted := s.wanted
	wanted.BaseOD, wanted.Bore = measure.Nominal(hosel.Most), measure.Nominal(one.spec.BestBore)
	fit, err := fitcalc.Evaluate(head, tip, wanted, shop)
	if err != nil {
		return err
	}
	prep := 0.0
	if fit.Verdict == fitcalc.Prep {
		prep = shop.MinutesToPrep
	}
	hosel.Rate = max(0, fit.Work.Minutes-shop.MinutesToFit-shop.MinutesToTurn-prep) / off
	return nil
}
