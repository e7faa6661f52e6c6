package layout

import "example.com/seatline/reconcile/catalog/lexicon"

// leastForTwo is of how many different texts a column is divided on two cores.
const leastForTwo = 1 << 10

// onTwoCores returns what divides the texts of a column, each as divide does with any lexicon: where there are many they are divided at once, half
// of them by another goroutine, since sentences take their time.
func (r *Region) onTwoCores(lex *lexicon.Lexicon, col int, divide func(lex *lexicon.Lexicon, text string) []string) func(text string) []string {
	place := map[string]int{}
	var texts []string
	for line := r.Body; line <= r.To; line++ {
		text := r.Grid.At(line, col)
		if _, known := place[text]; !known {
			place[text] = len(texts)
			texts = append(texts, text)
		}
	}
	if len(texts) < leastForTwo {
		return func(text string) []string { return divide(lex, text) }
	}
	pieces := make([][]string, len(texts))
	half, done, apart := len(texts)/2, make(chan struct{}), lex.Apart()
	go func() {
		defer close(done)
		for i, text := range texts[half:] {
			pieces[half+i] = divide(apart, text)
		}
	}()
	for i, text := range texts[:half] {
		pieces[i] = divide(lex, text)
	}
	<-done
	return func(text string) []string { return pieces[place[text]] }
}
