package check

import (
	"strings"

	"berthwright/unit"
)

// Message is a text by its code and arguments; it is rendered once, in the reader's unit system.
// Arguments are strings or Figures, named {0}, {1} … in the template.
type Message struct {
	Code string
	Args []any
}

func say(code string, args ...any) Message { return Message{Code: code, Args: args} }

// Text renders the message in English.
func (m Message) Text(sys unit.System) string {
	t, ok := words[m.Code]
	if !ok {
		panic("check: no words for " + m.Code)
	}
	for i, a := range m.Args {
		var s string
		switch v := a.(type) {
		case string:
			s = v
		case Figure:
			s = v.Text(sys)
		default:
			panic("check: an argument of " + m.Code + " is neither text nor figure")
		}
		t = strings.ReplaceAll(t, "{"+string(rune('0'+i))+"}", s)
	}
	return t
}

// words holds every sentence a finding is said in.
var words = map[string]string{
	"limit-holds":       "{0}: {1} of {2}, {3} in hand, ± {4}",
	"limit-tight":       "{0}: {1} of {2}, only {3} in hand, ± {4}",
	"limit-fails":       "{0}: {1} of {2}, over by {3}, ± {4}",
	"limit-unknown":     "{0}: not known, {1}",
	"limit-no-limit":    "{0}: {1}; no limit is given",
	"at-least-fails":    "{0}: already {1} of {2} with what is listed, over by {3}",
	"share-holds":       "lowest front-axle share {0}; at least {1} is wanted",
	"share-fails":       "lowest front-axle share {0}; at least {1} is wanted: the front axle lacks {2}",
	"side":              "{0} of the load is on the {1} side, {2} more than on the other; base makers often ask for at most {3}",
	"no-luggage":        "payload is not known: no luggage is declared",
	"paymass-holds":     "{0} left after everybody's 75 kg; the least pay-mass 10 (n + L) is {1}",
	"paymass-fails":     "{0} left after everybody's 75 kg, less than the least pay-mass 10 (n + L) of {1}",
	"overload":          "with everything brim-full it can be overloaded by {0}",
	"overload-none":     "even brim-full it stays {0} below the plate",
	"belts-hold":        "{0} belted seats for {1} people",
	"belts-fail":        "{0} belted seats for {1} people",
	"seat-none":         "{0} has no seat",
	"seat-unknown-id":   "{0} is given the seat {1}, which is not among the items",
	"seat-twice":        "{0} and {1} share one seat",
	"seat-unbelted":     "{0} travels in {1}, which has no belt",
	"seat-belt-open":    "{0} travels in {1}; whether it has a belt is not said",
	"seat-side":         "{0} travels in {1}, which faces sideways; side-facing places are not counted as belted seats",
	"seat-unplanned":    "{0} travels in {1}, which the plan does not use when driving",
	"ticket-sum":        "the ticket contradicts itself: front {0} and rear {1} make {2}, but the total reads {3}",
	"ticket-sides":      "the ticket contradicts itself: left {0} and right {1} make {2}, the axles {3}",
	"plate-sum":         "the axle plates add up to {0}, less than the plated total {1}",
	"plate-front":       "the front tyres carry {0}, less than the axle plate of {1}",
	"plate-rear":        "the rear tyres carry {0}, less than the axle plate of {1}",
	"doubled":           "{0}",
	"closing-holds":     "the tapes close to {0}",
	"closing-fails":     "the tapes do not close: {0} between the bulkhead and rear door lines; measure again above {1}",
	"hubs":              "hub to hub differs by {0} between left and right; measure again above {1}",
	"wheel-box":         "the middle of the wheel-box lies {0} from the rear axle; above {1} one tape is wrong",
	"line-moved":        "{0} is written as {1}, but the tapes give {2}",
	"licence-holds":     "plated {0}: within what licence class {1} covers ({2})",
	"licence-fails":     "plated {0}: more than licence class {1} covers ({2})",
	"speed-holds":       "unladen {0}: the speed limits of a car apply up to {1}",
	"speed-fails":       "unladen {0}: above {1} lower speed limits apply",
	"promise-holds":     "promised: {0}; {1}",
	"promise-fails":     "promised: {0}; but {1}",
	"promise-unknown":   "promised: {0}; not known yet",
	"roof-inspected":    "{0}",
	"train":             "{0}",
	"mass-missing":      "no mass: {0}",
	"place-missing":     "no place: {0}",
	"typical-left":      "{0} left with the party aboard; finished four-berth vans of this class usually have 300 to 400 kg left",
	"weigh-first":       "the empty van is not weighed: {0}",
	"reconcile-fits":    "the weighings agree with the sum of parts: misfit {0}, refused above {1} ({2})",
	"reconcile-refused": "the weighings do not agree with the sum of parts: misfit {0}, refused above {1} ({2}); look at the suspects first",
	"rules-none":        "no rules apply: the build has no country or no date",
	"ticket-leads":      "the finished van was weighed: front {0}, rear {1}; the sum of parts gives {2} and {3}",
}
