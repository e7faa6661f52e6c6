package cells

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/internal/pattern"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/sheet"
)

// Asked is what the comment of a cell, or a text about the part of its line, asks about the size that it gives.
func (t *Reader) Asked(line int, c *Column, what *catalog.Value) Trouble {
	if asked := t.commented(line, c, what); asked.Any() {
		return asked
	}
	return t.remarked(line, c, what)
}

// commented asks which size holds where the comment of a cell with a size speaks of another one; what is that of the cell, nil for none. A
// person's answer settles it.
func (t *Reader) commented(line int, c *Column, what *catalog.Value) Trouble {
	comments := t.Sheet.Comments
	if len(comments) == 0 {
		return Trouble{}
	}
	if want := c.Trait().Want; want != traits.Length && want != traits.Angle {
		return Trouble{}
	}
	g := t.Region.Grid
	ref := g.Ref(t.valueCell(line, c))
	text := comments[ref]
	if text == "" {
		return Trouble{}
	}
	if t.Answered(line, c.Role) {
		t.hear(ref, true)
		return Trouble{}
	}
	stated := 0.0
	if what != nil {
		stated = traits.MM(what.Dim().Nominal())
	}
	bounds, known := traits.BoundsOf(t.Kind, c.Role)
	another := func(n number) bool {
		for _, unit := range []string{"mm", "in"} {
			size := n.value * traits.UnitMM[unit]
			if stated > 0 && math.Abs(size-stated) <= SameSize {
				return false
			}
		}
		return n.unit != "" || known && (bounds.Possible(n.value) || bounds.Possible(n.value*traits.UnitMM["in"]))
	}
	if !speaksOfChange(t.Lex, text) && !slices.ContainsFunc(numbers(t.Lex, text), another) {
		t.hear(ref, false)
		return Trouble{}
	}
	t.hear(ref, true)
	return Problem("data.comment", "%s has the comment %q, which may mean that it is no longer so; it is left open until somebody says which size holds",
		c.Name(), phrase.Brief(text))
}

// readingOff is how far, in mm, what a note says was measured has to lie from what is stated to be more than the play of calipers and of parts that
// are polished by hand. Common practice.
const readingOff = 0.1

// remarkReach is how far a size in a text about a part may lie from that of the part, as a share of it, to be of the same dimension.
const remarkReach = 0.1

// remarked asks which size holds where a text outside the table that names the part of a line, or a note in the line that speaks of a change,
// gives another size that is near that of a cell. A person's answer settles it.
func (t *Reader) remarked(line int, c *Column, what *catalog.Value) Trouble {
	if c.Trait().Want != traits.Length || c.Role == catalog.TipTaken || what == nil {
		return Trouble{}
	}
	if t.Answered(line, c.Role) {
		return Trouble{}
	}
	if now := t.nowRemarked(line, c, what.Dim()); now.Any() {
		return now
	}
	if right := t.putRight(line, c, what.Dim()); right.Any() {
		return right
	}
	remarks := t.remarksOn(line)
	if len(remarks) == 0 {
		return Trouble{}
	}
	stated := traits.MM(what.Dim().Nominal())
	for _, remark := range remarks {
		least := SameSize
		if remark.Reading {
			least = readingOff
		}
		rest := remark.Rest
		if tip := t.Lex.TipForAll(rest); tip != "" { // "for .335" says of what the part is for, and not of its bore
			rest = strings.Replace(rest, tip, " ", 1)
		}
		if slices.ContainsFunc(numbers(t.Lex, rest), func(n number) bool { return n.replaces(stated, least) }) || !remark.Reading && t.namesOther(rest, c, stated) {
			return speaksOfAnother(c, stated, remark.Place, remark.Text)
		}
	}
	return Trouble{}
}

