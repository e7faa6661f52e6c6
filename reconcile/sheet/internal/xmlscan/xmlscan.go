// Package xmlscan is a small, strict and fast pull scanner for the XML inside spreadsheet files.
//
// It exists because the parts of a workbook can be large, the scanner of the standard library spends most of its time
// on allocations, and a reader that must never take a broken file for a short one needs every fault reported. The
// scanner works on a string that is wholly in memory and hands out pieces of that string, so that the text of a cell
// costs no copy unless it holds an escape.
//
// It checks well-formedness (XML 1.0, fifth edition, and Namespaces in XML 1.0): matching tags, one root, quoted and
// unique attributes, known entities, legal characters, declared prefixes. A document type declaration is refused, as
// the Open Packaging Conventions forbid it (ECMA-376-2, 8.1.4) and it is the way to entity bombs.
package xmlscan

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Token is what Next found.
type Token uint8

const (
	// Start is a start tag. An empty-element tag gives Start and then End.
	Start Token = iota + 1
	// End is an end tag.
	End
	// Chars is character data; an element's text may come in several pieces.
	Chars
	// EOF is the end of a complete document.
	EOF
)

// Space is a namespace as the caller numbered it. Zero is a namespace that the caller did not name.
type Space int

// NoSpace is the namespace of names that have none.
const NoSpace Space = -1

// Limits that no spreadsheet part comes near; they keep the work in proportion to the size of a document.
const (
	maxDepth      = 200
	maxAttributes = 200
	maxBindings   = 500
)

// Error is a fault of the document.
type Error struct {
	// Line and Column count from 1; the column counts bytes.
	Line, Column int
	Message      string
}

// Error returns the place and the fault.
func (e *Error) Error() string {
	return fmt.Sprintf("line %d, column %d: %s", e.Line, e.Column, e.Message)
}

// Scanner reads one document. Local, Space and Text describe the token that Next returned last.
type Scanner struct {
	// Local is the name of the element of a Start or End without its prefix.
	Local string
	// Space is the namespace of that element.
	Space Space
	// Text is the character data of a Chars, with entities and line ends resolved.
	Text string

	src      string
	pos      int
	start    int // of the current token
	known    map[string]Space
	stack    []frame
	bindings []binding
	attrs    []attr
	// lastPrefix and lastSpace remember the last look-up of a prefix, valid while cached is true.
	lastPrefix string
	lastSpace  Space
	cached     bool
	pendingEnd bool
	opened     bool
	rooted     bool
}

type frame struct {
	name     string // with its prefix, as the end tag repeats it
	local    string
	space    Space
	bindings int // how many bindings were in force outside the element
}

type binding struct {
	prefix string
	space  Space
}

type attr struct {
	prefix, local string
	raw           string
}

// New returns a scanner over a document. A namespace name that is in known gets its number there; all others are 0.
func New(src string, known map[string]Space) *Scanner {
	return &Scanner{src: src, known: known}
}

// Next advances to the next token. Comments and processing instructions are passed over. After an error or EOF it
// must not be called again.
func (s *Scanner) Next() (Token, error) {
	if !s.opened {
		s.opened = true
		if err := s.open(); err != nil {
			return 0, err
		}
	}
	if s.pendingEnd {
		s.pendingEnd = false
		s.pop()
		return End, nil
	}
	for {
		s.start = s.pos
		if s.pos >= len(s.src) {
			return s.end()
		}
		if s.src[s.pos] != '<' {
			length := strings.IndexByte(s.src[s.pos:], '<')
			if length < 0 {
				length = len(s.src) - s.pos
			}
			raw := s.src[s.pos : s.pos+length]
			s.pos += length
			if len(s.stack) == 0 {
				if strings.Trim(raw, " \t\r\n") != "" {
					return 0, s.fail("text outside the root element")
				}
				continue
			}
			text, err := s.unescape(raw, false)
			s.Text = text
			return Chars, err
		}
		if s.pos+1 >= len(s.src) {
			return 0, s.fail("the document ends inside a tag")
		}
		switch s.src[s.pos+1] {
		case '/':
			return End, s.endTag()
		case '?':
			if err := s.instruction(); err != nil {
				return 0, err
			}
		case '!':
			token, err := s.declaration()
			if err != nil || token != 0 {
				return token, err
			}
		default:
			return Start, s.startTag()
		}
	}
}

