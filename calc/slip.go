package calc

import (
	"fmt"
	"strings"
)

// SlipLine is one line of a Working as screen, paper and terminal print it:
// Symbol = Formula = Numbers = Result, with Says before and Cites beside.
type SlipLine struct {
	Symbol   string
	Says     string
	Kind     Kind
	Formula  string    // Derived: "sum(m_i × x_i) / l"
	Numbers  string    // Derived: Formula with the printed operands: "4 992.9 kg·m / 4.035 m"
	Operands []Operand // Derived: the symbols of Formula as Numbers prints them
	Result   string    // "1 237.4 kg"; for a list its first rows, their number and sum or range
	Rows     []SlipRow // the full table of a list
	Cites    []Cite
	Level    Evidence
	Ref      string
	Fault    string // why the printed operands do not give the printed result; a bug of ours
}

// String returns the line as a terminal prints it: "R = M / l = 4 992.9 kg·m / 4.035 m = 1 237.4 kg".
// A Choice is its sentence.
func (l SlipLine) String() string {
	if l.Kind == Choice {
		return l.Says
	}
	parts := []string{l.Symbol}
	for _, p := range []string{l.Formula, l.Numbers, l.Result} {
		if p != "" {
			parts = append(parts, p)
		}
	}
	text := strings.Join(parts, " = ")
	if l.Fault != "" {
		text += " (does not recompute: " + l.Fault + ")"
	}
	return text
}

// Operand is a symbol of a formula as printed. A list is printed as the rows of its own line.
type Operand struct {
	Symbol string
	Text   string // "4.035 m"; empty for a list
}

// SlipRow is one row of a list.
type SlipRow struct {
	Label string
	Ref   string
	Text  string
}

const (
	firstRows   = 3  // rows printed in a line; all are in Rows
	moreDigits  = 9  // digits an operand may gain over its usual ones
	maxPasses   = 20 // far more than any chain of lists needs
	moreOfFound = 3  // digits a result may gain when the full operands do not decide its last digit
)

// Lines prints a Working.
//
// The operands of each Derived line carry so many digits that the formula, evaluated on the
// printed operands and rounded to the printed digits, gives the printed result. Where the usual
// digits (Show.Digits) do not, operands print more, at most to full precision; exact operands stay
// short. The rows of a list carry the digits that every line using it needs.
func Lines(w Working) []SlipLine {
	p := printer{steps: map[string]Step{}, digits: map[string]int{}, lists: map[listText]Value{}}
	for _, s := range w.Steps {
		if _, twice := p.steps[s.Symbol]; !twice {
			p.steps[s.Symbol] = s
		}
	}
	// A list gains digits for its users, and its own operands may then need more: repeat until still.
	for pass := 1; ; pass++ {
		before := p.total()
		lines := make([]SlipLine, 0, len(w.Steps))
		for _, s := range w.Steps {
			lines = append(lines, p.line(s))
		}
		if p.total() == before || pass == maxPasses {
			return lines
		}
	}
}

// printer keeps the digits that the rows of each list need; they only grow.
type printer struct {
	steps  map[string]Step
	digits map[string]int     // digits a list gained
	lists  map[listText]Value // lists already printed and read back
}

// listText is a list as it is printed with some digits.
type listText struct {
	symbol  string
	gained  int
	numeric bool
}

// printedList returns a list as a reader of its printed rows would take it up.
func (p printer) printedList(s Step, gained int, numeric bool) Value {
	key := listText{s.Symbol, gained, numeric}
	if v, done := p.lists[key]; done {
		return v
	}
	v := Value{List: true, Each: make([]float64, len(s.Each))}
	for i, si := range s.Each {
		v.Each[i] = s.printed(si, gained, numeric)
	}
	p.lists[key] = v
	return v
}

func (p printer) total() int {
	n := 0
	for _, d := range p.digits {
		n += d
	}
	return n
}

func (p printer) line(s Step) SlipLine {
	line := SlipLine{Symbol: s.Symbol, Says: s.Says, Kind: s.Kind, Cites: s.Source, Level: s.Level, Ref: s.Ref}
	if s.Kind == Choice {
		return line
	}
	gained := 0
	if s.Kind == Derived {
		gained = p.derive(s, &line)
	}
	if !IsList(s.Symbol) {
		line.Result = s.Show.withUnit(s.text(s.SI, gained))
		return line
	}
	line.Result = p.listResult(s)
	for i, v := range s.Each {
		row := SlipRow{Text: s.Show.withUnit(s.text(v, p.digits[s.Symbol]))}
		if i < len(s.Rows) {
			row.Label, row.Ref = s.Rows[i].Label, s.Rows[i].Ref
		}
		line.Rows = append(line.Rows, row)
	}
	return line
}

