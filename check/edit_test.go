package check_test

import (
	"strings"
	"testing"
)

// insert puts more behind the first after; replace changes the first was. Both refuse to do nothing.
func insert(t testing.TB, s, after, more string) string {
	t.Helper()
	i := strings.Index(s, "\n"+after)
	if i < 0 {
		t.Fatalf("no %q", after)
	}
	i += 1 + len(after)
	return s[:i] + more + s[i:]
}

func replace(t testing.TB, s, was, is string) string {
	t.Helper()
	if !strings.Contains(s, was) {
		t.Fatalf("no %q", was)
	}
	return strings.Replace(s, was, is, 1)
}