// Attr returns the value of an attribute without a prefix of the current Start.
func (s *Scanner) Attr(local string) (value string, found bool, err error) {
	for i := range s.attrs {
		if a := &s.attrs[i]; a.local == local && a.prefix == "" {
			value, err = s.unescape(a.raw, true)
			return value, true, err
		}
	}
	return "", false, nil
}

// AttrIn returns the value of an attribute of the current Start whose prefix stands for a namespace.
func (s *Scanner) AttrIn(space Space, local string) (value string, found bool, err error) {
	for i := range s.attrs {
		a := &s.attrs[i]
		if a.local != local || a.prefix == "" {
			continue
		}
		if bound, declared := s.lookup(a.prefix); declared && bound == space {
			value, err = s.unescape(a.raw, true)
			return value, true, err
		}
	}
	return "", false, nil
}

// Preserves reports whether the current Start carries xml:space="preserve".
func (s *Scanner) Preserves() bool {
	for i := range s.attrs {
		if a := &s.attrs[i]; a.local == "space" && a.prefix == "xml" {
			return a.raw == "preserve"
		}
	}
	return false
}

// Skip passes over the rest of the element whose Start was returned last, its End included.
func (s *Scanner) Skip() error {
	for depth := 1; depth > 0; {
		token, err := s.Next()
		if err != nil {
			return err
		}
		switch token {
		case Start:
			depth++
		case End:
			depth--
		}
	}
	return nil
}

// Children calls handle for each child element of the one whose Start was returned last, and passes over its End. Handle passes over the
// child, its End included.
func (s *Scanner) Children(handle func(*Scanner) error) error {
	for {
		token, err := s.Next()
		if err != nil {
			return err
		}
		switch token {
		case Start:
			if err := handle(s); err != nil {
				return err
			}
		case End:
			return nil
		}
	}
}

// Root calls handle for each child element of the root, whose Start was returned last, and reads to the end of the document, whose faults
// after the root are found thereby. Handle passes over the child, its End included.
func (s *Scanner) Root(handle func(*Scanner) error) error {
	if err := s.Children(handle); err != nil {
		return err
	}
	for {
		if token, err := s.Next(); err != nil || token == EOF {
			return err
		}
	}
}

// Content returns the character data directly inside the element whose Start was returned last, and passes over its
// End. Child elements are skipped with their text.
func (s *Scanner) Content() (string, error) {
	var text Pieces
	for {
		token, err := s.Next()
		if err != nil {
			return "", err
		}
		switch token {
		case Chars:
			text.Add(s.Text)
		case Start:
			if err := s.Skip(); err != nil {
				return "", err
			}
		case End:
			return text.String(), nil
		}
	}
}

// Pieces joins pieces of text. A single piece, the usual case, is not copied. The zero Pieces is empty and ready to use.
type Pieces struct {
	first string
	rest  strings.Builder
}

// Add adds a piece at the end.
func (p *Pieces) Add(piece string) {
	switch {
	case p.rest.Len() > 0:
		p.rest.WriteString(piece)
	case p.first == "":
		p.first = piece
	case piece != "":
		p.rest.WriteString(p.first)
		p.rest.WriteString(piece)
	}
}

// String returns the whole text.
func (p *Pieces) String() string {
	if p.rest.Len() > 0 {
		return p.rest.String()
	}
	return p.first
}

// Rest returns what is not read yet, for a caller who knows most of the elements that come and reads them by hand, which is several times
// as fast; Pass tells how much of it was read. The caller passes whole elements with all their content, well-formed and without entities,
// and leaves everything else to Next. Space is the namespace of names without a prefix there. Nothing is returned within an element that
// ends in its start tag.
func (s *Scanner) Rest() (rest string, space Space) {
	if s.pendingEnd || !s.opened {
		return "", NoSpace
	}
	s.start = s.pos
	space, _ = s.lookup("")
	return s.src[s.pos:], space
}

// Pass passes over the first bytes of what Rest returned.
func (s *Scanner) Pass(n int) { s.pos += n }

// Fail returns an error at the place of the current token, for faults that only the caller can see.
func (s *Scanner) Fail(format string, args ...any) error {
	return s.failAt(s.start, fmt.Sprintf(format, args...))
}