// text prints one SI value of the step with gained digits over the usual ones, without its unit.
func (s Step) text(si float64, gained int) string {
	return number(s.Show.display(si), s.Show.Digits+gained, s.Show.Digits)
}

// printed returns the SI value that a reader of text(si, gained) would take up, or the number as
// it stands for a numeric formula.
func (s Step) printed(si float64, gained int, numeric bool) float64 {
	v := value(s.text(si, gained))
	if numeric {
		return v
	}
	return v * s.Show.factor()
}

// derive fills the formula, its numbers and operands, and returns the digits the result gained.
func (p printer) derive(s Step, line *SlipLine) int {
	line.Formula = s.Formula
	e, err := Parse(s.Formula)
	if err != nil {
		line.Fault = err.Error()
		return 0
	}
	line.Formula = e.String()
	symbols := e.Symbols()
	for _, symbol := range symbols {
		if _, ok := p.steps[symbol]; !ok {
			line.Fault = fmt.Sprintf("unknown symbol %q", symbol)
			return 0
		}
	}
	operands, result := p.choose(s, e, line)
	if line.Fault != "" {
		return 0
	}
	texts := map[string]func(row int) string{}
	for _, symbol := range symbols {
		o := p.steps[symbol]
		gained := operands
		if IsList(symbol) {
			p.digits[symbol] = max(p.digits[symbol], gained)
			gained = p.digits[symbol]
			line.Operands = append(line.Operands, Operand{Symbol: symbol})
		} else {
			line.Operands = append(line.Operands, Operand{symbol, o.Show.withUnit(o.text(o.SI, gained))})
		}
		texts[symbol] = func(row int) string {
			si := o.SI
			if IsList(symbol) {
				si = o.Each[row]
			}
			text := o.Show.withUnit(o.text(si, gained))
			if strings.HasPrefix(text, minus) {
				return "(" + text + ")"
			}
			return text
		}
	}
	line.Numbers = numbers{texts, p.steps}.formula(e.root, IsList(s.Symbol))
	return result
}

// choose returns how many digits the operands and the result must gain.
func (p printer) choose(s Step, e Expr, line *SlipLine) (operands, result int) {
	for result = 0; result <= moreOfFound; result++ {
		for operands = 0; operands <= moreDigits; operands++ {
			ok, err := p.reproduces(s, e, operands, result)
			if err != nil {
				line.Fault = err.Error()
				return 0, 0
			}
			if ok {
				return operands, result
			}
		}
	}
	line.Fault = "the formula does not give the result"
	return 0, 0
}

// reproduces evaluates the formula on the printed operands and compares all printed digits.
func (p printer) reproduces(s Step, e Expr, operands, result int) (bool, error) {
	got, err := e.Eval(func(symbol string) (Value, bool) {
		o, ok := p.steps[symbol]
		if !IsList(symbol) {
			return Value{One: o.printed(o.SI, operands, s.Numeric)}, ok
		}
		return p.printedList(o, max(operands, p.digits[symbol]), s.Numeric), ok
	})
	if err != nil {
		// Rounding may make an operand nought; only the full digits decide.
		if operands < moreDigits {
			return false, nil
		}
		return false, err
	}
	want := Value{One: s.SI, Each: s.Each, List: IsList(s.Symbol)}
	if got.List != want.List || len(got.Each) != len(want.Each) {
		return false, fmt.Errorf("formula %q gives %d rows, recorded are %d", s.Formula, len(got.Each), len(want.Each))
	}
	if !want.List {
		return s.text(s.fromFormula(got.One), result) == s.text(want.One, result), nil
	}
	digits := p.digits[s.Symbol] + result
	for i, v := range got.Each {
		if s.text(s.fromFormula(v), digits) != s.text(want.Each[i], digits) {
			return false, nil
		}
	}
	p.digits[s.Symbol] = digits
	return true, nil
}

// fromFormula turns what the formula gives into SI: a numeric formula gives display units.
func (s Step) fromFormula(v float64) float64 {
	if s.Numeric {
		return v * s.Show.factor()
	}
	return v
}

