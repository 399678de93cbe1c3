package edit

import (
	"fmt"
	"strings"
	"unicode"

	"berthwright/derive"
	"berthwright/doc"
	"berthwright/docfile"
	"berthwright/unit"
)

// unmeasured is where the chosen line stands while the distance from it is still to be measured. It counts as no place.
const unmeasured = "place/line"

// The keys of the measures along, across and up; at most one of each way is given.
var (
	along  = []string{"at/x", "place/bulkhead", "place/rear-door", "place/wheel-box", "place/cab-seat", "place/behind", "place/ahead-of", unmeasured}
	across = []string{"at/y", "place/left-wall", "place/right-wall", "place/centre-line", "place/left-of", "place/right-of"}
	upward = []string{"at/z", "place/finished-floor", "place/bare-floor", "place/ceiling", "place/on-top-of"}
)

// only keeps one measure of a way.
func (r *row) only(way []string, keep string) {
	for _, p := range way {
		if p != keep {
			if _, ok := r.get(p); ok {
				r.assign(p, "")
			}
		}
	}
}

// given returns the measure of a way that stands, and its text.
func (r *row) given(way []string) (path, yaml string, ok bool) {
	for _, p := range way {
		if v, ok := r.get(p); ok {
			return p, v, true
		}
	}
	return "", "", false
}

var estField = &doc.Field{Key: "measure", Kind: doc.Quantity, Of: unit.KindLengthEst, Unit: "mm"}

// line types into "from which line".
func (r *row) line(text string) {
	text = strings.TrimSpace(text)
	lower := strings.ToLower(strings.Join(strings.Fields(text), " "))
	was, yaml, _ := r.given(along)
	switch {
	case text == "":
		r.only(along, "")
		r.zoneWord(0, "")
		return
	case neighbour(lower, "behind "):
		r.next(along, "place/behind", text[len("behind "):])
		return
	case neighbour(lower, "ahead of "):
		r.next(along, "place/ahead-of", text[len("ahead of "):])
		return
	}
	lower = strings.TrimSuffix(strings.TrimSuffix(strings.TrimPrefix(lower, "the "), " line"), " zone")
	lower = strings.ReplaceAll(lower, "wheelbox", "wheel-box")
	if lower == "front axle" {
		lower = "axle"
	}
	if lower == "rear door" {
		lower = "rear-door" // not the zone
	}
	word, ok := chosen(lines, lower)
	if !ok {
		if words, ok := zoneIn(text); ok {
			r.only(along, "")
			for which, w := range words {
				if w != "" {
					r.only([...][]string{along, across, upward}[which], "")
					r.zoneWord(which, w)
				}
			}
			return
		}
		w := Refused{Code: "unknown-line", Says: fmt.Sprintf("%s is no line to measure from", quote(text)),
			Hint: "one of: " + strings.Join(lines, ", ") + ", behind an item, ahead of an item, or a zone like mid left low", Found: text}
		if was != "" && was != unmeasured { // a measure that stands is worth more
			r.refuse("", w)
			return
		}
		if r.fresh {
			r.pasted = append(r.pasted, "place as pasted: "+text)
		}
		w.Kept = true
		r.refuse(unmeasured, w)
		r.assign(unmeasured, docfile.Quote(text))
		return
	}
	switch word {
	case "cab", "door", "mid", "wheel", "rear":
		r.only(along, "")
		r.zoneWord(0, word)
		return
	}
	path := lineKey(word)
	if was == path {
		return
	}
	measure := word
	if now, ok := r.resolve(path); ok { // the item stays where it is
		measure = now
	} else if was != "" && was != unmeasured && !isNeighbour(was) {
		measure = yaml
	} else {
		path = unmeasured
	}
	r.only(along, path)
	if _, ok := r.get("place/edge"); ok {
		r.assign("place/edge", "")
	}
	r.assign(path, measure)
}

// zoneIn reads the words of a zone in any order, "mid left low" or "left, rear zone": along, side and level.
func zoneIn(text string) (words [3]string, ok bool) {
	mids := 0
	for _, w := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) }) {
		which := -1
		switch w {
		case "zone", "the":
			continue
		case "mid":
			mids++
			continue
		case "cab", "door", "wheel", "rear":
			which = 0
		case "centre", "center":
			w, which = "middle", 1
		case "left", "middle", "right":
			which = 1
		case "low", "high":
			which = 2
		}
		if which < 0 || words[which] != "" {
			return words, false
		}
		words[which] = w
	}
	for _, which := range [...]int{0, 2} { // "mid" is a stretch, or a height where the stretch is said
		if mids > 0 && words[which] == "" {
			words[which] = "mid"
			mids--
		}
	}
	return words, mids == 0 && words != [3]string{}
}

// lineKey is the key of the measure from a line.
func lineKey(line string) string {
	if line == "axle" {
		return "at/x"
	}
	return "place/" + line
}

func neighbour(lower, words string) bool {
	return strings.HasPrefix(lower, words) && len(lower) > len(words)
}

// next places the row beside another item.
func (r *row) next(way []string, path, name string) {
	name = strings.TrimSpace(name)
	id, ok := r.c.named("item", name)
	if !ok || id == r.id {
		r.refuse(path, Refused{Code: "unknown-id", Says: fmt.Sprintf("no item is called %s", quote(name)), Found: name})
		return
	}
	r.only(way, path)
	r.assign(path, docfile.Quote(id))
}