// nowRemarked returns the size that the remark of a line plainly says a part has now, by the name of one size of the table and without another number: "new
// tool, thin end is 11.0 now". A buyer takes it, with a look at the cell. Other words beside it, and a size that lies far off, leave it a question.
func (t *Reader) nowRemarked(line int, c *Column, stated measure.Dim) Trouble {
	note := t.ByRole[catalog.Note]
	if note == nil || !t.Searched(line) {
		return Trouble{}
	}
	text := t.TextOf(line, catalog.Note)
	if !strings.ContainsAny(text, "123456789") {
		return Trouble{}
	}
	said := t.sizeNow(text, c)
	if said == "" {
		return Trouble{}
	}
	reading, possible := layout.ReadDescribed(t.Lex, t.Kind, c.Role, said, c.Unit)
	off := math.Abs(traits.MM(reading.Dim.Nominal().Sub(stated.Nominal())))
	if !possible || off <= SameSize || off > remarkReach*traits.MM(stated.Nominal()) {
		return Trouble{}
	}
	instead := reading.Dim
	if !instead.HasLimits() {
		instead = stated.Shift(instead.Nominal().Sub(stated.Nominal()))
	}
	return Trouble{Severity: finding.Warning, Code: "data.remark", Instead: instead, InsteadText: said, Message: fmt.Sprintf("%s is %s, and the text in %s says that it is %s now: %q; that is used",
		c.Name(), traits.SayMM(traits.MM(stated.Nominal())), t.Region.Grid.Ref(line, note.Col), said, phrase.Brief(text))}
}

// sizeNow returns the one number of a text where that says that the size of a column is so now, and names no other one; empty for any other text.
func (t *Reader) sizeNow(text string, c *Column) (size string) {
	if len(sizetext.Numbers(text, 2)) != 1 || strings.ContainsAny(text, "?？%±+") {
		return ""
	}
	for _, clause := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(";:()，、；：。（）", r) }) {
		for _, part := range strings.Split(clause, ", ") {
			switch {
			case !strings.ContainsAny(part, "0123456789"):
				if len(strings.Fields(part)) > longestBesideNow || speaksOld(t.Lex, part) {
					return ""
				}
			case size != "":
				return ""
			default:
				if size = t.heldNow(part, c); size == "" {
					return ""
				}
			}
		}
	}
	return size
}

// heldNow is sizeNow for a clause: but for the number it has the name of the size, and words by which it holds now.
func (t *Reader) heldNow(text string, c *Column) string {
	size := sizetext.First(text)
	said := strings.Trim(strings.Replace(text, size, " ", 1), " .!")
	rest := t.withoutName(said, c)
	if rest == said || !t.Lex.Words.HoldsNow(rest) {
		return ""
	}
	return size
}

// withoutName takes the name of the size of a column out of a text of few words; it returns one without it as it is.
func (t *Reader) withoutName(text string, c *Column) (rest string) {
	said := strings.Fields(text)
	if len(said) > longestHeldNow {
		return text
	}
	rest, surest := text, leastNaming
	for length := 1; length <= len(said); length++ { // of several names as sure the shortest: "may be" is no part of one
		for from := 0; from+length <= len(said); from++ {
			found := t.Lex.MatchIn(t.Kind, strings.Join(said[from:from+length], " "))
			at := slices.IndexFunc(found, func(m words.RoleMatch) bool { return traits.Of[catalog.Role(m.Role)].Want == traits.Length }) // "col" is no colour
			if at >= 0 && catalog.Role(found[at].Role) == c.Role && found[at].Score > surest {
				rest, surest = strings.Join(slices.Concat(said[:from], said[from+length:]), " "), found[at].Score
			}
		}
	}
	return rest
}

// speaksOfAnother leaves a size open, in mm, beside which a text gives another.
func speaksOfAnother(c *Column, stated float64, place fmt.Stringer, text string) Trouble {
	return Problem("data.remark", "%s is %s, and the text in %s speaks of another: %q; it is left open until somebody says which size holds",
		c.Name(), traits.SayMM(stated), place, phrase.Brief(text))
}

// longestHeldNow is how many words a clause has at most that says what a size is now.
const longestHeldNow = 8

