package archtest

import (
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"sort"
)

const unitPath = "berthwright/unit"

// clock holds the functions of package time that look at the clock or wait.
const clock = "Now Since Until Sleep After AfterFunc Tick NewTicker NewTimer"

// inspect returns what a type-checked package does against the rules, as "file:line: what".
func inspect(fset *token.FileSet, files []*ast.File, info *types.Info, path string, isPure bool) []string {
	var found []string
	add := func(n ast.Node, format string, args ...any) {
		at := fset.Position(n.Pos())
		found = append(found, fmt.Sprintf("%s:%d: ", at.Filename, at.Line)+fmt.Sprintf(format, args...))
	}
	for _, file := range files {
		ast.Inspect(file, func(n ast.Node) bool {
			if path != unitPath {
				quantities(n, info, add)
			}
			switch n := n.(type) {
			case *ast.FuncDecl:
				if n.Recv == nil && n.Name.Name == "init" {
					add(n, "init function")
				}
			case *ast.GoStmt:
				if isPure {
					add(n, "goroutine in a science")
				}
			case *ast.SelectorExpr:
				o := info.Uses[n.Sel]
				if isPure && o != nil && o.Pkg() != nil && o.Pkg().Path() == "time" && o.Parent() == o.Pkg().Scope() && has(clock, o.Name()) {
					add(n, "time.%s in a science: time comes in as an argument", o.Name())
				}
			}
			return true
		})
	}
	sort.Strings(found)
	return found
}

// quantities reports the operations after which a number no longer has the unit its type says.
func quantities(n ast.Node, info *types.Info, add func(ast.Node, string, ...any)) {
	switch n := n.(type) {
	case *ast.BinaryExpr:
		operation(n, n.Op, n.X, n.Y, info, add)
	case *ast.AssignStmt:
		ops := map[token.Token]token.Token{token.MUL_ASSIGN: token.MUL, token.QUO_ASSIGN: token.QUO, token.SUB_ASSIGN: token.SUB}
		if op, ok := ops[n.Tok]; ok {
			operation(n, op, n.Lhs[0], n.Rhs[0], info, add)
		}
	case *ast.CallExpr:
		if len(n.Args) != 1 || !info.Types[n.Fun].IsType() {
			return
		}
		from, to := quantity(info, n.Args[0]), info.Types[n.Fun].Type
		basic, number := types.Unalias(to).Underlying().(*types.Basic)
		if from == "" || !number || basic.Info()&types.IsNumeric == 0 {
			return
		}
		switch other := named(to); {
		case other == "":
			add(n, "conversion of unit.%s to %s: use an accessor that names the unit", from, to)
		case other != from:
			add(n, "conversion of unit.%s to unit.%s", from, other)
		}
	}
}

func operation(n ast.Node, op token.Token, x, y ast.Expr, info *types.Info, add func(ast.Node, string, ...any)) {
	left, right := quantity(info, x), quantity(info, y)
	if left == "" || right == "" {
		return
	}
	constant := info.Types[x].Value != nil || info.Types[y].Value != nil
	switch {
	case (op == token.MUL || op == token.QUO) && !constant:
		add(n, "%q between two quantities of unit.%s: use Per, Times or accessors", op, left)
	case op == token.SUB && left == "Temperature":
		add(n, "\"-\" between two temperatures: use Minus")
	}
}

// quantity returns the name of the quantity type of package unit that x has, or "".
func quantity(info *types.Info, x ast.Expr) string {
	t := info.TypeOf(x)
	if t == nil {
		return ""
	}
	return named(t)
}

// named returns the name of a quantity type: a named float64 or int64 of package unit.
func named(t types.Type) string {
	n, ok := types.Unalias(t).(*types.Named)
	if !ok || n.Obj().Pkg() == nil || n.Obj().Pkg().Path() != unitPath {
		return ""
	}
	basic, ok := n.Underlying().(*types.Basic)
	if !ok || basic.Kind() != types.Float64 && basic.Kind() != types.Int64 {
		return ""
	}
	return n.Obj().Name()
}