// open takes off the byte order mark and checks the characters of the whole document at once, which is faster than
// doing so piece by piece.
func (s *Scanner) open() error {
	s.src = strings.TrimPrefix(s.src, "\ufeff")
	for i := 0; i < len(s.src); i++ {
		if c := s.src[i]; c < ' ' && c != '\n' && c != '\r' && c != '\t' {
			return s.failAt(i, fmt.Sprintf("the character U+%04X is not allowed in XML", c))
		}
	}
	if !utf8.ValidString(s.src) {
		for i, r := range s.src {
			if r == utf8.RuneError {
				if _, size := utf8.DecodeRuneInString(s.src[i:]); size == 1 {
					return s.failAt(i, "a byte that is not UTF-8")
				}
			}
		}
	}
	return nil
}

func (s *Scanner) end() (Token, error) {
	if len(s.stack) > 0 {
		return 0, s.fail("the document ends before </" + s.stack[len(s.stack)-1].name + ">")
	}
	if !s.rooted {
		return 0, s.fail("the document has no element")
	}
	return EOF, nil
}

func (s *Scanner) fail(message string) error { return s.failAt(s.start, message) }

func (s *Scanner) failAt(pos int, message string) error {
	before := s.src[:min(pos, len(s.src))]
	return &Error{
		Line:    strings.Count(before, "\n") + 1,
		Column:  len(before) - strings.LastIndexByte(before, '\n'),
		Message: message,
	}
}

// Classes of bytes in names. Bytes above ASCII are taken as name characters; XML 1.0 excludes few of those.
const (
	nameStart = 1 << iota
	nameRest
	blank
)

var classes = func() (table [256]uint8) {
	for c := range table {
		switch {
		case c >= 'a' && c <= 'z', c >= 'A' && c <= 'Z', c == '_', c >= 0x80:
			table[c] = nameStart | nameRest
		case c >= '0' && c <= '9', c == '-', c == '.':
			table[c] = nameRest
		case c == ' ', c == '\t', c == '\r', c == '\n':
			table[c] = blank
		}
	}
	return table
}()

// name reads a qualified name at the position and returns its two parts.
func (s *Scanner) name() (prefix, local string, err error) {
	start, colon, i := s.pos, -1, s.pos
	for ; i < len(s.src); i++ {
		c := s.src[i]
		if c == ':' && colon < 0 {
			colon = i
			continue
		}
		want := uint8(nameRest)
		if i == start || i == colon+1 {
			want = nameStart
		}
		if classes[c]&want == 0 {
			break
		}
	}
	s.pos = i
	if colon < 0 {
		local = s.src[start:i]
	} else {
		prefix, local = s.src[start:colon], s.src[colon+1:i]
		if prefix == "" {
			return "", "", s.failAt(start, "a name is missing")
		}
	}
	if local == "" {
		return "", "", s.failAt(start, "a name is missing")
	}
	return prefix, local, nil
}

// blanks passes over white space and reports whether there was any.
func (s *Scanner) blanks() bool {
	start := s.pos
	for s.pos < len(s.src) && classes[s.src[s.pos]]&blank != 0 {
		s.pos++
	}
	return s.pos > start
}

func (s *Scanner) startTag() error {
	if len(s.stack) == 0 && s.rooted {
		return s.fail("a second root element")
	}
	if len(s.stack) >= maxDepth {
		return s.fail("elements are nested deeper than " + strconv.Itoa(maxDepth))
	}
	s.rooted = true
	s.pos++
	nameAt := s.pos
	prefix, local, err := s.name()
	if err != nil {
		return err
	}
	f := frame{name: s.src[nameAt:s.pos], local: local, bindings: len(s.bindings)}
	s.attrs = s.attrs[:0]
	for {
		spaced := s.blanks()
		if s.pos >= len(s.src) {
			return s.fail("the document ends inside a tag")
		}
		switch c := s.src[s.pos]; {
		case c == '>':
			s.pos++
			return s.push(f, prefix)
		case c == '/':
			if s.pos+1 >= len(s.src) || s.src[s.pos+1] != '>' {
				return s.failAt(s.pos, "/ without > in a tag")
			}
			s.pos += 2
			s.pendingEnd = true
			return s.push(f, prefix)
		case !spaced:
			return s.failAt(s.pos, "a space is missing in a tag")
		}
		if err := s.attribute(); err != nil {
			return err
		}
	}
}

