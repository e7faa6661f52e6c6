package mill

import (
	_ "embed"
	"math/rand/v2"
	"slices"
	"strings"
)

//go:embed words.txt
var wordList string

// A tongue is how people of one language call things: by name, the ways of saying it.
type tongue map[string][]string

var tongues, languages = parseWords(wordList)

func parseWords(text string) (map[string]tongue, []string) {
	all := map[string]tongue{}
	var names []string
	var current tongue
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		if name, ok := strings.CutPrefix(line, "["); ok {
			current = tongue{}
			name = strings.TrimSuffix(name, "]")
			all[name] = current
			names = append(names, name)
			continue
		}
		key, ways, ok := strings.Cut(line, ": ")
		if !ok || line[0] == '#' {
			continue
		}
		for way := range strings.SplitSeq(ways, " | ") {
			current[key] = append(current[key], strings.TrimSpace(way))
		}
	}
	slices.Sort(names)
	return all, names
}

// say picks one way of saying a thing.
func (t tongue) say(r *rand.Rand, key string) string { return pick(r, t[key]...) }

func pick[T any](r *rand.Rand, all ...T) T { return all[r.IntN(len(all))] }

// chance is true in so many of a hundred cases.
func chance(r *rand.Rand, percent int) bool { return r.IntN(100) < percent }
