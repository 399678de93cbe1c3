package docfile

import (
	"reflect"
	"strings"

	"berthwright/diag"
	"berthwright/doc"
	"berthwright/unit"
)

// apart lists values of one mapping of which only one may be given. Each side is one or more keys below the mapping.
type apart struct {
	one, other []string
	why        string
}

var (
	alongKeys  = []string{"place/bulkhead", "place/rear-door", "place/wheel-box", "place/cab-seat", "place/behind", "place/ahead-of"}
	acrossKeys = []string{"place/left-wall", "place/right-wall", "place/centre-line", "place/left-of", "place/right-of"}
	upKeys     = []string{"place/finished-floor", "place/bare-floor", "place/ceiling", "place/on"}
)

// aparts returns the rules for one Go type.
func aparts(t reflect.Type) []apart {
	if t != reflect.TypeFor[doc.Item]() {
		return nil
	}
	return itemAparts
}

var itemAparts = func() []apart {
	var all []apart
	for _, keys := range []struct {
		list []string
		way  string
	}{{alongKeys, "along the van"}, {acrossKeys, "across the van"}, {upKeys, "upwards"}} {
		for i, k := range keys.list {
			if rest := keys.list[i+1:]; len(rest) > 0 {
				all = append(all, apart{[]string{k}, rest, "both measure " + keys.way})
			}
		}
	}
	return append(all,
		apart{[]string{"at/x"}, alongKeys, "x follows from the measure"},
		apart{[]string{"at/y"}, acrossKeys, "y follows from the measure"},
		apart{[]string{"at/z"}, upKeys, "z follows from the measure"},
		apart{[]string{"removed"}, []string{"in-ticket"}, "an item cannot be both taken out and still in the ticket"},
	)
}()

// together reports values of one mapping that cannot stand together. Both then count as missing.
func (b *binder) together(n *node, f *doc.Field, v reflect.Value) {
	for _, rule := range aparts(f.Go) {
		for _, one := range rule.one {
			for _, other := range rule.other {
				x, y := n.below(one), n.below(other)
				if x == nil || y == nil || x.value == "false" || y.value == "false" {
					continue
				}
				b.path = append(b.path, other)
				p := b.say(y, diag.NotTogether, args(lastKey(one), lastKey(other)), rule.why+"; keep one of the two, until then neither counts")
				p.related = append(p.related, related{x.start, x.end, "the other"})
				b.path = b.path[:len(b.path)-1]
				drop(f, v, one)
				drop(f, v, other)
			}
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
