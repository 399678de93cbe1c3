package docfile

// brackets reads a collection in brackets. Lines below the first must be indented deeper than column.
func (q *quickReader) brackets(column, depth int) *node {
	if depth > maxDepth {
		q.giveUp()
	}
	n := q.node(list, q.i, q.i)
	n.flow = true
	closing := byte(']')
	if q.t[q.i] == '{' {
		n.kind, closing = mapping, '}'
	}
	q.i++
	for {
		q.inBrackets(column)
		if q.peek() == closing {
			break
		}
		if n.kind == mapping {
			if q.wordEnd(q.i) == q.i {
				q.giveUp()
			}
			k := q.key()
			n.keys = append(n.keys, k)
			q.spaces()
			switch c := q.peek(); {
			case c == ',' || c == closing:
				n.items = append(n.items, q.node(null, k.end, k.end))
			case c == ':' && q.i+1 < len(q.t) && (q.t[q.i+1] == ' ' || q.t[q.i+1] == ',' || q.t[q.i+1] == closing):
				q.i++
				empty := q.i
				q.spaces()
				if c := q.peek(); c == ',' || c == closing {
					n.items = append(n.items, q.node(null, empty, empty))
				} else {
					n.items = append(n.items, q.inner(column, depth+1))
				}
			default:
				q.giveUp()
			}
		} else {
			n.items = append(n.items, q.inner(column, depth+1))
		}
		q.inBrackets(column)
		if c := q.peek(); c == ',' && q.i < len(q.t) {
			q.i++
		} else if c != closing {
			q.giveUp()
		}
	}
	q.i++
	n.end = q.i
	return n
}

// inBrackets passes spaces, line ends and comments inside brackets.
func (q *quickReader) inBrackets(column int) {
	for {
		from := q.i
		q.spaces()
		if q.i >= len(q.t) {
			q.giveUp()
		}
		if c := q.t[q.i]; c == '\n' || c == '\r' || c == '#' && q.i > from {
			q.skipLine()
			if next := q.nextContent(); next <= column || next < 1 {
				q.giveUp()
			}
			continue
		}
		return
	}
}

// inner reads a value inside brackets.
func (q *quickReader) inner(column, depth int) *node {
	switch q.peek() {
	case '{', '[':
		return q.brackets(column, depth)
	case '"', '\'':
		return q.quoted()
	}
	if !q.beginsWords() {
		q.giveUp()
	}
	start, end := q.i, q.i
	for ; q.i < len(q.t); q.i++ {
		switch q.t[q.i] {
		case ',', ']', '}':
			return q.plain(start, end)
		case '{', '[', ':', '#', '\n', '\r', '?':
			q.giveUp()
		case ' ':
		default:
			end = q.i + 1
		}
	}
	q.giveUp()
	return nil
}
