package docfile

import "strings"

// beginsWords reports whether words without quotes can begin here.
func (q *quickReader) beginsWords() bool {
	c := q.peek()
	return firstByte(c) || c >= 0x80 || c == '(' || c == '/' || c == '_' || (c == '-' || c == '+' || c == '.') && q.i+1 < len(q.t) && firstByte(q.t[q.i+1])
}

// words reads a value without quotes to the end of its line.
func (q *quickReader) words() *node {
	if !q.beginsWords() {
		q.giveUp()
	}
	start := q.i
	end := q.i
	for ; q.i < len(q.t) && q.t[q.i] != '\n' && q.t[q.i] != '\r'; q.i++ {
		switch c := q.t[q.i]; c {
		case ' ':
			if q.i+1 < len(q.t) && q.t[q.i+1] == '#' {
				return q.plain(start, end)
			}
		case ':':
			if q.i+1 >= len(q.t) || q.t[q.i+1] == ' ' || q.t[q.i+1] == '\n' || q.t[q.i+1] == '\r' {
				q.giveUp()
			}
			end = q.i + 1
		default:
			end = q.i + 1
		}
	}
	return q.plain(start, end)
}

func (q *quickReader) plain(start, end int) *node {
	q.i = end
	n := q.node(scalar, start, end)
	n.plain, n.value = true, q.t[start:end]
	return n
}

// quoted reads a value in quotes on one line, without backslashes.
func (q *quickReader) quoted() *node {
	mark := q.t[q.i]
	start := q.i
	for q.i++; q.i < len(q.t); q.i++ {
		switch c := q.t[q.i]; {
		case c == '\n' || c == '\r' || c == '\\' && mark == '"':
			q.giveUp()
		case c == mark && mark == '\'' && q.i+1 < len(q.t) && q.t[q.i+1] == '\'':
			q.i++
		case c == mark:
			q.i++
			n := q.node(scalar, start, q.i)
			n.value = q.t[start+1 : q.i-1]
			if mark == '\'' {
				n.value = strings.ReplaceAll(n.value, "''", "'")
			}
			return n
		}
	}
	q.giveUp()
	return nil
}

// lines reads a text over several lines, "|" or ">-", each indented alike and none empty.
func (q *quickReader) lines(column int) (*node, int) {
	start := q.i
	end := q.i + len(">-")
	folded := strings.HasPrefix(q.t[q.i:], ">-")
	if !folded {
		if q.t[q.i] != '|' {
			q.giveUp()
		}
		end = q.i + len("|")
	}
	q.i = end
	if !q.atEnd() {
		q.giveUp()
	}
	q.skipLine()
	var all []string
	indent := -1
	for q.i < len(q.t) {
		from := q.i
		q.spaces()
		in := q.i - from
		if q.atEnd() || q.i < len(q.t) && q.t[q.i] == '#' && in <= column {
			if q.atEnd() && q.i < len(q.t) && len(all) > 0 {
				rest := q.i
				q.i = from
				if next := q.nextContent(); next > column {
					q.giveUp() // an empty line between
				}
				q.i = rest
			}
			q.i = from
			break
		}
		if indent < 0 {
			indent = in
		}
		if in <= column {
			q.i = from
			break
		}
		if in != indent {
			q.giveUp()
		}
		at := q.i
		q.skipLine()
		line := strings.TrimRight(q.t[at:q.i], "\r\n")
		end = at + len(line)
		if strings.HasSuffix(line, " ") || folded && line[0] == '#' {
			q.giveUp()
		}
		all = append(all, line)
	}
	if len(all) == 0 || end == len(q.t) {
		q.giveUp()
	}
	n := q.node(scalar, start, end)
	if folded {
		n.value = strings.Join(all, " ")
	} else {
		n.value = strings.Join(all, "\n") + "\n"
	}
	next := q.nextContent()
	if next > column {
		q.giveUp()
	}
	return n, next
}
