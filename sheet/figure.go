package sheet

import (
	"berthwright/drawing"
	"berthwright/paper"
)

// scales are the usual scales of figures in papers, largest first.
var scales = [...]float64{20, 25, 30, 40, 50, 75, 100}

// largest draws one view at the largest usual scale that fits a page across, with the dimensions of the van alone. What lies in bands under a view is dropped
// before the scale is: a table says the same.
func largest(in drawing.Input, view string) (drawing.Scene, bool) {
	for _, by := range scales {
		o := drawing.Full(by)
		o.Overall = true
		for _, o.Band = range [2]bool{true, false} {
			s, ok := Scene(in, view, o)
			if !ok {
				return s, false
			}
			if s.Extent.W()/by <= paper.FigureWidth && s.Extent.H()/by <= paper.FigureHeight {
				return s, true
			}
		}
	}
	return drawing.Scene{}, false
}
