package geom

import (
	"fmt"

	"berthwright/unit"
)

// RangeError reports a length that lies outside what is known or possible.
type RangeError struct {
	Name      string
	Got       unit.Length
	Low, High unit.Length
}

func (e RangeError) Error() string {
	return fmt.Sprintf("%s \"%g mm\" is outside %g mm to %g mm", e.Name, e.Got.Millimetres(), e.Low.Millimetres(), e.High.Millimetres())
}

// ShapeError reports a shape that cannot be one: an outline that crosses itself, a wall that does not rise.
// Corner is the index of the corner concerned, -1 when it is the whole shape.
type ShapeError struct {
	Name   string
	Corner int
	Why    string
}

func (e ShapeError) Error() string {
	if e.Corner >= 0 {
		return fmt.Sprintf("%s at corner \"%d\" %s", e.Name, e.Corner+1, e.Why)
	}
	return e.Name + " " + e.Why
}

// AngleError reports an angle that is not finite or too large.
type AngleError struct {
	Name string
	Got  unit.Angle
	Want string
}

func (e AngleError) Error() string {
	return fmt.Sprintf("%s \"%g°\" is not %s", e.Name, e.Got.Degrees(), e.Want)
}
