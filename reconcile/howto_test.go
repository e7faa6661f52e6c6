package reconcile_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// The files that DEVELOPERS.md names for a reason, a verdict and a language are there, and are the ones that know: a reason's code stands
// in its list and in the files of words and in no other file that is no test, and no package but those named lists words of verdicts.
func TestHowToAddIsTrue(t *testing.T) {
	const root = ".."
	guide, err := os.ReadFile(filepath.Join(root, "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	for _, item := range []string{"A reason", "A verdict", "A language"} {
		_, rest, found := strings.Cut(string(guide), "- **"+item+".**")
		if !found {
			t.Errorf("DEVELOPERS.md does not say how to add %s", strings.ToLower(item))
			continue
		}
		text, _, _ := strings.Cut(rest, "\n- **")
		for _, named := range regexp.MustCompile("`((?:fitcalc|reconcile|publish)/[^`]+)`").FindAllStringSubmatch(text, -1) {
			path := named[1]
			if strings.HasPrefix(path, "publish/") {
				path = "reconcile/" + path
			}
			if _, err := os.Stat(filepath.Join(root, path)); err != nil {
				t.Errorf("%s: %v", item, err)
			}
		}
	}
	code := regexp.MustCompile(`"(?:wall\.thin|grip\.over-tip|seat\.step-long)"`)
	words := regexp.MustCompile(`"fits as supplied"|"fits after turning down"|"does not fit"`)
	for _, top := range []string{"fitcalc", "reconcile", "cmd"} {
		err := filepath.WalkDir(filepath.Join(root, top), func(path string, entry os.DirEntry, err error) error {
			if err != nil || entry.IsDir() || strings.HasSuffix(path, "_test.go") || !strings.HasSuffix(path, ".go") {
				return err
			}
			content, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			if code.Match(content) && path != filepath.Join(root, "fitcalc", "code.go") {
				t.Errorf("%s spells out the code of a reason; that is code.go's", path)
			}
			if words.Match(content) {
				t.Errorf("%s says what a verdict means; that is package say's", path)
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
}
