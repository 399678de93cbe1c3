package docfile

import (
	"reflect"
	"strings"

	"berthwright/diag"
	"berthwright/doc"
	"berthwright/unit"
)

// apart lists keys below one mapping of which only one may be given.
type apart struct {
	keys []string
	why  string
}

// aparts returns the rules for one Go type.
func aparts(t reflect.Type) []apart {
	if t != reflect.TypeFor[doc.Item]() {
		return nil
	}
	return itemAparts
}

var itemAparts = []apart{
	{[]string{"at/x", "place/bulkhead", "place/rear-door", "place/wheel-box", "place/cab-seat", "place/behind", "place/ahead-of"}, "both give the place along the van"},
	{[]string{"at/y", "place/left-wall", "place/right-wall", "place/centre-line", "place/left-of", "place/right-of"}, "both give the place across the van"},
	{[]string{"at/z", "place/finished-floor", "place/bare-floor", "place/ceiling", "place/on-top-of"}, "both give the height"},
	{[]string{"removed", "in-ticket"}, "an item cannot be both taken out and still in the ticket"},
}

// together reports values of one mapping that cannot stand together. All of them then count as missing.
func (b *binder) together(n *node, f *doc.Field, v reflect.Value) {
	for _, rule := range aparts(f.Go) {
		one := ""
		var x *node
		for _, key := range rule.keys {
			y := n.below(key)
			if y == nil || y.value == "false" {
				continue
			}
			if x == nil {
				one, x = key, y
				continue
			}
			b.path = append(b.path, key)
			p := b.say(y, diag.NotTogether, args(lastKey(one), lastKey(key)), rule.why+"; keep one of the two, until then neither counts")
			p.related = append(p.related, related{x.start, x.end, "the other"})
			b.path = b.path[:len(b.path)-1]
			drop(f, v, one)
			drop(f, v, key)
		}
	}
	for _, rule := range orders(f.Go) {
		x, y := n.below(rule[0]), n.below(rule[1])
		if x == nil || y == nil {
			continue
		}
		lo, okLo := lengthAt(f, v, rule[0])
		hi, okHi := lengthAt(f, v, rule[1])
		if okLo && okHi && lo >= hi {
			b.path = append(b.path, rule[1])
			p := b.say(y, diag.OutOfOrder, args(rule[1], rule[0]), "both are measured rearwards from the front axle; until one is changed neither counts")
			p.related = append(p.related, related{x.start, x.end, "the other"})
			b.path = b.path[:len(b.path)-1]
			drop(f, v, rule[0])
			drop(f, v, rule[1])
		}
	}
}

// orders lists pairs of lengths of which the first must lie ahead of the second.
func orders(t reflect.Type) [][2]string {
	switch t {
	case reflect.TypeFor[doc.Floor](), reflect.TypeFor[doc.WheelBox]():
		return [][2]string{{"front", "rear"}}
	case reflect.TypeFor[doc.Span]():
		return [][2]string{{"from", "to"}}
	}
	return nil
}

// below returns the value that keys parted by "/" lead to, or nil when nothing is written there.
func (n *node) below(keys string) *node {
	for k := range strings.SplitSeq(keys, "/") {
		if n = n.get(k); n == nil {
			return nil
		}
	}
	if n.kind == null {
		return nil
	}
	return n
}

// member returns the Go value that keys lead to below v.
func member(f *doc.Field, v reflect.Value, keys string) (*doc.Field, reflect.Value, bool) {
	for k := range strings.SplitSeq(keys, "/") {
		c, ok := f.Entry(k)
		if !ok || c.Index < 0 || v.Kind() != reflect.Struct {
			return nil, v, false
		}
		f, v = c, v.Field(c.Index)
	}
	return f, v, true
}

func drop(f *doc.Field, v reflect.Value, keys string) {
	if _, at, ok := member(f, v, keys); ok {
		at.SetZero()
	}
}

func lengthAt(f *doc.Field, v reflect.Value, keys string) (unit.Length, bool) {
	_, at, ok := member(f, v, keys)
	if !ok {
		return 0, false
	}
	l, ok := at.Interface().(unit.Opt[unit.Length])
	if !ok {
		return 0, false
	}
	return l.Get()
}

func lastKey(keys string) string { return keys[strings.LastIndexByte(keys, '/')+1:] }
