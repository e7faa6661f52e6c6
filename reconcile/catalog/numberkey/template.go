package numberkey

import (
	"slices"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/internal/pattern"
)

// A template stands for the part numbers with letters, names in brackets or names between dashes in the place of what differs.

const (
	// firstPlaceholder and lastPlaceholder stand for names in a template.
	firstPlaceholder, lastPlaceholder = '\uE000', '\uE03F'
	// literalSign and anySign mark the signs of a template that belong to no field: those that all numbers have, and others.
	literalSign, anySign = -1, -2
)

var (
	// bracketName is a name in brackets.
	bracketName = pattern.Lazy(`[\[<{＜【〔「]([^\[\]<>{}＜＞【】〔〕「」]{1,40})[\]>}＞】〕」]`)
	// spacedDash is what stands between the names of pieces.
	spacedDash = pattern.Lazy(`\s+[-–—/]\s+`)
	// namesBetween is what stands between names that are listed in the order of the pieces.
	namesBetween = pattern.Lazy(`\s*[;；、|]\s*|[,，]\s*|\s+[-–—/x×]\s+`)
)

// byTemplate finds a template of some numbers in the texts of a key.
func byTemplate(s *sayings, numbers []string) (k *Key, seen *Text) {
	tried := 0
	for i := range s.texts {
		for _, one := range templatesIn(s.texts[i].Text, numbers) {
			if tried++; tried > mostTemplates {
				return k, seen
			}
			found, like := s.fit(one, numbers)
			if like && seen == nil {
				seen = &s.texts[i]
			}
			if found != nil && (k == nil || found.sizes() > k.sizes()) {
				found.At, found.Text = s.texts[i].At, one.written
				k = found
			}
		}
	}
	return k, seen
}

// writtenTemplate is a template as it stands in a text: its signs with placeholders for names, and what stands behind it.
type writtenTemplate struct {
	written string
	signs   []rune
	names   []string
	behind  string
}

// templatesIn returns the words of a text that may be templates.
func templatesIn(text string, numbers []string) (all []writtenTemplate) {
	var names []string
	marked := bracketName().ReplaceAllStringFunc(text, func(group string) string {
		if len(names) > lastPlaceholder-firstPlaceholder {
			return group
		}
		names = append(names, bracketName().FindStringSubmatch(group)[1])
		return string(rune(firstPlaceholder + len(names) - 1))
	})
	if len(names) < leastExplained {
		marked, names = text, nil
	}
	from := -1
	add := func(to int) {
		if from < 0 {
			return
		}
		if token := strings.TrimRight(marked[from:to], ".-_/"); len(token) >= lexicon.LeastInNumber {
			all = append(all, writtenTemplate{restored(token, names), []rune(token), names, marked[to:]})
		}
		from = -1
	}
	for i, r := range marked {
		switch {
		case r == ',' && i > 0 && i+1 < len(marked) && unicode.IsDigit(rune(marked[i-1])) && unicode.IsDigit(rune(marked[i+1])):
		case !isNumberSign(r):
			add(i)
		case from < 0:
			from = i
		}
	}
	add(len(marked))
	if blanks := strings.Count(separatorsOf([]rune(numbers[0])), " "); blanks > 0 {
		all = append(all, blankTemplates(marked, names, blanks)...)
	}
	if named, ok := namedPieces(text, numbers); ok {
		all = append(all, named)
	}
	return all
}

// blankTemplates returns the stretches of a text that may be templates with some blanks.
func blankTemplates(marked string, names []string, blanks int) (all []writtenTemplate) {
	fields := strings.Fields(marked)
	for i := 0; i+blanks < len(fields); i++ {
		token := strings.Trim(strings.Join(fields[i:i+blanks+1], " "), sizetext.AroundNames+`"'.`)
		if len(token) >= lexicon.LeastInNumber && len(token) <= longestNumber && !strings.ContainsAny(token, PairSigns+",;()") {
			all = append(all, writtenTemplate{restored(token, names), []rune(token), names, strings.Join(fields[i+blanks+1:], " ")})
		}
	}
	return all
}

