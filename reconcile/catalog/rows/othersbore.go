package rows

import (
	"fmt"
	"slices"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/traits"
)

// Where a list gives each tip its own bore, a part that has the bore of another tip contradicts itself, be that bore one for its tip or not: .366 in beside
// .355 in taper, where the others of that tip have .350 in and those of .370 in have .366 in.

const (
	// leastOfTip is how many parts tell what bore a tip has in a list.
	leastOfTip = 2
	// mostTipBores is how many bores of tips there are at most in a list that gives each tip its own.
	mostTipBores = 50
)

// tipBores are the parts of a list that have one tip and one bore.
type tipBores struct {
	first tipAndBore
	parts int
}

// compareTipBores says of which part the bore is that of another tip than its own, at both, and returns those parts. What is told of other bores alone is
// left to that: one that is none for the tip of a head, or too wide or too tight for a ferrule's.
func (t *Table) compareTipBores(all []tipAndBore) (told []*Entry) {
	groups := groupTipBores(all)
	if len(groups) > mostTipBores {
		return nil
	}
	for _, one := range groups {
		if one.parts > 1 || one.first.none || t.Kind != catalog.Heads && !one.first.fits || t.hasSleeve(one.first, nil) {
			continue
		}
		if other := boreOfOther(one, groups); other != nil {
			t.warnOthersBore(one.first, other.first)
			told = append(told, one.first.Entry)
		}
	}
	return told
}

// groupTipBores groups the parts with one tip by that and their bore, as far as there may be a list of few.
func groupTipBores(all []tipAndBore) (groups []tipBores) {
	for _, one := range all {
		if len(one.tips) != 1 {
			continue
		}
		at := slices.IndexFunc(groups, func(g tipBores) bool { return g.first.tips[0] == one.tips[0] && g.first.bore == one.bore })
		if at >= 0 {
			groups[at].parts++
			continue
		}
		if groups = append(groups, tipBores{one, 1}); len(groups) > mostTipBores {
			break
		}
	}
	return groups
}

// boreOfOther returns the parts of the one other tip whose bore a part has, where no part of its own tip has that.
func boreOfOther(one tipBores, groups []tipBores) (other *tipBores) {
	own, others := 0, 0
	for i := range groups {
		g := &groups[i]
		sameTip, alike := g.first.tips[0] == one.first.tips[0], !cells.Apart(g.first.bore, one.first.bore, likeBore)
		switch {
		case sameTip && alike:
			if g.first.Entry != one.first.Entry {
				return nil
			}
		case sameTip:
			own += g.parts
		case alike && other != nil && other.first.tips[0] != g.first.tips[0]:
			return nil
		case alike:
			others += g.parts
			other = g
		}
	}
	if own < leastOfTip || others < leastOfTip {
		return nil
	}
	return other
}

// warnOthersBore says at the bore and at the tip of a part that the bore is that of another tip's parts.
func (t *Table) warnOthersBore(one, other tipAndBore) {
	message := fmt.Sprintf("the part is for %v by %q, and its bore of %s (%s) is that of the parts for %v, as in row %d", one.tips[0], one.Fields.Text(catalog.TipTaken),
		one.Fields.Text(catalog.Bore), traits.SayMM(traits.MM(one.bore)), other.tips[0], t.RowOf(other.Line))
	t.warnBeside(one, catalog.Bore, catalog.TipTaken, message)
	t.warnBeside(one, catalog.TipTaken, catalog.Bore, message)
}
