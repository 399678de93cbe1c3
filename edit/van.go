package edit

import (
	"fmt"
	"regexp"
	"strings"

	"berthwright/doc"
	"berthwright/docfile"
	"berthwright/unit"
)

// behindLine are the bare positions along the van that follow the bulkhead line into another van.
var behindLine = regexp.MustCompile(`^(items/[^/]+/(at/x|span/from|span/to|states/[^/]+/at/x|tank/at/x|seat/r-point/x)|loading/(zones|carried)/[^/]+/at/x|loading/party/[^/]+/child-seat-at/x)$`)

// van puts another base van under the same items. What is taped from a line follows it; a bare position behind the
// bulkhead line keeps its distance from that line, one ahead of it its distance from the front axle.
func (c *compiler) van(g Gesture) error {
	name := strings.TrimSpace(g.Text)
	text := ""
	if c.env.BaseVan != nil {
		var err error
		if text, err = c.env.BaseVan(name); err != nil {
			return err
		}
	}
	if text == "" {
		c.refuse("van", "no-van", fmt.Sprintf("no van is called %s", quote(name)), "give a class of van or the id of another build", name, false)
		return nil
	}
	c.shiftBehind(text)
	c.op(doc.Op{Kind: doc.Set, Path: "van", Value: text})
	return nil
}

func (c *compiler) shiftBehind(van string) {
	next := docfile.Read("", []byte("berthwright: 1\nvan: "+van+"\n"))
	was, is := c.env.Derive.Van(c.build().Van).Bulkhead, c.env.Derive.Van(next.Build.Van).Bulkhead
	if !was.Known() || !is.Known() || was.V == is.V {
		return
	}
	for _, p := range c.f.Paths() {
		if !behindLine.MatchString(p) {
			continue
		}
		x, err := unit.ParseLength(unquote(c.f, p))
		if err == nil && x >= was.V {
			c.op(doc.Op{Kind: doc.Set, Path: p, Value: length(x + is.V - was.V)})
		}
	}
}
