package web

// WheelsView is the load on each wheel in the deciding case, as a band: how the side moment is shared between the axles
// is not known.
type WheelsView struct {
	Case  string      `json:"case"`
	Basis string      `json:"basis"`
	Rows  []WheelLoad `json:"rows"` // front left, front right, rear left, rear right
}

// WheelLoad is one wheel.
type WheelLoad struct {
	Name string   `json:"name"`
	Low  Quantity `json:"low"`
	High Quantity `json:"high"`
}

// PlateView is one plated set under the same plan: what it leaves in the worst case.
type PlateView struct {
	Name    string    `json:"name"`
	Basis   string    `json:"basis,omitempty"`
	Paper   string    `json:"paper,omitempty"`
	InUse   bool      `json:"inUse"`
	Total   *Quantity `json:"total,omitempty"` // in hand; absent while it is not known
	Front   *Quantity `json:"front,omitempty"`
	Rear    *Quantity `json:"rear,omitempty"`
	Verdict string    `json:"verdict"`
}

// StandingView is the finished van, dry and nobody aboard, in a state in which something stands elsewhere than when
// travelling.
type StandingView struct {
	State string      `json:"state"`
	Name  string      `json:"name"`
	Lines []NamedMass `json:"lines"`
}

// NamedMass is a mass with what it is of.
type NamedMass struct {
	Name  string   `json:"name"`
	Value Quantity `json:"value"`
}

// SwapView is the same kit and plan in two base vans, side by side. Nothing is stored; an Edit of kind "van" does it.
type SwapView struct {
	Diff   DiffView   `json:"diff"`
	Before []Sentence `json:"before"` // what the strip says now
	After  []Sentence `json:"after"`  // what it would say
	Notes  []string   `json:"notes"`  // what then stands behind the rear door line, or has no place
}
