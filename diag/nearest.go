package diag

import "strings"

// Nearest returns the candidate that word was probably meant to be: the one with the fewest slips
// (a letter missing, added, wrong, or two swapped; upper and lower case alike), the first of
// several. ok is false when all are further than maxDist, or than half the letters of word.
func Nearest(word string, candidates []string, maxDist int) (nearest string, ok bool) {
	w := []rune(strings.ToLower(word))
	if len(w) == 0 || len(w) > 100 {
		return "", false
	}
	best := min(maxDist, (len(w)+1)/2) + 1
	for _, c := range candidates {
		if d := slips(w, []rune(strings.ToLower(c)), best); d < best {
			best, nearest, ok = d, c, true
		}
	}
	return nearest, ok
}

// slips returns the restricted Damerau-Levenshtein distance of a and b, or limit when it is not
// below. Method: dynamic programming over three rows; common knowledge, no source.
func slips(a, b []rune, limit int) int {
	if len(a)-len(b) >= limit || len(b)-len(a) >= limit {
		return limit
	}
	before, last, now := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		now[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			now[j] = min(last[j]+1, now[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				now[j] = min(now[j], before[j-2]+1)
			}
		}
		before, last, now = last, now, before
	}
	return min(last[len(b)], limit)
}
