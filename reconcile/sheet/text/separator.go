package text

import (
	"slices"
	"strings"

	"example.com/seatline/reconcile/internal/pattern"
)

// sampled is how many records with content are looked at to find the separator.
const sampled = 400

// separators are the candidates; the earlier one is taken where two fit alike, since a comma also stands in numbers and
// texts.
var separators = []byte{'\t', ';', '|', ','}

func separatorName(separator byte) string {
	switch separator {
	case 0:
		return "one column"
	case '\t':
		return "tabs"
	case ';':
		return "semicolons"
	case '|':
		return "vertical bars"
	case ',':
		return "commas"
	case ' ':
		return "spaces"
	}
	return "the sign " + string(rune(separator))
}

// separation is the separator that was found, 0 for none, and another one that fits nearly as well, 0 for none.
type separation struct {
	separator, other byte
	// spaced is set where only commas with a blank behind them separate.
	spaced bool
}

// detect finds the separator by how evenly it cuts the records into fields.
func detect(text string) separation {
	var found separation
	best := 0.0
	scores := make([]float64, len(separators))
	for i, separator := range separators {
		scores[i] = evenness(text, separator)
		if scores[i] > best {
			best, found.separator = scores[i], separator
		}
	}
	if best < leastCut || isTalk(text) {
		return separation{}
	}
	if labelled(text) && (best < leastEven || found.separator == ',' && commasSpaced(text, true)) {
		return separation{}
	}
	if found.separator == ',' && figuresSpaced(text) {
		return separation{}
	}
	if found.separator == ',' && commasInFigures(text) && !commasSpaced(text, false) {
		return separation{}
	}
	for i, separator := range separators {
		if separator != found.separator && scores[i] > 0 && scores[i] >= 0.9*best {
			found.other = separator
		}
	}
	found.spaced = found.separator == ',' && commasSpaced(text, false)
	return found
}

// commasSpaced reports whether commas either stand between two digits or have a blank behind them, both of which are there, the former by
// themselves in few lines: then only the latter separate, as in a letter. "boring 9,35, lengte 18" In lines with labels the former may stand by
// themselves in all, and neither separates: "length, mm: 9,35".
func commasSpaced(text string, labels bool) bool {
	if strings.Contains(text, `"`) {
		return false
	}
	lines, within, spaced, alone := 0, 0, 0, 0
	for line := range strings.Lines(text) {
		if lines++; lines > sampled {
			break
		}
		line = strings.TrimRight(line, "\r\n")
		between, others := commas(line)
		blanks := strings.Count(line, ", ")
		if strings.HasSuffix(line, ",") {
			blanks++
		}
		switch {
		case others != blanks:
			return false
		case blanks > 0:
			spaced++
		case between > 0 && (strings.Count(line, " ") < leastProse || strings.Contains(line, "  ")):
			alone++
		}
		within += between
	}
	return within > 0 && spaced > 0 && (labels || alone*fewAlone <= spaced)
}

// fewAlone is how many lines with commas that separate there are for each with commas in numbers only, and leastProse how many blanks a line has
// that is a sentence.
const fewAlone, leastProse = 4, 3

// figuresSpaced reports whether commas are those of figures with single blanks between them: lines that begin with a number of letters and
// digits and end with three figures or more, a third of all at least, in none of which a comma stands elsewhere.
func figuresSpaced(text string) bool {
	lines, spaced := 0, 0
	for line := range strings.Lines(text) {
		if line = strings.TrimSpace(line); line == "" {
			continue
		}
		if lines++; lines > sampled {
			break
		}
		words := strings.Split(line, " ")
		figures := 0
		for figures < len(words) && isFigure(words[len(words)-1-figures]) {
			figures++
		}
		if figures < 3 || figures == len(words) || !strings.ContainsAny(words[0], "0123456789") {
			continue
		}
		if _, others := commas(line); others > 0 || slices.Contains(words, "") {
			return false
		}
		spaced++
	}
	return spaced >= 3 && spaced*3 >= lines
}

// leastNamed is how many figures with a comma stand beside words where commas are those of figures.
const leastNamed = 3

// commasInFigures reports whether commas either have a blank behind them or stand in figures that blanks set apart, of which some stand in lines
// with words: "bore 9,25  base 13,6" has labels and their values, and a row of cells would have commas between these.
func commasInFigures(text string) bool {
	lines, named := 0, 0
	for line := range strings.Lines(text) {
		if lines++; lines > sampled {
			break
		}
		figures, others := 0, 0
		for word := range strings.FieldsSeq(line) {
			switch word = strings.TrimRight(word, ",;:."); {
			case !strings.Contains(word, ","):
				others++
			case !isFigure(word):
				return false
			default:
				figures++
			}
		}
		if others > 0 {
			named += figures
		}
	}
	return named >= leastNamed
}

