package doc

// OpKind is one of the four operations on a build.
type OpKind string

// The operations.
const (
	Set    OpKind = "set"    // write a value; what is missing on the way to it is made
	Unset  OpKind = "unset"  // take a key out of a mapping
	Insert OpKind = "insert" // put an entry into a list
	Remove OpKind = "remove" // take an entry out of a list
)

// Op is one operation. Its path goes from the root by keys and entry names, "items/fridge/at/x": an entry of a list
// is named by its id, else by the text that names it (tank, zone; the entry itself in a list of words), else by its
// number, "#1" for the first. "~1" stands for "/" and "~0" for "~" inside a name.
//
// Insert has the path of the list itself ("items").
type Op struct {
	Kind  OpKind `json:"kind"`
	Path  string `json:"path"`
	Value string `json:"value,omitempty"` // set, insert: YAML on one line, as between brackets: 480 mm, "a, b", {x: 1 m}
	After string `json:"after,omitempty"` // insert: name of the entry before; "" at the end
	Found string `json:"found,omitempty"` // text that must stand there now; "" when it does not matter
	Left  string `json:"left,omitempty"`  // text that it leaves there: what its inverse must find
	Exact *Exact `json:"exact,omitempty"` // computed inverses only
}

// Exact puts bytes back just as they were. Docfile writes and reads it; nobody else needs to look inside.
type Exact struct {
	Text  string `json:"text"`            // the bytes
	Gap   string `json:"gap,omitempty"`   // bytes between the place of insertion and the text
	Value bool   `json:"value,omitempty"` // Text replaces all that stands for the value of the path, from behind its key or dash
	First bool   `json:"first,omitempty"` // it was the first entry; After is then empty
}

// Change is a group of operations that applies whole or not at all.
type Change struct {
	ID    string `json:"id"`   // made by whoever makes the change; a repeated id is applied once
	Base  int    `json:"base"` // revision it was made on
	Title string `json:"title"`
	Ops   []Op   `json:"ops"`
}
