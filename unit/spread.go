package unit

import (
	"math/big"
	"strings"
)

// spreadSign returns the length of the ± at the current place, or 0.
func (p *reader) spreadSign() int {
	for _, sign := range []string{"±", "+/-", "+/−", "+-"} {
		if strings.HasPrefix(p.text[p.at:], sign) {
			return len(sign)
		}
	}
	return 0
}

// spread reads what follows the ± at sign.
func (p *reader) spread(sign int) (s Spread, text string, err *ParseError) {
	p.space()
	at := p.at
	if !p.kind.HasSpread() {
		return s, "", p.fail(CodeBadSpread, sign, len(p.text), p.subject()+" takes no spread here", "write "+quote(strings.TrimSpace(p.text[:sign])))
	}
	q := *p
	if p.text[at:] != "" && strings.ContainsRune(p.text[at:], '%') {
		q.kind = KindRatio
	}
	q.strict = true
	l, err := q.literal()
	p.at = q.at
	switch {
	case err != nil:
		err.Kind = p.kind
		return s, "", err
	case l.unit == nil:
		n := l.text
		return s, "", p.fail(CodeMissingUnit, at, l.end, p.subject()+" has a spread without a unit", "write "+quote("± "+n+" %")+" or "+quote("± "+join(n, p.column.name())))
	case l.signed || l.value.Sign() < 0:
		return s, "", p.fail(CodeBadSpread, at, l.end, p.subject()+" has a spread with a sign", "write it without the sign")
	case q.kind == KindRatio && (l.unit.name() != "%" || l.value.Cmp(big.NewRat(10, 1)) > 0):
		return s, "", p.fail(CodeBadSpread, at, l.end, p.subject()+" has a spread above 1000 %", "")
	}
	q.kind = q.kind.Base()
	f, _, err := q.size(&l)
	if err != nil {
		return s, "", err
	}
	if q.kind == KindRatio {
		return Spread{Kind: Relative, Rel: Ratio(f)}, l.text, nil
	}
	return Spread{Kind: Absolute, Abs: f}, l.text, nil
}