// isFigure reports whether a word is of digits, with one mark between them at most.
func isFigure(word string) bool {
	whole, decimals, _ := strings.Cut(strings.Replace(word, ",", ".", 1), ".")
	return whole != "" && strings.Trim(whole+decimals, "0123456789") == "" && word[len(word)-1] != '.' && word[len(word)-1] != ','
}

// whenSaid is the day and the time before what somebody said, the comma between them being no separator: "[12.03.27, 14:02] P. Orr: ...",
// "12/03/27, 14:02 - P. Orr: ...". The day may have no year, "[12/03, 14:02] ...", or be
// one of the week: "[Di., 14:02] ...". Or the name stands before it in brackets of its own: "[P. Orr] [오후 2:02] ...".
var whenSaid = pattern.Lazy(`^\[[^\[\]]{1,40}\] \[(?:\p{L}{2} ?)?\d{1,2}:\d{2}\]|^(?:\[\p{L}{1,12}\.?|\[?\d{1,4}[./-]\d{1,2}(?:[./-](?:\d{1,4})?)?), \d{1,2}:\d{2}(?::\d{2})?(?: ?\p{Lu}{2})?(?:\]| [-–] )`)

// isTalk reports whether most lines of a text begin with when they were said.
func isTalk(text string) bool {
	lines, said := 0, 0
	for line := range strings.Lines(text) {
		if line = strings.TrimSpace(line); line == "" {
			continue
		}
		if lines++; lines > sampled {
			break
		}
		if line[0] == '[' || isDigit(line[0]) {
			if whenSaid().MatchString(line) {
				said++
			}
		}
	}
	return said*2 > lines
}

// leastCut is the evenness below which a sign separates nothing: it stands in a line or two of a text.
const leastCut = 0.1

// leastEven is the evenness below which the lines of a text may be labels with their values, in which commas stand by chance.
const leastEven = 0.5

// labelled reports whether most lines of a text are a label, a colon and a value: "Hosel OD, mm: 13.6", or a question with its answer.
func labelled(text string) bool {
	records, labels := 0, 0
	for line := range strings.Lines(text) {
		if line = strings.TrimSpace(line); line == "" {
			continue
		}
		if records++; records > sampled {
			break
		}
		if at := strings.IndexAny(line, ":：?？"); at > 0 && at < 48 && !strings.ContainsAny(strings.ReplaceAll(withoutPlace().ReplaceAllString(line[:at], ""), ", ", " "), "0123456789,;|\t") {
			labels++
		}
	}
	return labels*2 > records
}

// withoutPlace is the place of a line in a list, before its label: "2) Base".
var withoutPlace = pattern.Lazy(`^\(?\d{1,2}[.)] +`)

// evenness returns about the share of the records that have the most frequent number of fields, at least two, when cut at
// a separator. Commas count a little less than the others. They count nothing where they only stand inside numbers of a
// single column (a heading without a comma above 13,6 and 9,4).
func evenness(text string, separator byte) float64 {
	p := parser{text: text, separator: separator}
	counts := map[int]int{}
	records, inNumbers, others := 0, 0, 0
	single := false
	for lines := 0; p.pos < len(p.text) && records < sampled && lines < maxRows; lines++ {
		fields, content := 0, false
		start := p.pos
		for more := true; more; {
			var field string
			field, _, more = p.field()
			fields++
			content = content || strings.TrimSpace(field) != ""
		}
		if !content {
			continue
		}
		records++
		counts[fields]++
		if separator == ',' {
			between, other := commas(text[start:p.pos])
			inNumbers += between
			others += other
			single = single || fields == 1
			if between > 1 {
				others++ // two commas in numbers make two columns
			}
		}
	}
	most, width := 0, 0
	for fields, count := range counts {
		if fields >= 2 && (count > most || count == most && fields > width) {
			most, width = count, fields
		}
	}
	if records == 0 || most == 0 {
		return 0
	}
	share := float64(most) / float64(records)
	share += 0.001 * float64(min(width, 50)) // of two that cut alike, the one that makes more columns
	if separator == ',' {
		if others == 0 && single && inNumbers > 0 {
			return 0
		}
		share *= 0.8
	}
	return share
}

// commas counts the commas of a record that stand in a number, between two digits as a rule, and the others.
func commas(record string) (between, other int) {
	for i := 0; i < len(record); i++ {
		if record[i] != ',' {
			continue
		}
		if i > 0 && i+1 < len(record) && (isDigit(record[i-1]) && isDigit(record[i+1]) || wholeAmount(record[i-1], record[i+1])) {
			between++
		} else {
			other++
		}
	}
	return between, other
}

// wholeAmount reports whether a comma between two signs is that of a price without hundredths or with these alone: "38,- €", "-,35 €".
func wholeAmount(before, behind byte) bool {
	return isDigit(before) && behind == '-' || before == '-' && isDigit(behind)
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }
