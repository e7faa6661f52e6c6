package sample

import (
	"math"
	"strings"
)

// VariablesPlan is a single sampling plan by variables for one limit: of N readings accept the lot when (upper −
// mean)/s ≥ K, or for a lower limit (mean − lower)/s ≥ K. With SigmaKnown, s is the standard deviation known
// beforehand, otherwise that of the readings.
type VariablesPlan struct {
	N          int
	K          float64
	SigmaKnown bool
}

func (p VariablesPlan) check() error {
	least := 2
	if p.SigmaKnown {
		least = 1
	}
	return firstError(checkCount("sample size", p.N, least), checkFinite("acceptability constant", p.K))
}

// Accept returns the probability that a large normal lot with the given share beyond the limit is accepted: P(t′ ≥
// K√n), t′ noncentral with n − 1 degrees of freedom and noncentrality z(1 − share)·√n; with sigma known Φ(√n(z(1 −
// share) − K)). Source: Schilling and Neubauer, Acceptance Sampling in Quality Control (2009), chapter 10.
func (p VariablesPlan) Accept(share float64) (float64, error) {
	if err := firstError(p.check(), checkProbability("share of bad pieces", share)); err != nil {
		return 0, err
	}
	return p.accept(share), nil
}

func (p VariablesPlan) accept(share float64) float64 {
	root, z := math.Sqrt(float64(p.N)), -zOf(share)
	if p.SigmaKnown {
		return upperTail(root * (p.K - z))
	}
	_, upper := noncentralT{float64(p.N - 1), z * root}.tails(p.K * root)
	return upper
}

// AcceptsUpper applies a plan with unknown sigma to readings and an upper limit.
func (p VariablesPlan) AcceptsUpper(s Summary, upper float64) (bool, error) {
	return p.accepts(s, upper-s.Mean, upper)
}

// AcceptsLower applies a plan with unknown sigma to readings and a lower limit.
func (p VariablesPlan) AcceptsLower(s Summary, lower float64) (bool, error) {
	return p.accepts(s, s.Mean-lower, lower)
}

func (p VariablesPlan) accepts(s Summary, room, limit float64) (bool, error) {
	if err := firstError(p.check(), s.check(), checkFinite("limit", limit)); err != nil {
		return false, err
	}
	if s.N < p.N {
		return false, bad("number of readings", float64(s.N), ErrTooFew)
	}
	return room >= p.K*s.SD, nil
}

// FindVariables returns the plan of the least sample with sigma unknown that accepts exactly as often as the
// producer's point asks and meets the consumer's.
func FindVariables(t TwoPoints) (VariablesPlan, error) {
	if err := t.check(); err != nil {
		return VariablesPlan{}, err
	}
	plan := func(n float64) VariablesPlan {
		root := math.Sqrt(n)
		k := noncentralT{n - 1, -zOf(t.Producer.Bad) * root}.quantile(1-t.Producer.Accept) / root
		return VariablesPlan{N: int(n), K: k}
	}
	n, err := leastCount(func(n float64) bool {
		return n > largestVariables || plan(n).accept(t.Consumer.Bad) <= t.Consumer.Accept
	}, 2)
	if err != nil {
		return VariablesPlan{}, err
	}
	if n > largestVariables {
		return VariablesPlan{}, bad("sample size", float64(n), ErrTooLarge)
	}
	return plan(float64(n)), nil
}

const largestVariables = 100_000

// FindVariablesKnownSigma returns the plan of the least sample with sigma known that accepts exactly as often as the
// producer's point asks and meets the consumer's: n = ((z(Pa₁) − z(Pa₂))/(z₁ − z₂))² rounded up, zᵢ = z(1 − pᵢ).
func FindVariablesKnownSigma(t TwoPoints) (VariablesPlan, error) {
	if err := t.check(); err != nil {
		return VariablesPlan{}, err
	}
	producer, consumer := zOf(t.Producer.Accept), zOf(t.Consumer.Accept)
	good, poor := -zOf(t.Producer.Bad), -zOf(t.Consumer.Bad)
	n := math.Ceil(math.Pow((producer-consumer)/(good-poor), 2))
	if !(n <= largestSample) {
		return VariablesPlan{}, bad("sample size", n, ErrTooLarge)
	}
	n = math.Max(n, 1)
	return VariablesPlan{N: int(n), K: good - producer/math.Sqrt(n), SigmaKnown: true}, nil
}

// table414 holds acceptability constants of MIL-STD-414, table B-1 (standard deviation method, form 1, single limit,
// normal inspection), by AQL from .65 to 10; dn is an arrow to the next letter with its own sample size, 0 a cell
// without a plan or one that could not be read. Read in M. Casquilho, Instituto Superior Técnico, "Z1.9 B-1"; of the
// letters G to K only the first three columns could be.
var (
	letters414 = "BCDEFGHJK"
	table414   = map[Letter]struct {
		n int
		k [7]float64
	}{
		'B': {3, [7]float64{0, 0, dn, 1.12, .958, .765, .566}},
		'C': {4, [7]float64{dn, 1.45, 1.34, 1.17, 1.01, .814, .617}},
		'D': {5, [7]float64{1.65, 1.53, 1.40, 1.24, 1.07, .874, .675}},
		'E': {7, [7]float64{1.75, 1.62, 1.50, 1.33, 1.15, .955, .755}},
		'F': {10, [7]float64{1.84, 1.72, 1.58, 1.41, 1.23, 1.03, .828}},
		'G': {15, [7]float64{1.91, 1.79, 1.65}},
		'H': {20, [7]float64{1.96, 1.82, 1.69}},
		'J': {35, [7]float64{2.03, 1.89, 1.76}},
		'K': {50, [7]float64{2.08, 1.93, 1.80}},
	}
)

// NormalVariablesPlan returns the plan of MIL-STD-414 (ANSI/ASQ Z1.9), table B-1, form 1, for a code letter of that
// standard and an AQL of .65, 1.0, 1.5, 2.5, 4.0, 6.5 or 10 %, following the arrows. Cells without a plan and those
// that could not be read are [ErrNoPlan].
func NormalVariablesPlan(l Letter, aqlPercent float64) (VariablesPlan, error) {
	column, err := aqlColumn(aqlPercent)
	if err != nil {
		return VariablesPlan{}, err
	}
	at := strings.IndexByte(letters414, byte(l))
	for at >= 0 && at < len(letters414) && column < len(table414[l].k) {
		row := table414[Letter(letters414[at])]
		if k := row.k[column]; k > 0 {
			return VariablesPlan{N: row.n, K: k}, nil
		} else if k != dn {
			break
		}
		at++
	}
	return VariablesPlan{}, bad("code letter "+l.String(), float64(l), ErrNoPlan)
}
