package numberkey

import (
	"cmp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/internal/pattern"
)

// sayings is what the texts of a key say, piece by piece.
type sayings struct {
	lex *lexicon.Lexicon
	// kind is what the table lists as far as that is known.
	kind    catalog.Kind
	texts   []Text
	entries []keySaying
}

// keySaying is what a text says of letters: their words, with a legend in them if there is one.
type keySaying struct {
	letters, words string
	// text is the place of the text among the others.
	text int
}

// sayingSign is a short form with the sign before what it stands for.
var sayingSign = pattern.Lazy(`(?:^|[\s\x{3000},;.、，；。/|·(（"'])([A-Za-z]{1,8}\d?|#{1,8}|\d{1,4})["']?(?: ?[=:：＝→] ?| [-–—] )`)

// newSayings reads the texts of a key.
func newSayings(lex *lexicon.Lexicon, kind catalog.Kind, texts []Text) *sayings {
	s := &sayings{lex: lex, kind: kind, texts: texts}
	for i, one := range texts {
		for _, e := range sayingsIn(one.Text) {
			e.text = i
			s.entries = append(s.entries, e)
		}
	}
	return s
}

// sayingsIn returns the letters that a text explains with their words. What stands in brackets behind words belongs to these.
func sayingsIn(text string) (all []keySaying) {
	if !strings.ContainsAny(text, PairSigns+"-–—") {
		return nil
	}
	places := sayingSign().FindAllStringSubmatchIndex(text, -1)
	depth, first, at := 0, len(text), 0
	var kept [][]int
	for _, place := range places {
		for _, r := range text[at:place[2]] {
			switch r {
			case '(', '（':
				depth++
			case ')', '）':
				depth--
			}
		}
		at = place[2]
		if letters := text[place[2]:place[3]]; first == len(text) && (sameSigns(letters) || len(letters) <= longestCode && letters == strings.ToUpper(letters)) {
			first = depth // words before it explain nothing
		}
		if depth <= first {
			kept = append(kept, place)
		}
	}
	for i, place := range kept {
		end := len(text)
		if i+1 < len(kept) {
			end = kept[i+1][2]
		}
		if said := strings.Trim(text[place[1]:end], " \t,;，；、|\"'"); said != "" {
			all = append(all, keySaying{letters: text[place[2]:place[3]], words: said})
		}
	}
	return all
}

// of returns the field that letters stand for, and where in the sayings they do, −1 where nobody says it: in the first place that says what it
// is, for "TA - AA - LL" says nothing of AA.
func (s *sayings) of(letters string) (f Field, at int) {
	at = -1
	exact := slices.ContainsFunc(s.entries, func(e keySaying) bool { return e.letters == letters })
	for i, e := range s.entries {
		if e.letters != letters && (exact || !strings.EqualFold(e.letters, letters)) {
			continue
		}
		said := s.meaning(e.words)
		if at < 0 || said.Role != "" {
			f, at = said, i
		}
		if said.Role != "" {
			break
		}
	}
	if at < 0 {
		return Field{}, -1
	}
	f.letters = letters
	return f, at
}

// meaning reads the words for what stands at a place of part numbers.
func (s *sayings) meaning(said string) Field {
	f := Field{scale: unsaid}
	said, f.codes = codesWithin(said)
	if sc, rest, known := scaleIn(s.lex, said); known {
		f.scale, said = sc, rest
	}
	if f.Name, f.Role = s.named(said); f.codes != nil && !f.IsSize() && !f.isWord() {
		for _, word := range strings.Fields(said) { // "tip code"
			if name, role := s.named(word); traits.Of[role].Want == traits.Length && role != "" {
				f.Name, f.Role = name, role
				break
			}
		}
	}
	return f
}

// namesMore is by how much a longer name has to say more: "length in" says no more than "length".
const namesMore = 0.1

// named returns what a text names best at its beginning, or else anywhere.
func (s *sayings) named(text string) (name string, role catalog.Role) {
	text = strings.Trim(text, sizetext.AroundNames+".|\"'")
	if cut := strings.IndexAny(text, "([（［,;，；："); cut > 0 {
		text = text[:cut]
	}
	best := 0.0
	try := func(candidate string) {
		candidate = strings.Trim(candidate, sizetext.AroundNames+".")
		if found := s.lex.MatchIn(s.kind, candidate); len(found) > 0 && found[0].Score >= lexicon.HeadingScore && found[0].Score > best+namesMore {
			best, name, role = found[0].Score, candidate, catalog.Role(found[0].Role)
		}
	}
	list := strings.Fields(text)
	for n := 1; n <= min(sizetext.LongestName, len(list)); n++ {
		try(strings.Join(list[:n], " "))
	}
	if first, _ := utf8.DecodeRuneInString(text); lexicon.IsWide(first) {
		signs := []rune(text)
		for n := 2; n <= min(sizetext.LongestWideName, len(signs)); n++ {
			try(string(signs[:n]))
		}
	}
	if name == "" && len(list) > 1 {
		name, role, _ = s.spokenOf(text)
	}
	return name, role
}

