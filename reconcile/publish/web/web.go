// Package web has what pages share that a person types sizes into: the reader of sizes, and the policy that keeps a page from fetching
// or sending anything.
package web

import (
	"crypto/sha256"
	_ "embed" // length.js
	"encoding/base64"
)

// Lengths is a script that defines lengths: it reads sizes as the library does, whole picometres, and writes them. A number without a
// unit is taken to be in inches below 2 and in millimetres above 5; in between it is not read.
//
//go:embed length.js
var Lengths string

// Policy is the content security policy of a page that holds one style sheet and one script, empty where it has none: it loads nothing,
// sends nothing, and shows pictures that are part of it.
func Policy(style, script string) string {
	scripts := "'none'"
	if script != "" {
		scripts = digest(script)
	}
	return "default-src 'none'; img-src data:; style-src " + digest(style) + "; script-src " + scripts + "; base-uri 'none'; form-action 'none'"
}

// digest names a script or style in a policy (Content Security Policy Level 3, 2.3.1).
func digest(content string) string {
	sum := sha256.Sum256([]byte(content))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}
