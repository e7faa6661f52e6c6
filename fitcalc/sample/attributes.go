package sample

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// AttributePlan is a single sampling plan by attributes: of N pieces taken at random, accept the lot when at most C
// are bad.
type AttributePlan struct{ N, C int }

func (p AttributePlan) check() error {
	if err := checkPieces("sample size", p.N, 1); err != nil {
		return err
	}
	if p.C < 0 {
		return bad("acceptance number", float64(p.C), ErrNegative)
	}
	return nil
}

// Accept returns the probability that a large lot with the given share of bad pieces is accepted: the binomial Σ_{d ≤
// C} (N over d) p^d (1 − p)^(N−d).
func (p AttributePlan) Accept(share float64) (float64, error) {
	if err := firstError(p.check(), checkShare(share)); err != nil {
		return 0, err
	}
	return p.binomial(share), nil
}

func (p AttributePlan) binomial(share float64) float64 {
	switch {
	case p.C >= p.N || share == 0:
		return 1
	case share == 1:
		return 0
	}
	return mathext.RegIncBeta(float64(p.N-p.C), float64(p.C+1), 1-share)
}

// AcceptLot returns the probability that a lot of the given size with so many bad pieces is accepted: the
// hypergeometric distribution, which is what holds for a small lot. A sample as large as the lot is full inspection.
func (p AttributePlan) AcceptLot(lot, defective int) (float64, error) {
	if err := firstError(p.check(), checkPieces("lot size", lot, 1), checkLot(lot, defective)); err != nil {
		return 0, err
	}
	return p.hypergeometric(lot, defective), nil
}

func checkLot(lot, defective int) error {
	if defective < 0 {
		return bad("bad pieces", float64(defective), ErrNegative)
	}
	if defective > lot {
		return bad("bad pieces", float64(defective), ErrOrder)
	}
	return nil
}

func (p AttributePlan) hypergeometric(lot, defective int) float64 {
	n := min(p.N, lot)
	least := max(0, n-(lot-defective))
	sum := 0.0
	for d := least; d <= min(p.C, n, defective); d++ {
		sum += math.Exp(logChoose(defective, d) + logChoose(lot-defective, n-d) - logChoose(lot, n))
	}
	return min(1, sum)
}

func logChoose(n, k int) float64 {
	a, _ := math.Lgamma(float64(n + 1))
	b, _ := math.Lgamma(float64(k + 1))
	c, _ := math.Lgamma(float64(n - k + 1))
	return a - b - c
}

// QualityAt returns the share of bad pieces at which a large lot is accepted with the given probability.
func (p AttributePlan) QualityAt(acceptance float64) (float64, error) {
	if err := firstError(p.check(), checkProbability("probability of acceptance", acceptance)); err != nil {
		return 0, err
	}
	if p.C >= p.N {
		return 0, bad("acceptance number", float64(p.C), ErrOrder)
	}
	return root(func(share float64) float64 { return acceptance - p.binomial(share) }, 0, 1), nil
}

func checkShare(share float64) error {
	if !(share >= 0 && share <= 1) {
		return bad("share of bad pieces", share, ErrProbability)
	}
	return nil
}

// Point is one point of an operating characteristic: a lot with the share Bad of bad pieces is accepted with the
// probability Accept.
type Point struct{ Bad, Accept float64 }

// TwoPoints are the points a plan must meet.
type TwoPoints struct {
	// Producer is the producer's risk point: lots as good as this must be accepted at least this often.
	Producer Point
	// Consumer is the consumer's risk point: lots as bad as this must be accepted at most this often.
	Consumer Point
}

func (t TwoPoints) check() error {
	if err := firstError(
		checkProbability("bad share of the producer's point", t.Producer.Bad),
		checkProbability("acceptance at the producer's point", t.Producer.Accept),
		checkProbability("bad share of the consumer's point", t.Consumer.Bad),
		checkProbability("acceptance at the consumer's point", t.Consumer.Accept),
	); err != nil {
		return err
	}
	if t.Producer.Bad >= t.Consumer.Bad {
		return bad("bad share of the producer's point", t.Producer.Bad, ErrOrder)
	}
	if t.Producer.Accept <= t.Consumer.Accept {
		return bad("acceptance at the producer's point", t.Producer.Accept, ErrOrder)
	}
	return nil
}

// FindBinomial returns the plan of the least sample, and for it the least acceptance number, that meets both points
// for a large lot.
func FindBinomial(t TwoPoints) (AttributePlan, error) {
	return find(t, largestSearch, func(p AttributePlan) (float64, float64) {
		return p.binomial(t.Producer.Bad), p.binomial(t.Consumer.Bad)
	})
}

// FindHypergeometric returns the plan of the least sample that meets both points for a lot of the given size. Shares
// that are no whole number of pieces are taken on the safe side: the producer's down, the consumer's up.
func FindHypergeometric(t TwoPoints, lot int) (AttributePlan, error) {
	if err := checkPieces("lot size", lot, 1); err != nil {
		return AttributePlan{}, err
	}
	const slack = 1e-9 // .15 of 100 is 15
	good := int(math.Floor(t.Producer.Bad*float64(lot) + slack))
	poor := int(math.Ceil(t.Consumer.Bad*float64(lot) - slack))
	return find(t, lot, func(p AttributePlan) (float64, float64) {
		return p.hypergeometric(lot, good), p.hypergeometric(lot, poor)
	})
}

// largestSearch bounds the samples of plans by attributes: nobody measures as many.
const largestSearch = 100_000

// find goes through the acceptance numbers. For each, the probability of acceptance falls as the sample grows, so the
// least sample that satisfies the consumer is found by halving, and it is the one the producer likes best. It grows
// with the acceptance number, so the first that satisfies both is the least of all.
func find(t TwoPoints, largest int, accept func(AttributePlan) (producer, consumer float64)) (AttributePlan, error) {
	if err := t.check(); err != nil {
		return AttributePlan{}, err
	}
	least := 1
	for c := 0; least <= largest; c++ {
		satisfied := func(n int) bool {
			_, consumer := accept(AttributePlan{n, c})
			return consumer <= t.Consumer.Accept
		}
		n := max(least, c+1)
		step := 1
		lo := n - 1
		for n < largest && !satisfied(n) {
			lo = n
			n = min(n+step, largest)
			step *= 2
		}
		if n > largest || !satisfied(n) {
			break
		}
		for lo+1 < n {
			if mid := (lo + n) / 2; satisfied(mid) {
				n = mid
			} else {
				lo = mid
			}
		}
		if producer, _ := accept(AttributePlan{n, c}); producer >= t.Producer.Accept {
			return AttributePlan{n, c}, nil
		}
		least = n
	}
	return AttributePlan{}, bad("sample size", float64(largest), ErrTooLarge)
}
