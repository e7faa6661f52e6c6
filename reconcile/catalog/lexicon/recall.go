package lexicon

// Several questions are asked about the text of a row while it is read, and some of them, on the way to different answers, more than once. What was
// found is kept as long as a few other texts have not been asked about.

// placesOfRecall is of how many texts the answers to a question are kept.
const placesOfRecall = 4

// recalled are the answers to a question about the last texts.
type recalled struct {
	texts   [placesOfRecall]string
	answers [placesOfRecall]any
	next    int
}

// Recall returns the answer to a question about a text, which must depend on the text alone. It is kept for a while and must not be changed.
func Recall[V any](l *Lexicon, question, text string, ask func() V) V {
	r := l.recalled[question]
	if r == nil {
		r = &recalled{}
		l.recalled[question] = r
	}
	for i, known := range r.texts {
		if known == text && r.answers[i] != nil {
			return r.answers[i].(V)
		}
	}
	answer := ask()
	r.texts[r.next], r.answers[r.next] = text, answer
	r.next = (r.next + 1) % placesOfRecall
	return answer
}
