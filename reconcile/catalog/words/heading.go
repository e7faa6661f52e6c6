package words

import (
	"cmp"
	"slices"
	"strings"
)

// Scores below this are no answer.
const leastScore = 0.3

// Match returns the roles a heading may have, the likeliest first. The parts are the fragments of a heading that stands
// in several rows, from the top: Match("Hosel", "OD"). Units and what stands in brackets as a unit are set aside first.
func (v *Vocabulary) Match(parts ...string) []RoleMatch { return v.MatchIn("", parts...) }

// MatchIn is [Vocabulary.Match] for a table that is known to list heads, ferrules or tips: only roles of such tables
// are returned, and headings that need to know the kind ("OD") score higher.
func (v *Vocabulary) MatchIn(kind string, parts ...string) []RoleMatch {
	h := v.readHeading(parts)
	var matches []RoleMatch
	for _, r := range v.roles {
		if kind != "" && !slices.Contains(r.kinds, kind) {
			continue
		}
		if m := v.matchRole(r, h, kind); m.Score >= leastScore {
			matches = append(matches, m)
		}
	}
	slices.SortStableFunc(matches, func(a, b RoleMatch) int { return cmp.Compare(b.Score, a.Score) })
	return matches
}

// heading is a heading taken apart: every way to understand its words, and what is not understood.
type heading struct {
	readings []headingReading
	leftover string
	unknown  float64 // share of the heading that is not understood
	unit     string
}

type headingReading struct {
	concepts concepts
	// used is the last of the words that are understood.
	used *usedWord
}

// usedWord is a meaning of a word of a heading, behind that of the word before.
type usedWord struct {
	meaning *entry
	before  *usedWord
}

// maxReadings bounds the ways to understand one heading.
const maxReadings = 128

func (v *Vocabulary) readHeading(parts []string) heading {
	h := heading{}
	var list []string
	for _, part := range parts {
		rest, unit, _ := v.SplitUnit(part)
		if h.unit == "" {
			h.unit = unit
		}
		list = append(list, tokensOf(splitCamel(dropTolerance(rest)))...)
	}
	if len(list) == 0 {
		list = tokensOf(strings.Join(parts, " "))
	}
	v.dropPrefixes(list)
	known, unknown := 0, 0
	h.readings = []headingReading{{}}
	var leftover []string
	segments := v.segments(classConcept, list)
	for i, s := range segments {
		options := s.options
		switch {
		case len(options) == 0:
			options = spokenIn(v.classes[classConcept].shortened(s.text, len(list) == 1), segments)
		case len(s.text) <= mostMark:
			options = spokenBeside(i, segments)
		}
		if len(options) == 0 {
			if !isNumber(s.text) {
				unknown += s.weight
				leftover = append(leftover, s.text)
			}
			continue
		}
		known += s.weight
		h.readings = branch(h.readings, options)
	}
	if IsCurrency(h.unit) { // "List ($)"
		for i := range h.readings {
			h.readings[i].concepts = h.readings[i].concepts.and(v.concepts["currency"])
		}
	}
	if h.unit == "deg" || h.unit == "rad" { // "C'sink (°)"
		for i := range h.readings {
			h.readings[i].concepts = h.readings[i].concepts.and(v.concepts["angle"])
		}
	}
	h.leftover = strings.Join(leftover, " ")
	if total := known + unknown; total > 0 {
		h.unknown = float64(unknown) / float64(total)
	}
	return h
}

// spokenIn returns those of several meanings of a short form that are English or of a language of the other words of its heading: "men" beside
// Swedish words is short for none of Portuguese.
func spokenIn(meanings []entry, heading []segment) []entry {
	if len(heading) < 2 {
		return meanings
	}
	return slices.DeleteFunc(meanings, func(short entry) bool {
		return short.language != "en" && !slices.ContainsFunc(heading, func(s segment) bool {
			return slices.ContainsFunc(s.options, func(e entry) bool { return e.language == short.language })
		})
	})
}

// mostMark is how long a word is, in bytes, that words of many languages look like without their marks.
const mostMark = 2

// signs is the language of what all languages share.
const signs = "sign"

// spokenBeside returns the meanings of a word of a letter or two: where the words beside it are of other languages, and none of its own is
// English or theirs, it is none of these, but a small word of theirs. "Go" is a ridge in Vietnamese, without its mark, and no collar in "to go on".
func spokenBeside(at int, heading []segment) []entry {
	own := heading[at].options
	beside := map[string]bool{}
	for i, s := range heading {
		if i != at {
			for _, e := range s.options {
				if e.language != signs {
					beside[e.language] = true
				}
			}
		}
	}
	spoken := func(e entry) bool { return e.language == "en" || e.language == signs || beside[e.language] }
	if len(beside) == 0 || slices.ContainsFunc(own, spoken) {
		return own
	}
	return nil
}