// spokenOf returns the one size that a sentence speaks of, nothing where it speaks of none; clear is false where it speaks of several.
func (s *sayings) spokenOf(text string) (name string, role catalog.Role, clear bool) {
	said := s.lex.Words.Subject(s.kind.String(), "", text)
	switch {
	case len(said.Roles) > 1:
		return "", "", false
	case len(said.Roles) == 1:
		return said.Roles[0].Words, catalog.Role(said.Roles[0].Role), true
	case !slices.Equal(said.Classes, []string{ofLengths}):
		return "", "", true
	case s.kind == catalog.Heads:
		return sizetext.NameOf(catalog.HoselLength), catalog.HoselLength, true
	}
	return sizetext.NameOf(catalog.Length), catalog.Length, true
}

// ofLengths is the class of sizes for which the word for a length stands.
const ofLengths = "length"

// pairsBetween are the signs between the codes of a legend, and codePair a code with what it stands for.
var (
	pairsBetween = pattern.Lazy(`\s*[;；、|]\s*|[,，/]\s+|，`)
	codePair     = pattern.Lazy(`^["'(]?(?:([A-Za-z0-9]{1,4})["']? ?[=:：＝→] ?|([A-Z0-9]{1,4})["']? ?[-–]? +|([A-Z0-9]{1,4}))(.+)$`)
)

// codesOf returns the codes of a legend with what they stand for, nil where a text is none.
func codesOf(text string) map[string]string {
	text = strings.Trim(text, " .,;，；。()（）")
	pieces := pairsBetween().Split(text, -1)
	if len(pieces) == 1 {
		pieces = codesByBlanks(text)
	}
	if len(pieces) < leastExplained || len(pieces) > mostPairs {
		return nil
	}
	codes := map[string]string{}
	for _, piece := range pieces {
		found := codePair().FindStringSubmatch(strings.TrimSpace(piece))
		if found == nil {
			return nil
		}
		first, _ := utf8.DecodeRuneInString(found[4])
		if found[3] != "" && !lexicon.IsWide(first) {
			return nil // a word
		}
		code := words.Fold(cmp.Or(found[1], found[2], found[3]))
		if said := strings.TrimSpace(found[4]); said == "" || codes[code] != "" {
			return nil
		}
		codes[code] = strings.TrimSpace(found[4])
	}
	return codes
}

// signedCode is a code with the sign behind it, and bareCode one without, before a word.
var (
	signedCode = pattern.Lazy(`(?:^|\s)([A-Za-z0-9]{1,4}) ?[=:：＝→]`)
	bareCode   = pattern.Lazy(`(?:^|\s)([A-Z]|[0-9]{1,4})\s+\p{L}`)
)

// codesByBlanks divides a legend that has nothing but blanks between its codes: "33 = .335 35 = .350", "B black W white".
func codesByBlanks(text string) (pieces []string) {
	signs := signedCode().FindAllStringSubmatchIndex(text, mostPairs)
	if len(signs) == 0 {
		signs = bareCode().FindAllStringSubmatchIndex(text, mostPairs)
	}
	for i, at := range signs {
		if i == 0 && at[2] > 0 || at[3]-at[2] != signs[0][3]-signs[0][2] {
			return nil // no legend: words begin it, or its codes are of several sizes
		}
		end := len(text)
		if i+1 < len(signs) {
			end = signs[i+1][0]
		}
		pieces = append(pieces, text[at[2]:end])
	}
	return pieces
}

// codesWithin takes a legend in brackets, or behind a colon, out of a text.
func codesWithin(text string) (rest string, codes map[string]string) {
	if open := strings.LastIndexAny(text, "(（["); open >= 0 {
		if codes = codesOf(strings.TrimRight(text[open:], ")）] ")[firstSize(text[open:]):]); codes != nil {
			return strings.TrimSpace(text[:open]), codes
		}
	}
	if at := strings.IndexAny(text, ":："); at >= 0 {
		if codes = codesOf(text[at+firstSize(text[at:]):]); codes != nil {
			return strings.TrimSpace(text[:at]), codes
		}
	}
	return text, nil
}

// firstSize is how many bytes the first character of a text has.
func firstSize(text string) int {
	_, size := utf8.DecodeRuneInString(text)
	return size
}