// listResult says how many rows there are, the first of them, and their sum (or, where a sum
// means nothing, their range). The rows gain digits until they add up to the printed sum.
func (p printer) listResult(s Step) string {
	if len(s.Each) == 0 {
		return "no rows"
	}
	least, most, sum := s.Each[0], s.Each[0], 0.0
	for _, v := range s.Each {
		least, most, sum = min(least, v), max(most, v), sum+v
	}
	last := fmt.Sprintf("from %s to %s", s.Show.Text(least), s.Show.Text(most))
	if adds(s.Dim) {
		last = "sum " + s.Show.Text(sum)
		for ; p.digits[s.Symbol] < moreDigits; p.digits[s.Symbol]++ {
			printed := 0.0
			for _, v := range p.printedList(s, p.digits[s.Symbol], false).Each {
				printed += v
			}
			if s.Show.Text(printed) == s.Show.Text(sum) {
				break
			}
		}
	}
	var b strings.Builder
	for i, v := range s.Each {
		if i == firstRows {
			b.WriteString("…, ")
			break
		}
		b.WriteString(s.Show.withUnit(s.text(v, p.digits[s.Symbol])) + ", ")
	}
	rows := "rows"
	if len(s.Each) == 1 {
		rows = "row"
	}
	return fmt.Sprintf("%s%d %s, %s", b.String(), len(s.Each), rows, last)
}

// adds reports whether a sum over values of the dimension means something.
func adds(d Dim) bool {
	switch d {
	case None, DimLength, DimDensity, DimMassPerArea, DimSpeed, DimTemperature:
		return false
	}
	return true
}

// numbers writes a formula with printed operands.
type numbers struct {
	texts map[string]func(row int) string
	steps map[string]Step
}

// rows returns the number of rows of the lists in n, or -1 when there are none.
func (w numbers) rows(n node) int {
	if n.op == 's' && IsList(n.name) {
		return len(w.steps[n.name].Each)
	}
	for _, a := range n.args {
		if n.op == 'f' && len(n.args) == 1 && (n.name == "sum" || n.name == "count") {
			break
		}
		if rows := w.rows(a); rows >= 0 {
			return rows
		}
	}
	return -1
}

// formula writes the whole formula; a formula that gives a list shows its first rows.
func (w numbers) formula(n node, list bool) string {
	if list {
		return w.first(w.rows(n), "; ", "; … %d more", func(row int) string { return w.at(n, row) })
	}
	text := w.at(n, 0)
	if n.op == 'f' && n.name == "sum" {
		return strings.TrimSuffix(strings.TrimPrefix(text, "("), ")")
	}
	return text
}

// at writes n with the list symbols at row.
func (w numbers) at(n node, row int) string {
	if n.op == 'f' && len(n.args) == 1 {
		each := func(row int) string { return w.at(n.args[0], row) }
		switch n.name {
		case "sum":
			inner := each
			if op := n.args[0].op; op == '+' || op == '-' || op == '~' {
				inner = func(row int) string { return "(" + each(row) + ")" }
			}
			return "(" + w.first(w.rows(n.args[0]), " + ", " + … %d more", inner) + ")"
		case "min", "max", "count":
			return n.name + "(" + w.first(w.rows(n.args[0]), ", ", ", … %d more", each) + ")"
		}
	}
	switch n.op {
	case 'n', 's':
		return n.format(func(symbol string) string { return w.texts[symbol](row) })
	case 'p':
		inner := w.at(n.args[0], row)
		if n.args[0].op == 'f' && n.args[0].name == "sum" {
			return inner
		}
		return "(" + inner + ")"
	case '~':
		return minus + w.at(n.args[0], row)
	case 'f':
		parts := make([]string, len(n.args))
		for i, a := range n.args {
			parts[i] = w.at(a, row)
		}
		return n.name + "(" + strings.Join(parts, ", ") + ")"
	}
	return w.at(n.args[0], row) + " " + sign(n.op) + " " + w.at(n.args[1], row)
}

// first joins the first rows and says how many are not shown.
func (w numbers) first(rows int, between, more string, row func(int) string) string {
	if rows <= 0 {
		return "0"
	}
	var parts []string
	for i := range min(rows, firstRows) {
		parts = append(parts, row(i))
	}
	text := strings.Join(parts, between)
	if rows > firstRows {
		text += fmt.Sprintf(more, rows-firstRows)
	}
	return text
}
