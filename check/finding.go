// Package check answers: what holds, what does not, by how much, and who says so?
//
// One file per concern holds a table of checks. A check compares what a science computed with a limit and cites both; it
// computes no physics. Verdicts follow one rule (Judge); texts are made once, from a code and its arguments.
package check

import (
	"math"
	"strconv"

	"berthwright/calc"
	"berthwright/unit"
)

// Verdict is the answer of a check. The zero Verdict is Unknown.
type Verdict uint8

// The verdicts, in the order of a report: worst last.
const (
	Unknown     Verdict = iota // an input is missing, and is named
	NotBegun                   // nobody has begun this concern
	Holds                      // the margin is at least its 95 % half-width
	Tight                      // the margin is from 0 to that
	DoesNotHold                // the margin is below 0
)

// String returns the word for v, as it stands in JSON.
func (v Verdict) String() string {
	return [...]string{"unknown", "not-begun", "holds", "tight", "does-not-hold"}[v]
}

// Says returns the word for v, as people read it.
func (v Verdict) Says() string {
	return [...]string{"unknown", "not begun", "holds", "tight", "does not hold"}[v]
}

// Of returns how many have the verdict, in words: "1 does not hold", "2 do not hold".
func (v Verdict) Of(n int) string {
	says := v.Says()
	if n != 1 {
		switch v {
		case Holds:
			says = "hold"
		case DoesNotHold:
			says = "do not hold"
		}
	}
	return strconv.Itoa(n) + " " + says
}

// rank orders verdicts worst first.
func (v Verdict) rank() int {
	return [...]int{2, 4, 3, 1, 0}[v]
}

// Judge turns a margin and its 95 % half-width into a verdict. A margin that is no number, or a half-width that is none
// or negative, is Unknown.
func Judge(margin, half float64) Verdict {
	switch {
	case math.IsNaN(margin) || !(half >= 0):
		return Unknown
	case margin < 0:
		return DoesNotHold
	case margin >= half:
		return Holds
	}
	return Tight
}

// Figure is one value of a finding, in coherent SI units.
type Figure struct {
	Kind   unit.Kind // NoKind for a plain count
	SI     float64
	Digits int // printed after the point in metric
}

// Kg returns a mass as a figure of whole kilograms.
func Kg(m unit.Mass) Figure { return Figure{Kind: unit.KindMass, SI: m.Kilograms()} }

// Finding is the answer of one check for one state, case and subject.
type Finding struct {
	Check    string // "axle-rear"
	Concern  string // "weight"
	Title    string
	State    string
	Case     string
	Subject  string // tells findings of one check apart: an item's id, a person's
	Verdict  Verdict
	Value    unit.Opt[Figure]
	Limit    unit.Opt[Figure]
	Margin   unit.Opt[Figure] // positive when it holds
	Half     unit.Opt[Figure] // 95 % half-width of the margin
	Says     Message
	Basis    string // how the value is known
	Level    calc.Evidence
	Rule     string // id of the rule, or what sets the limit
	Sources  []calc.Cite
	Subjects []Subject
	Missing  []Subject
	Advice   string
	Caution  string
	Slip     string // id of the working behind it
	Moves    []Move // each clears it
	Advisory bool   // no limit of a rule: said, never counted as failing
}

// Key is stable over runs and revisions: check, state, case, subject.
func (f Finding) Key() string {
	k := f.Check + "/" + f.State + "/" + f.Case
	if f.Subject != "" {
		k += "/" + f.Subject
	}
	return k
}

// Evidence returns the word for how the limit of f is known; what rests on the build itself was read in no publication.
func (f Finding) Evidence() string {
	if own, _ := f.ownEvidence(); own != "" {
		return own
	}
	return f.Level.String()
}

// EvidenceSays returns Evidence as a phrase that explains it.
func (f Finding) EvidenceSays() string {
	if _, own := f.ownEvidence(); own != "" {
		return own
	}
	return f.Level.Says()
}

func (f Finding) ownEvidence() (word, says string) {
	if len(f.Sources) == 0 {
		return "", ""
	}
	switch c := f.Sources[0]; {
	case c == byPromise:
		return "promised", "promised in this build"
	case c.Key == "geometry":
		return "geometry", "geometry of this build"
	case c.Key == "plate" && f.Level == calc.Seen:
		return "plate", "read on the plate of this van"
	case c.Key == "body-builder" && f.Level == calc.Seen:
		return "read by the workshop", "read by the workshop in the papers of this van"
	}
	return "", ""
}

// Subject is something in the build that a finding speaks of.
type Subject struct {
	Path string
	Name string
	At   [3]unit.Opt[unit.Length] // van axes, z from the bare floor; for a leader
}

// Worse reports whether a stands before b in a report.
func Worse(a, b *Finding) bool {
	if a.Advisory != b.Advisory && (a.Verdict == DoesNotHold || b.Verdict == DoesNotHold) {
		return b.Advisory
	}
	if ra, rb := a.Verdict.rank(), b.Verdict.rank(); ra != rb {
		return ra < rb
	}
	ma, oka := a.Margin.Get()
	mb, okb := b.Margin.Get()
	if oka && okb && ma.Kind == mb.Kind && ma.SI != mb.SI {
		return ma.SI < mb.SI
	}
	return false
}

// Text prints f in the reader's unit system.
func (f Figure) Text(sys unit.System) string {
	if f.Kind == unit.NoKind {
		return strconv.FormatFloat(f.SI, 'f', f.Digits, 64)
	}
	return unit.FormatSI(f.Kind, f.SI, sys, f.Digits)
}
