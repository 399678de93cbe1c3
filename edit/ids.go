package edit

import (
	"strconv"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Slug makes an id out of a name: "Compressor fridge, 72 L" becomes "compressor-fridge-72-l". It may be "".
func Slug(name string) string {
	var b strings.Builder
	gap := false
	for _, r := range norm.NFKD.String(strings.ToLower(name)) {
		switch {
		case r == 'ß':
			b.WriteString("ss")
		case r == 'ø':
			b.WriteByte('o')
		case r == 'æ':
			b.WriteString("ae")
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			if gap && b.Len() > 0 {
				b.WriteByte('-')
			}
			gap = false
			b.WriteRune(r)
		case unicode.Is(unicode.Mn, r) || r == '\'' || r == '’':
		default:
			gap = true
		}
		if b.Len() >= 40 {
			break
		}
	}
	return b.String()
}

// newID makes an id out of a name that is not used and never was.
func (c *compiler) newID(name, noun string) string {
	base := Slug(name)
	if base == "" {
		base = noun
	}
	id := base
	for n := 2; c.taken[id] || c.env.Used != nil && c.env.Used(id); n++ {
		id = base + "-" + strconv.Itoa(n)
	}
	c.taken[id] = true
	return id
}

// escape writes an id as one step of a path.
func escape(id string) string {
	return strings.ReplaceAll(strings.ReplaceAll(id, "~", "~0"), "/", "~1")
}

func unescape(step string) string {
	return strings.ReplaceAll(strings.ReplaceAll(step, "~1", "/"), "~0", "~")
}