// legends gives the fields of a key the codes that other texts explain: those in the text of their letters behind them, in a text that names
// the field, or one below the other under such a text.
func (s *sayings) legends(k *Key) {
	for i := range k.Fields {
		f := &k.Fields[i]
		if f.codes != nil || f.Name == "" && f.letters == "" {
			continue
		}
		if f.codes = s.codesBehind(k, f); f.codes == nil {
			f.codes = s.codesNamed(f)
		}
	}
}

// codesBehind returns the codes that follow the letters of a field in their text: "k = colour: B = black, W = white".
func (s *sayings) codesBehind(k *Key, f *Field) map[string]string {
	_, at := s.of(f.letters)
	if f.letters == "" || at < 0 {
		return nil
	}
	codes := map[string]string{}
	for _, e := range s.entries[at+1:] {
		if e.text != s.entries[at].text || k.hasLetters(e.letters) || codes[words.Fold(e.letters)] != "" {
			break
		}
		codes[words.Fold(e.letters)] = e.words
	}
	if len(codes) < leastExplained {
		return nil
	}
	return codes
}

// hasLetters reports whether letters stand for a field of a key.
func (k *Key) hasLetters(letters string) bool {
	for i := range k.Fields {
		if strings.EqualFold(k.Fields[i].letters, letters) {
			return true
		}
	}
	return false
}

// codesNamed returns the codes of a text that calls a field by its name or letters: "Tip code: 37 = .370, 35 = .350", or those in the texts that
// follow it, each of which explains one.
func (s *sayings) codesNamed(f *Field) map[string]string {
	for i, one := range s.texts {
		name, said := one.Text, ""
		if at := strings.IndexAny(one.Text, ":："); at >= 0 {
			name, said = one.Text[:at], one.Text[at+firstSize(one.Text[at:]):]
		} else if signs := sayingSign().FindStringSubmatchIndex(one.Text); signs != nil && signs[2] > 0 {
			name, said = one.Text[:signs[2]], one.Text[signs[2]:]
		}
		if !s.calls(f, name) {
			continue
		}
		if codes := codesOf(said); codes != nil {
			return codes
		}
		if strings.TrimSpace(said) != "" {
			continue
		}
		codes := map[string]string{}
		for _, below := range s.texts[i+1:] {
			pair := codePair().FindStringSubmatch(below.Text)
			if pair == nil || pair[1] == "" {
				break
			}
			codes[words.Fold(pair[1])] = strings.TrimSpace(pair[4])
		}
		if len(codes) >= leastExplained {
			return codes
		}
	}
	return nil
}

// calls reports whether a text names a field and nothing else.
func (s *sayings) calls(f *Field, text string) bool {
	text = strings.Trim(text, sizetext.AroundNames+".")
	if text == "" || utf8.RuneCountInString(text) > lexicon.LongestLabel || strings.ContainsFunc(text, unicode.IsDigit) || strings.ContainsAny(text, PairSigns) {
		return false
	}
	if f.letters != "" && text == f.letters || words.Fold(text) == words.Fold(f.Name) {
		return true
	}
	_, role := s.named(text)
	return role != "" && role == f.Role
}

// scaleOf returns the scale that a text without letters says for a role, or for all sizes: "OD and bore in 1/100 mm, length in mm".
func (s *sayings) scaleOf(role catalog.Role) scale {
	general := unsaid
	for _, one := range s.texts {
		for _, clause := range clausesOutside(one.Text) {
			sc, rest, known := scaleIn(s.lex, clause)
			if !known {
				continue
			}
			subject := s.lex.Words.Subject("", "", rest)
			for _, named := range subject.Roles {
				if sameSize(catalog.Role(named.Role), role) {
					return sc
				}
			}
			if len(subject.Roles) == 0 && (sc.shift > 0 || subject.General) && (len(subject.Classes) == 0 || subject.OfClass("diameter") && traits.Of[role].Diameter) && general == unsaid {
				general = sc
			}
		}
	}
	return general
}

// sameSize reports whether two roles are the same size for a word that knows nothing of what the table lists, such as OD.
func sameSize(a, b catalog.Role) bool {
	outer := func(role catalog.Role) bool {
		return role == catalog.BaseOD || role == catalog.HoselOD || role == catalog.TipOD
	}
	long := func(role catalog.Role) bool { return role == catalog.Length || role == catalog.HoselLength }
	return a == b || outer(a) && outer(b) || long(a) && long(b)
}

// clauseEnds are the signs between the clauses of a key.
var clauseEnds = pattern.Lazy(`[,，]\s|[;；、。\n，]|\.\s`)
