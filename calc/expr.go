package calc

import (
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"strconv"
	"strings"
)

// Expr is a parsed formula of a Step.
//
// The language is Go expression syntax: numbers, symbols, + - * /, parentheses, pi, and
// sum min max count sqrt pow abs sin cos tan asin acos atan exp ln. A symbol ending in _i is a
// list; operators work on it row by row, and sum, count, min and max with one argument reduce it.
// min and max with several arguments choose row by row. Angles are in radians. A plain 0 fits
// every dimension, so that max(0, a - b) is a formula.
type Expr struct {
	text string
	root node
}

// node is one operation: 'n' number, 's' symbol, 'p' parentheses, '~' negation, 'f' function or
// one of + - * /.
type node struct {
	op   byte
	name string
	num  float64
	args []node
}

// Bounds that keep a formula readable and its evaluation short.
const (
	maxFormula = 1000
	maxDepth   = 50
)

// arity gives the least and the most arguments of each function.
var arity = map[string][2]int{
	"sum": {1, 1}, "count": {1, 1}, "min": {1, 20}, "max": {1, 20}, "pow": {2, 2}, "sqrt": {1, 1}, "abs": {1, 1},
	"sin": {1, 1}, "cos": {1, 1}, "tan": {1, 1}, "asin": {1, 1}, "acos": {1, 1}, "atan": {1, 1}, "exp": {1, 1}, "ln": {1, 1},
}

// IsList reports whether symbol stands for one value per row.
func IsList(symbol string) bool { return strings.HasSuffix(symbol, "_i") }

// Parse reads a formula.
func Parse(formula string) (Expr, error) {
	if len(formula) > maxFormula {
		return Expr{}, fmt.Errorf("formula of %d bytes is longer than %d", len(formula), maxFormula)
	}
	tree, err := parser.ParseExpr(formula)
	if err != nil {
		return Expr{}, fmt.Errorf("formula %q: %w", formula, err)
	}
	root, err := convert(tree, 0)
	if err != nil {
		return Expr{}, fmt.Errorf("formula %q: %w", formula, err)
	}
	return Expr{text: formula, root: root}, nil
}

func convert(tree ast.Expr, depth int) (node, error) {
	if depth > maxDepth {
		return node{}, fmt.Errorf("nested deeper than %d", maxDepth)
	}
	below := func(op byte, name string, parts ...ast.Expr) (node, error) {
		n := node{op: op, name: name}
		for _, p := range parts {
			arg, err := convert(p, depth+1)
			if err != nil {
				return node{}, err
			}
			n.args = append(n.args, arg)
		}
		return n, nil
	}
	switch e := tree.(type) {
	case *ast.BasicLit:
		v, err := strconv.ParseFloat(e.Value, 64)
		if (e.Kind != token.INT && e.Kind != token.FLOAT) || err != nil {
			return node{}, fmt.Errorf("%q is not a decimal number", e.Value)
		}
		return node{op: 'n', name: e.Value, num: v}, nil
	case *ast.Ident:
		if e.Name == "pi" {
			return node{op: 'n', name: "pi", num: math.Pi}, nil
		}
		return node{op: 's', name: e.Name}, nil
	case *ast.ParenExpr:
		return below('p', "", e.X)
	case *ast.UnaryExpr:
		if e.Op == token.SUB {
			return below('~', "", e.X)
		}
	case *ast.BinaryExpr:
		switch e.Op {
		case token.ADD, token.SUB, token.MUL, token.QUO:
			return below(e.Op.String()[0], "", e.X, e.Y)
		}
		return node{}, fmt.Errorf("operator %q is not part of the language", e.Op)
	case *ast.CallExpr:
		name, ok := e.Fun.(*ast.Ident)
		if !ok || e.Ellipsis.IsValid() {
			break
		}
		bounds, known := arity[name.Name]
		if !known {
			return node{}, fmt.Errorf("function %q is not part of the language", name.Name)
		}
		if len(e.Args) < bounds[0] || len(e.Args) > bounds[1] {
			return node{}, fmt.Errorf("function %q with %d arguments", name.Name, len(e.Args))
		}
		return below('f', name.Name, e.Args...)
	}
	return node{}, errors.New("only numbers, symbols, + - * /, parentheses and the named functions are allowed")
}

// Symbols returns the symbols of the formula in the order they first appear.
func (e Expr) Symbols() []string {
	var all []string
	seen := map[string]bool{}
	var walk func(n node)
	walk = func(n node) {
		if n.op == 's' && !seen[n.name] {
			seen[n.name] = true
			all = append(all, n.name)
		}
		for _, a := range n.args {
			walk(a)
		}
	}
	walk(e.root)
	return all
}

// String returns the formula as people read it, with × and − for * and -.
func (e Expr) String() string {
	return e.root.format(func(symbol string) string { return symbol })
}

// format writes a formula with each symbol replaced by what name returns.
func (n node) format(name func(string) string) string {
	switch n.op {
	case 'n':
		return n.name
	case 's':
		return name(n.name)
	case 'p':
		return "(" + n.args[0].format(name) + ")"
	case '~':
		return minus + n.args[0].format(name)
	case 'f':
		parts := make([]string, len(n.args))
		for i, a := range n.args {
			parts[i] = a.format(name)
		}
		return n.name + "(" + strings.Join(parts, ", ") + ")"
	}
	return n.args[0].format(name) + " " + sign(n.op) + " " + n.args[1].format(name)
}

func sign(op byte) string {
	switch op {
	case '*':
		return "×"
	case '-':
		return minus
	}
	return string(op)
}
