package derive

import (
	"berthwright/doc"
	"berthwright/parts"
	"berthwright/unit"
	"berthwright/workshop"
)

// Context is what a build is read with: the catalogue and the workshop's defaults. It is shared by many builds and never
// changed.
type Context struct {
	Parts parts.Catalogue
	Shop  workshop.Workshop
}

// Class returns the defaults of a class of van; unknown classes have none.
func (c Context) Class(id string) parts.Class {
	k, _ := c.Parts.Class(id)
	return k
}

// emptyHigh is the height above ground of the mass centre of an empty panel van; common practice, no source.
const emptyHigh = 720 * unit.Millimetre

// Van resolves the base van with its class.
func (c Context) Van(v doc.Van) Van {
	k := c.Class(v.Class)
	name := k.Name
	if name == "" {
		name = v.Class
	}
	r := ResolveVan(v, k.Van, name)
	if !r.EmptyHigh.Known() {
		r.EmptyHigh = assumed(emptyHigh, "van/empty-centre-height", "typical panel van, common practice, no source")
	}
	return r
}

// HalfOf returns the default 95 % half-width of a mass known that way, and whose default it is.
func (c Context) HalfOf(known string) (unit.Ratio, string) {
	d := c.Shop.HalfOf(known)
	if known == "" {
		return d.V, "not said how it is known: default for a guess, " + d.From
	}
	return d.V, "default for " + known + ", " + d.From
}

// Kinds are the ways a mass is known.
var kinds = [...]string{"weighed", "data-sheet", "own-boards", "estimated", "guess"}

// Shared returns the shared relative errors by how masses are known.
func (c Context) Shared() map[string]unit.Ratio {
	out := make(map[string]unit.Ratio, len(kinds))
	for _, k := range kinds {
		out[k] = c.Shop.SharedOf(k).V
	}
	return out
}

// Unlisted returns the share of the fitted mass that nobody lists, its 95 % half-width, and whose default it is.
func (c Context) Unlisted() (share, half unit.Ratio, from string) {
	s, h := c.Shop.Unlisted()
	return s.V, h.V, s.From
}

// assumptions lists the lines of the van that a class filled in.
func (v Van) assumptions() []Assumption {
	var out []Assumption
	add := func(what string, l Val[unit.Length]) {
		if l.How == Assumed {
			out = append(out, Assumption{Says: "%s %s", Args: []any{what, l.V}, From: l.From, Path: l.Path})
		}
	}
	add("wheelbase", v.Wheelbase)
	add("front track", v.TrackFront)
	add("rear track", v.TrackRear)
	add("overall length", v.Length)
	add("bulkhead line", v.Bulkhead)
	add("rear door line", v.RearDoor)
	add("bare floor above ground", v.FloorHigh)
	add("finished floor", v.Finished)
	if v.CabUsed {
		add("back of the cab seat", v.CabSeat)
	}
	add("lined left wall", v.Left)
	add("lined right wall", v.Right)
	add("lined ceiling", v.Ceiling)
	add("centre of mass of the empty van above ground", v.EmptyHigh)
	for _, m := range []struct {
		what string
		v    Val[unit.Mass]
	}{{"plated total", v.Plate.Total}, {"plated front axle", v.Plate.Front}, {"plated rear axle", v.Plate.Rear}, {"plated train", v.Plate.Train}} {
		if m.v.How == Assumed {
			out = append(out, Assumption{Says: "%s %s", Args: []any{m.what, m.v.V}, From: m.v.From, Path: m.v.Path})
		}
	}
	return out
}
