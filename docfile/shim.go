package docfile

// problem is a diagnostic before its positions are worked out.
type problem struct {
	start, end    int
	path          string
	code          string
	message, hint string
	related       []related
}

type related struct {
	start, end int
	says       string
}

func nearest(word string, words []string) (string, bool) { return "", false }

func quote(s string) string {
	if len(s) > 80 {
		s = s[:80] + "…"
	}
	return `"` + s + `"`
}
