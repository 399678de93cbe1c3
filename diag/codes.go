package diag

// Code names a kind of trouble. It never changes once released: people accept warnings by it.
type Code string

// CodeInfo describes a Code.
type CodeInfo struct {
	Code     Code
	Severity Severity
	Template string // message where the Diagnostic brings none; {text} is the offending text, {key} the key
	Help     string // one or two sentences for the reference page
}

// Codes returns the declared list, in the order of the reference page.
func Codes() []CodeInfo { return append([]CodeInfo(nil), codes...) }

// Known reports whether c is on the declared list.
func (c Code) Known() bool { return c.info().Code != "" }

// Severity returns the severity of c; an undeclared code is an Error.
func (c Code) Severity() Severity {
	if s := c.info().Severity; s != 0 {
		return s
	}
	return Error
}

// Template returns the message of c; an undeclared code says itself.
func (c Code) Template() string {
	if t := c.info().Template; t != "" {
		return t
	}
	return string(c)
}

func (c Code) info() CodeInfo {
	for _, i := range codes {
		if i.Code == c {
			return i
		}
	}
	return CodeInfo{}
}

// The declared codes.
const (
	Unreadable       Code = "unreadable"
	NotUTF8          Code = "not-utf8"
	TooLarge         Code = "too-large"
	TooDeep          Code = "deep"
	Anchor           Code = "anchor"
	Alias            Code = "alias"
	Tag              Code = "tag"
	Pair             Code = "pair"
	Key              Code = "key"
	Entry            Code = "list"
	Bracket          Code = "bracket"
	Quote            Code = "quote"
	Indent           Code = "indent"
	Tab              Code = "tab"
	Documents        Code = "documents"
	Control          Code = "control"
	NewerVersion     Code = "newer-version"
	TooManyItems     Code = "too-many-items"
	UnknownKey       Code = "unknown-key"
	DuplicateKey     Code = "duplicate-key"
	MissingKey       Code = "missing-key"
	NotAMapping      Code = "not-a-mapping"
	NotAList         Code = "not-a-list"
	NotAValue        Code = "not-a-value"
	EmptyEntry       Code = "empty-entry"
	MissingUnit      Code = "missing-unit"
	WrongUnit        Code = "wrong-unit"
	UnknownUnit      Code = "unknown-unit"
	NotANumber       Code = "not-a-number"
	AmbiguousNumber  Code = "ambiguous-number"
	ExtraText        Code = "extra-text"
	BadSpread        Code = "bad-spread"
	BadSum           Code = "bad-sum"
	NotAWholeNumber  Code = "not-a-whole-number"
	OutOfRange       Code = "out-of-range"
	TooLong          Code = "too-long"
	UnknownWord      Code = "unknown-word"
	BadDate          Code = "not-a-date"
	BadBoolean       Code = "not-true-or-false"
	BadID            Code = "bad-id"
	UnknownID        Code = "unknown-id"
	DuplicateID      Code = "duplicate-id"
	NotTogether      Code = "not-together"
	OutOfOrder       Code = "out-of-order"
	InTicket         Code = "in-ticket"
	FarFromUsual     Code = "far-from-usual"
	AcceptedNothing  Code = "accepted-nothing"
	UnknownCode      Code = "unknown-code"
	NewerPartEdition Code = "newer-part"
)

