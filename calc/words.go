package calc

// String returns the word that screens and papers print for the level.
func (e Evidence) String() string {
	switch e {
	case Seen:
		return "seen"
	case Secondary:
		return "secondary"
	case Recalled:
		return "recalled"
	case Confirmed:
		return "confirmed"
	}
	return "unsourced"
}

// Says returns one sentence that explains the level to a reader.
func (e Evidence) Says() string {
	switch e {
	case Seen:
		return "read in the publication itself"
	case Secondary:
		return "read in a text that quotes the publication"
	case Recalled:
		return "from memory of the publication, which was not read"
	case Confirmed:
		return "confirmed by the workshop from its own copy"
	}
	return "common practice or a default, no publication"
}

// String returns the word that screens and papers print for the kind.
func (k Kind) String() string {
	switch k {
	case Given:
		return "given"
	case Constant:
		return "constant"
	case Assumed:
		return "assumed"
	case Derived:
		return "derived"
	case Limit:
		return "limit"
	case Choice:
		return "choice"
	}
	return "invalid kind"
}
