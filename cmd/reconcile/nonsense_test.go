package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"example.com/seatline/cmd/reconcile/internal/folder"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/sheet/workbook"
)

// marker stands in every word of the language of nonsense, and in nothing else.
const marker = "ǂ"

// nonsense is a file of words in which every word of package say is another, with the same blanks. Decimal marks stay, so that numbers do.
func nonsense() []byte {
	words := say.English().Words()
	literal := regexp.MustCompile(`\{[^}]*\}|[\[\]]|[^\[\]{}]+`)
	sections := map[string][]string{}
	for i, key := range slices.Sorted(maps.Keys(words)) {
		section, name, inner := strings.Cut(key, ".")
		if !inner || key == "number.decimal" {
			continue
		}
		text := literal.ReplaceAllStringFunc(words[key], func(part string) string {
			if strings.ContainsAny(part[:1], "{[]") {
				return part
			}
			return fmt.Sprintf(" %s%d ", marker, i)
		})
		if !strings.Contains(text, marker) && text != "" {
			text = fmt.Sprintf("%s%d %s", marker, i, text)
		}
		if section == "verdict" { // short, so that it fits on a bar where the English word does
			text = marker + string(rune('a'+len(sections[section])))
		}
		sections[section] = append(sections[section], fmt.Sprintf("%q = %q\n", name, strings.TrimSpace(text)))
	}
	var b bytes.Buffer
	for _, section := range slices.Sorted(maps.Keys(sections)) {
		fmt.Fprintf(&b, "[%s]\n%s\n", section, strings.Join(sections[section], ""))
	}
	return b.Bytes()
}

// Nothing looks at wording: what is written in a language of nonsense has the codes, counts, numbers and structure of what is written in
// English, and where it has other text, that is nonsense. Of the sentences of reasons none is left in English.
func TestNothingLooksAtWording(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	command := func(args ...string) string {
		t.Helper()
		var out, errOut bytes.Buffer
		if status := run(args, strings.NewReader(""), &out, &errOut); status != exitDone {
			t.Fatalf("%v: %s", args, errOut.String())
		}
		return out.String()
	}
	command("demo", "--out", "shop")
	sheetFile := func(name string) string { return filepath.Join("shop", "sheets", name) }
	if err := os.WriteFile("nonsense.toml", nonsense(), 0o600); err != nil {
		t.Fatal(err)
	}
	catalogues := []string{
		"--heads", sheetFile("osterwhin_heads_2026.xlsx"), sheetFile("brackenfold_price_list.csv"), sheetFile("varnhusen_koepfe.csv"), sheetFile("lantangling_2026.csv"),
		"--ferrules", sheetFile("kettlewisp_ferrules.xlsx"), sheetFile("norrumdal_ferrules.xlsx"), sheetFile("fennimarsh_stock.tsv"), sheetFile("tollerby_trim.csv"),
		"--tips", sheetFile("shop_tips.csv"), "--shop", sheetFile("shop.toml"),
	}
	joint := []string{"--hosel-od", ".500 in ±.003", "--bore", ".373 in", "--tip", ".370 in parallel", "--ferrule-bore", ".368 in", "--base-od", ".508 in"}
	printed := map[string]map[string]string{}
	for _, language := range []string{"english", "nonsense"} {
		var words []string
		if language == "nonsense" {
			words = []string{"--words", "nonsense.toml"}
		}
		in := func(name string) string { return filepath.Join(language, name) }
		call := func(name string, args ...string) string {
			return command(slices.Concat([]string{name}, args, words)...)
		}
		both := func(parts ...[]string) []string { return slices.Concat(parts...) }
		call("matrix", both(catalogues, []string{"--sentences", "--all", "--out", in("matrix")})...)
		call("chart", both(catalogues, []string{"--out", in("chart.html")})...)
		call("vet", both(catalogues, []string{"--new", sheetFile("quendrith_ferrules_2026.csv"), "--out", in("vet")})...)
		head, ferrule := somePair(t, in("matrix"))
		printed[language] = map[string]string{
			"turnlist.json": call("turnlist", both(catalogues, []string{"--json", "--out", in("list.html")})...),
			"joint.json":    call("joint", both(joint, []string{"--json"})...),
			"joint.txt":     call("joint", joint...),
			"why.json":      call("why", both(catalogues, []string{"--head", head, "--ferrule", ferrule, "--all", "--json"})...),
			"why.txt":       call("why", both(catalogues, []string{"--head", head, "--ferrule", ferrule, "--all", "--how"})...),
			"why-short.txt": call("why", both(catalogues, []string{"--head", head, "--ferrule", ferrule, "--all"})...),
		}
	}
	sentences := englishSentences(t)
	compared := 0
	compare := func(name string, english, other []string) {
		t.Helper()
		if len(english) != len(other) {
			t.Errorf("%s has %d texts in English and %d in nonsense", name, len(english), len(other))
			return
		}
		for i := range english {
			if english[i] != other[i] && !strings.Contains(other[i], marker) {
				t.Errorf("%s: %q in English is %q", name, english[i], other[i])
				return
			}
			if english[i] != other[i] {
				compared++
			}
			for _, sentence := range sentences {
				if strings.Contains(other[i], sentence) {
					t.Errorf("%s: %q is left in English", name, sentence)
					return
				}
			}
		}
	}
	files, err := filepath.Glob("english/*/*")
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range append(files, "english/chart.html", "english/list.html") {
		name := strings.TrimPrefix(path, "english/")
		if filepath.Base(name) == folder.SumsName {
			continue // the sums of files that differ
		}
		compare(name, texts(t, path, nil), texts(t, filepath.Join("nonsense", name), nil))
	}
	for name, english := range printed["english"] {
		compare(name, texts(t, name, []byte(english)), texts(t, name, []byte(printed["nonsense"][name])))
	}
	if compared < 1000 {
		t.Errorf("only %d texts differ: the nonsense was not said", compared)
	}
}

