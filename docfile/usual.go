package docfile

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"berthwright/diag"
	"berthwright/doc"
	"berthwright/unit"
)

const (
	usualSpread  = 60 * unit.Percent      // of a mass; common practice, no source
	usualOutside = 1000 * unit.Millimetre // of a mass centre beyond the ends of the van; common practice, no source
)

// unusual warns of a value that is possible but far from usual: n has been read as val, of size si.
func (b *binder) unusual(n *node, f *doc.Field, val any, si float64) {
	usually := f.Usually()
	if usually == "" {
		return
	}
	if !(si >= f.UsualMin && si <= f.UsualMax) {
		b.say(n, diag.FarFromUsual, args(f.Key, n.value), acceptHint("usually "+usually, b.at()))
	}
	if m, ok := val.(unit.MassEst); ok {
		if half, ok := m.Half().Get(); ok && half > usualSpread.Of(m.Value) {
			p := b.say(n, diag.FarFromUsual, args(f.Key, n.value), acceptHint("the spread is a 95 % half-width, usually less than 60 %", b.at()))
			p.message = "the spread of {key} {text} is far from usual"
		}
	}
}

func acceptHint(says, path string) string {
	return fmt.Sprintf("%s; where it is right, say why: accepted: [{code: %s, path: %s, reason: ...}]", says, diag.FarFromUsual, path)
}

// outside warns of items whose mass centre is given far ahead of the van or far behind it. The ends of the van are its
// overhang and length, or the rear door line; an end that is not given is not looked at.
func (f *File) outside() []problem {
	van := &f.Build.Van
	front, rear := math.Inf(-1), math.Inf(1)
	if o, ok := van.Overhang.Get(); ok {
		front = -o.Metres()
		if l, ok := van.Length.Get(); ok {
			rear = front + l.Metres()
		}
	}
	if r, ok := van.Floor.Rear.Get(); ok && math.IsInf(rear, 1) {
		rear = r.Metres()
	}
	front, rear = front-usualOutside.Metres(), rear+usualOutside.Metres()
	var out []problem
	for i := range f.parts {
		p := &f.parts[i]
		if p.item < 0 {
			continue
		}
		it := &f.Build.Items[p.item]
		at, ok := it.At.X.Get()
		if !ok {
			continue
		}
		sin, cos := math.Sincos(it.Turn.Else(0).Radians())
		x := at.Metres() + it.Centre.X.Else(0).Metres()*cos - it.Centre.Y.Else(0).Metres()*sin
		where := ""
		switch {
		case x < front:
			where = "ahead of"
		case x > rear:
			where = "behind"
		default:
			continue
		}
		n := f.root.get("items").items[p.item].below("at/x")
		path := "items/" + p.name + "/at/x"
		out = append(out, problem{
			start: n.start, end: n.end, path: path, code: diag.FarFromUsual,
			message: "{key} {text} puts the mass centre more than 1 m {where} the van", args: diag.Args{"key": quote("x"), "text": quote(n.value), "where": where},
			hint: acceptHint("x is measured rearwards from the front axle", path),
		})
		if len(out) == maxProblems {
			break
		}
	}
	return out
}

// accept takes out the warnings that the text accepts with a reason, and reports entries that accept nothing. accepted
// is bound from the list accepted in root.
func accept(problems []problem, root *node, accepted []doc.Accepted) []problem {
	if len(accepted) == 0 {
		return problems
	}
	full := len(problems) >= maxProblems // then more was found than is told
	used := make([]bool, len(accepted))
	covered := func(p problem) bool {
		if p.code.Severity() != diag.Warning {
			return false
		}
		hit := false
		for i, a := range accepted {
			if a.Reason != "" && diag.Code(a.Code) == p.code && (a.Path == "" || a.Path == p.path || strings.HasPrefix(p.path, a.Path+"/")) {
				used[i], hit = true, true
			}
		}
		return hit
	}
	problems = slices.DeleteFunc(problems, covered)
	for i, a := range accepted {
		entry := root.get("accepted").items[i]
		path := fmt.Sprintf("accepted/#%d", i+1)
		code := diag.Code(a.Code)
		switch n := entry.get("code"); {
		case a.Code == "":
		case !code.Known() || code.Severity() != diag.Warning:
			problems = append(problems, problem{
				start: n.start, end: n.end, path: path + "/code", code: diag.UnknownCode, args: args("code", a.Code),
				hint: nearHint(a.Code, warnings(), "one of: "+strings.Join(warnings(), ", ")),
			})
		case code == diag.FarFromUsual && a.Reason != "" && !used[i] && !full: // the other warnings are not given here
			p := problem{
				start: n.start, end: n.end, path: path, code: diag.AcceptedNothing, args: args("code", a.Code), hint: "take the entry out, or mend its path",
			}
			if !covered(p) {
				problems = append(problems, p)
			}
		}
	}
	return problems
}

func warnings() []string {
	var all []string
	for _, c := range diag.Codes() {
		if c.Severity == diag.Warning {
			all = append(all, string(c.Code))
		}
	}
	return all
}
