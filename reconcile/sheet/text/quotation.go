package text

import "strings"

const (
	// quoteSign stands before each line of a letter that another one quotes, once for each letter it has come through.
	quoteSign = '>'
	// leastQuoted is how many lines in a row begin with it where they are quoted; fewer may mean something else by it.
	leastQuoted = 3
)

// unquote takes the signs of quotation off the lines of a letter that is quoted in another, so that a table in it stands as it was sent. Lines
// stay where they are. It reports whether there were any.
func unquote(text string) (plain string, quoted bool) {
	if !strings.ContainsRune(text, quoteSign) {
		return text, false
	}
	lines := strings.SplitAfter(text, "\n")
	for from := 0; from < len(lines); from++ {
		to := from
		for to < len(lines) && isQuoted(lines[to]) {
			to++
		}
		if to-from < leastQuoted {
			continue
		}
		quoted = true
		for ; from < to; from++ {
			lines[from] = withoutQuotation(lines[from])
		}
	}
	if !quoted {
		return text, false
	}
	return strings.Join(lines, ""), true
}

// isQuoted reports whether a line begins with the sign and, but for more of them, a blank or nothing behind it.
func isQuoted(line string) bool {
	rest := strings.TrimLeft(line, string(quoteSign))
	return rest != line && (rest == "" || strings.ContainsAny(rest[:1], " \t\r\n"))
}

// withoutQuotation is a line without its signs, each with the blank behind it: "> > text".
func withoutQuotation(line string) string {
	for isQuoted(line) {
		line = strings.TrimPrefix(strings.TrimLeft(line, string(quoteSign)), " ")
	}
	return line
}
