package axle

import (
	"slices"

	"berthwright/unit"
)

// Reading is one scale reading: what Measure reads of the loads aboard at the time. Half is its 95 %
// half-width, at least half a scale division.
type Reading struct {
	ID      string
	Name    string
	Ref     string
	Measure Measure
	Value   unit.Mass
	Half    unit.Mass
	Known   unit.Mass // part of Value that is not among the loads and is known exactly, such as a sling
	Of      []string  // ids of the loads aboard; nil for all of them
}

// checkReadings refuses what cannot be weighed and returns which loads each reading has aboard.
func checkReadings(loads []Load, shared []Shared, readings []Reading) ([][]bool, error) {
	if len(loads) == 0 || len(readings) == 0 {
		return nil, ErrEmpty
	}
	index := make(map[string]int, len(loads))
	for i := range loads {
		if err := loads[i].check(); err != nil {
			return nil, err
		}
		if _, twice := index[loads[i].ID]; twice {
			return nil, DuplicateError{Name: "load", ID: loads[i].ID}
		}
		index[loads[i].ID] = i
	}
	if err := checkShared(shared); err != nil {
		return nil, err
	}
	aboard := make([][]bool, len(readings))
	for i, z := range readings {
		v, h, known := z.Value.Kilograms(), z.Half.Kilograms(), z.Known.Kilograms()
		switch {
		case slices.ContainsFunc(readings[:i], func(o Reading) bool { return o.ID == z.ID }):
			return nil, DuplicateError{Name: "reading", ID: z.ID}
		case !(v >= 0 && finite(v)):
			return nil, RangeError{Name: "reading", ID: z.ID, Got: v, Want: "0 kg or more"}
		case !(h > 0 && finite(h)):
			return nil, RangeError{Name: "half-width of the reading", ID: z.ID, Got: h, Want: "more than 0 kg"}
		case !finite(known):
			return nil, RangeError{Name: "known part of the reading", ID: z.ID, Got: known, Want: "a finite mass"}
		}
		aboard[i] = make([]bool, len(loads))
		for j := range aboard[i] {
			aboard[i][j] = z.Of == nil
		}
		for _, id := range z.Of {
			j, ok := index[id]
			if !ok {
				return nil, UnknownError{Name: "load on the scale", ID: id}
			}
			aboard[i][j] = true
		}
	}
	return aboard, nil
}
