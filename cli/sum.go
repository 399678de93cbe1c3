package cli

import (
	"errors"
	"fmt"
	"strings"

	"berthwright/axle"
	"berthwright/calc"
	"berthwright/check"
	"berthwright/unit"
)

type sumCmd struct {
	Axle sumAxleCmd `cmd:"" help:"Where masses go between two axles."`
}

type sumAxleCmd struct {
	Wheelbase string   `help:"Wheelbase, such as 4.035 m." required:""`
	Loads     []string `arg:"" name:"load" help:"Loads as MASS@PLACE, the place rearwards from the front axle: \"60 kg@5.235 m\". What lies ahead of the axle has a minus: \"20 kg@-0.6 m\"; write -- before a load that begins with one."`
	JSON      bool     `name:"json" help:"Print JSON."`
}

// badText is a text on the command line that is no quantity.
func badText(err error) error {
	var pe *unit.ParseError
	if errors.As(err, &pe) {
		if pe.Code == unit.CodeMissingUnit {
			return usage{pe.Problem, `write masses like "60 kg" and lengths like "4.035 m"`}
		}
		return usage{pe.Problem, pe.Hint}
	}
	return usage{text: err.Error()}
}

// sumAnswer is the form of sum --json.
type sumAnswer struct {
	Inputs  map[string]jsonQuantity `json:"inputs"`
	Results map[string]jsonQuantity `json:"results"`
	Working []string                `json:"working"`
}

func (c sumAxleCmd) Run(e *env) error {
	l, err := unit.ParseLength(c.Wheelbase)
	if err != nil {
		return badText(err)
	}
	var loads []axle.Load
	in := map[string]jsonQuantity{"wheelbase": {SI: l.Metres(), Unit: "m", Text: unit.Format(l, unit.Metric, -1)}}
	for i, text := range c.Loads {
		mass, place, ok := strings.Cut(text, "@")
		if !ok {
			return usage{fmt.Sprintf("load %q has no place", text), `write it like "60 kg@5.235 m"`}
		}
		m, err := unit.ParseMass(strings.TrimSpace(mass))
		if err != nil {
			return badText(err)
		}
		x, err := unit.ParseLength(strings.TrimSpace(place))
		if err != nil {
			return badText(err)
		}
		id := fmt.Sprintf("load-%d", i+1)
		loads = append(loads, axle.Load{ID: id, Name: text, Mass: m, At: axle.Place{X: unit.Some(x)}})
		in[id] = jsonQuantity{SI: m.Kilograms(), Unit: "kg", Text: text}
	}
	s, err := axle.Sum(axle.Geometry{Wheelbase: l}, loads)
	if err != nil {
		return usage{text: err.Error()}
	}
	w := s.Working()
	out := sumAnswer{Inputs: in, Results: map[string]jsonQuantity{}}
	for name, m := range map[string]unit.Opt[unit.Mass]{"total": unit.Some(s.Total), "front": s.Front, "rear": s.Rear} {
		if m, ok := m.Get(); ok {
			out.Results[name] = jsonMass(m, unit.Metric)
		}
	}
	if m, ok := s.Moment.Get(); ok {
		out.Results["moment"] = *jsonFigure(unit.Some(check.Figure{Kind: unit.KindMassMoment, SI: m.KilogramMetres(), Digits: 1}), unit.Metric)
	}
	for _, line := range calc.Lines(w) {
		out.Working = append(out.Working, line.String())
	}
	if c.JSON {
		return e.printJSON(out)
	}
	for _, k := range []string{"total", "front", "rear", "moment"} {
		fmt.Fprintf(e.out, "%-6s %s\n", k, out.Results[k].Text)
	}
	fmt.Fprintln(e.out)
	e.lines(w)
	return nil
}
