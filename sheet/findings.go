package sheet

import (
	"slices"

	"berthwright/check"
)

// Fit returns the fit concern, assessed when it is first asked for.
func (s *Sheet) Fit() *check.Fit {
	s.fitOnce.Do(func() { s.fit = check.AssessFit(*s.fitIn(), s.Pack) })
	return s.fit
}

// Findings returns the findings of every concern that is begun, worst first. While something moves only what is quick is told.
func (s *Sheet) Findings(moving bool) []check.Finding {
	fit := (*check.Fit)(nil)
	if moving {
		fit = s.shape()
	} else {
		fit = s.Fit()
	}
	all := slices.Concat(s.Weight.Findings, fit.Findings)
	slices.SortStableFunc(all, func(a, b check.Finding) int {
		switch {
		case check.Worse(&a, &b):
			return -1
		case check.Worse(&b, &a):
			return 1
		}
		return 0
	})
	return all
}