// longestBesideNow is how many words a clause has at most that may stand beside one that says what a size is now: "new tool".
const longestBesideNow = 3

func speaksOld(lex *lexicon.Lexicon, text string) bool {
	return slices.ContainsFunc(strings.FieldsFunc(text, notLetter), func(word string) bool { return lex.Age(word) < 0 })
}

// namesOther reports whether a text gives a size by the name of a column, which is not an old one and another than what is stated, in mm:
// then it need not lie near, and a whole number is one too.
func (t *Reader) namesOther(text string, c *Column, stated float64) bool {
	off := func(s sizetext.Size) bool {
		at := strings.Index(text, s.Text)
		if catalog.Role(s.Role) != c.Role && t.SizeNamed(s.Name) != c.Role || at < 0 || saysOld(t.Lex, text[:at]) || changesTo().MatchString(text[at+len(s.Text):]) {
			return false
		}
		reading, possible := layout.ReadDescribed(t.Lex, t.Kind, c.Role, s.Text, c.Unit)
		return possible && math.Abs(traits.MM(reading.Dim.Nominal())-stated) > SameSize
	}
	return slices.ContainsFunc(sizetext.In(t.Lex, text, false), off) || slices.ContainsFunc(sizetext.In(t.Lex, text, true), off)
}

// SizeNamed returns the role of a size that the table has a column of and a text names, empty where there is none.
func (t *Reader) SizeNamed(text string) catalog.Role {
	for _, m := range t.Lex.MatchIn(t.Kind, text) {
		if role := catalog.Role(m.Role); traits.Of[role].Want == traits.Length {
			if m.Score >= leastNaming && role != catalog.TipTaken && t.ByRole[role] != nil {
				return role
			}
			break
		}
	}
	return ""
}

// leastNaming is the score from which a word beside a number names a size: "OD" and "hosel" do, "large" does not.
const leastNaming = 0.62

// remarksOn returns the texts that may say more of the part of a line.
func (t *Reader) remarksOn(line int) (remarks []layout.Remark) {
	if t.ByRole[catalog.Part] != nil {
		remarks = t.RemarksOn(t.TextOf(line, catalog.Part))
	}
	if c := t.ByRole[catalog.Note]; c != nil && t.Searched(line) {
		text := t.TextOf(line, catalog.Note)
		_, changes := t.Lex.Ask("changed note", text, func(text string) (words.Hit, bool) { return saysNew(t.Lex, text) })
		measured := false
		if !changes && strings.ContainsAny(text, "0123456789") {
			_, measured = t.Lex.Ask("measured note", text, t.Lex.Words.SpeaksOfReading)
		}
		if changes || measured {
			remarks = append(slices.Clip(remarks), layout.Remark{Text: text, Rest: text, Place: t.Region.Grid.Ref(line, c.Col), Reading: measured})
		}
	}
	return remarks
}

// saysNew reports whether a note with digits speaks of a change, or of what is new or old.
func saysNew(lex *lexicon.Lexicon, text string) (hit words.Hit, says bool) {
	if !strings.ContainsAny(text, "0123456789") || !speaksOfChange(lex, text) &&
		!slices.ContainsFunc(strings.FieldsFunc(text, notLetter), func(word string) bool { return lex.Age(word) != 0 }) {
		return words.Hit{}, false
	}
	return words.Hit{Value: text, Score: 1}, true
}

func notLetter(r rune) bool { return !unicode.IsLetter(r) }

func (t *Reader) hear(ref sheet.Ref, matters bool) {
	if t.Heard == nil {
		t.Heard = map[sheet.Ref]bool{}
	}
	t.Heard[ref] = matters
}

// SameSize is how far, in mm, two sizes may lie apart that are one, stated in two units: half of the last place of .535 in.
const SameSize = 0.013

