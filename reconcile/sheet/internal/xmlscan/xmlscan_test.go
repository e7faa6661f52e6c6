package xmlscan_test

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/sheet/internal/xmlscan"
)

const first, second xmlscan.Space = 1, 2

var spaces = map[string]xmlscan.Space{"urn:first": first, "urn:second": second}

// tokens writes a document as a list: <name/space for a start, > for an end, and text in quotes, pieces joined.
func tokens(document string) ([]string, error) {
	s := xmlscan.New(document, spaces)
	var out []string
	text := ""
	for {
		token, err := s.Next()
		if err != nil {
			return out, err
		}
		if token == xmlscan.Chars {
			text += s.Text
			continue
		}
		if text != "" {
			out = append(out, fmt.Sprintf("%q", text))
			text = ""
		}
		switch token {
		case xmlscan.Start:
			out = append(out, fmt.Sprintf("<%s/%d", s.Local, s.Space))
		case xmlscan.End:
			out = append(out, ">"+s.Local)
		case xmlscan.EOF:
			return out, nil
		}
	}
}

func TestTokens(t *testing.T) {
	for _, test := range []struct {
		document string
		want     []string
	}{
		{`<a/>`, []string{"<a/-1", ">a"}},
		{"\ufeff" + `<?xml version="1.0" encoding='UTF-8'?>` + "\n<!-- - --><a >x</a >\n<!--y--><?z?>", []string{"<a/-1", `"x"`, ">a"}},
		{`<a xmlns="urn:first"><b/><p:c xmlns:p="urn:second" xmlns=""><d/></p:c><e/></a>`,
			[]string{"<a/1", "<b/1", ">b", "<c/2", "<d/-1", ">d", ">c", "<e/1", ">e", ">a"}},
		{`<p:a xmlns:p="urn:other" xml:space="preserve"><p:b/></p:a>`, []string{"<a/0", "<b/0", ">b", ">a"}},
		{`<a>1&lt;2&#x26;&#38;&amp;lt;&quot;&apos;&gt;<![CDATA[<&]]]]><!--x-->` + "\r\n\r</a>", []string{"<a/-1", `"1<2&&&lt;\"'><&]]\n\n"`, ">a"}},
		{`<größe>ж外🔧</größe>`, []string{"<größe/-1", `"ж外🔧"`, ">größe"}},
	} {
		got, err := tokens(test.document)
		if err != nil {
			t.Errorf("%s: %v", test.document, err)
		}
		if diff := cmp.Diff(test.want, got); diff != "" {
			t.Errorf("%s: (-want +got)\n%s", test.document, diff)
		}
	}
}

// TestFaults lists documents that are not well-formed, with the place of the fault behind the mark ¶.
func TestFaults(t *testing.T) {
	for _, marked := range []string{
		"¶", "  ¶", "¶x", "<a>¶", "<a>\n  <b>x¶", "<a>¶</b>", "<a><b>¶</a></b>", "<a/>¶<b/>", "<a/>¶x", "<a/>¶</a>", "¶<a", "<¶>", "<¶ a/>", "<¶1/>", "<¶a:/>", "<¶:a/>",
		"<a b¶>", "<a b=¶c/>", `<a b="¶c/>`, `<a b="c"¶d="e"/>`, `<a b="c" ¶b="d"/>`, `<a b="¶<"/>`, `¶<a b="&x;"/>`, "<a ¶/ >", "<a>¶&x;</a>", "<a>¶&amp</a>", "<a>¶&#0;</a>", "<a>¶&#xD800;</a>",
		"<a>¶&#xFFFE;</a>", "<a>¶&#;</a>", "<a>¶]]></a>", "¶<p:a/>", `<a xmlns:p="urn:first"><b/></a>¶<p:c/>`, "<a><p:b xmlns:p='u'/>¶<p:c/></a>", "<a>¶<!-- -- --></a>", "<a>¶<!--x</a>",
		"<a>¶<![CDATA[x</a>", "¶<![CDATA[x]]>", "¶<!DOCTYPE a><a/>", "<a>¶<!ELEMENT a></a>", "<a>¶<?x</a>", "<a><?¶></a>", "<a><?¶ x?></a>", "<a>¶<?x+?></a>", "<a>¶<?xml version='1.0'?></a>", `¶<?xml version="1.0" encoding="EUC-KR"?><a/>`,
		"<a>\n\n ¶\x01</a>", "<a>¶\xff</a>", "<a>¶\x00</a>", "<a>¶</a b='c'>", "<a></a>¶<", strings.Repeat("<a>", 200) + "¶<a>",
		"<a " + numbered(" a%d=''", 200) + " ¶b=''/>", numbered("<a xmlns:p%d='u' xmlns:q%[1]d='u'>", 199) + "¶<a " + numbered(" xmlns:r%d='u'", 103) + ">",
	} {
		before, after, _ := strings.Cut(marked, "¶")
		line := strings.Count(before, "\n") + 1
		column := len(before) - strings.LastIndex(before, "\n")
		_, err := tokens(before + after)
		var fault *xmlscan.Error
		if !errors.As(err, &fault) {
			t.Errorf("%q: %v, want a fault", marked, err)
			continue
		}
		if fault.Line != line || fault.Column != column {
			t.Errorf("%q: %v, want line %d, column %d", marked, err, line, column)
		}
	}
}

