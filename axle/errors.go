package axle

import (
	"errors"
	"fmt"
)

// ErrEmpty reports a sum over no loads.
var ErrEmpty = errors.New("no loads: there is nothing to weigh")

// RangeError reports a value that no van can have. ID is the load it belongs to, if any.
type RangeError struct {
	Name string
	ID   string
	Got  float64
	Want string
}

func (e RangeError) Error() string {
	if e.ID != "" {
		return fmt.Sprintf("%s of %q is %g, want %s", e.Name, e.ID, e.Got, e.Want)
	}
	return fmt.Sprintf("%s is %g, want %s", e.Name, e.Got, e.Want)
}

// MissingError reports that a figure needs something that is unknown: a coordinate of a load,
// or a track of the van.
type MissingError struct {
	Measure string
	IDs     []string
}

func (e MissingError) Error() string {
	return fmt.Sprintf("%s needs the place of %q", e.Measure, e.IDs)
}

// UnknownError reports an id that names no load.
type UnknownError struct {
	Name string
	ID   string
}

func (e UnknownError) Error() string {
	return fmt.Sprintf("%s %q is not among the loads", e.Name, e.ID)
}

// DuplicateError reports an id used twice.
type DuplicateError struct {
	Name string
	ID   string
}

func (e DuplicateError) Error() string { return fmt.Sprintf("%s %q is given twice", e.Name, e.ID) }

// CapError reports a group whose least masses already pass its limit.
type CapError struct {
	Group string
	Least float64 // kg
	Cap   float64 // kg
}

func (e CapError) Error() string {
	return fmt.Sprintf("group %q needs at least %g kg and may hold %g kg", e.Group, e.Least, e.Cap)
}

// SearchError reports a group with too many whole pieces under one limit to search exactly.
type SearchError struct {
	Group string
	Steps int
}

func (e SearchError) Error() string {
	return fmt.Sprintf("group %q: more than %d steps to search the whole pieces under one limit", e.Group, e.Steps)
}