// somePair is a pair of fits.jsonl that has to be prepared.
func somePair(t *testing.T, dir string) (head, ferrule string) {
	t.Helper()
	for _, line := range lines(t, filepath.Join(dir, "fits.jsonl")) {
		var fit struct{ Head, Ferrule, Verdict string }
		if err := json.Unmarshal([]byte(line), &fit); err != nil {
			t.Fatal(err)
		}
		if fit.Verdict == "prep" {
			return fit.Head, fit.Ferrule
		}
	}
	t.Fatal("no pair is to be prepared")
	return "", ""
}

// englishSentences are the sentences of reasons that the English run wrote.
func englishSentences(t *testing.T) []string {
	t.Helper()
	said := map[string]bool{}
	for _, line := range lines(t, "english/matrix/fits.jsonl") {
		var fit struct{ Reasons []struct{ Text string } }
		if err := json.Unmarshal([]byte(line), &fit); err != nil {
			t.Fatal(err)
		}
		for _, r := range fit.Reasons {
			said[r.Text] = true
		}
	}
	const enough = 60 // they are looked for in every text
	all := slices.Sorted(maps.Keys(said))
	if len(all) < enough {
		t.Fatalf("only %d sentences", len(all))
	}
	var some []string
	for i := range enough {
		some = append(some, all[i*len(all)/enough])
	}
	return some
}

func lines(t *testing.T, path string) []string {
	t.Helper()
	content, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return strings.Split(strings.TrimSpace(string(content)), "\n")
}

// texts are the texts and numbers of a file in their order, whatever its form.
func texts(t *testing.T, path string, content []byte) []string {
	t.Helper()
	if content == nil {
		var err error
		if content, err = os.ReadFile(path); err != nil {
			t.Fatal(err)
		}
	}
	switch filepath.Ext(path) {
	case ".xlsx":
		return cellTexts(t, path, content)
	case ".csv":
		records, err := csv.NewReader(bytes.NewReader(content)).ReadAll()
		if err != nil {
			t.Fatalf("%s: %v", path, err)
		}
		return slices.Concat(records...)
	case ".json", ".jsonl":
		return jsonTexts(t, path, content)
	case ".html":
		return pageTexts(t, path, content)
	}
	// Lines break elsewhere in another language.
	joined := strings.Join(strings.Fields(string(content)), " ")
	return append(regexp.MustCompile(`-?[.\d]+ (?:mm|in)\b`).FindAllString(joined, -1), joined)
}

func jsonTexts(t *testing.T, path string, content []byte) []string {
	t.Helper()
	var all []string
	for decoder := json.NewDecoder(bytes.NewReader(content)); decoder.More(); {
		token, err := decoder.Token()
		if err != nil {
			t.Fatalf("%s: %v", path, err)
		}
		all = append(all, fmt.Sprint(token))
	}
	return all
}

// pageTexts are the texts of a page and the attributes that say something; the data in it are taken apart. Where things are drawn depends
// on how long texts are.
func pageTexts(t *testing.T, path string, content []byte) []string {
	t.Helper()
	var all []string
	for z := html.NewTokenizer(bytes.NewReader(content)); ; {
		switch z.Next() {
		case html.ErrorToken:
			return all
		case html.TextToken:
			text := z.Token().Data
			if json.Valid([]byte(text)) && strings.HasPrefix(text, "{") {
				all = append(all, jsonTexts(t, path, []byte(text))...)
			} else {
				all = append(all, text)
			}
		case html.StartTagToken, html.SelfClosingTagToken:
			token := z.Token()
			for _, a := range token.Attr {
				if slices.Contains([]string{"class", "href", "id", "value", "aria-label", "title"}, a.Key) {
					all = append(all, a.Val)
				}
			}
		}
	}
}

func cellTexts(t *testing.T, path string, content []byte) []string {
	t.Helper()
	book, err := workbook.Read(filepath.Base(path), bytes.NewReader(content), int64(len(content)))
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	var all []string
	for _, s := range book.Sheets {
		all = append(all, s.Name)
		for _, row := range s.Rows {
			for _, c := range row {
				if c != nil {
					all = append(all, c.Raw)
				}
			}
		}
	}
	return all
}
