// Package source answers: which publication does this citation mean, and does it still stand?
//
// Every publication that a calc.Cite names is registered here once. A new edition is a new key, so
// that a build of an older date keeps citing what it was judged by. Only number, clause and value
// are stored anywhere in the program, never the text of a publication. Pages of makers of parts or
// vehicles are not registered.
package source

// Publication is one registered publication.
type Publication struct {
	Key          string // "eu-1230-2012"; never changed or reused
	Kind         Kind
	Number       string // "Regulation (EU) No 1230/2012"; empty when it has none
	Edition      string // edition or year
	Title        string // as published, or in our words when it has no title
	Language     string // two letters
	URL          string // public legal and standards sites only; may be empty
	Status       Status
	SupersededBy string // key; set when Status is Superseded or Repealed and the successor is registered
	Note         string
}

// Kind tells what a Publication is. The zero value is invalid.
type Kind uint8

// The kinds of Publication.
const (
	_ Kind = iota
	Regulation
	Standard
	Handbook
	Paper
	DataSheet
	Guidance
	Practice // no publication: what the trade does
)

// String returns the word for the kind.
func (k Kind) String() string {
	switch k {
	case Regulation:
		return "regulation"
	case Standard:
		return "standard"
	case Handbook:
		return "handbook"
	case Paper:
		return "paper"
	case DataSheet:
		return "data sheet"
	case Guidance:
		return "guidance"
	case Practice:
		return "practice"
	}
	return "invalid kind"
}

// Status tells whether a Publication stands. The zero value is Unchecked.
type Status uint8

// The states of a Publication.
const (
	Unchecked  Status = iota // nobody has looked
	InForce                  // stands, as far as we know
	Adopted                  // published, not applicable yet
	Superseded               // replaced by a newer edition
	Repealed                 // no longer applies where it was made
)

// String returns the words for the status.
func (s Status) String() string {
	switch s {
	case InForce:
		return "in force"
	case Adopted:
		return "adopted, not applicable yet"
	case Superseded:
		return "superseded"
	case Repealed:
		return "repealed"
	}
	return "not checked"
}

// Find returns the publication with the key.
func Find(key string) (Publication, bool) {
	for _, p := range register {
		if p.Key == key {
			return p, true
		}
	}
	return Publication{}, false
}

// All returns every publication, sorted by key.
func All() []Publication {
	return append([]Publication(nil), register...)
}

// Name returns how people name the publication: its number, else its title, with the edition.
func (p Publication) Name() string {
	name := p.Number
	if name == "" {
		name = p.Title
	}
	if p.Edition != "" {
		name += " (" + p.Edition + ")"
	}
	return name
}
