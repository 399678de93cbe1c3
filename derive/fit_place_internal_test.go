package derive

import (
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"berthwright/docfile"
)

// What is taken over from travel is what placing each state by itself gives.
func TestCrossPlacesOfAllStatesAgainstEachByItself(t *testing.T) {
	var all []string
	for _, glob := range []string{"../testdata/builds/*.yaml", "../examples/*.yaml"} {
		found, err := filepath.Glob(glob)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, found...)
	}
	shared := 0
	for _, path := range all {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		b := docfile.Read(path, text, docfile.Refs{}).Build
		if len(b.Items) == 0 {
			continue
		}
		v := Context{}.Van(b.Van)
		placed, same := placeIn(b, v, AllStates())
		for k, s := range AllStates() {
			want := Place(b, v, s)
			for i := range want {
				if !reflect.DeepEqual(*placed[k][i], want[i]) {
					t.Errorf("%s, %s: %s is placed at %v, by itself at %v", path, s, b.Items[i].ID, placed[k][i].At, want[i].At)
				}
				if k > 0 && same[k][i] {
					shared++
				}
			}
		}
	}
	if len(all) < 60 || shared < 4000 {
		t.Errorf("%d builds, %d places taken over", len(all), shared)
	}
}
