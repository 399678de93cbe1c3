package derive

import (
	"fmt"

	"berthwright/doc"
	"berthwright/unit"
)

// Context is what a build is read with: the catalogue's classes of van and the workshop's defaults. It is shared by many
// builds and never changed.
type Context struct {
	Classes    map[string]doc.Van
	ClassNames map[string]string
	Half       map[string]unit.Ratio // 95 % half-width of a mass, by how it is known
	SharedBy   map[string]unit.Ratio // shared relative error, by how it is known
	Unlist     unit.Ratio            // share of the fitted mass that nobody lists
	UnlistHalf unit.Ratio
	PersonKg   map[string]unit.Mass // counted at least per person, by country; "" for elsewhere
	From       string               // whose defaults these are
}

// Class returns the defaults of a class of van; unknown classes have none.
func (c Context) Class(id string) doc.Van { return c.Classes[id] }

// Van resolves the base van with its class.
func (c Context) Van(v doc.Van) Van {
	name := c.ClassNames[v.Class]
	if name == "" {
		name = v.Class
	}
	r := ResolveVan(v, c.Classes[v.Class], name)
	if !r.EmptyHigh.Known() {
		r.EmptyHigh = assumed(720*unit.Millimetre, "van/empty-centre-height", "typical panel van, common practice, no source")
	}
	return r
}

// HalfOf returns the default 95 % half-width of a mass known that way, and whose default it is.
func (c Context) HalfOf(known string) (unit.Ratio, string) {
	if r, ok := c.Half[known]; ok && known != "" {
		return r, "default for " + known + ", " + c.From
	}
	return c.Half["guess"], "not said how it is known: default for a guess, " + c.From
}

// Shared returns the shared relative errors by how masses are known.
func (c Context) Shared() map[string]unit.Ratio { return c.SharedBy }

// Unlisted returns the share of the fitted mass that nobody lists, and its 95 % half-width.
func (c Context) Unlisted() (share, half unit.Ratio) { return c.Unlist, c.UnlistHalf }

// Person returns the mass a person is counted as at least.
func (c Context) Person(country string) unit.Mass {
	if m, ok := c.PersonKg[country]; ok {
		return m
	}
	return c.PersonKg[""]
}

// assumptions lists the lines of the van that a class filled in.
func (v Van) assumptions() []Assumption {
	var out []Assumption
	add := func(what string, l Val[unit.Length]) {
		if l.How == Assumed {
			out = append(out, Assumption{Says: fmt.Sprintf("%s %.0f mm", what, l.V.Millimetres()), From: l.From, Path: l.Path})
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
	add("lined left wall", v.Left)
	add("lined right wall", v.Right)
	add("lined ceiling", v.Ceiling)
	add("centre of mass of the empty van above ground", v.EmptyHigh)
	for _, m := range []struct {
		what string
		v    Val[unit.Mass]
	}{{"plated total", v.Plate.Total}, {"plated front axle", v.Plate.Front}, {"plated rear axle", v.Plate.Rear}, {"plated train", v.Plate.Train}} {
		if m.v.How == Assumed {
			out = append(out, Assumption{Says: fmt.Sprintf("%s %.0f kg", m.what, m.v.V.Kilograms()), From: m.v.From, Path: m.v.Path})
		}
	}
	return out
}
