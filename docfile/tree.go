package docfile

import "berthwright/diag"

// kind is the kind of a node.
type kind uint8

const (
	null kind = iota // nothing written
	scalar
	mapping
	list
)

// node is one value of the text. Offsets count bytes from the start of the text.
type node struct {
	kind  kind
	flow  bool   // collection in brackets
	plain bool   // scalar without quotes, on one line
	start int    // first byte
	end   int    // behind the last byte
	value string // scalar without its quotes and folds
	keys  []*node
	items []*node // values of a mapping beside keys, or entries of a list
	marks []int   // block list: offset of the dash of each entry
}

// get returns the value of the first entry with that key.
func (n *node) get(key string) *node {
	if i := n.find(key); i >= 0 {
		return n.items[i]
	}
	return nil
}

func (n *node) find(key string) int {
	if n == nil || n.kind != mapping {
		return -1
	}
	for i, k := range n.keys {
		if k.value == key {
			return i
		}
	}
	return -1
}

// first returns, for each key, the index at which it stands first.
func (n *node) first() []int {
	out := make([]int, len(n.keys))
	if len(n.keys) <= 32 {
		for i, k := range n.keys {
			out[i] = n.find(k.value)
		}
		return out
	}
	at := make(map[string]int, len(n.keys))
	for i, k := range n.keys {
		if j, ok := at[k.value]; ok {
			out[i] = j
		} else {
			at[k.value], out[i] = i, i
		}
	}
	return out
}

// shift moves every offset of n by d.
func (n *node) shift(d int) {
	n.start += d
	n.end += d
	for _, k := range n.keys {
		k.start += d
		k.end += d
	}
	for i := range n.marks {
		n.marks[i] += d
	}
	for _, c := range n.items {
		c.shift(d)
	}
}

// refusal is a construct of the text that is not read at all.
type refusal struct {
	start, end int
	code       diag.Code
	message    string // "" is that of the code
	hint       string
}

func (r *refusal) problem() problem {
	return problem{start: r.start, end: r.end, code: r.code, message: r.message, hint: r.hint}
}

func (r *refusal) text() string {
	return diag.Diagnostic{Code: r.code, Message: r.message}.Text()
}
