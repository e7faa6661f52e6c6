package lexicon

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"

	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
)

// partRange is a run of part numbers with both ends written out: QB-101…QB-105, T7 to T9, 1001–1004. A plain hyphen counts
// only with spaces about it, since part numbers have hyphens of their own.
var partRange = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^(.*?)(\d{1,9})(?: ?(?:…|\.{2,3}|–|—|~|〜|～) ?| (?:-|` + words.Load().AnyOf("run", "to") + `) )(.*?)(\d{1,9})$`)
})

const (
	// longestRange is how many part numbers a run has at most; a longer one is no run.
	longestRange = 60
	// mostTogether is how many part numbers or runs stand together in one text at most.
	mostTogether = 20
	// longestText is how many bytes the text of several part numbers has at most: the search for a run costs the square of what it is given.
	longestText = 200
)

// PartsOf returns the part numbers that a text names together, as a run or a list of such as differ in their last number only: "X-1 to X-3",
// "X-1, X-2 and X-5". It returns nil for any other text, one part number included.
func PartsOf(text string) []string {
	if len(text) > longestText || !strings.ContainsAny(text, " …–—~〜～,/&+，、") && !strings.Contains(text, "..") && !strings.ContainsFunc(text, IsWide) {
		return nil
	}
	if run := runOf(text); run != nil {
		return run
	}
	pieces := piecesTogether(text)
	if len(pieces) < 2 || len(pieces) > mostTogether {
		return nil
	}
	var parts []string
	for _, piece := range pieces {
		if run := runOf(piece); run != nil {
			parts = append(parts, run...)
		} else {
			parts = append(parts, piece)
		}
	}
	shape, ok := ShapeOf(parts[0])
	for i, part := range parts {
		if other, alike := ShapeOf(part); !ok || !alike || other != shape || slices.Contains(parts[:i], part) {
			return nil
		}
	}
	return parts
}

// runOf returns the part numbers of a run, nil where a text is none. Their digits may become more where none begins with a nought.
func runOf(text string) []string {
	m := partRange().FindStringSubmatch(text)
	if m == nil || m[3] != "" && m[3] != m[1] {
		return nil
	}
	if grows := m[3] != "" && len(m[2]) < len(m[4]) && m[2][0] != '0'; len(m[2]) != len(m[4]) && !grows {
		return nil
	}
	first, err1 := strconv.Atoi(m[2])
	last, err2 := strconv.Atoi(m[4])
	if err1 != nil || err2 != nil || last <= first || last-first >= longestRange {
		return nil
	}
	var parts []string
	for n := first; n <= last; n++ {
		parts = append(parts, fmt.Sprintf("%s%0*d", m[1], len(m[2]), n))
	}
	return parts
}

// piecesTogether cuts a text at what joins part numbers: signs, and words for and.
func piecesTogether(text string) []string {
	var pieces []string
	var piece []string
	for _, field := range strings.Fields(apart(text)) {
		if !joinsParts(field) {
			piece = append(piece, field)
			continue
		}
		if len(piece) == 0 && len(pieces) == 0 {
			return nil
		}
		if len(piece) > 0 { // a comma may stand before the word
			pieces = append(pieces, strings.Join(piece, " "))
		}
		piece = nil
	}
	if len(piece) == 0 {
		return nil
	}
	return append(pieces, strings.Join(piece, " "))
}

// joiners join part numbers with or without blanks about them.
const joiners = ",/&+，、"

// apart sets blanks about what may join part numbers: signs, and words of East Asian writing.
func apart(text string) string {
	var b strings.Builder
	wide := false
	for _, sign := range text {
		joins := strings.ContainsRune(joiners, sign)
		if joins || IsWide(sign) != wide {
			b.WriteByte(' ')
		}
		wide = IsWide(sign)
		b.WriteRune(sign)
		if joins {
			b.WriteByte(' ')
		}
	}
	return b.String()
}

func joinsParts(field string) bool {
	if strings.Trim(field, joiners) == "" {
		return true
	}
	if BearsDigits(field) {
		return false
	}
	_, and := words.Load().Mark(field, "or")
	return and
}

// ShapeOf returns what a part number has in common with those that differ in their last number only: what stands before it and behind, with # for it. It
// reports false for what has no letter before a number.
func ShapeOf(part string) (string, bool) {
	end := strings.LastIndexFunc(part, unicode.IsDigit) + 1
	start := len(strings.TrimRightFunc(part[:end], unicode.IsDigit))
	return part[:start] + "#" + part[end:], end > 0 && strings.ContainsFunc(part[:start], unicode.IsLetter)
}

// IsItemNumber reports whether a text is a part number with letters and digits, and no size.
func IsItemNumber(text string) bool {
	return strings.ContainsFunc(text, unicode.IsLetter) && strings.ContainsFunc(text, unicode.IsNumber) && LooksLikeCode(text) &&
		value.Read(text, value.Context{Want: value.WantLength}).Kind != value.Length
}
