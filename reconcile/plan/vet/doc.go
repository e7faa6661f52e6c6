// Package vet holds a new supplier's catalogue against the house's own: what it would serve, what it would save, what would have to be
// bought for it, how it sits against the shop's own sizes, how good its sheet is, and whether samples are what the sheet states.
//
// # Ferrules
//
// Every head of the house is decided against the ferrules in stock and against the new ones, each by itself, on the same tips. A head gains
// when a new ferrule fits it and none in stock does, or when the new one takes less bench time than the best in stock. Minutes are those of
// the shop's labour model, as mean of many joints.
//
// # Heads
//
// Every new head is decided against the ferrules in stock. A head that none fits is specified: base OD, bore and length that a ferrule must
// have ([fitcalc.Specify]). Heads that one ferrule could serve are put together: with the base ODs that a head accepts as
// intervals, the fewest sizes that serve all heads are found exactly, by taking the interval that ends first and every other that holds
// its end, again and again (interval stabbing). Bores and forms of base are not mixed.
//
// # Sizes of the house
//
// A part's stated size is within when its limits are, or where it states none its nominal size; it straddles when its nominal size is
// within and its limits are not.
//
// # Parts that stand for each other
//
// Two parts are interchangeable when for each size that decides the joint the nominal size of either lies within the limits of the
// other, with the shop's tolerance where one states none, and when their forms are the same. A size that one of them
// does not give makes them not comparable, not interchangeable.
//
// # Samples
//
// Readings are held against the stated limits by [sample.Compare], at 95 % confidence with 5 % of the lot allowed outside, and the
// uncertainty of the calipers counts against whatever is to be shown. The tolerance interval holds 95 % of the lot with 95 % confidence if the
// lot is normal. The share below the lower limit is bounded with the same confidence. One in twenty is what [fitcalc.DefaultShop]
// lets a shop redo; the two figures are a choice of this package.
//
// # The verdict
//
// The verdict is by rule, and the facts say on what it rests:
//
//   - ask: a sample contradicts what is stated, or more than a quarter of the rows are held, or of the pairs undecided for want of
//     what the new sheets do not say,
//   - leave: nothing is gained: no head more can be built, no bench time is saved, no part can be had for less,
//   - take: otherwise, and the parts worth taking are named.
package vet