var codes = []CodeInfo{
	{Unreadable, Error, "this is not readable as YAML", "The text breaks the rules of YAML at this place. It is kept as a draft beside the last good revision."},
	{NotUTF8, Error, "byte {text} is not UTF-8", "The file must be UTF-8 text. Save it again with that encoding."},
	{TooLarge, Error, "{text} is too large", "The text or the figure is beyond what is read: a build text has at most 2 MB, a quantity at most the limit of its kind."},
	{TooDeep, Error, "brackets and indents are too deep here", "The text is nested deeper than any build needs."},
	{Anchor, Error, "anchors are not read", "A build has no YAML anchors (&name): each value is written where it belongs, so that an edit changes one place."},
	{Alias, Error, "aliases are not read", "A build has no YAML aliases (*name): each value is written where it belongs."},
	{Tag, Error, "tags are not read", "A build has no YAML tags (!name): the key alone tells what a value is."},
	{Pair, Error, "a key inside a list has no brackets of its own", "Inside square brackets, a key with its value needs braces around it."},
	{Key, Error, "a key must be plain text with a colon", "A key is a plain word followed by a colon and a space."},
	{Entry, Error, "an entry of a list has no dash", "Each entry of a list begins with a dash at the same indent."},
	{Bracket, Error, "a bracket is not closed where it should be", "Each opening bracket needs its closing one, with commas between the entries."},
	{Quote, Error, "a quotation mark is not closed", "A value that begins with a quotation mark ends with the same mark."},
	{Indent, Error, "this line is indented differently from its neighbours", "Keys of one thing begin in the same column."},
	{Tab, Error, "a tab cannot indent a line", "Lines are indented with spaces."},
	{Documents, Error, "a second document begins here", "A file holds one build."},
	{Control, Error, "a control character stands here", "Only printable characters, spaces and line ends are read."},
	{NewerVersion, Error, "this file has version {text}, which this program does not read", "The file was written by a newer program. It is refused whole, so that nothing in it is lost."},
	{TooManyItems, Error, "there are {text} items, more than are read", "A build has at most 2,000 items."},
	{UnknownKey, Error, "key {text} is not known here", "The key is misspelled or stands in the wrong place. Its value is not read."},
	{DuplicateKey, Error, "key {text} stands here twice", "A key may be given once. The first one is read."},
	{MissingKey, Error, "key {text} is missing here", "The entry cannot be read without this key."},
	{NotAMapping, Error, "{key} needs keys with values", "Here belong keys with their values, not a single value or a list."},
	{NotAList, Error, "{key} is a list", "Here belongs a list, each entry with a dash."},
	{NotAValue, Error, "{key} is a single value", "Here belongs one value, not a list or keys."},
	{EmptyEntry, Error, "this entry of {key} is empty", "An entry without content is not read."},
	{MissingUnit, Error, "{key} {text} has no unit", "In a file every quantity carries its unit, so that a data sheet in grams cannot be taken for kilograms."},
	{WrongUnit, Error, "{text} does not have the unit of {key}", "The unit measures another kind of quantity, as Ah is a charge and not a mass."},
	{UnknownUnit, Error, "{key} {text} has no known unit", "The word behind the number is not a unit that is read here."},
	{NotANumber, Error, "{key} {text} has no number where one is needed", "A number is written with digits and at most one point or comma; exponents, NaN and Inf are not read."},
	{AmbiguousNumber, Error, "{key} {text} could be a decimal comma or one between thousands", "1,250 could be 1.25 or 1250. Write a point before decimals and nothing between thousands."},
	{ExtraText, Error, "{key} {text} has something after the value", "Only a number, its unit and its spread belong here. Remarks go in a note or a comment."},
	{BadSpread, Error, "{key} {text} has no usable spread", "A spread is a 95 % half-width behind ±, in per cent or in the unit of the value, without a sign of its own."},
	{BadSum, Error, "{key} {text} cannot be worked out", "A typed sum adds and takes off values; a product has one value and otherwise whole counts."},
	{NotAWholeNumber, Error, "{key} {text} is not a whole number", "Here belongs a count without a unit."},
	{OutOfRange, Error, "{key} {text} is out of range", "The value cannot be right at this place; often the unit is a different one from the one meant."},
	{TooLong, Error, "{key} is too long", "The text is longer than is read at this place."},
	{UnknownWord, Error, "{key} {text} is not one of the words for it", "Here belongs one of a few words; the hint lists them."},
	{BadDate, Error, "{key} {text} is not a day", "A day is written year-month-day: 2026-11-01."},
	{BadBoolean, Error, "{key} {text} is neither true nor false", "Here belongs true or false; yes, no, on and off are not read."},
	{BadID, Error, "id {text} cannot be used", "An id has letters, digits, - _ and ., begins with a letter or digit, and has at most 64 characters."},
	{UnknownID, Error, "nothing here has the id {text}", "The id is misspelled, or what it names was removed."},
	{DuplicateID, Error, "id {text} is used twice", "Ids have one namespace in a build and are never used again."},
	{NotTogether, Error, "{key} and {text} do not go together", "The two say the same thing in different ways, or contradict each other. Keep one."},
	{OutOfOrder, Error, "{key} is not behind {text}", "The two places are in the wrong order along the van."},
	{InTicket, Error, "{text} is counted twice", "It was aboard when the van was weighed and stands in the list of items too."},
	{FarFromUsual, Warning, "{key} {text} is far from usual", "The value is possible, but unlike what is usual. It may be accepted in the build with a reason."},
	{AcceptedNothing, Warning, "no warning {text} was given here", "An accepted warning no longer occurs; the entry can be removed."},
	{UnknownCode, Error, "{text} is not a warning that can be accepted", "Only warnings can be accepted, each by its code."},
	{NewerPartEdition, Warning, "a newer edition of {text} exists", "The catalogue holds a newer edition of the part; the difference can be looked at and taken over."},
}
