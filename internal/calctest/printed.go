package calctest

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"

	"berthwright/calc"
)

// printedFaults reads the lines that a face prints and recomputes each result from the printed
// operands alone, to the last printed digit.
func printedFaults(w calc.Working, steps map[string]calc.Step) []string {
	var faults []string
	add := func(line calc.SlipLine, format string, args ...any) {
		faults = append(faults, fmt.Sprintf("line %s: ", line.Symbol)+fmt.Sprintf(format, args...))
	}
	lines := calc.Lines(w)
	rows := map[string]calc.SlipLine{}
	for _, line := range lines {
		rows[line.Symbol] = line
	}
	for _, line := range lines {
		s, known := steps[line.Symbol]
		if line.Kind != calc.Derived || !known {
			continue
		}
		if line.Fault != "" {
			add(line, "%s", line.Fault)
			continue
		}
		got, err := evaluate(s.Formula, func(symbol string) (quantity, bool) {
			o, ok := steps[symbol]
			if !ok {
				return quantity{}, false
			}
			q, err := readOperand(line, rows[symbol], o, s.Numeric)
			if err != nil {
				add(line, "operand %s: %v", symbol, err)
			}
			return q, err == nil
		}, s.Numeric)
		if err != nil {
			add(line, "%v", err)
			continue
		}
		if !got.list {
			if fault := sameDigits(got.v[0], line.Result, s); fault != "" {
				add(line, "%s", fault)
			}
			if fault := numbersFault(line, s, steps); fault != "" {
				add(line, "%s", fault)
			}
			continue
		}
		for i, row := range line.Rows {
			if fault := sameDigits(got.v[i], row.Text, s); fault != "" {
				add(line, "row %d: %s", i+1, fault)
			}
		}
	}
	return faults
}

// readOperand reads an operand from the texts that are printed for it.
func readOperand(line, own calc.SlipLine, o calc.Step, numeric bool) (quantity, error) {
	q := quantity{dim: o.Dim, list: strings.HasSuffix(o.Symbol, "_i")}
	texts := []string{}
	if q.list {
		for _, row := range own.Rows {
			texts = append(texts, row.Text)
		}
	} else {
		for _, p := range line.Operands {
			if p.Symbol == o.Symbol {
				texts = append(texts, p.Text)
			}
		}
		if len(texts) != 1 {
			return q, fmt.Errorf("is printed %d times", len(texts))
		}
		if !strings.Contains(line.Numbers, texts[0]) {
			return q, fmt.Errorf("%q does not stand in %q", texts[0], line.Numbers)
		}
	}
	for _, text := range texts {
		v, _, err := readNumber(text, o.Show.Unit)
		if err != nil {
			return q, err
		}
		if !numeric {
			v *= factor(o.Show)
		}
		q.v = append(q.v, v)
		q.scale = math.Max(q.scale, math.Abs(v))
	}
	return q, nil
}

// sameDigits compares a recomputed value with a printed result to its last digit: they may differ
// by half a unit of that digit.
func sameDigits(got float64, result string, s calc.Step) string {
	want, digits, err := readNumber(result, s.Show.Unit)
	if err != nil {
		return err.Error()
	}
	if !s.Numeric {
		got /= factor(s.Show)
	}
	half := 0.5 * math.Pow10(-digits)
	if !(math.Abs(got-want) <= half*(1+1e-6)) {
		return fmt.Sprintf("printed operands give %v, printed result is %q", got, result)
	}
	return ""
}

// readNumber reads "−1 234.5 kg" and returns its number and how many digits follow the point.
func readNumber(text, unit string) (v float64, digits int, err error) {
	body, found := strings.CutSuffix(text, unit)
	if !found {
		return 0, 0, fmt.Errorf("%q is not in %q", text, unit)
	}
	body = strings.NewReplacer("\u00a0", "", "−", "-").Replace(body)
	if _, after, point := strings.Cut(body, "."); point {
		digits = len(after)
	}
	v, err = strconv.ParseFloat(body, 64)
	if err != nil {
		return 0, 0, fmt.Errorf("%q is not a number", text)
	}
	return v, digits, nil
}

// numbersFault evaluates the line of numbers itself, where it shows all of them.
func numbersFault(line calc.SlipLine, s calc.Step, steps map[string]calc.Step) string {
	if strings.Contains(line.Numbers, "…") || strings.Contains(line.Formula, "_i") {
		return ""
	}
	units := map[string]float64{}
	for _, o := range steps {
		units[o.Show.Unit] = factor(o.Show)
		if s.Numeric {
			units[o.Show.Unit] = 1
		}
	}
	got, err := evaluate(goSyntax(line.Numbers, units), func(string) (quantity, bool) { return quantity{}, false }, true)
	if err != nil {
		return err.Error()
	}
	return sameDigits(got.v[0], line.Result, s)
}

// goSyntax turns printed numbers with units, "4 992.9 kg·m / 4.035 m", into "(4992.9*1) / (4.035*1)".
func goSyntax(text string, units map[string]float64) string {
	var b strings.Builder
	runes := []rune(strings.NewReplacer("×", "*", "−", "-").Replace(text))
	for i := 0; i < len(runes); {
		if !unicode.IsDigit(runes[i]) {
			b.WriteRune(runes[i])
			i++
			continue
		}
		var num, unit strings.Builder
		for i < len(runes) && (unicode.IsDigit(runes[i]) || runes[i] == '.' ||
			runes[i] == '\u00a0' && i+1 < len(runes) && unicode.IsDigit(runes[i+1])) {
			if runes[i] != '\u00a0' {
				num.WriteRune(runes[i])
			}
			i++
		}
		if i < len(runes) && runes[i] == '\u00a0' {
			for i++; i < len(runes) && !strings.ContainsRune(" ,)", runes[i]); i++ {
				unit.WriteRune(runes[i])
			}
			fmt.Fprintf(&b, "(%s*%v)", num.String(), units[unit.String()])
			continue
		}
		b.WriteString(num.String())
	}
	return b.String()
}
