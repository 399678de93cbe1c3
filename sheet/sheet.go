// Package sheet answers: what stands on the sheets of this build?
//
// It assesses a build whole, once, and puts the answers into drawings and papers. It decides nothing: figures come from
// the sciences, verdicts from check, places from derive. Screen, paper and command line start from the same Sheet.
package sheet

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"reflect"
	"sync"

	"berthwright/check"
	"berthwright/derive"
	"berthwright/doc"
	"berthwright/parts"
	"berthwright/rules"
	"berthwright/unit"
)

// Sheet is one build, assessed.
type Sheet struct {
	Build  doc.Build
	Weight *check.Weight
	Pack   rules.Pack

	ctx    derive.Context
	van    derive.Van
	placed map[derive.State][]derive.Placed

	fitOnce sync.Once
	fit     *check.Fit

	outlines outlines

	clearsOnce sync.Once
	clears     []check.Mend
}

// Assess assesses a build; rec may be nil. It never fails: what is missing or wrong is unknown, and named.
func Assess(b doc.Build, ctx derive.Context, rec *doc.Record) *Sheet { return After(nil, b, ctx, rec) }

// After is Assess with the sheet of the revision before: a concern is recomputed if and only if its input differs from
// the one it was last computed from.
func After(last *Sheet, b doc.Build, ctx derive.Context, rec *doc.Record) *Sheet {
	s := &Sheet{Build: b, ctx: ctx, van: ctx.Van(b.Van), placed: map[derive.State][]derive.Placed{}}
	date, _ := b.Head.Date.Get()
	if pack, err := rules.For(b.Head.Country, date); err == nil {
		confirmed := make([]rules.Confirmation, 0, len(ctx.Shop.Confirmed))
		for _, c := range ctx.Shop.Confirmed {
			day, _ := c.Date.Get()
			confirmed = append(confirmed, rules.Confirmation{Rule: c.Rule, Edition: c.Edition, Clause: c.Clause, Initials: c.Initials, Date: day})
		}
		s.Pack, _ = pack.Confirm(confirmed)
	}
	in := derive.MakeWeight(b, ctx, rec)
	if last != nil && last.Pack.Country == s.Pack.Country && last.Pack.Date == s.Pack.Date && reflect.DeepEqual(last.Weight.Given, in) {
		s.Weight = last.Weight
		return s
	}
	s.Weight = check.AssessWeight(in, s.Pack)
	return s
}

// Placed returns the items in a state, in the order of the file.
func (s *Sheet) Placed(state derive.State) []derive.Placed {
	p, ok := s.placed[state]
	if !ok {
		p = derive.Place(s.Build, s.van, state)
		s.placed[state] = p
	}
	return p
}

// Van returns the base van with its lines resolved.
func (s *Sheet) Van() derive.Van { return s.van }

// System returns the unit system the build is read in.
func (s *Sheet) System() unit.System {
	switch {
	case s.Build.Head.Units == "imperial" && s.Build.Head.Country == "us":
		return unit.US
	case s.Build.Head.Units == "imperial":
		return unit.Imperial
	}
	return unit.Metric
}

// Basis returns the lines that date a result: rules, catalogue, day.
func (s *Sheet) Basis() []string {
	out := []string{"parts edition " + parts.Edition}
	if s.Pack.Country == "" {
		return append(out, "no rules: the build has no country or no date")
	}
	return append(out, fmt.Sprintf("rules of %s on %04d-%02d-%02d", s.Pack.Country, s.Pack.Date.Year, s.Pack.Date.Month, s.Pack.Date.Day))
}

// Hash returns the hash of a build's text, as printed on papers: the first twelve hex digits of its SHA-256.
func Hash(text []byte) string {
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:])[:12]
}

// Program names the program and its version, as results and papers print it.
const Program = "berthwright 0.1.0"
