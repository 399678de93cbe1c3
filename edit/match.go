package edit

import (
	"strings"
	"unicode"

	"berthwright/doc"
)

// looksLikeHeader reports whether the first row holds titles: it names at least one column, or it is words only where
// the rows below hold numbers.
func looksLikeHeader(g *Grid, rows [][]string) bool {
	first := rows[0]
	named, numbers := 0, 0
	for _, t := range first {
		if _, s := byTitle(g, t); s >= 2 {
			named++
		}
		if numeric(t) {
			numbers++
		}
	}
	if numbers > 0 {
		return false
	}
	if named >= 2 || named == 1 && len(first) <= 2 {
		return true
	}
	below := 0
	for _, r := range rows[1:min(len(rows), 6)] {
		for _, t := range r {
			if numeric(t) {
				below++
			}
		}
	}
	return below > 0 && len(rows) > 1
}

// match finds the column of the sheet for each column of the table, by title and by content; each is used once.
func match(g *Grid, titles []string, body [][]string) []string {
	out := make([]string, len(titles))
	used := map[string]bool{}
	for least := 3; least >= 1; least-- { // whole titles first, then words of them, then parts
		for i, t := range titles {
			if out[i] != "" {
				continue
			}
			if id, s := byTitle(g, t); s == least && !used[id] && fits(g, id, column(body, i)) {
				out[i], used[id] = id, true
			}
		}
	}
	for i := range titles {
		if out[i] != "" || strings.TrimSpace(titles[i]) != "" && !used["name"] && i > 0 {
			continue
		}
		if id := byContent(g, column(body, i), used); id != "" {
			out[i], used[id] = id, true
		}
	}
	if !used["name"] { // the wordiest column that is left names the rows
		best, length := -1, 0
		for i := range titles {
			words := 0
			for _, t := range column(body, i) {
				if !numeric(t) {
					words += len(t)
				}
			}
			if out[i] == "" && words > length {
				best, length = i, words
			}
		}
		if best >= 0 {
			out[best] = "name"
		}
	}
	return out
}

// byTitle returns the column that a title names and how well: 3 the whole title, 2 a word of it, 1 a part.
func byTitle(g *Grid, title string) (string, int) {
	t := plainTitle(title)
	if t == "" {
		return "", 0
	}
	best, score := "", 0
	for i := range g.Columns {
		col := &g.Columns[i]
		for _, m := range append([]string{plainTitle(col.Title), col.ID}, col.Match...) {
			s := 0
			m = plainTitle(m)
			switch {
			case m == "":
			case t == m:
				s = 3
			case containsWords(t, m):
				s = 2
			case len(m) > 3 && strings.Contains(t, m):
				s = 1
			}
			if s > score {
				best, score = col.ID, s
			}
		}
	}
	return best, score
}

// plainTitle keeps letters, digits and currency signs of a title, in lower case.
func plainTitle(title string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(title), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !strings.ContainsRune("£€$", r)
	}), " ")
}

func containsWords(title, words string) bool {
	return strings.Contains(" "+title+" ", " "+words+" ")
}

func column(body [][]string, i int) []string {
	var out []string
	for _, r := range body[:min(len(body), 50)] {
		if i < len(r) && strings.TrimSpace(r[i]) != "" {
			out = append(out, strings.TrimSpace(r[i]))
		}
	}
	return out
}

// numeric reports whether a cell holds a number, perhaps with a unit.
func numeric(text string) bool {
	text = strings.TrimLeft(strings.TrimSpace(text), "-−+~£€$ ")
	return text != "" && text[0] >= '0' && text[0] <= '9'
}

// fits reports whether most cells could be values of a column.
func fits(g *Grid, id string, cells []string) bool {
	col, _ := g.Column(id)
	f, ok := g.Field(col)
	if !ok || f.Kind != doc.Quantity && f.Kind != doc.Whole {
		return true
	}
	good := 0
	for _, t := range cells {
		if numeric(t) {
			good++
		}
	}
	return 2*good >= len(cells)
}

// byContent guesses the column of untitled cells.
func byContent(g *Grid, cells []string, used map[string]bool) string {
	if len(cells) == 0 {
		return ""
	}
	share := func(is func(string) bool) float64 {
		n := 0
		for _, t := range cells {
			if is(t) {
				n++
			}
		}
		return float64(n) / float64(len(cells))
	}
	lower := func(suffixes ...string) func(string) bool {
		return func(t string) bool {
			t = strings.ToLower(t)
			for _, s := range suffixes {
				if numeric(t) && strings.HasSuffix(t, s) {
					return true
				}
			}
			return false
		}
	}
	free := func(id string) bool {
		_, ok := g.Column(id)
		return ok && !used[id]
	}
	mass := "mass"
	if g.ID == "carried" {
		mass = "each"
	} else if g.ID == "zones" {
		mass = "limit"
	}
	money := func(t string) bool { return strings.ContainsAny(t, "£€$") && strings.ContainsAny(t, "0123456789") }
	switch {
	case free("price") && share(money) > 0.5:
		return "price"
	case free("far") && share(lower("mm", "cm")) > 0.5:
		return "far"
	case free(mass) && share(lower("kg", " g", "lb", "lbs", "oz")) > 0.5:
		return mass
	case free("known") && share(wordOf(g, "known")) > 0.5:
		return "known"
	case free("side") && share(wordIn(sides)) > 0.5:
		return "side"
	case free("level") && share(wordIn(levels)) > 0.5:
		return "level"
	case free("line") && share(func(t string) bool { _, zone := zoneIn(t); return zone || wordIn(lines)(t) }) > 0.5:
		return "line"
	case free("name") && share(func(t string) bool { return !numeric(t) }) > 0.5:
		return "name"
	case free(mass) && share(numeric) > 0.8:
		return mass
	}
	return ""
}

func wordIn(words []string) func(string) bool {
	return func(t string) bool {
		_, ok := chosen(words, t)
		return ok && len(t) > 1
	}
}

func wordOf(g *Grid, id string) func(string) bool {
	col, ok := g.Column(id)
	if !ok {
		return func(string) bool { return false }
	}
	f, ok := g.Field(col)
	if !ok {
		return func(string) bool { return false }
	}
	return wordIn(f.Enum)
}
