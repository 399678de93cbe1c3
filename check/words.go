package check

import (
	"strings"

	"berthwright/unit"
)

// Message is a text by its code and arguments; it is rendered once, in the reader's unit system.
// Arguments are strings, Figures, Messages or lists of Messages, named {0}, {1} … in the template.
type Message struct {
	Code string
	Args []any
}

func say(code string, args ...any) Message { return Message{Code: code, Args: args} }

// Text renders the message in English.
func (m Message) Text(sys unit.System) string {
	t, ok := words[m.Code]
	if !ok {
		t, ok = fitWords[m.Code]
	}
	if !ok {
		panic("check: no words for " + m.Code)
	}
	pairs := make([]string, 0, 2*len(m.Args))
	for i, a := range m.Args {
		var s string
		switch v := a.(type) {
		case string:
			s = v
		case Figure:
			s = v.Text(sys)
		case Message:
			s = v.Text(sys)
		case []Message:
			all := make([]string, len(v))
			for k := range v {
				all[k] = v[k].Text(sys)
			}
			s = strings.Join(all, ", ")
		default:
			panic("check: an argument of " + m.Code + " is neither text nor figure nor message")
		}
		pairs = append(pairs, "{"+string(rune('0'+i))+"}", s)
	}
	return strings.NewReplacer(pairs...).Replace(t) // all at once: an argument may hold braces
}

