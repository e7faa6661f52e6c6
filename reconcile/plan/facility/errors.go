package facility

import (
	"errors"
	"fmt"
)

// What can be wrong with a problem; an [*InputError] wraps one of these.
var (
	ErrCost          = errors.New("is no cost: it must be a number, and that of opening finite and not negative")
	ErrIndex         = errors.New("is none of those in the problem")
	ErrTwice         = errors.New("is listed twice; keep the cheaper")
	ErrContradiction = errors.New("must be open and must not be open; leave one of the two out")
	ErrCount         = errors.New("is not a number that fits; see Problem")
)

// InputError says which part of a problem cannot be used. errors.Is finds the reason, one of the Err variables.
type InputError struct {
	What  string
	Index int
	Err   error
}

func (e *InputError) Error() string { return fmt.Sprintf("facility: %s %d %v", e.What, e.Index, e.Err) }

func (e *InputError) Unwrap() error { return e.Err }

// InfeasibleError reports that no set of so few facilities serves every customer that can be served at all and meets every
// group that can be met.
type InfeasibleError struct {
	// AtMost is the limit that cannot be kept.
	AtMost int
	// Proven is false where the search was stopped before it found a set or showed that there is none.
	Proven bool
}

func (e *InfeasibleError) Error() string {
	if !e.Proven {
		return fmt.Sprintf("facility: no set of at most %d facilities that serves everyone was found in the time; give more time or allow more", e.AtMost)
	}
	return fmt.Sprintf("facility: no set of at most %d facilities serves everyone; allow more", e.AtMost)
}