// attribute reads name="value" at the position.
func (s *Scanner) attribute() error {
	at := s.pos
	prefix, local, err := s.name()
	if err != nil {
		return err
	}
	s.blanks()
	if s.pos >= len(s.src) || s.src[s.pos] != '=' {
		return s.failAt(s.pos, "an attribute without a value")
	}
	s.pos++
	s.blanks()
	if s.pos >= len(s.src) || s.src[s.pos] != '"' && s.src[s.pos] != '\'' {
		return s.failAt(s.pos, "an attribute value without quotes")
	}
	quote := s.src[s.pos]
	s.pos++
	length := strings.IndexByte(s.src[s.pos:], quote)
	if length < 0 {
		return s.failAt(s.pos, "the document ends inside an attribute value")
	}
	raw := s.src[s.pos : s.pos+length]
	if strings.IndexByte(raw, '<') >= 0 {
		return s.failAt(s.pos, "< inside an attribute value")
	}
	if strings.IndexByte(raw, '&') >= 0 {
		if _, err := s.unescape(raw, true); err != nil {
			return err
		}
	}
	s.pos += length + 1
	for i := range s.attrs {
		if a := &s.attrs[i]; a.local == local && a.prefix == prefix {
			return s.failAt(at, "the attribute "+local+" stands twice")
		}
	}
	if len(s.attrs) == maxAttributes {
		return s.failAt(at, "an element with more than "+strconv.Itoa(maxAttributes)+" attributes")
	}
	s.attrs = append(s.attrs, attr{prefix, local, raw})
	if prefix == "xmlns" || prefix == "" && local == "xmlns" {
		return s.bind(prefix, local, raw)
	}
	return nil
}

// bind takes in a namespace declaration.
func (s *Scanner) bind(prefix, local, raw string) error {
	uri, err := s.unescape(raw, true)
	if err != nil {
		return err
	}
	if prefix == "" {
		local = ""
	}
	space := s.known[uri]
	if uri == "" {
		space = NoSpace
	}
	if len(s.bindings) == maxBindings {
		return s.fail("more than " + strconv.Itoa(maxBindings) + " namespaces at once")
	}
	s.bindings = append(s.bindings, binding{local, space})
	s.cached = false
	return nil
}

// lookup finds the namespace of a prefix; declared is false for a prefix that nothing declares.
func (s *Scanner) lookup(prefix string) (space Space, declared bool) {
	for i := len(s.bindings) - 1; i >= 0; i-- {
		if s.bindings[i].prefix == prefix {
			return s.bindings[i].space, true
		}
	}
	if prefix == "xml" {
		return 0, true
	}
	return NoSpace, prefix == ""
}

func (s *Scanner) push(f frame, prefix string) error {
	if !s.cached || s.lastPrefix != prefix {
		space, declared := s.lookup(prefix)
		if !declared {
			return s.fail("the prefix " + prefix + " is not declared")
		}
		s.lastPrefix, s.lastSpace, s.cached = prefix, space, true
	}
	f.space = s.lastSpace
	s.Local, s.Space = f.local, f.space
	s.stack = append(s.stack, f)
	return nil
}

func (s *Scanner) pop() {
	f := &s.stack[len(s.stack)-1]
	s.Local, s.Space = f.local, f.space
	if f.bindings != len(s.bindings) {
		s.bindings = s.bindings[:f.bindings]
		s.cached = false
	}
	s.stack = s.stack[:len(s.stack)-1]
}

func (s *Scanner) endTag() error {
	if len(s.stack) == 0 {
		return s.fail("an end tag without its start")
	}
	s.pos += 2
	want := s.stack[len(s.stack)-1].name
	if !strings.HasPrefix(s.src[s.pos:], want) {
		return s.fail("another end tag than </" + want + ">")
	}
	s.pos += len(want)
	s.blanks()
	if s.pos >= len(s.src) || s.src[s.pos] != '>' {
		return s.fail("another end tag than </" + want + ">")
	}
	s.pos++
	s.pop()
	return nil
}

// instruction passes over <? … ?> and checks the encoding that an XML declaration names.
func (s *Scanner) instruction() error {
	atStart := s.pos == 0
	s.pos += 2
	prefix, target, err := s.name()
	if err != nil {
		return err
	}
	length := strings.Index(s.src[s.pos:], "?>")
	if length < 0 {
		return s.fail("the document ends inside a processing instruction")
	}
	rest := s.src[s.pos : s.pos+length]
	s.pos += length + 2
	if rest != "" && classes[rest[0]]&blank == 0 {
		return s.fail("a space is missing in a processing instruction")
	}
	if prefix != "" || target != "xml" {
		return nil
	}
	if !atStart {
		return s.fail("an XML declaration inside the document")
	}
	if _, after, found := strings.Cut(rest, "encoding"); found {
		after = strings.TrimLeft(after, "= ")
		if len(after) > 1 {
			name, _, _ := strings.Cut(after[1:], after[:1])
			switch strings.ToLower(name) {
			case "utf-8", "utf8", "us-ascii", "ascii":
			default:
				return s.fail("the encoding " + strconv.Quote(name) + " is not one that spreadsheet parts may use")
			}
		}
	}
	return nil
}

