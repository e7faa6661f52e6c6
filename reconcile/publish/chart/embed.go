package chart

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"unicode/utf16"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"

	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/web"
)

// WriteEmbed writes the fit chart as a script for the seller's own site, which makes it the content of an element:
//
//	<script src="fits.js" defer></script>
//	<fit-chart><a href="fits.html">Which ferrule fits?</a></fit-chart>
//
// The element has a tree of its own (a shadow root), so that the style of the page does not reach into it and its own does not reach out.
// It is as high as what it shows; whenever its size changes it sends the event fit-chart-size, whose detail has width and height in
// pixels. A content security policy has to admit the script and nothing else. The address of the page is left alone; a link that a
// reader copies names the chart's state after #fit-chart:. The script is ASCII and does not depend on how it is served.
//
// The errors are those of [Write].
func WriteEmbed(w io.Writer, r *matrix.Result, opts Options) error {
	if err := opts.validate(); err != nil {
		return err
	}
	l, err := language(opts.Language, opts.Words)
	if err != nil {
		return err
	}
	content, err := newBuilder(r, opts, l).embed()
	if err != nil {
		return fmt.Errorf("writing the chart: %w", err)
	}
	out := bufio.NewWriterSize(w, 1<<16)
	out.WriteString(content) // a bufio.Writer keeps its error
	if err := out.Flush(); err != nil {
		return fmt.Errorf("writing the chart: %w", err)
	}
	return nil
}

func (b *builder) embed() (string, error) {
	c, err := b.build()
	if err != nil {
		return "", err
	}
	style, err := b.style()
	if err != nil {
		return "", err
	}
	own, err := readAll(scripts)
	if err != nil {
		return "", err
	}
	maker, err := readAll([]string{"embed.js"})
	if err != nil {
		return "", err
	}
	tree, err := b.tree(c)
	if err != nil {
		return "", err
	}
	var script strings.Builder
	script.WriteString("(() => {\n\"use strict\";\n")
	for _, part := range []struct {
		name  string
		value any
	}{{"style", style}, {"tree", tree}, {"data", c}} {
		content, err := json.Marshal(part.value)
		if err != nil {
			return "", err
		}
		fmt.Fprintf(&script, "const %s = %s;\n", part.name, content)
	}
	fmt.Fprintf(&script, "function start(page) {\n%s%s}\n%s})();\n", lean(web.Lengths), own, maker)
	return ascii(script.String()), nil
}

// tree is what the element holds, as lists: a name, attributes, and children.
func (b *builder) tree(c *chart) (any, error) {
	v := &view{Words: b.words, Language: c.Language, Cautions: b.language.Cautions(), Limits: b.limits()}
	b.choices(v)
	var drawn strings.Builder
	for _, name := range []string{"main", "all"} {
		if err := pageTemplate().ExecuteTemplate(&drawn, name, v); err != nil {
			return nil, err
		}
	}
	nodes, err := html.ParseFragment(strings.NewReader(drawn.String()), &html.Node{Type: html.ElementNode, Data: "div", DataAtom: atom.Div})
	if err != nil {
		return nil, err
	}
	inside := []any{"div", map[string]string{"class": "inside"}}
	for _, n := range nodes {
		inside = appendNode(inside, n)
	}
	return []any{"div", map[string]string{"class": "page embedded", "lang": c.Language}, inside}, nil
}

// appendNode appends a node as a list, or its text; white space that only parts lines of the template is left out.
func appendNode(to []any, n *html.Node) []any {
	switch n.Type {
	case html.TextNode:
		if strings.TrimSpace(n.Data) == "" && strings.Contains(n.Data, "\n") {
			return to
		}
		return append(to, n.Data)
	case html.ElementNode:
		attributes := map[string]string{}
		for _, a := range n.Attr {
			attributes[a.Key] = a.Val
		}
		own := []any{n.Data, attributes}
		for child := range n.ChildNodes() {
			own = appendNode(own, child)
		}
		return append(to, own)
	}
	return to
}

// ascii writes a script's letters beyond ASCII, which stand in its texts only, by their numbers.
func ascii(script string) string {
	var all strings.Builder
	for _, r := range script {
		if r < 0x80 {
			all.WriteRune(r)
			continue
		}
		for _, unit := range utf16.Encode([]rune{r}) {
			fmt.Fprintf(&all, `\u%04x`, unit)
		}
	}
	return all.String()
}
