package calc

import "fmt"

// EvalDim returns the dimension of the formula and refuses sums, comparisons and function
// arguments whose dimensions do not fit.
func (e Expr) EvalDim(lookup func(symbol string) (Dim, bool)) (Dim, error) {
	d, err := e.root.dim(lookup)
	if err != nil {
		return Dim{}, fmt.Errorf("formula %q: %w", e.text, err)
	}
	return d.dim, nil
}

// dimension is a Dim, or any dimension for a plain 0.
type dimension struct {
	dim Dim
	any bool
}

func (n node) dim(lookup func(string) (Dim, bool)) (dimension, error) {
	switch n.op {
	case 'n':
		return dimension{any: n.num == 0}, nil
	case 's':
		d, ok := lookup(n.name)
		if !ok {
			return dimension{}, fmt.Errorf("unknown symbol %q", n.name)
		}
		return dimension{dim: d}, nil
	}
	args := make([]dimension, len(n.args))
	for i, a := range n.args {
		d, err := a.dim(lookup)
		if err != nil {
			return dimension{}, err
		}
		args[i] = d
	}
	switch n.op {
	case 'p', '~':
		return args[0], nil
	case '*':
		return dimension{dim: args[0].dim.Times(args[1].dim)}, nil
	case '/':
		return dimension{dim: args[0].dim.Per(args[1].dim)}, nil
	case '+', '-':
		return same(sign(n.op), args)
	}
	switch n.name {
	case "sum", "abs":
		return args[0], nil
	case "min", "max":
		return same(n.name, args)
	case "count":
		return dimension{}, nil
	case "sqrt":
		return power(args[0], 0.5)
	case "pow":
		if args[0].dim == None && args[1].dim == None {
			return dimension{}, nil
		}
		exponent, ok := n.args[1].constant()
		if !ok {
			return dimension{}, fmt.Errorf("pow of %s with an exponent that is not a plain number", args[0].dim)
		}
		return power(args[0], exponent)
	}
	if args[0].dim != None {
		return dimension{}, fmt.Errorf("%s of %s: needs a plain number", n.name, args[0].dim)
	}
	return dimension{}, nil
}

// same returns the one dimension of all args.
func same(what string, args []dimension) (dimension, error) {
	found := dimension{any: true}
	for _, a := range args {
		switch {
		case a.any:
		case found.any:
			found = a
		case a.dim != found.dim:
			return dimension{}, fmt.Errorf("dimension mismatch at %s: %s and %s", what, found.dim, a.dim)
		}
	}
	return found, nil
}

func power(d dimension, exponent float64) (dimension, error) {
	p, ok := d.dim.Power(exponent)
	if !ok {
		return dimension{}, fmt.Errorf("%s to the power %v has no whole dimension", d.dim, exponent)
	}
	return dimension{dim: p}, nil
}

// constant returns the value of a plain number, also when negated or in parentheses.
func (n node) constant() (float64, bool) {
	switch n.op {
	case 'n':
		return n.num, true
	case 'p':
		return n.args[0].constant()
	case '~':
		v, ok := n.args[0].constant()
		return -v, ok
	}
	return 0, false
}
