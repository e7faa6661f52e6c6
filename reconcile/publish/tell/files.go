package tell

import "strings"

// FileNames returns what files are called to people who were sent the results: each by its own name, and by as many of its folders as tell
// it from the others. A file that is not among them keeps its name.
func FileNames(files ...string) func(file string) string {
	names := map[string]string{}
	for _, file := range files {
		names[file] = ""
	}
	for depth := 1; ; depth++ {
		taken := map[string]int{}
		for file := range names {
			taken[ending(file, depth)]++
		}
		open := false
		for file, name := range names {
			if name != "" {
				continue
			}
			if end := ending(file, depth); taken[end] == 1 || end == file {
				names[file] = end
			} else {
				open = true
			}
		}
		if !open {
			return func(file string) string {
				if name := names[file]; name != "" {
					return name
				}
				return file
			}
		}
	}
}

// ending is a path's last elements.
func ending(path string, elements int) string {
	at := len(path)
	for range elements {
		if at = strings.LastIndexAny(path[:at], `/\`); at < 0 {
			return path
		}
	}
	return path[at+1:]
}
