package edit

import (
	"strings"
	"unicode/utf8"
)

// The limits of a pasted table.
const (
	maxRows    = 2000
	maxColumns = 60
)

// readTable parts a table as it comes from a spreadsheet or a file into cells: by tabs, semicolons, commas or bars,
// whichever fits best. Cells in quotes may hold the separator, doubled quotes and line breaks. Empty lines are left out.
func readTable(text string) [][]string {
	text = strings.TrimPrefix(strings.ToValidUTF8(text, "\uFFFD"), "\ufeff")
	text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
	best, score := [][]string(nil), -1
	for _, sep := range "\t;|," {
		rows := part(text, sep)
		if s := regular(rows); s > score {
			best, score = rows, s
		}
		if sep == '\t' && score > 0 { // a tab is nothing else
			break
		}
	}
	return best
}

// regular tells how well rows look like a table: the number of rows of the usual width, when that is above one.
func regular(rows [][]string) int {
	widths := map[int]int{}
	for _, r := range rows {
		widths[len(r)]++
	}
	width, n := 0, 0
	for w, count := range widths {
		if count > n || count == n && w > width {
			width, n = w, count
		}
	}
	if width < 2 {
		return 0
	}
	return n
}

func part(text string, sep rune) [][]string {
	var rows [][]string
	var row []string
	end := func() {
		filled := false
		for i, c := range row {
			row[i] = strings.TrimSpace(c)
			filled = filled || row[i] != ""
		}
		if filled && len(rows) <= maxRows {
			rows = append(rows, row)
		}
		row = nil
	}
	for i := 0; i < len(text); {
		var cell string
		cell, i = cellAt(text, i, sep)
		if len(row) < maxColumns {
			row = append(row, cell)
		}
		if i >= len(text) {
			break
		}
		if text[i] == '\n' {
			end()
		}
		i++
		if i == len(text) && text[i-1] != '\n' && len(row) < maxColumns {
			row = append(row, "")
		}
	}
	end()
	return rows
}

// cellAt reads the cell at i and returns it with the offset of the separator or line break behind it.
func cellAt(text string, i int, sep rune) (string, int) {
	stop := func(j int) bool {
		r, _ := utf8.DecodeRuneInString(text[j:])
		return r == sep || r == '\n'
	}
	if i < len(text) && text[i] == '"' {
		var b strings.Builder
		for j := i + 1; j < len(text); j++ {
			if text[j] != '"' {
				b.WriteByte(text[j])
				continue
			}
			if j+1 < len(text) && text[j+1] == '"' {
				b.WriteByte('"')
				j++
				continue
			}
			if j+1 == len(text) || stop(j+1) {
				return b.String(), j + 1
			}
			break // inches, not a quoted cell
		}
	}
	j := i
	for j < len(text) && !stop(j) {
		j++
	}
	return text[i:j], j
}
