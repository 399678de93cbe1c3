package calc

import "math"

// Lines returns the case as it is printed: the base, what was chosen, the sum; without a Sum the chosen lines alone. Lines get the
// digits that they need to add up, as printed, to the printed sum within half of its last digit, and no line more than it needs.
func (c Certificate) Lines() []Line {
	if c.Sum.Label == "" {
		return c.Chosen
	}
	lines := append(append(make([]Line, 0, len(c.Chosen)+2), c.Base), c.Chosen...)
	show := c.Sum.Show
	goal, half := value(show.Number(c.Sum.SI)), 0.5*math.Pow10(-show.Digits)*(1+1e-6)
	for more := 0; more <= 9; more++ {
		sum := 0.0
		for i := range lines {
			sum += value(lines[i].Show.with(more).Number(lines[i].SI))
		}
		if math.Abs(sum-goal) <= half || more == 9 {
			for i := range lines {
				lines[i].Show = lines[i].Show.shortest(lines[i].SI, more)
			}
			break
		}
	}
	return append(lines, c.Sum)
}

// with returns s with more digits after the point.
func (s Show) with(more int) Show {
	s.Digits += more
	return s
}

// shortest returns s with as few more digits as print the same number as more of them.
func (s Show) shortest(si float64, more int) Show {
	want := value(s.with(more).Number(si))
	for less := range more {
		if value(s.with(less).Number(si)) == want {
			return s.with(less)
		}
	}
	return s.with(more)
}