// SpeaksOfSize reports whether a comment on a cell that is no size speaks of one: of a length with its unit, or of a change.
func SpeaksOfSize(lex *lexicon.Lexicon, text string) bool {
	if speaksOfChange(lex, text) {
		return true
	}
	return slices.ContainsFunc(numbers(lex, text), func(n number) bool { return n.unit != "" })
}

// longComment is the length in bytes from which on a comment is taken to speak of a change: somebody has to read it.
const longComment = 2000

func speaksOfChange(lex *lexicon.Lexicon, text string) bool {
	if len(text) > longComment {
		return true
	}
	hit, _ := lex.Ask("change", text, lex.Words.SpeaksOfChange)
	return hit.Value != ""
}

// number is a number in a comment, with the unit of lengths behind it, empty where there is none, whether a currency stands there, whether it
// has decimals, and whether it is said to be an old one: "was 13.5".
type number struct {
	value            float64
	unit             string
	money, fine, old bool
}

// replaces reports whether the number, which is no old one, is near a size in mm and off it by more than the least: a new one.
func (n number) replaces(stated, least float64) bool {
	units := []string{"mm", "in"}
	switch {
	case n.money || n.old || !n.fine && n.unit == "":
		return false
	case n.unit != "":
		units = []string{n.unit}
	}
	return slices.ContainsFunc(units, func(unit string) bool {
		off := math.Abs(n.value*traits.UnitMM[unit] - stated)
		return off > least && off <= remarkReach*stated
	})
}

var (
	// aNumber is a number with the word or sign behind it, and notSize are dates and times, which are no sizes.
	aNumber = pattern.Lazy(`(\d+(?:[.,]\d+)?|[.,]\d+) ?(\pL+|["″”]|''|㎜)?`)
	notSize = pattern.Lazy(`\d+[-./]\d+[-./]\d+|\d+:\d+(?::\d+)?`)
)

// changesTo is an arrow behind a number, before what it became: 13.8→13.9.
var changesTo = pattern.Lazy(`^ ?(?:mm|"|″)? ?(?:→|⇒|➔|➜|[-=]+>) ?[\d.,]`)

// saysOld reports whether one of the last two words before a number says that it is an old one: "was 13.5", "was eerst 12.8".
func saysOld(lex *lexicon.Lexicon, before string) bool {
	before = before[strings.LastIndexAny(before, ",;!?()")+1:]
	words := strings.FieldsFunc(before, notLetter)
	words = words[max(0, len(words)-2):]
	return slices.ContainsFunc(words, func(word string) bool { return lex.Age(word) < 0 }) &&
		!slices.ContainsFunc(words, func(word string) bool { return lex.Age(word) > 0 })
}

// numbers returns the numbers in a comment that may be sizes.
func numbers(lex *lexicon.Lexicon, text string) []number {
	var all []number
	text = notSize().ReplaceAllString(text, " ")
	last := 0
	for _, at := range aNumber().FindAllStringSubmatchIndex(text, -1) {
		digits, behind := text[at[2]:at[3]], ""
		if at[4] >= 0 {
			behind = text[at[4]:at[5]]
		}
		value, err := strconv.ParseFloat(strings.Replace(digits, ",", ".", 1), 64)
		if err != nil || words.IsYear(digits) {
			continue
		}
		n := number{value: value, fine: strings.ContainsAny(digits, ".,")}
		if before := strings.Fields(text[:at[2]]); at[2] > 0 && text[at[2]-1] != ' ' && len(before) > 0 { // $0.40
			hit, found := lex.Ask("unit", before[len(before)-1], lex.Words.Unit)
			n.money = found && words.IsCurrency(hit.Value)
		}
		n.old = saysOld(lex, text[last:at[2]]) || changesTo().MatchString(text[at[3]:])
		last = at[3]
		if behind != "" {
			hit, found := lex.Ask("unit", behind, lex.Words.Unit)
			switch {
			case found && traits.IsLengthUnit(hit.Value):
				n.unit = hit.Value
			case found && words.IsCurrency(hit.Value):
				n.money = true
			}
		}
		all = append(all, n)
	}
	return all
}
