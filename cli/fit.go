package cli

import (
	"errors"
	"fmt"

	"berthwright/sheet"
	"berthwright/unit"
)

// viewAt is the view to draw; a section says where it is cut.
func (c drawingCmd) viewAt() (string, error) {
	if c.At == "" {
		return c.View, nil
	}
	if c.View != "section" {
		return "", usage{fmt.Sprintf("view %q is cut nowhere", c.View), "--at goes with --view section"}
	}
	x, err := unit.ParseLength(c.At)
	if err != nil {
		return "", usage{text: err.Error()}
	}
	if !(x >= -2*unit.Metre && x <= 12*unit.Metre) {
		return "", usage{fmt.Sprintf("place %q is outside -2 m … 12 m", c.At), "it is measured rearwards from the front axle"}
	}
	return sheet.SectionView(x), nil
}

type holesCmd struct{ onePaper }

type templatesCmd struct {
	Hole string `help:"One hole only, by its mark in the hole register or its id." placeholder:"H9"`
	onePaper
}

type fixingCmd struct{ onePaper }

type statesCmd struct{ onePaper }

func (c holesCmd) Run(e *env) error { return c.print(e, (*sheet.Sheet).HoleRegister) }

func (c templatesCmd) Run(e *env) error {
	return c.print(e, func(s *sheet.Sheet, i sheet.Issue) ([]byte, error) {
		b, err := s.Templates(i, c.Hole)
		if no, ok := errors.AsType[sheet.NoHole](err); ok {
			return nil, usage{no.Error(), no.Hint()}
		}
		return b, err
	})
}

func (c fixingCmd) Run(e *env) error { return c.print(e, (*sheet.Sheet).FixingMap) }

func (c statesCmd) Run(e *env) error { return c.print(e, (*sheet.Sheet).StateSheets) }
