package main

import (
	"fmt"
	"io"
	"os"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"golang.org/x/term"

	"example.com/seatline/reconcile/phrase"
)

// printer is where everything goes that the command prints: characters that steer a terminal or break a line are written out as JSON does
// it, so that text shows them and JSON keeps its meaning. It remembers the first error of writing, so that output which did not arrive is
// never taken for done.
type printer struct {
	to io.Writer
	// cut is the beginning of a character of which the rest comes with the next bytes.
	cut []byte
	err error
}

func (p *printer) Write(text []byte) (int, error) {
	given := len(text)
	if len(p.cut) > 0 {
		text = append(p.cut, text...)
		p.cut = nil
	}
	if at := cutAt(text); at < len(text) {
		p.cut, text = append([]byte(nil), text[at:]...), text[:at]
	}
	if err := p.write(escaped(text)); err != nil {
		return 0, err
	}
	return given, nil
}

// flush writes what was not the beginning of a character after all.
func (p *printer) flush() error {
	if len(p.cut) > 0 {
		return p.write(escaped(p.cut))
	}
	return p.err
}

func (p *printer) write(text []byte) error {
	_, err := p.to.Write(text)
	if p.err == nil {
		p.err = err
	}
	return err
}

// cutAt is where the last character begins, if there is only a part of it, and otherwise the end.
func cutAt(text []byte) int {
	for at := len(text) - 1; at >= max(0, len(text)-utf8.UTFMax); at-- {
		if utf8.RuneStart(text[at]) {
			if !utf8.FullRune(text[at:]) {
				return at
			}
			break
		}
	}
	return len(text)
}

// escaped is a text without characters that steer. Line feeds and tabs are ours: what is not ours goes through [phrase.OneLine] or
// [phrase.Escape] where it is put into a line.
func escaped(text []byte) []byte {
	var out []byte // nil while nothing had to be changed
	kept := 0
	for at := 0; at < len(text); {
		if c := text[at]; c >= ' ' && c < 0x7f || c == '\n' || c == '\t' {
			at++
			continue
		}
		r, size := utf8.DecodeRune(text[at:])
		if broken := r == utf8.RuneError && size == 1; broken || phrase.Steers(r) {
			out = append(out, text[kept:at]...)
			kept = at + size
			if broken {
				out = utf8.AppendRune(out, utf8.RuneError)
			} else {
				for _, unit := range utf16.Encode([]rune{r}) {
					out = fmt.Appendf(out, `\u%04x`, unit)
				}
			}
		}
		at += size
	}
	if kept == 0 {
		return text
	}
	return append(out, text[kept:]...)
}

// mostSaid is how many characters a line of a message has at most.
const mostSaid = 2_000

// say writes a message to standard error; each line is marked as ours. A text or an error among the arguments may hold names that are not
// ours, and stays on its line; errors that were joined have a line each.
func (s streams) say(format string, args ...any) {
	for i, arg := range args {
		switch v := arg.(type) {
		case error:
			args[i] = linesOf(v)
		case string:
			args[i] = phrase.Escape(v)
		}
	}
	for line := range strings.SplitSeq(strings.TrimRight(fmt.Sprintf(format, args...), "\n"), "\n") {
		fmt.Fprintln(s.err, "reconcile: "+phrase.Shorten(line, mostSaid))
	}
}

// linesOf is the text of an error in which only joining makes lines.
func linesOf(err error) string {
	text := err.Error()
	var causes []error
	switch e := err.(type) {
	case interface{ Unwrap() []error }:
		causes = e.Unwrap()
	case interface{ Unwrap() error }:
		causes = []error{e.Unwrap()}
	}
	var out strings.Builder
	for i, cause := range causes {
		if cause == nil {
			continue
		}
		before, after, found := strings.Cut(text, cause.Error())
		if !found {
			continue
		}
		if joined := i > 0 && before == "\n"; !joined {
			before = phrase.Escape(before)
		}
		out.WriteString(before + linesOf(cause))
		text = after
	}
	return out.String() + phrase.Escape(text)
}

// isTerminal reports whether a stream is a terminal.
func isTerminal(w io.Writer) bool {
	if p, is := w.(*printer); is {
		w = p.to
	}
	f, ok := w.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}