// restored writes the names of a template in the places of its placeholders.
func restored(token string, names []string) string {
	for i, name := range names {
		token = strings.ReplaceAll(token, string(rune(firstPlaceholder+i)), "["+name+"]")
	}
	return token
}

// namedPieces makes a template of names with dashes between them, as many as the numbers have pieces: "VF - base OD - bore - length - colour".
func namedPieces(text string, numbers []string) (t writtenTemplate, ok bool) {
	pieces := spacedDash().Split(text, -1)
	separators := []rune(separatorsOf([]rune(numbers[0])))
	if len(pieces) < leastExplained+1 || len(pieces) != len(separators)+1 || len(pieces) > lastPlaceholder-firstPlaceholder {
		return t, false
	}
	lead := sharedLead(pieces[0], numbers)
	if lead == "" {
		return t, false
	}
	t.written, t.signs = text, []rune(lead)
	for i, name := range pieces[1:] {
		t.names = append(t.names, name)
		t.signs = append(t.signs, separators[i], rune(firstPlaceholder+i))
	}
	return t, true
}

// sharedLead returns the word of the first name with which nearly all numbers begin, empty where it has none: the last one, or the one that is
// explained there, as in "Number: VF = ferrule".
func sharedLead(name string, numbers []string) string {
	words := strings.Fields(name)
	for i, word := range slices.Backward(words) {
		word, _, _ = strings.Cut(word, "=")
		explained := i == len(words)-1 || strings.ContainsAny(words[i+1][:1], PairSigns) || strings.ContainsAny(words[i], PairSigns)
		if word = strings.Trim(word, PairSigns+`"'`); explained && word != "" && sharePiece(numbers, 0, word) {
			return word
		}
	}
	return ""
}

// fit makes a key of a template that is built as the numbers are. Like is set where it seems to be one, whether it is understood or not.
func (s *sayings) fit(t writtenTemplate, numbers []string) (k *Key, like bool) {
	if !builtAlike(t.signs, numbers) || separatorsOf(t.signs) == "" && !slices.ContainsFunc(numbers, func(n string) bool { return len([]rune(n)) == len(t.signs) }) {
		return nil, false
	}
	isNumber := slices.ContainsFunc(numbers, func(n string) bool { return strings.EqualFold(n, string(t.signs)) })
	k = &Key{}
	own := template{t.signs, make([]int, len(t.signs))}
	for n, piece := range piecesOfNumber(t.signs) {
		from := s.markLiteral(&own, n, piece, numbers)
		if from < piece.to && !isNumber {
			like = s.markFields(k, &own, t, pieceOf{from, piece.to}) || like
		}
	}
	if k.sizes() == 0 && !s.markListed(k, &own, t, numbers) {
		return nil, like && !isNumber
	}
	fields := len(k.Fields)
	k.cut = own.cutter(fields, numbers)
	return k, like
}

// markLiteral marks the signs at the beginning of a piece that all numbers have there, and returns where others begin. A piece of letters only
// stands for something where the numbers differ in it.
func (s *sayings) markLiteral(t *template, n int, piece pieceOf, numbers []string) (from int) {
	for i := piece.from; i < piece.to; i++ {
		t.marks[i] = literalSign
	}
	if sharePiece(numbers, n, string(t.signs[piece.from:piece.to])) {
		return piece.to
	}
	for from = piece.from; from < piece.to-1 && shareSign(numbers, n, from-piece.from, t.signs[from]); from++ {
	}
	return from
}

// shareSign reports whether nearly all numbers have a sign at a place of a piece.
func shareSign(numbers []string, n, at int, sign rune) bool {
	same := 0
	for _, number := range numbers {
		signs := []rune(number)
		if pieces := piecesOfNumber(signs); n < len(pieces) && pieces[n].from+at < pieces[n].to && signs[pieces[n].from+at] == sign {
			same++
		}
	}
	return 100*same >= leastShared*len(numbers)
}

