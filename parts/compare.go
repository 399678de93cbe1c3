package parts

import (
	"berthwright/doc"
	"berthwright/unit"
)

// Difference is one value of an item that differs from the part it was fitted from. An empty text is no value.
type Difference struct {
	Key  string // path inside the item: "mass", "size/x"
	Item string // stored text in the item
	Part string // stored text in the catalogue
}

// Compare tells what the catalogue of this edition says otherwise than an item that was fitted from an older one. ok is
// false when the item was not fitted from a part known here, or was fitted from this very edition: then its own values
// are the workshop's, and there is nothing to accept. Mass, kind of evidence, size, mass centre and price are compared.
func (c Catalogue) Compare(it doc.Item) (diff []Difference, ok bool) {
	_, edition := Ref(it.From)
	p, known := c.Find(it.From)
	if it.From == "" || !known || edition == Edition {
		return nil, false
	}
	say := func(key, a, b string) {
		if a != b {
			diff = append(diff, Difference{Key: key, Item: a, Part: b})
		}
	}
	say("mass", text(it.Mass), text(p.Mass))
	say("known", it.Known, p.Known)
	say("size/x", text(it.Size.X), text(p.Size.X))
	say("size/y", text(it.Size.Y), text(p.Size.Y))
	say("size/z", text(it.Size.Z), text(p.Size.Z))
	say("centre/x", text(it.Centre.X), text(p.Centre.X))
	say("centre/y", text(it.Centre.Y), text(p.Centre.Y))
	say("centre/z", text(it.Centre.Z), text(p.Centre.Z))
	say("price", text(it.Price), text(p.Price))
	return diff, true
}

// text returns the stored text of an optional quantity, "" when it is absent.
func text[T interface {
	comparable
	String() string
}](o unit.Opt[T]) string {
	if v, ok := o.Get(); ok {
		return v.String()
	}
	return ""
}