// words holds every sentence a finding is said in.
var words = map[string]string{
	"limit-holds":         "{0}: {1} of {2}, {3} in hand, ± {4}",
	"limit-tight":         "{0}: {1} of {2}, only {3} in hand, ± {4}",
	"limit-fails":         "{0}: {1} of {2}, over by {3}, ± {4}",
	"limit-unknown":       "{0}: not known, {1}",
	"limit-no-limit":      "{0}: {1}; no limit is given",
	"at-least-fails":      "{0}: already {1} of {2} with what is listed, over by {3}",
	"share-holds":         "lowest front-axle share {0}; at least {1} is wanted",
	"share-holds-coupled": "lowest front-axle share with the trailer {0}; at least {1} is wanted",
	"share-fails-coupled": "lowest front-axle share with the trailer {0}; at least {1} is wanted: the front axle lacks {2}",
	"share-fails":         "lowest front-axle share {0}; at least {1} is wanted: the front axle lacks {2}",
	"side":                "{0} of the load is on the {1} side, {2} more than on the other; base makers often ask for at most {3}",
	"no-luggage":          "payload is not known: no luggage is declared",
	"paymass-holds":       "{0} left after everybody's {2}; the least pay-mass 10 (n + L) is {1}",
	"paymass-fails":       "{0} left after everybody's {2}, less than the least pay-mass 10 (n + L) of {1}",
	"overload":            "with everything brim-full it can be overloaded by {0}",
	"overload-none":       "even brim-full it stays {0} below the plate",
	"belts-hold":          "{0} belted seats for {1} people",
	"belts-fail":          "{0} belted seats for {1} people",
	"seat-none":           "{0} has no seat",
	"seat-unknown-id":     "{0} is given the seat {1}, which is not among the items",
	"seat-twice":          "{0} and {1} share one seat",
	"seat-unbelted":       "{0} travels in {1}, which has no belt",
	"seat-belt-open":      "{0} travels in {1}; whether it has a belt is not said",
	"seat-side":           "{0} travels in {1}, which faces sideways; side-facing places are not counted as belted seats",
	"seat-unplanned":      "{0} travels in {1}, which the plan does not use when driving",
	"ticket-sum":          "the ticket contradicts itself: front {0} and rear {1} make {2}, but the total reads {3}",
	"ticket-sides":        "the ticket contradicts itself: left {0} and right {1} make {2}, the axles {3}",
	"plate-sum":           "the axle plates add up to {0}, less than the plated total {1}",
	"plate-holds":         "the axle plates add up to {0}; the plated total is {1}",
	"plate-over":          "the plated {0} of {1} is more than the plated total of {2}",
	"plate-under":         "the plated {0} of {1} is less than the {2} of the empty van",
	"plate-front":         "the front tyres carry {0}, less than the axle plate of {1}",
	"plate-rear":          "the rear tyres carry {0}, less than the axle plate of {1}",
	"doubled":             "{0}",
	"closing-holds":       "the tapes close to {0}",
	"closing-fails":       "the tapes do not close: {0} between the bulkhead and rear door lines; measure again above {1}",
	"hubs":                "hub to hub differs by {0} between left and right; measure again above {1}",
	"wheel-box":           "the middle of the wheel-box lies {0} from the rear axle; above {1} one tape is wrong",
	"line-moved":          "{0} is written as {1}, but the tapes give {2}",
	"licence-holds":       "plated {0}: within what licence class {1} covers ({2})",
	"licence-fails":       "plated {0}: more than licence class {1} covers ({2})",
	"speed-holds":         "unladen {0}: the speed limits of a car apply up to {1}",
	"speed-fails":         "unladen {0}: above {1} lower speed limits apply",
	"promise-holds":       "promised: {0}; {1}",
	"promise-fails":       "promised: {0}; but {1}",
	"promise-unknown":     "promised: {0}; not known yet",
	"mass-missing":        "no mass: {0}",
	"place-missing":       "no place: {0}",
	"typical-left":        "{0} left with the seats taken and all tanks full, before luggage; a finished four-berth van of 3.5 t usually has {1} to {2}",
	"weigh-first":         "the empty van is not weighed: {0}",
	"reconcile-fits":      "the weighings agree with the sum of parts: misfit {0}, refused above {1} ({2})",
	"reconcile-refused":   "the weighings do not agree with the sum of parts: misfit {0}, refused above {1} ({2}); look at the suspects first",
	"rules-none":          "no rules apply: the build has no country or no date",
	"ticket-leads":        "the finished van was weighed: front {0}, rear {1}; the sum of parts gives {2} and {3}",
	"ticket-leads-alone":  "the finished van was weighed: front {0}, rear {1}; the sum of parts is not known",
	"declared-holds":      "running order by the papers {0}, as weighed {1}; {2} either way is allowed",
	"declared-fails":      "running order by the papers {0}, as weighed {1}: further apart than {2}",
	"occupants-hold":      "occupant and cargo capacity {0}; {1} at {2} each are {3}",
	"occupants-fail":      "occupant and cargo capacity {0}, less than {3} for {1} at {2} each",
	"added-little":        "{0} are added before the first sale; up to {1} need not be told on the labels",
	"added-much":          "{0} are added before the first sale, more than {1}: the labels must tell it",
	"told":                "{0}",
	"licence-pending":     "plated {0}: class {1} is adopted and not applied here yet. {2}",
	"licence-train-fails": "plated {0} with a train of {3}: more than licence class {1} covers ({2} together)",

	"case-dry":              "nobody aboard, no fuel, tanks empty",
	"case-rule":             "{0}",
	"case-unloaded":         "nobody aboard; fuel and gas full, water counts as cargo",
	"case-approval":         "{0} × {1}, all fluids full but waste, pay-mass {2} over the luggage zones behind the cab",
	"case-party":            "{0}; {1}; luggage {2}",
	"case-worst":            "the declared plan at its worst, people at the larger of {0} and their own mass, {1}",
	"case-worst-no-luggage": "the declared plan at its worst, people at the larger of {0} and their own mass, {1}; no luggage is counted, for none is declared",
	"case-share":            "the declared plan with the lowest share on the front axle, {0}",
	"case-brim":             "every tank, seat and luggage zone full, whatever the plan allows",
	"party-own":             "{0} {1}",
	"party-assumed":         "{0} {1} (assumed)",
	"party-nobody":          "nobody is named",
	"party-fill":            "{0} {1}",
	"party-dry":             "nothing filled",
	"party-carried":         "{0} × {1}",

	"promise-payload": "{0} left for luggage, the {1} ends it",
	"promise-plated":  "plated {0}",

	"mend-leaves":  "leaves {0} in hand on the {1}",
	"mend-short":   "not enough: still {0} over on the {1}",
	"mend-out":     "leave out {0}: {1}",
	"mend-forward": "move {0} {1} forward: {2}",
	"mend-back":    "move {0} {1} back: {2}",
}
