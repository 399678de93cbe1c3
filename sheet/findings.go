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
	return check.WorstFirst(slices.Concat(s.Weight.Findings, fit.Findings))
}

// Slip returns the working behind a figure of any concern: by its id, or by the key of a finding.
func (s *Sheet) Slip(key string) (check.Slip, bool) {
	if slip, ok := s.Weight.Slip(key); ok {
		return slip, true
	}
	return s.Fit().Slip(key)
}
