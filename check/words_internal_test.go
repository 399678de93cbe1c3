package check

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"berthwright/unit"
)

// Every code that is said has its words, and no words are kept that nobody says.
func TestPropWordsAreComplete(t *testing.T) {
	files, err := filepath.Glob("*.go")
	if err != nil || len(files) == 0 {
		t.Fatal("no source found", err)
	}
	source := ""
	for _, f := range files {
		if strings.HasSuffix(f, "_test.go") || f == "words.go" {
			continue
		}
		b, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		source += string(b)
		for _, m := range regexp.MustCompile(`say\("([a-z-]+)"`).FindAllStringSubmatch(string(b), -1) {
			if _, ok := words[m[1]]; !ok && !strings.HasSuffix(m[1], "-") && !strings.HasPrefix(f, "fit") {
				t.Errorf("%s: %s has no words", f, m[1])
			}
		}
	}
	made := map[string]bool{"mass-missing": true, "place-missing": true, "plate-front": true, "plate-rear": true, "share-holds-coupled": true, "share-fails-coupled": true}
	for code := range words {
		if !made[code] && !strings.Contains(source, `"`+code+`"`) {
			t.Errorf("nobody says %s", code)
		}
	}
}

// An argument is put in once, whatever it holds.
func TestPropArgumentsAreNotTemplates(t *testing.T) {
	m := say("seat-twice", "{1}", "{0} and {1}")
	if got := m.Text(unit.Metric); got != "{1} and {0} and {1} share one seat" {
		t.Errorf("got %q", got)
	}
}