// dropPrefixes takes from tokens that are no words what fields begin with that a firm has added to its software: ZZLAENGE.
func (v *Vocabulary) dropPrefixes(list []string) {
	lex := v.classes[classConcept]
	for i, token := range list {
		for _, prefix := range v.prefixes {
			if rest, found := strings.CutPrefix(token, prefix); found && len(lex.words[token]) == 0 && len(lex.words[rest]) > 0 {
				list[i] = rest
			}
		}
	}
}

// branch continues each reading with each meaning of the next word.
func branch(readings []headingReading, options []entry) []headingReading {
	var meanings []entry
	for _, e := range options {
		at := slices.IndexFunc(meanings, func(m entry) bool { return m.concepts == e.concepts })
		if at < 0 {
			meanings = append(meanings, e)
			continue
		}
		also := append(slices.Clip(meanings[at].also), e.language)
		if meanings[at].weight < e.weight {
			also = append(slices.Clip(meanings[at].also), meanings[at].language)
			meanings[at] = e
		}
		meanings[at].also = also
	}
	slices.SortStableFunc(meanings, func(a, b entry) int { return cmp.Compare(b.weight, a.weight) })
	for len(meanings) > 1 && len(readings)*len(meanings) > maxReadings {
		meanings = meanings[:len(meanings)-1]
	}
	all := make([]headingReading, 0, len(readings)*len(meanings))
	for _, r := range readings {
		for i := range meanings {
			all = append(all, headingReading{r.concepts.and(meanings[i].concepts), &usedWord{&meanings[i], r.used}})
		}
	}
	return all
}

// What a heading loses for each concept too many, for one that belongs to no role of ours, and for words not known.
const (
	extraConcept  = 0.55
	otherConcept  = 0.3
	unknownWeight = 0.6
	wrongQuantity = 0.35
)

func (v *Vocabulary) matchRole(r role, h heading, kind string) RoleMatch {
	var best RoleMatch
	for _, reading := range h.readings {
		for _, f := range r.forms {
			if !reading.concepts.has(f.needs) || f.kind != "" && f.kind != kind || f.alone && h.unknown > 0 {
				continue
			}
			score := f.score
			extra := reading.concepts.without(f.needs).without(r.allows).without(v.neutral.without(r.excludes))
			for range extra.without(v.aside).count() {
				score *= extraConcept
			}
			if extra.meets(v.aside) || extra.meets(r.excludes) {
				score *= otherConcept
			}
			if score *= certainty(reading.used, f.needs) * (1 - unknownWeight*h.unknown); score > best.Score {
				matched, language := evidence(reading.used, f.needs)
				best = RoleMatch{Role: r.name, Score: score, Language: language, Words: matched, Leftover: h.leftover}
			}
		}
	}
	if h.unit != "" && best.Score > 0 {
		if suitsQuantity(r.quantity, h.unit) {
			best.Score = 1 - (1-best.Score)*0.85
		} else {
			best.Score *= wrongQuantity
		}
	}
	if kind != "" && best.Score >= leastScore {
		best.Score = 1 - (1-best.Score)*0.6
	}
	return best
}

// certainty is how certain the least certain is of the words that gave the concepts.
func certainty(used *usedWord, needs concepts) float64 {
	weight := 1.0
	for ; used != nil; used = used.before {
		if used.meaning.concepts.meets(needs) {
			weight = min(weight, used.meaning.weight)
		}
	}
	return weight
}

// evidence returns the words that gave the concepts, and the language that has most of them: English where several do, else the first.
func evidence(used *usedWord, needs concepts) (matched, language string) {
	var gave []*entry
	for ; used != nil; used = used.before {
		if used.meaning.concepts.meets(needs) {
			gave = append(gave, used.meaning)
		}
	}
	slices.Reverse(gave)
	list := make([]string, len(gave))
	languages := []string{"en"}
	count := []int{0}
	for i, e := range gave {
		list[i] = e.words
		spoken := append([]string{e.language}, e.also...)
		slices.Sort(spoken)
		for _, l := range slices.Compact(spoken) {
			at := slices.Index(languages, l)
			if at < 0 {
				at, languages, count = len(languages), append(languages, l), append(count, 0)
			}
			count[at]++
		}
	}
	most := 0
	for i, l := range languages {
		if count[i] > most {
			most, language = count[i], l
		}
	}
	return strings.Join(list, " "), language
}