// markFields marks the fields in a piece of a template, and reports whether it seems to have any.
func (s *sayings) markFields(k *Key, t *template, written writtenTemplate, piece pieceOf) (like bool) {
	whole := string(t.signs[piece.from:piece.to])
	mark := func(from, to, field int) {
		for i := from; i < to; i++ {
			t.marks[i] = field
		}
	}
	if f, at := s.of(whole); at >= 0 {
		k.Fields = append(k.Fields, f)
		mark(piece.from, piece.to, len(k.Fields)-1)
		return f.explains()
	}
	if f := s.meaning(whole); f.IsSize() && !sameSigns(whole) {
		f.letters = whole
		k.Fields = append(k.Fields, f)
		mark(piece.from, piece.to, len(k.Fields)-1)
		return k.sizes() >= leastExplained // "TAPER TIP" is no template
	}
	repeated := true // aabb, and no word with a doubled letter in it
	for i := piece.from; i < piece.to; {
		end := i
		for end < piece.to && t.signs[end] == t.signs[i] {
			end++
		}
		run := string(t.signs[i:end])
		repeated = repeated && end > i+1 && !strings.ContainsAny(run, "0123456789")
		f, at := s.of(run)
		if at < 0 {
			f, at = s.of(string(t.signs[i]))
		}
		if sign := t.signs[i]; sign >= firstPlaceholder && sign <= lastPlaceholder && end == i+1 {
			if f, at = s.of(written.names[sign-firstPlaceholder]); at < 0 {
				f, at = s.meaning(written.names[sign-firstPlaceholder]), 0
			}
		}
		if role := sizetext.RoleNamed(s.lex, whole); at < 0 && role != "" && len(whole) == 1 && k.sizes() > 0 { // L beside OD and ID
			if f, at = s.meaning(whole), 0; !f.IsSize() {
				f = Field{Name: whole, Role: catalog.Role(role), scale: unsaid, letters: whole}
			}
		}
		if at >= 0 {
			k.Fields = append(k.Fields, f)
			mark(i, end, len(k.Fields)-1)
		} else {
			mark(i, end, anySign)
		}
		like = like || at >= 0 && f.explains()
		i = end
	}
	return like || repeated && !s.lex.IsUnit(whole) // mm
}

// sameSigns reports whether a text is one sign again and again.
func sameSigns(text string) bool { return strings.Trim(text, text[:firstSize(text)]) == "" }

// markListed takes the names that are listed behind a template, or behind a number, for those of the pieces in which the numbers differ, where
// there are as many: "VF-1350-0925-19-B: base OD (1/100 mm), bore (1/100 mm), length (mm), colour".
func (s *sayings) markListed(k *Key, t *template, written writtenTemplate, numbers []string) bool {
	var differ []pieceOf
	for n, piece := range piecesOfNumber(t.signs) {
		if from := s.markLiteral(t, n, piece, numbers); from < piece.to {
			differ = append(differ, piece)
		}
	}
	list, _, _ := strings.Cut(strings.Trim(written.behind, " ,;:=：＝(（)）→-–"), ". ")
	names := namesBetween().Split(list, -1)
	if slashed, _, _ := strings.Cut(list, ","); strings.Count(slashed, "/") >= len(differ)-1 && len(names) != len(differ) {
		names = strings.Split(slashed, "/")
	}
	if first := piecesOfNumber(t.signs)[0]; len(names) == len(differ)+1 && strings.EqualFold(names[0], string(t.signs[first.from:first.to])) {
		names = names[1:]
	}
	if len(differ) < leastExplained || len(names) != len(differ) {
		return false
	}
	k.Fields = nil
	for i, name := range names {
		f := s.meaning(name)
		k.Fields = append(k.Fields, f)
		for at := differ[i].from; at < differ[i].to; at++ {
			t.marks[at] = i
		}
	}
	return k.sizes() >= leastExplained
}
