// Package pattern holds regular expressions back until they are first used: compiling those of all packages took as long as the rest of
// the start of a command that needs none of them.
package pattern

import (
	"regexp"
	"sync"
)

// Lazy returns a function that compiles an expression at its first call and returns it. An expression that does not compile panics
// there, as it would in [regexp.MustCompile].
func Lazy(expression string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expression) })
}
