package check

import (
	"slices"

	"berthwright/derive"
	"berthwright/geom"
)

// Move is a move of one item that clears what a finding speaks of, ready to be made. It clears that finding alone: what
// comes of it elsewhere is told by a preview.
type Move struct {
	Item  string    // id
	By    geom.Vec3 // van axes, outwards to whole millimetres
	State string    // the one state it is for; "": wherever the item stands as in travel
	Text  string    // "move Fridge 40 mm back"
}

// mayMove tells whether a body may be offered for moving. Locked items, seats and their fixings, gas and what is slung under
// the floor are not.
func (f *Fit) mayMove(b *derive.Body) bool {
	return b.Locked == "" && b.Group != "gas" && b.On != "under" && !slices.ContainsFunc(f.In.Seats, func(s derive.FitSeat) bool { return s.ID == b.ID })
}

// offer makes the move of a body by v in a state, nil where it may not be offered.
func (f *Fit) offer(st *derive.FitState, b *derive.Body, v geom.Vec3) []Move {
	if !f.mayMove(b) || v == (geom.Vec3{}) {
		return nil
	}
	m := Move{Item: b.ID, By: geom.Vec3{X: awayFromZero(v.X), Y: awayFromZero(v.Y), Z: awayFromZero(v.Z)}, Text: "move " + b.Name + " " + vectorWords(v)}
	if st.State != derive.Travel && !b.Same {
		m.State = string(st.State)
	}
	return []Move{m}
}

// moveAdvice words a move of a body, or says that it is not offered for moving.
func (f *Fit) moveAdvice(b *derive.Body, v geom.Vec3) string {
	if !f.mayMove(b) {
		return b.Name + " is not offered for moving: change the plan around it"
	}
	return "move " + b.Name + " " + vectorWords(v)
}

// clearing is the move that clears a clash of two bodies: of the first, or of the second where the first may not be moved.
func (f *Fit) clearing(st *derive.FitState, a, b *derive.Body, c geom.Clash) []Move {
	if m := f.offer(st, a, c.Move); m != nil {
		return m
	}
	return f.offer(st, b, geom.Vec3{X: -c.Move.X, Y: -c.Move.Y, Z: -c.Move.Z})
}
