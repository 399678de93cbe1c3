package calc

import (
	"errors"
	"fmt"
	"math"
)

// Value is what a symbol stands for: one number, or one number per row.
type Value struct {
	One  float64
	Each []float64
	List bool
}

// rows returns how many rows v has, or -1 when it fits any number.
func (v Value) rows() int {
	if v.List {
		return len(v.Each)
	}
	return -1
}

func (v Value) at(row int) float64 {
	if v.List {
		return v.Each[row]
	}
	return v.One
}

// Eval returns the value of the formula. It refuses unknown symbols, lists of different lengths
// and any step that is not a finite number.
func (e Expr) Eval(lookup func(symbol string) (Value, bool)) (Value, error) {
	v, err := e.root.eval(lookup)
	if err != nil {
		return Value{}, fmt.Errorf("formula %q: %w", e.text, err)
	}
	return v, nil
}

func (n node) eval(lookup func(string) (Value, bool)) (Value, error) {
	switch n.op {
	case 'n':
		return Value{One: n.num}, nil
	case 's':
		v, ok := lookup(n.name)
		switch {
		case !ok:
			return Value{}, fmt.Errorf("unknown symbol %q", n.name)
		case v.List != IsList(n.name):
			return Value{}, fmt.Errorf("symbol %q: only a list ends in _i", n.name)
		}
		return v, nil
	}
	args := make([]Value, len(n.args))
	for i, a := range n.args {
		v, err := a.eval(lookup)
		if err != nil {
			return Value{}, err
		}
		args[i] = v
	}
	if n.op == 'f' && len(args) == 1 {
		switch n.name {
		case "sum", "count", "min", "max":
			return reduce(n.name, args[0])
		}
	}
	return rowwise(n, args)
}

// reduce makes one number of a list.
func reduce(name string, v Value) (Value, error) {
	if !v.List {
		return Value{}, fmt.Errorf("%s of something that is not a list", name)
	}
	if name == "count" {
		return Value{One: float64(len(v.Each))}, nil
	}
	if name != "sum" && len(v.Each) == 0 {
		return Value{}, fmt.Errorf("%s of an empty list", name)
	}
	total := 0.0
	for i, f := range v.Each {
		switch {
		case name == "sum":
			total += f
		case i == 0:
			total = f
		case name == "min":
			total = math.Min(total, f)
		default:
			total = math.Max(total, f)
		}
	}
	return finite(Value{One: total})
}

// rowwise applies an operation to each row, a single number serving every row.
func rowwise(n node, args []Value) (Value, error) {
	rows := -1
	for _, a := range args {
		switch {
		case a.rows() < 0:
		case rows < 0:
			rows = a.rows()
		case rows != a.rows():
			return Value{}, fmt.Errorf("lists of %d and %d rows", rows, a.rows())
		}
	}
	x := make([]float64, len(args))
	apply := func(row int) float64 {
		for i, a := range args {
			x[i] = a.at(row)
		}
		return n.apply(x)
	}
	if rows < 0 {
		return finite(Value{One: apply(0)})
	}
	out := Value{List: true, Each: make([]float64, rows)}
	for row := range out.Each {
		out.Each[row] = apply(row)
	}
	return finite(out)
}

func (n node) apply(x []float64) float64 {
	switch n.op {
	case 'p':
		return x[0]
	case '~':
		return -x[0]
	case '+':
		return x[0] + x[1]
	case '-':
		return x[0] - x[1]
	case '*':
		return x[0] * x[1]
	case '/':
		return x[0] / x[1]
	}
	switch n.name {
	case "min", "max":
		best := x[0]
		for _, f := range x[1:] {
			if n.name == "min" {
				best = math.Min(best, f)
			} else {
				best = math.Max(best, f)
			}
		}
		return best
	case "pow":
		return math.Pow(x[0], x[1])
	case "sqrt":
		return math.Sqrt(x[0])
	case "abs":
		return math.Abs(x[0])
	case "sin":
		return math.Sin(x[0])
	case "cos":
		return math.Cos(x[0])
	case "tan":
		return math.Tan(x[0])
	case "asin":
		return math.Asin(x[0])
	case "acos":
		return math.Acos(x[0])
	case "atan":
		return math.Atan(x[0])
	case "exp":
		return math.Exp(x[0])
	case "ln":
		return math.Log(x[0])
	}
	panic("calc: function " + n.name + " without a rule")
}

var errNotFinite = errors.New("result is not a finite number")

func finite(v Value) (Value, error) {
	if math.IsNaN(v.One) || math.IsInf(v.One, 0) {
		return Value{}, errNotFinite
	}
	for _, f := range v.Each {
		if math.IsNaN(f) || math.IsInf(f, 0) {
			return Value{}, errNotFinite
		}
	}
	return v, nil
}
