package words

import (
	"hash/maphash"
	"strings"
	"sync/atomic"
)

// The words of a sheet come back in row after row, and several questions are asked about one text. What was found of a word or a text is kept until
// another one comes to its place, so that the room is bounded; any number of goroutines may ask.

const (
	// placesOfWords is how many words of a class are kept, and placesOfTexts how many texts.
	placesOfWords, placesOfTexts = 1 << 11, 1 << 6
	// longestKeptWord and longestKeptText are how many bytes one of them has at most.
	longestKeptWord, longestKeptText = 64, 1 << 10
)

// kept are answers about texts.
type kept[V any] struct {
	places []atomic.Pointer[keptAnswer[V]]
}

type keptAnswer[V any] struct {
	text   string
	answer V
}

// keptSeed makes the places of texts differ from run to run: nobody can write a sheet whose texts all go to one.
var keptSeed = maphash.MakeSeed()

// keeping returns room for answers about as many texts as a power of two.
func keeping[V any](places int) kept[V] {
	return kept[V]{make([]atomic.Pointer[keptAnswer[V]], places)}
}

// of returns the answer about a text, which is kept and must not be changed.
func (k kept[V]) of(text string, longest int, ask func(string) V) V {
	if len(text) > longest {
		return ask(text)
	}
	place := &k.places[maphash.String(keptSeed, text)&uint64(len(k.places)-1)]
	if known := place.Load(); known != nil && known.text == text {
		return known.answer
	}
	text = strings.Clone(text) // of which a word is a part that may be long
	answer := ask(text)
	place.Store(&keptAnswer[V]{text, answer})
	return answer
}
