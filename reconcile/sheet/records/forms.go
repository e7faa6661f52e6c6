package records

import (
	"encoding/json"
	"encoding/xml"
	"errors"
	"io"
	"strings"
)

// deepest is how deep values may stand in each other.
const deepest = 64

// builder builds the tree of a text.
type builder struct {
	stack []*node
	// texts are the texts of those in the stack, as far as they were read.
	texts       []strings.Builder
	count, most int
}

func newBuilder(most int) *builder {
	return &builder{stack: []*node{{isList: true}}, texts: make([]strings.Builder, 1), most: most}
}

func (b *builder) top() *node { return b.stack[len(b.stack)-1] }

// add adds a value to the innermost one and reports whether there may be more.
func (b *builder) add(n *node) bool {
	b.top().children = append(b.top().children, n)
	b.count++
	return b.count <= b.most
}

// open is add for a value with others in it.
func (b *builder) open(n *node) bool {
	more := b.add(n)
	b.stack, b.texts = append(b.stack, n), append(b.texts, strings.Builder{})
	return more && len(b.stack) <= deepest
}

func (b *builder) close() {
	n := len(b.stack) - 1
	b.stack[n].text = strings.TrimSpace(b.texts[n].String())
	b.stack, b.texts = b.stack[:n], b.texts[:n]
}

// root is the outermost value.
func (b *builder) root() *node {
	if root := b.stack[0]; len(root.children) != 1 {
		return root
	}
	return b.stack[0].children[0]
}

// tooMany is the root of a text with more values than may be read.
var tooMany = &node{beyond: true}

// readJSON reads one value of JSON or several, one after another (RFC 8259, and JSON lines); nil where it is none.
func readJSON(text string, most int) *node {
	b := newBuilder(most)
	d := json.NewDecoder(strings.NewReader(text))
	d.UseNumber()
	name, named := "", false
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil
		}
		more := true
		switch token := token.(type) {
		case json.Delim:
			switch token {
			case '{', '[':
				more = b.open(&node{name: name, isList: token == '['})
				name, named = "", token == '{'
			default:
				b.close()
				named = len(b.stack) > 1 && !b.top().isList
			}
			if !more {
				return tooMany
			}
			continue
		case string:
			if named {
				name, named = token, false
				continue
			}
			more = b.add(&node{name: name, text: token})
		case json.Number:
			more = b.add(&node{name: name, text: token.String()})
		case bool:
			more = b.add(&node{name: name, text: map[bool]string{true: "yes", false: "no"}[token]})
		default: // null
			more = b.add(&node{name: name})
		}
		if !more {
			return tooMany
		}
		name, named = "", len(b.stack) > 1 && !b.top().isList
	}
	if len(b.stack) != 1 {
		return nil
	}
	return b.root()
}

// readXML reads an XML document (W3C, XML 1.0): attributes are values in their element. It returns nil where it is none.
func readXML(text string, most int) *node {
	b := newBuilder(most)
	d := xml.NewDecoder(strings.NewReader(text))
	d.CharsetReader = func(_ string, r io.Reader) (io.Reader, error) { return r, nil } // it is decoded
	for {
		token, err := d.RawToken()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil
		}
		switch token := token.(type) {
		case xml.StartElement:
			if !b.open(&node{name: token.Name.Local}) {
				return tooMany
			}
			for _, a := range token.Attr {
				if a.Name.Space != "xmlns" && a.Name.Local != "xmlns" && !b.add(&node{name: a.Name.Local, text: a.Value}) {
					return tooMany
				}
			}
		case xml.EndElement:
			if len(b.stack) < 2 || b.top().name != token.Name.Local {
				return nil
			}
			b.close()
		case xml.CharData:
			if strings.TrimSpace(string(token)) == "" {
				continue
			}
			if len(b.stack) == 1 {
				return nil // markup within prose
			}
			b.texts[len(b.texts)-1].Write(token)
		}
	}
	if len(b.stack) != 1 {
		return nil
	}
	return b.root()
}
