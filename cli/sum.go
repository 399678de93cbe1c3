package cli

import (
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
	Loads     []string `arg:"" name:"load" help:"Loads as MASS@PLACE, place rearwards from the front axle: \"60 kg@5.235 m\"; what is ahead of the axle has a minus."`
	JSON      bool     `name:"json" help:"Print JSON."`
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
		return usage{err.Error()}
	}
	var loads []axle.Load
	in := map[string]jsonQuantity{"wheelbase": {SI: l.Metres(), Unit: "m", Text: unit.Format(l, unit.Metric, -1)}}
	for i, text := range c.Loads {
		mass, place, ok := strings.Cut(text, "@")
		if !ok {
			return usage{fmt.Sprintf("load %q has no place; write it like \"60 kg@5.235 m\"", text)}
		}
		m, err := unit.ParseMass(strings.TrimSpace(mass))
		if err != nil {
			return usage{err.Error()}
		}
		x, err := unit.ParseLength(strings.TrimSpace(place))
		if err != nil {
			return usage{err.Error()}
		}
		id := fmt.Sprintf("load-%d", i+1)
		loads = append(loads, axle.Load{ID: id, Name: text, Mass: m, At: axle.Place{X: unit.Some(x)}})
		in[id] = jsonQuantity{SI: m.Kilograms(), Unit: "kg", Text: text}
	}
	s, err := axle.Sum(axle.Geometry{Wheelbase: l}, loads)
	if err != nil {
		return usage{err.Error()}
	}
	w := s.Working()
	out := sumAnswer{Inputs: in, Results: map[string]jsonQuantity{}}
	put := func(name string, o unit.Opt[unit.Mass]) {
		if m, ok := o.Get(); ok {
			out.Results[name] = jsonQuantity{SI: m.Kilograms(), Unit: "kg", Text: check.Figure{Kind: unit.KindMass, SI: m.Kilograms(), Digits: 1}.Text(unit.Metric)}
		}
	}
	put("total", unit.Some(s.Total))
	put("front", s.Front)
	put("rear", s.Rear)
	for _, line := range calc.Lines(w) {
		out.Working = append(out.Working, line.String())
	}
	if c.JSON {
		return printJSON(e, out)
	}
	for _, k := range []string{"total", "front", "rear"} {
		fmt.Fprintf(e.out, "%-6s %s\n", k, out.Results[k].Text)
	}
	fmt.Fprintln(e.out)
	e.lines(w)
	return nil
}
