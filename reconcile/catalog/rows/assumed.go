package rows

import "slices"

// assumptions are what rows assume, in order. Rows assume the same again and again, so that each list is made once: it leads to those
// that have one more.
type assumptions struct {
	texts []string
	next  map[string]*assumptions
}

// mostNext bounds how many lists with one more are kept.
const mostNext = 1 << 12

// with returns the list with one more, the same where it has that already.
func (a *assumptions) with(text string) *assumptions {
	if slices.Contains(a.texts, text) {
		return a
	}
	longer := a.next[text]
	if longer != nil {
		return longer
	}
	longer = a.alone(text)
	if len(a.next) < mostNext {
		if a.next == nil {
			a.next = map[string]*assumptions{}
		}
		a.next[text] = longer
	}
	return longer
}

// alone returns the list with one more, the same where it has that already, and changes nothing: nobody else is led to it.
func (a *assumptions) alone(text string) *assumptions {
	if slices.Contains(a.texts, text) {
		return a
	}
	return &assumptions{texts: slices.Clip(append(slices.Clip(a.texts), text))}
}
