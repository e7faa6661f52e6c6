package fitcalc

import (
	"slices"

	"example.com/seatline/fitcalc/measure"
)

// StandardTip is a tip size that the trade makes. That there are these and which heads usually take them is common
// practice, from memory.
type StandardTip struct {
	// Name is the size as the trade says it.
	Name string
	// Diameter is the nominal diameter, of a taper tip at its end.
	Diameter measure.Length
	// Form is parallel or tapered.
	Form  TipForm
	usual []Category
}

var standardTips = []StandardTip{
	{".335 parallel", measure.Thou(335), TipParallel, []Category{Driver, Fairway, Hybrid}},
	{".350 parallel", measure.Thou(350), TipParallel, []Category{Driver, Fairway, Hybrid}},
	{".355 taper", measure.Thou(355), TipTapered, []Category{Iron, Wedge, Chipper, Putter}},
	{".370 parallel", measure.Thou(370), TipParallel, []Category{Hybrid, Iron, Wedge, Chipper, Putter}},
	{".395 parallel", measure.Thou(395), TipParallel, []Category{Putter}},
}

// StandardTips returns the tip sizes that the trade makes, the smallest first.
func StandardTips() []StandardTip { return slices.Clone(standardTips) }

// Tip returns the tip itself, without limits, with the shop's taper where it tapers.
func (s StandardTip) Tip(shop Shop) Tip {
	if s.Form == TipTapered {
		return UsualTaperTip(measure.Nominal(s.Diameter)).ByShop(&shop)
	}
	return ParallelTip(measure.Nominal(s.Diameter))
}

// Suits reports whether heads of a category usually take the tip. Any tip suits a head of unknown category.
func (s StandardTip) Suits(c Category) bool {
	return c == AnyCategory || slices.Contains(s.usual, c)
}

// TipsForBore returns the standard tips that a bore may be made for: those it clears by the shop's range of clearance, and the taper
// tip that a bore is quoted like. Of these the usual ones for the category, where there are any, and of them the nearest. Nothing
// else being known, one tip is an assumption worth saying, several are a question (.358 in takes .350 in parallel and .355 in taper:
// the category would tell), and none is a bore of unknown purpose.
//
// The tip of a bore that tapers is tapered, and of one that is parallel, parallel.
func TipsForBore(bore measure.Dim, form BoreForm, category Category, shop Shop) []StandardTip {
	if !bore.Given() {
		return nil
	}
	var suit, usual []StandardTip
	for _, tip := range standardTips {
		if !formAgrees(form, tip.Form) || !tip.suitsBore(bore.Middle(), &shop) {
			continue
		}
		suit = append(suit, tip)
		if category != AnyCategory && tip.Suits(category) {
			usual = append(usual, tip)
		}
	}
	if len(usual) > 0 {
		return nearest(usual)
	}
	return suit
}

func (s *StandardTip) suitsBore(bore measure.Length, shop *Shop) bool {
	clearance := bore.Sub(s.Diameter)
	if s.Form == TipTapered && quotedLike(clearance, shop) {
		return true
	}
	return !clearance.Less(shop.LeastClearance) && !shop.MostClearance.Less(clearance)
}

// nearest returns the largest of some tips that a bore clears: those that fill it best.
func nearest(tips []StandardTip) []StandardTip {
	var best []StandardTip
	for _, tip := range tips {
		if len(best) > 0 && best[0].Diameter.Less(tip.Diameter) {
			best = nil
		}
		if len(best) == 0 || best[0].Diameter == tip.Diameter {
			best = append(best, tip)
		}
	}
	return best
}

func formAgrees(bore BoreForm, tip TipForm) bool {
	switch bore {
	case BoreParallel:
		return tip == TipParallel
	case BoreTapered:
		return tip == TipTapered
	}
	return true
}