// suitsQuantity reports whether values of a role may have a unit. A column of text may name any unit that is no length.
func suitsQuantity(quantity, unit string) bool {
	switch quantity {
	case "length":
		return isLengthUnit(unit)
	case "angle":
		return unit == "deg" || unit == "rad"
	case "taper":
		return isLengthUnit(unit) || unit == "deg" || unit == "%"
	case "count":
		return unit == "pcs"
	case "price":
		return IsCurrency(unit) || unit == "pcs"
	}
	return !isLengthUnit(unit) && unit != "deg"
}

// IsCurrency reports whether a unit is a currency: three capitals, as in ISO 4217.
func IsCurrency(unit string) bool {
	return len(unit) == 3 && strings.Trim(unit, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") == ""
}

func isLengthUnit(unit string) bool {
	return slices.Contains([]string{"mm", "cm", "m", "um", "in", "thou"}, unit)
}

// RoleKinds returns the kinds of table (heads, ferrules, tips) in which a role occurs, nil for an unknown role.
func (v *Vocabulary) RoleKinds(role string) []string {
	for _, r := range v.roles {
		if r.name == role {
			return slices.Clone(r.kinds)
		}
	}
	return nil
}

// Roles returns all roles that [Vocabulary.Match] may return, in the order of the grammar.
func (v *Vocabulary) Roles() []string {
	names := make([]string, len(v.roles))
	for i, r := range v.roles {
		names[i] = r.name
	}
	return names
}

// Hints returns what a heading or note says of its values apart from their role.
func (v *Vocabulary) Hints(text string) Hints {
	rest, unit, _ := v.SplitUnit(text)
	h := Hints{Unit: unit}
	rest = splitCamel(rest)
	for _, s := range v.segmentsOf(classMark, rest) {
		for _, e := range s.options {
			// "Misure" are sizes in Italian, and one slip away from the French for measured.
			if e.value != "measured" || e.weight >= 0.9 {
				h.set(e.value)
			}
		}
	}
	for _, s := range v.segmentsOf(classConcept, rest) {
		for _, e := range s.options {
			if e.weight < 0.7 {
				continue
			}
			h.Diameter = h.Diameter || e.concepts.has(v.concepts["diameter"])
			h.Radius = h.Radius || e.concepts.has(v.concepts["radius"])
			h.Inner = h.Inner || e.concepts.has(v.concepts["inner"])
			h.Outer = h.Outer || e.concepts.has(v.concepts["outer"])
			h.Included = h.Included || e.concepts.has(v.concepts["included"])
			h.HalfAngle = h.HalfAngle || e.concepts.has(v.concepts["half"])
		}
	}
	return h
}

func (h *Hints) set(mark string) {
	switch mark {
	case "diameter":
		h.Diameter = true
	case "radius":
		h.Radius = true
	case "per_side":
		h.PerSide = true
	case "included":
		h.Included = true
	case "half_angle":
		h.HalfAngle = true
	case "approximate":
		h.Approx = true
	case "at_most":
		h.Max = true
	case "at_least":
		h.Min = true
	case "reference":
		h.Reference = true
	case "measured":
		h.Measured = true
	case "sample":
		h.Sample = true
	}
}

// IsHeadingWord reports whether a text consists of words that headings are made of: "hosel", "外径", "tip Ø". Beside a
// number such words say what it is and nothing about its value.
func (v *Vocabulary) IsHeadingWord(text string) bool {
	all := v.segmentsOf(classConcept, text)
	return len(all) > 0 && !slices.ContainsFunc(all, func(s segment) bool { return len(s.options) == 0 })
}

// Means reports whether a text is as a whole a word or phrase for a concept, and says nothing else.
func (v *Vocabulary) Means(concept, text string) bool {
	all := v.segmentsOf(classConcept, text)
	return len(all) == 1 && slices.ContainsFunc(all[0].options, func(e entry) bool { return e.weight >= surelyMeant && e.concepts.has(v.concepts[concept]) })
}

// surelyMeant is the weight from which a word is no slip of the pen for another.
const surelyMeant = 0.8

// LanguagesOf returns the languages that have all words of a heading, none where one is not known.
func (v *Vocabulary) LanguagesOf(heading string) []string {
	rest, _, _ := v.SplitUnit(heading)
	var all []string
	for _, s := range v.segments(classConcept, tokensOf(splitCamel(rest))) {
		var own []string
		for _, e := range s.options {
			own = appendNew(own, e.language)
		}
		switch {
		case slices.Contains(own, signs):
		case len(own) == 0:
			return nil
		case all == nil:
			all = own
		default:
			all = slices.DeleteFunc(all, func(l string) bool { return !slices.Contains(own, l) })
			if len(all) == 0 {
				return nil
			}
		}
	}
	return all
}
