package calctest

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"strconv"

	"berthwright/calc"
)

// quantity is a value with its dimension; a list has one value per row, anything else one value.
// scale is the largest magnitude met on the way, against which rounding is judged.
type quantity struct {
	v      []float64
	list   bool
	dim    calc.Dim
	anyDim bool // a plain 0
	scale  float64
}

// evaluator walks the syntax tree directly; it is kept apart from calc.Expr on purpose.
type evaluator struct {
	lookup  func(string) (quantity, bool)
	numeric bool // dimensions are not checked
}

func evaluate(formula string, lookup func(string) (quantity, bool), numeric bool) (q quantity, err error) {
	tree, err := parser.ParseExpr(formula)
	if err != nil {
		return quantity{}, fmt.Errorf("formula %q: %w", formula, err)
	}
	defer func() {
		if fault, ok := recover().(fault); ok {
			err = fmt.Errorf("formula %q: %s", formula, string(fault))
		}
	}()
	q = evaluator{lookup, numeric}.eval(tree)
	for _, v := range q.v {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return quantity{}, fmt.Errorf("formula %q: result is not a finite number", formula)
		}
	}
	return q, nil
}

// fault unwinds the evaluator.
type fault string

func refuse(format string, args ...any) { panic(fault(fmt.Sprintf(format, args...))) }

func (e evaluator) eval(tree ast.Expr) quantity {
	switch t := tree.(type) {
	case *ast.ParenExpr:
		return e.eval(t.X)
	case *ast.BasicLit:
		v, err := strconv.ParseFloat(t.Value, 64)
		if err != nil {
			refuse("%q is not a number", t.Value)
		}
		return quantity{v: []float64{v}, anyDim: v == 0, scale: math.Abs(v)}
	case *ast.Ident:
		if t.Name == "pi" {
			return quantity{v: []float64{math.Pi}, scale: math.Pi}
		}
		q, ok := e.lookup(t.Name)
		if !ok {
			refuse("symbol %q is not an earlier step", t.Name)
		}
		return q
	case *ast.UnaryExpr:
		if t.Op != token.SUB {
			break
		}
		x := e.eval(t.X)
		return e.each(x.dim, func(a, _ float64) float64 { return -a }, x, x)
	case *ast.BinaryExpr:
		return e.binary(t.Op, e.eval(t.X), e.eval(t.Y))
	case *ast.CallExpr:
		var args []quantity
		for _, a := range t.Args {
			args = append(args, e.eval(a))
		}
		if name, ok := t.Fun.(*ast.Ident); ok && len(args) > 0 {
			return e.call(name.Name, args, t.Args)
		}
	}
	refuse("%T is not part of the language", tree)
	return quantity{}
}

func (e evaluator) binary(op token.Token, x, y quantity) quantity {
	dim := x.dim
	switch op {
	case token.MUL:
		for i := range dim {
			dim[i] += y.dim[i]
		}
		return e.each(dim, func(a, b float64) float64 { return a * b }, x, y)
	case token.QUO:
		for i := range dim {
			dim[i] -= y.dim[i]
		}
		return e.each(dim, func(a, b float64) float64 { return a / b }, x, y)
	case token.ADD:
		return e.each(e.common(x, y), func(a, b float64) float64 { return a + b }, x, y)
	case token.SUB:
		return e.each(e.common(x, y), func(a, b float64) float64 { return a - b }, x, y)
	}
	refuse("operator %q is not part of the language", op)
	return quantity{}
}

// common returns the dimension that x and y share.
func (e evaluator) common(x, y quantity) calc.Dim {
	switch {
	case e.numeric || y.anyDim || x.dim == y.dim:
		return x.dim
	case x.anyDim:
		return y.dim
	}
	refuse("dimension mismatch: %s with %s", x.dim, y.dim)
	return calc.Dim{}
}

// each applies f row by row; a single value serves every row.
func (e evaluator) each(dim calc.Dim, f func(a, b float64) float64, x, y quantity) quantity {
	out := quantity{dim: dim, list: x.list || y.list, scale: math.Max(x.scale, y.scale)}
	n := 1
	switch {
	case x.list && y.list && len(x.v) != len(y.v):
		refuse("lists of %d and %d rows", len(x.v), len(y.v))
	case x.list:
		n = len(x.v)
	case y.list:
		n = len(y.v)
	}
	for i := range n {
		a, b := x.v[0:], y.v[0:]
		if x.list {
			a = x.v[i:]
		}
		if y.list {
			b = y.v[i:]
		}
		v := f(a[0], b[0])
		out.v = append(out.v, v)
		out.scale = math.Max(out.scale, math.Abs(v))
	}
	return out
}

func (e evaluator) call(name string, args []quantity, trees []ast.Expr) quantity {
	x := args[0]
	if len(args) == 1 && (name == "sum" || name == "count" || name == "min" || name == "max") {
		return fold(name, x)
	}
	switch name {
	case "min", "max":
		for _, y := range args[1:] {
			f := math.Min
			if name == "max" {
				f = math.Max
			}
			x = e.each(e.common(x, y), f, x, y)
		}
		return x
	case "pow":
		if len(args) != 2 {
			refuse("pow with %d arguments", len(args))
		}
		dim := x.dim
		if dim != calc.None && !e.numeric {
			if _, symbol := trees[1].(*ast.Ident); symbol || args[1].list {
				refuse("pow of %s with an exponent that is not a plain number", dim)
			}
			dim = raise(dim, args[1].v[0])
		}
		return e.each(dim, math.Pow, x, args[1])
	}
	if len(args) != 1 {
		refuse("%s with %d arguments", name, len(args))
	}
	one := func(dim calc.Dim, f func(float64) float64) quantity {
		return e.each(dim, func(a, _ float64) float64 { return f(a) }, x, x)
	}
	switch name {
	case "abs":
		return one(x.dim, math.Abs)
	case "sqrt":
		if e.numeric {
			return one(x.dim, math.Sqrt)
		}
		return one(raise(x.dim, 0.5), math.Sqrt)
	}
	f, ok := map[string]func(float64) float64{
		"sin": math.Sin, "cos": math.Cos, "tan": math.Tan, "asin": math.Asin, "acos": math.Acos,
		"atan": math.Atan, "exp": math.Exp, "ln": math.Log,
	}[name]
	if !ok {
		refuse("function %q is not part of the language", name)
	}
	if x.dim != calc.None && !e.numeric {
		refuse("dimension mismatch: %s of %s", name, x.dim)
	}
	return one(calc.None, f)
}

func fold(name string, x quantity) quantity {
	if !x.list {
		refuse("%s of something that is not a list", name)
	}
	out := quantity{dim: x.dim, scale: x.scale}
	switch {
	case name == "count":
		return quantity{v: []float64{float64(len(x.v))}, scale: float64(len(x.v))}
	case name == "sum":
		total := 0.0
		for _, v := range x.v {
			total += v
			out.scale = math.Max(out.scale, math.Abs(total))
		}
		out.v = []float64{total}
		return out
	case len(x.v) == 0:
		refuse("%s of an empty list", name)
	}
	best := x.v[0]
	for _, v := range x.v[1:] {
		if (name == "min") == (v < best) {
			best = v
		}
	}
	out.v = []float64{best}
	return out
}

func raise(d calc.Dim, exponent float64) calc.Dim {
	for i := range d {
		e := float64(d[i]) * exponent
		if e != math.Trunc(e) || math.Abs(e) > 100 {
			refuse("dimension mismatch: %s to the power %v", d, exponent)
		}
		d[i] = int8(e)
	}
	return d
}