// far types into "how far".
func (r *row) far(text string) {
	path, line, ok := r.given(along)
	if !ok {
		if strings.TrimSpace(text) == "" {
			return
		}
		path = "place/bulkhead"
	}
	switch path {
	case "place/behind", "place/ahead-of":
		path = "place/gap"
	case unmeasured:
		if strings.TrimSpace(text) == "" {
			return
		}
		word, known := chosen(lines, strings.Trim(line, `"`))
		if !known { // a measure from nobody knows where
			if r.fresh {
				r.pasted = append(r.pasted, "how far as pasted: "+text)
			}
			r.refuse("", Refused{Code: "unknown-line", Says: fmt.Sprintf("how far is %s from, where the line is not understood", quote(text)), Hint: "put the line right first", Found: text, Kept: r.fresh})
			return
		}
		path = lineKey(word)
	default:
		if strings.TrimSpace(text) == "" { // the line stays chosen
			word := strings.TrimPrefix(path, "place/")
			if path == "at/x" {
				word = "axle"
			}
			r.only(along, unmeasured)
			r.assign(unmeasured, word)
			return
		}
	}
	r.typeField(path, estField, text)
	if _, ok := r.get(path); ok && path != "place/gap" {
		r.only(along, path)
	}
}

// side types into "left, middle, right": a word, or a wall with a measure from it.
func (r *row) side(text string) {
	text = strings.TrimSpace(text)
	if text == "" {
		r.only(across, "")
		r.zoneWord(1, "")
		return
	}
	for _, n := range [...]string{"left", "right"} {
		if words := n + " of "; neighbour(strings.ToLower(text), words) {
			r.next(across, "place/"+n+"-of", text[len(words):])
			return
		}
	}
	was, yaml, measured := r.given(across)
	yaml = strings.Trim(yaml, `"`)
	first, rest, _ := strings.Cut(text, " ")
	word, isWord := chosen([]string{"left", "right", "middle", "centre", "center"}, first)
	if word == "centre" || word == "center" {
		word = "middle"
	}
	walls := map[string]string{"left": "place/left-wall", "right": "place/right-wall", "middle": "place/centre-line"}
	rest = strings.TrimSpace(strings.TrimPrefix(strings.TrimPrefix(strings.TrimSpace(rest), "wall"), "line"))
	switch {
	case !isWord: // a measure only
		path := was
		if !measured || strings.HasSuffix(was, "-of") {
			path = "place/centre-line"
		}
		r.typeMeasure(across, path, text)
	case rest != "" && was == "at/y" && word != "middle": // as it is shown: so far left of the centre line
		if word == "left" {
			if rest = strings.TrimSpace(rest); strings.HasPrefix(rest, "-") {
				rest = rest[1:]
			} else {
				rest = "-" + rest
			}
		}
		r.typeMeasure(across, "at/y", rest)
	case rest != "":
		r.typeMeasure(across, walls[word], rest)
	case was == walls[word]: // it is there already
	case was == "place/left-wall" && word == "right", was == "place/right-wall" && word == "left":
		r.only(across, walls[word])
		r.assign(walls[word], yaml)
	case was == "at/y" && word != "middle":
		y, err := unit.ParseLength(yaml)
		if err == nil && (y < 0) != (word == "left") && y != 0 {
			r.assign("at/y", docfile.Quote((-y).String()))
		} else if err != nil || y == 0 {
			r.only(across, walls[word])
			r.assign(walls[word], "0 mm")
		}
	case measured:
		r.only(across, walls[word])
		r.assign(walls[word], "0 mm")
	default:
		r.zoneWord(1, word)
	}
}

// level types into "low, mid, high": a word, or a measure up from the finished floor.
func (r *row) level(text string) {
	text = strings.TrimSpace(text)
	if text == "" {
		r.only(upward, "")
		r.zoneWord(2, "")
		return
	}
	if word, ok := chosen(levels, text); ok {
		r.only(upward, "")
		r.zoneWord(2, word)
		return
	}
	for _, words := range [...]string{"on top of ", "on "} {
		if lower := strings.ToLower(text); neighbour(lower, words) {
			r.next(upward, "place/on-top-of", text[len(words):])
			return
		}
	}
	path, _, ok := r.given(upward)
	if !ok || path == "place/on-top-of" {
		path = "place/finished-floor"
	}
	for words, to := range map[string]string{"ceiling": "place/ceiling", "bare floor": "place/bare-floor", "finished floor": "place/finished-floor", "floor": "place/finished-floor"} {
		if rest, ok := strings.CutPrefix(strings.ToLower(text), words+" "); ok && len(rest) < len(text) {
			path, text = to, rest
			break
		}
	}
	r.typeMeasure(upward, path, text)
}

// typeMeasure types a measure of a way in place of the one that stands.
func (r *row) typeMeasure(way []string, path, text string) {
	f := estField
	if strings.HasPrefix(path, "at/") {
		f = &doc.Field{Key: path[3:], Kind: doc.Quantity, Of: unit.KindLength, Unit: "mm"}
	}
	r.only(way, path)
	r.typeField(path, f, text)
}

// zoneWord changes one word of the zone: along, side or level.
func (r *row) zoneWord(which int, word string) {
	zone, there := r.get("zone")
	along, side, level := derive.ZoneWords(strings.Trim(zone, `"`))
	words := [3]string{along, side, level}
	words[which] = word
	if words[0] == "" && words[2] == "mid" { // alone it would be read as the stretch; the middle height is what a zone means without a level
		words[2] = ""
		if words[1] == "" && which == 2 {
			words[1] = "middle"
		}
	}
	text := strings.Join(strings.Fields(strings.Join(words[:], " ")), " ")
	if text != "" || there {
		r.assign("zone", text)
	}
}
