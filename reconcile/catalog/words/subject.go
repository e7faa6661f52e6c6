package words

import (
	"cmp"
	"slices"
	"strings"

	"example.com/seatline/reconcile/internal/pattern"
)

// Subject is what a note, or a clause of one, speaks of.
type Subject struct {
	// Roles are the roles of sizes that it names, in its order: "bore and hosel OD" names two.
	Roles []RoleMatch
	// Classes are diameter, length or depth where it speaks of all sizes of these sorts: "diameters ±0.05", "diameters and lengths in mm".
	Classes []string
	// General is set where it says that all sizes are meant ("all dimensions", "unless otherwise stated").
	General bool
}

// OfClass reports whether a note speaks of all sizes of a sort.
func (s Subject) OfClass(class string) bool { return slices.Contains(s.Classes, class) }

// leastSubject is the score from which words in a note name a role.
const leastSubject = 0.45

// Subject finds what a note speaks of in a table that lists heads, ferrules or tips; an empty kind is any. Unlike a heading, a
// note has other words around: each stretch of known words is taken by itself, words for tolerances and clubs left aside. Of words that mean something
// in several languages, and of those between words of the language of the table, where that is given, what they mean in this one goes before.
func (v *Vocabulary) Subject(kind, language, text string) Subject {
	var s Subject
	if len(text) > maxText {
		text = text[:maxText]
	}
	aside := v.concepts["tolerance"].and(v.concepts["note"]).and(v.concepts["club"]).and(v.concepts["set"])
	for _, run := range spokenMostly(language, v.runsOf(v.withoutElided(text))) {
		match, class := v.subjectOf(kind, run, aside)
		switch {
		case class != "":
			if !s.OfClass(class) {
				s.Classes = append(s.Classes, class)
			}
		case match.Score >= leastSubject && !slices.ContainsFunc(s.Roles, func(m RoleMatch) bool { return m.Role == match.Role }):
			s.Roles = append(s.Roles, match)
		}
	}
	for _, segment := range v.segmentsOf(classMark, text) {
		s.General = s.General || slices.ContainsFunc(segment.options, func(e entry) bool { return e.value == "all" })
	}
	return s
}

// elided is a word behind a letter with an apostrophe, an article or preposition that lost its vowel: "d'année".
var elided = pattern.Lazy(`(^|[^\pL])\pL['’](\pL{3,})`)

// withoutElided leaves out what stands so before words that say nothing here: the letter is no diameter and no length.
func (v *Vocabulary) withoutElided(text string) string {
	if !strings.ContainsAny(text, "'’") {
		return text
	}
	return elided().ReplaceAllStringFunc(text, func(found string) string {
		at := elided().FindStringSubmatch(found)
		if all := v.segments(classConcept, tokensOf(at[2])); len(all) > 0 && len(all[0].options) > 0 {
			return found
		}
		return at[1] + at[2]
	})
}

// spokenMostly leaves of the meanings of words those in a language, in English or in none, where more of the words have one in it than only in
// others: "alt" in a Turkish note is no height of Italian. Where it has no meaning in it, a word of a note that is mostly in another language keeps its.
func spokenMostly(language string, runs [][]segment) [][]segment {
	if language == "" {
		return runs
	}
	own := func(e entry) bool { return e.language == language || slices.Contains(e.also, language) }
	foreign := func(e entry) bool { return !own(e) && e.language != "en" && e.language != signs }
	spoken := 0
	for _, run := range runs {
		for _, s := range run {
			switch may, mayNot := slices.ContainsFunc(s.options, own), slices.ContainsFunc(s.options, foreign); {
			case may && !mayNot:
				spoken++
			case mayNot && !slices.ContainsFunc(s.options, func(e entry) bool { return !foreign(e) }):
				spoken--
			}
		}
	}
	if spoken < 0 {
		return runs
	}
	var kept [][]segment
	for _, run := range runs {
		var of []segment
		for _, s := range run {
			if slices.ContainsFunc(s.options, own) || spoken > 0 {
				s.options = slices.DeleteFunc(slices.Clone(s.options), foreign)
			}
			if len(s.options) > 0 {
				of = append(of, s)
			}
		}
		if len(of) > 0 {
			kept = append(kept, of)
		}
	}
	return kept
}

// runsOf returns the stretches of known words of a note, which end at signs between the names of sizes too: "top OD, base OD & bore".
func (v *Vocabulary) runsOf(text string) (runs [][]segment) {
	rest, _, _ := v.SplitUnit(text)
	for part := range strings.FieldsFuncSeq(rest, func(r rune) bool { return strings.ContainsRune(",;:&、，；：＆", r) }) {
		runs = append(runs, v.runs(part)...)
	}
	return runs
}

