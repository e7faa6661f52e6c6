package sample

import (
	"errors"
	"fmt"
	"math"
)

// What can be wrong with an input; an [*InputError] wraps one of these.
var (
	ErrTooFew      = errors.New("needs more readings")
	ErrNotFinite   = errors.New("must be a finite number")
	ErrNotPositive = errors.New("must be greater than nothing")
	ErrNegative    = errors.New("must not be negative")
	ErrProbability = errors.New("must lie between 0 and 1, without 0 and 1 themselves")
	ErrOrder       = errors.New("stands in the wrong order to its partner")
	ErrNoLimits    = errors.New("has no limits to compare with; give a tolerance")
	ErrNoPlan      = errors.New("is not in the table; use another code letter, or find a plan from two points")
	ErrTooMany     = errors.New("is more than this package counts exactly; a million pieces are the most")
	ErrTooLarge    = errors.New("needs a sample larger than this package searches; move the two points apart")
)

// InputError says which input cannot be used and why. errors.Is finds the reason, one of the Err variables.
type InputError struct {
	// Name is the input, such as "confidence" or "reading 3".
	Name string
	// Value is what was given.
	Value float64
	// Reason is one of the Err variables.
	Reason error
}

func (e *InputError) Error() string {
	return fmt.Sprintf("sample: %s (%v) %v", e.Name, e.Value, e.Reason)
}

func (e *InputError) Unwrap() error { return e.Reason }

func bad(name string, value float64, reason error) error {
	return &InputError{Name: name, Value: value, Reason: reason}
}

func checkFinite(name string, x float64) error {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return bad(name, x, ErrNotFinite)
	}
	return nil
}

func checkPositive(name string, x float64) error {
	if err := checkFinite(name, x); err != nil {
		return err
	}
	if x <= 0 {
		return bad(name, x, ErrNotPositive)
	}
	return nil
}

func checkProbability(name string, p float64) error {
	if !(p > 0 && p < 1) { // so that NaN fails too
		return bad(name, p, ErrProbability)
	}
	return nil
}

func checkCount(name string, n, least int) error {
	if n < least {
		return bad(name, float64(n), ErrTooFew)
	}
	return nil
}

// mostPieces is how many pieces, bad or good, a sample or lot may have where they are counted: up to it the probabilities are good
// to eight digits, and beyond they lose them fast: four are left for a hundred times as many.
const mostPieces = 1_000_000

// checkPieces is [checkCount] for pieces that are counted.
func checkPieces(name string, n, least int) error {
	if n > mostPieces {
		return bad(name, float64(n), ErrTooMany)
	}
	return checkCount(name, n, least)
}

// firstError returns the first error that is not nil.
func firstError(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
