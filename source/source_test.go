package source_test

import (
	"net/url"
	"slices"
	"strings"
	"testing"

	"berthwright/source"
)

// publicSites are the legal, standards and government sites a publication may point to.
var publicSites = []string{
	"www.legislation.gov.uk", "www.gov.uk", "eur-lex.europa.eu", "www.legislation.gov.au",
	"www.ecfr.gov", "www.federalregister.gov", "www.iso.org", "www.legislation.govt.nz", "unece.org",
}

func TestPropRegisterIsWellFormed(t *testing.T) {
	all := source.All()
	if len(all) == 0 {
		t.Fatal("the register is empty")
	}
	if !slices.IsSortedFunc(all, func(a, b source.Publication) int { return strings.Compare(a.Key, b.Key) }) {
		t.Error("the register is not sorted by key")
	}
	seen := map[string]bool{}
	for _, p := range all {
		if seen[p.Key] {
			t.Errorf("%s is registered twice", p.Key)
		}
		seen[p.Key] = true
		if p.Key == "" || p.Title == "" || len(p.Language) != 2 || p.Kind.String() == "invalid kind" {
			t.Errorf("%s lacks key, kind, title or language", p.Key)
		}
		if p.SupersededBy != "" {
			next, ok := source.Find(p.SupersededBy)
			if !ok || next.Key == p.Key {
				t.Errorf("%s: successor %q is not registered", p.Key, p.SupersededBy)
			}
			if p.Status != source.Superseded && p.Status != source.Repealed {
				t.Errorf("%s has a successor, but is %s", p.Key, p.Status)
			}
		}
		if p.URL != "" {
			u, err := url.Parse(p.URL)
			if err != nil || u.Scheme != "https" || !slices.Contains(publicSites, u.Host) {
				t.Errorf("%s: %q is not a public legal or standards site", p.Key, p.URL)
			}
		}
		if found, ok := source.Find(p.Key); !ok || found != p {
			t.Errorf("%s is not found", p.Key)
		}
	}
	if _, ok := source.Find("nothing"); ok {
		t.Error("found a publication that is not there")
	}
}

func TestPropAllIsACopy(t *testing.T) {
	source.All()[0].Title = "changed"
	if source.All()[0].Title == "changed" {
		t.Error("a caller can change the register")
	}
}

func TestPropNames(t *testing.T) {
	for key, want := range map[string]string{
		"eu-2021-535": "Implementing Regulation (EU) 2021/535 (2021)",
		"practice":    "Common practice of the trade, no publication",
	} {
		if p, _ := source.Find(key); p.Name() != want {
			t.Errorf("%s is named %q, want %q", key, p.Name(), want)
		}
	}
}