// runs returns the stretches of known words of a text, divided at words such as "and".
func (v *Vocabulary) runs(text string) [][]segment {
	rest, _, _ := v.SplitUnit(text)
	var runs [][]segment
	var run []segment
	end := func() {
		if len(run) > 0 {
			runs = append(runs, run)
		}
		run = nil
	}
	for _, s := range v.segmentsOf(classConcept, splitCamel(dropTolerance(rest))) {
		if isPlain(text) && len(s.text) <= 3 { // "can" is no "cán": nobody leaves the marks off so short a word in a sentence
			s.options = slices.DeleteFunc(slices.Clone(s.options), func(e entry) bool { return anotherShort(s.text, e.words) })
		}
		if len(s.options) == 0 || v.joins(s) || len(run) > 0 && v.joinsIn(run[len(run)-1], s) {
			end()
			continue
		}
		run = append(run, s)
	}
	end()
	return runs
}

// joins reports whether a word stands between the names of two things, and is itself no word of a heading.
func (v *Vocabulary) joins(s segment) bool {
	filler := v.concepts["filler"]
	return slices.ContainsFunc(v.lookup(v.classes[classMark], s.text), func(e entry) bool { return e.value == "or" }) &&
		!slices.ContainsFunc(s.options, func(e entry) bool { return e.concepts != filler })
}

// joinsIn reports whether a word stands behind one of its language and means "and" there: "en" behind "buitendiam.", and not behind "diamètre".
func (v *Vocabulary) joinsIn(before, s segment) bool {
	return slices.ContainsFunc(v.lookup(v.classes[classMark], s.text), func(joint entry) bool {
		return joint.value == "and" && slices.ContainsFunc(before.options, func(e entry) bool { return e.language == joint.language })
	})
}

// subjectOf returns the role of a size that a stretch of words names best, or the class of sizes that it is the word for.
func (v *Vocabulary) subjectOf(kind string, run []segment, aside concepts) (best RoleMatch, class string) {
	return v.namedBy(kind, run, aside, func(r role) bool { return r.quantity == "length" && r.name != "tolerance" })
}

// namedBy returns which of some roles a stretch of words names best, words left aside, or the class of sizes that it is the word for.
func (v *Vocabulary) namedBy(kind string, run []segment, aside concepts, wanted func(role) bool) (best RoleMatch, class string) {
	h := heading{readings: []headingReading{{}}}
	for _, s := range run {
		h.readings = branch(h.readings, s.options)
	}
	for i, r := range h.readings {
		h.readings[i].concepts = r.concepts.without(aside)
		for _, name := range []string{"diameter", "length", "depth"} {
			if r.concepts.without(aside).without(v.neutral) == v.concepts[name] {
				class = cmp.Or(class, name)
			}
		}
	}
	for _, r := range v.roles {
		if kind != "" && !slices.Contains(r.kinds, kind) || !wanted(r) {
			continue
		}
		if m := v.matchRole(r, h, kind); m.Score > best.Score {
			best = m
		}
	}
	return best, class
}

// Mentions reports whether a word or phrase for a concept stands in a text, whatever else does.
func (v *Vocabulary) Mentions(concept, text string) bool {
	return slices.ContainsFunc(v.segmentsOf(classConcept, text), func(s segment) bool {
		return slices.ContainsFunc(s.options, func(e entry) bool { return e.weight >= surelyMeant && e.concepts.has(v.concepts[concept]) })
	})
}

// MayNumber reports whether a text is a word or sign for a number in some language, one that may mean something else too: "Č.".
func (v *Vocabulary) MayNumber(text string) bool {
	all := v.segmentsOf(classConcept, text)
	return len(all) == 1 && slices.ContainsFunc(all[0].options, func(e entry) bool { return e.concepts.has(v.concepts["number"]) })
}

// Irrelevant reports whether a heading speaks of what no joint depends on: a loft, a weight, a barcode.
func (v *Vocabulary) Irrelevant(parts ...string) bool {
	h := v.readHeading(parts)
	return h.unknown <= 0.6 && slices.ContainsFunc(h.readings, func(r headingReading) bool { return r.concepts.meets(v.aside) })
}

// Whose is whom numbers of parts belong to, as a heading says.
type Whose uint8

// In this order a buyer takes one for the number by which a part is ordered.
const (
	Customers Whose = iota
	Makers
	Anybodys
	Own
)

// Whose returns whom the numbers under a heading belong to, Anybodys where it does not say, and whether it says nothing else: "Ours", "Maker's no."
func (v *Vocabulary) Whose(parts ...string) (whose Whose, alone bool) {
	h := v.readHeading(parts)
	beside := v.concepts["number"].and(v.concepts["filler"])
	whose = Anybodys
	for _, owner := range []struct {
		concept string
		whose   Whose
	}{{"customer", Customers}, {"supplier", Makers}, {"own", Own}} {
		set := v.concepts[owner.concept]
		for _, r := range h.readings {
			if r.concepts.has(set) {
				whose = owner.whose
				alone = alone || h.unknown == 0 && r.concepts.without(set).without(beside) == concepts{}
			}
		}
	}
	return whose, alone
}