// numbered repeats a text with its number in it.
func numbered(format string, times int) string {
	var out strings.Builder
	for i := range times {
		fmt.Fprintf(&out, format, i)
	}
	return out.String()
}

func TestAttributes(t *testing.T) {
	s := xmlscan.New(`<a xmlns:p="urn:first" q:x="0" xmlns:q="urn:second" x="1&amp;2`+"\n"+`3" p:x='"' y=""/>`, spaces)
	if _, err := s.Next(); err != nil {
		t.Fatal(err)
	}
	check := func(name string, value string, found bool, err error, wantValue string, wantFound bool) {
		t.Helper()
		if err != nil || value != wantValue || found != wantFound {
			t.Errorf("%s is %q, %v, %v", name, value, found, err)
		}
	}
	value, found, err := s.Attr("x")
	check("x", value, found, err, "1&2 3", true)
	value, found, err = s.Attr("y")
	check("y", value, found, err, "", true)
	value, found, err = s.Attr("z")
	check("z", value, found, err, "", false)
	value, found, err = s.AttrIn(first, "x")
	check("p:x", value, found, err, `"`, true)
	value, found, err = s.AttrIn(second, "x")
	check("q:x", value, found, err, "0", true)
	value, found, err = s.AttrIn(first, "y")
	check("p:y", value, found, err, "", false)
	if s.Preserves() {
		t.Error("nothing is preserved")
	}
}

func TestContentAndSkip(t *testing.T) {
	s := xmlscan.New(`<a xml:space="preserve"> x<b>y<c/></b><!-- -->z<![CDATA[&]]></a>`, nil)
	if _, err := s.Next(); err != nil {
		t.Fatal(err)
	}
	if !s.Preserves() {
		t.Error("white space is preserved")
	}
	if text, err := s.Content(); text != " xz&" || err != nil {
		t.Errorf("%q, %v", text, err)
	}
	if token, err := s.Next(); token != xmlscan.EOF || err != nil {
		t.Errorf("%v, %v", token, err)
	}
	s = xmlscan.New(`<a><b><c/></a>`, nil)
	if _, err := s.Next(); err != nil {
		t.Fatal(err)
	}
	if err := s.Skip(); err == nil {
		t.Error("a fault was skipped")
	}
}

// library lists the tokens that encoding/xml finds, as tokens does; it is the independent second reader.
func library(document string) ([]string, error) {
	d := xml.NewDecoder(strings.NewReader(document))
	var out []string
	text := ""
	depth := 0
	for {
		token, err := d.Token()
		if err != nil && err != io.EOF {
			return out, err
		}
		if chars, ok := token.(xml.CharData); ok {
			if depth > 0 {
				text += string(chars)
			}
			continue
		}
		switch token.(type) {
		case xml.Comment, xml.ProcInst, xml.Directive:
			continue
		}
		if text != "" {
			out = append(out, fmt.Sprintf("%q", text))
			text = ""
		}
		if err == io.EOF {
			return out, nil
		}
		switch token := token.(type) {
		case xml.StartElement:
			depth++
			out = append(out, "<"+token.Name.Local)
		case xml.EndElement:
			depth--
			out = append(out, ">"+token.Name.Local)
		}
	}
}

// FuzzScanner compares with encoding/xml: whatever we accept, it accepts too and finds the same in it. It accepts more.
func FuzzScanner(f *testing.F) {
	for _, seed := range []string{
		`<a/>`, `<?>`, `<?xml version="1.0"?><a b="c" xmlns:p='u'><p:b>x&amp;&#10;<![CDATA[y]]></p:b><!-- z --></a>`, "<a>\r\n&lt;</a>", `<a><b></a>`, `<!DOCTYPE a><a/>`,
		"<a xml:space='preserve'> </a>", `<worksheet xmlns="x"><sheetData><row r="1"><c r="A1"><v>1</v></c></row></sheetData></worksheet>`,
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, document string) {
		got, err := tokens(document)
		if err != nil {
			var fault *xmlscan.Error
			if !errors.As(err, &fault) || fault.Line < 1 || fault.Column < 1 {
				t.Fatalf("%T: %v", err, err)
			}
			return
		}
		for i, one := range got {
			if one[0] == '<' {
				got[i] = one[:strings.LastIndex(one, "/")]
			}
		}
		want, err := library(strings.TrimPrefix(document, "\ufeff"))
		if err != nil {
			t.Fatalf("we accept %q, encoding/xml says %v", document, err)
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%q: (-library +ours)\n%s", document, diff)
		}
	})
}
