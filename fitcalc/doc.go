// Package fitcalc decides whether a ferrule, the plastic trim ring between a golf head's hosel and the shaft, fits a joint,
// and what the bench has to do for it.
//
// [Evaluate] takes a [Head], a [Tip], a [Ferrule] and the limits of a [Shop], and returns a [Fit]: a verdict, the reasons for
// it with their numbers, the assumptions it rests on, and the sizes and probabilities behind it. It is pure arithmetic: no
// files, no clock, nothing shared, nothing drawn at random, so that the same joint always has the same answer and any number
// of goroutines may ask at once. [Windows], [Specify] and [Sensitivity] ask the other way round.
//
// # Sizes and units
//
// Every size is a [measure.Dim]: a nominal size, its limits, and how sizes spread between them (normal with the limits at three
// standard deviations unless said otherwise, uniform or triangular). Lengths are exact, and inches and millimetres mix freely.
// A size that is zero was not given; where it is needed the verdict is [Ask], and the part of the answer that depends on it has
// its Known flag unset. A size without limits takes the shop's, which is an [Assumption].
//
// Diameters are diameters, and differences of two are on the diameter, unless the name says per side. What comes off on the
// diameter is twice what comes off per side. Positions on the shaft are measured from the tip end upward.
//
// # Words and JSON
//
// Verdicts, codes, levels, fields and what parts are like ([Category], [TopForm], [BoreForm], [Style], [Material], [TipForm]) are
// written and read as the words that String returns, by encoding/json and by others that ask for text. What is unknown is the
// empty text. UnmarshalText reads these words and no others; the error for any other is a [*measure.NameError], which lists
// them. A [Head], a [Ferrule] and a [Tip] are JSON objects in which what was not given is left out. A [Fit] is not: what a program
// needs of it differs, and it has no JSON of its own.
//
// # What is computed
//
// Flush: oversize S = base OD − hosel OD, nominal, and least and most limit against limit. S is spread as base and hosel are,
// in closed form. The base is undersize with the probability P(S < 0), visibly with P(S < −step), and has to be turned in
// P(S > step) of joints. The turn-down is S where that is more than nothing.
//
// Grip: the shaft's diameter at position x is d for a parallel tip, d + T x for a tapered one of T on the diameter per length up to
// the diameter where its cone ends, and goes evenly from station to station on a profile; trimming shifts x. The ferrule's base
// sits where the bore ends, at the insertion depth, and its top one length further up. Interference = shaft diameter − ferrule bore
// at the tightest place between. It slips with P(interference ≤ 0). The strain of its bore is interference / bore, and it splits
// where that is beyond the limit e: where shaft diameter > (1 + e) bore. A ferrule of which only the tip is known that it is for
// ([TipSize]) has the bore of one made for that tip: smaller by the shop's usual interference than that tip where it is widest
// under the ferrule.
//
// Seat: a countersink of mouth M and included angle A has the diameter M − 2 z tan(A/2) at depth z, so that a collar of diameter
// c goes in by (M − c) / (2 tan(A/2)), or as far as the cone or a counterbore is deep. A step has to be narrower than the
// counterbore and no longer than it is deep. What is left of a counterbore under the ferrule does not support the shaft.
//
// Bore: clearance = bore − tip diameter at its tightest, nominal, least and most. A tapered bore is quoted at its bottom, like the
// tip it takes, and grows as that does, or at the shop's rate where it is said to be tapered, as high as the cone of a tip that is
// not trimmed; one of the tip's own size clears it. The length of tip that is bonded is the bore's depth less the recess in its
// mouth.
//
// Work: the wall left beside the shaft at its thinnest, per side; whether turning reaches a decorative ring, the outside being a
// straight cone; and minutes by the shop's rates, with the volume turned off as the difference of a cone cut off,
// V = π h (D² + D d + d²)/12, and a cylinder.
//
// # Verdicts
//
// The weightiest reason decides. From the lightest: [Flush] fits as supplied; [Turn] fits after turning; [Prep] fits after work on
// hosel, tip or bore; [Ask] cannot be decided from the data; [No] does not fit, whatever is missing; [Bare] is a head that takes
// no ferrule. A base is flush when P(S < −step) and P(S > step) are both within the risk of the shop; it can be turned when
// P(S < −step) is within it and the most that comes off is within the limit. So the best base is not the one that equals the
// hosel: half of those come out undersize.
//
// # Sources
//
// The relations above are geometry. The limit on the neck is that of the Equipment Rules of the R&A and the USGA, part 2,
// section 2c; the texts read do not mention ferrules. Every value of [DefaultShop] has its reason and source in [Settings]; most
// are common practice with nothing published behind them, and are meant to be replaced by a shop's own.
//
// # Cautions
//
// Turning, solvents, epoxy and heat can hurt, and so can a head that comes loose: a fit on paper is no proof of a bond. [Cautions]
// holds the warnings, which belong beside everything that is made from an answer. Follow the adhesive maker's instructions, local
// rules and a qualified builder's judgement.
package fitcalc