// declaration handles what begins with <!. It returns Chars for a CDATA section and 0 for a comment.
func (s *Scanner) declaration() (Token, error) {
	rest := s.src[s.pos:]
	switch {
	case strings.HasPrefix(rest, "<!--"):
		length := strings.Index(rest[4:], "--")
		if length < 0 {
			return 0, s.fail("the document ends inside a comment")
		}
		if !strings.HasPrefix(rest[4+length:], "-->") {
			return 0, s.fail("-- inside a comment")
		}
		s.pos += 4 + length + 3
		return 0, nil
	case strings.HasPrefix(rest, "<![CDATA["):
		if len(s.stack) == 0 {
			return 0, s.fail("text outside the root element")
		}
		length := strings.Index(rest, "]]>")
		if length < 0 {
			return 0, s.fail("the document ends inside a CDATA section")
		}
		s.Text = lineEnds(rest[len("<![CDATA["):length])
		s.pos += length + 3
		return Chars, nil
	case strings.HasPrefix(rest, "<!DOCTYPE"):
		return 0, s.fail("a document type declaration, which spreadsheet parts may not have")
	}
	return 0, s.fail("a declaration that is not known here")
}

func lineEnds(text string) string {
	if strings.IndexByte(text, '\r') < 0 {
		return text
	}
	return strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
}

// unescape resolves entities and line ends; in attributes, line ends and tabs become spaces.
func (s *Scanner) unescape(raw string, attribute bool) (string, error) {
	if isPlain(raw, attribute) {
		return raw, nil
	}
	if !attribute && strings.Contains(raw, "]]>") {
		return "", s.fail("]]> outside a CDATA section")
	}
	if strings.IndexByte(raw, '\r') >= 0 {
		raw = lineEnds(raw)
	}
	if attribute && strings.ContainsAny(raw, "\n\t") {
		raw = strings.NewReplacer("\n", " ", "\t", " ").Replace(raw)
	}
	amp := strings.IndexByte(raw, '&')
	if amp < 0 {
		return raw, nil
	}
	var out strings.Builder
	out.Grow(len(raw))
	for amp >= 0 {
		out.WriteString(raw[:amp])
		raw = raw[amp+1:]
		name, rest, found := strings.Cut(raw, ";")
		if !found {
			return "", s.fail("& without an entity")
		}
		r, err := s.entity(name)
		if err != nil {
			return "", err
		}
		out.WriteRune(r)
		raw = rest
		amp = strings.IndexByte(raw, '&')
	}
	out.WriteString(raw)
	return out.String(), nil
}

// isPlain reports whether a text has nothing that unescape looks for.
func isPlain(raw string, attribute bool) bool {
	for i := 0; i < len(raw); i++ {
		switch c := raw[i]; {
		case c > ']':
		case c == '&', c == '\r', attribute && (c == '\n' || c == '\t'), c == ']' && !attribute:
			return false
		}
	}
	return true
}

func (s *Scanner) entity(name string) (rune, error) {
	switch name {
	case "amp":
		return '&', nil
	case "lt":
		return '<', nil
	case "gt":
		return '>', nil
	case "quot":
		return '"', nil
	case "apos":
		return '\'', nil
	}
	digits, numeric := strings.CutPrefix(name, "#")
	if !numeric {
		return 0, s.fail(fmt.Sprintf("the entity &%.20s; is not known", name))
	}
	base := 10
	if hex, isHex := strings.CutPrefix(digits, "x"); isHex {
		digits, base = hex, 16
	}
	code, err := strconv.ParseUint(digits, base, 32)
	if err != nil || !legal(rune(code)) {
		return 0, s.fail(fmt.Sprintf("&%.20s; is no character", name))
	}
	return rune(code), nil
}

// legal reports whether XML 1.0 allows a character (production 2).
func legal(r rune) bool {
	switch {
	case r < ' ':
		return r == '\t' || r == '\n' || r == '\r'
	case r >= 0xD800 && r <= 0xDFFF, r == 0xFFFE, r == 0xFFFF:
		return false
	}
	return r <= utf8.MaxRune
}
