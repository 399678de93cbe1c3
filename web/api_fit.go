package web

// Addresses of fitting, beside those of api.go:
//
//	GET    /api/builds/{id}/form?path=          FormView (every field of one entry, such as items/fridge)
//	GET    /api/builds/{id}/solids?state=       SolidsView (the van in space)
//	GET    /api/builds/{id}/bay                 BayView (one job a screen, for the bay)
//	POST   /api/builds/{id}/bay                 BayEntry -> BayView (done, not done, weighed; a repeated id is kept once)
//	POST   /api/builds/{id}/photos?entry=&item=&by=&at=   the picture as bytes, at most 5 MB -> BayView
//	GET    /api/builds/{id}/photos/{entry}      the picture as it was taken

// Offer is something that can be done at once, in words and as edits.
type Offer struct {
	Text  string `json:"text"`
	Edits []Edit `json:"edits"`
}

// FormView is every field of one entry of the document, written from the field table.
type FormView struct {
	Path     string        `json:"path"`
	Title    string        `json:"title"`
	Revision int           `json:"revision"`
	Sections []FormSection `json:"sections"` // the id of a section is the path of what it holds
	Lists    []FormList    `json:"lists"`    // what can be added
}

// FormList is a list that a form can add entries to. Its entries are sections whose id is the list's path and the entry's id.
type FormList struct {
	Path  string `json:"path"`
	Title string `json:"title"`
	Help  string `json:"help"`
	Key   string `json:"key"` // the key that names an entry; "" where entries have none
	Words bool   `json:"words,omitempty"`
	Text  string `json:"text,omitempty"` // Words: the list as it stands, parted by commas
}

// SolidsView is the van in space. Coordinates are millimetres in van axes: x rearwards, y to the right, z up from the bare floor.
type SolidsView struct {
	Revision int         `json:"revision"`
	State    string      `json:"state"`
	Bodies   []SolidView `json:"bodies"`
	Cuts     []CutView   `json:"cuts"`     // the lined inside, from front to rear
	Boxes    []SolidView `json:"boxes"`    // wheel boxes
	Openings []RingView  `json:"openings"` // doors and windows on the lined inside
	Floor    *Box        `json:"floor,omitempty"`
	Finished float64     `json:"finished"` // top of the finished floor
	Ground   float64     `json:"ground"`   // below the floor; 0 when not known
	Why      string      `json:"why,omitempty"`
}

// SolidView is one extruded outline.
type SolidView struct {
	ID      string    `json:"id"`
	Path    string    `json:"path"`
	Name    string    `json:"name"`
	Number  int       `json:"number"`
	Group   string    `json:"group"`
	Outline []float64 `json:"outline"` // x, y, x, y, … in plan
	Low     float64   `json:"low"`
	High    float64   `json:"high"`
	Soft    bool      `json:"soft,omitempty"`
	Outside bool      `json:"outside,omitempty"`
	Within  bool      `json:"within,omitempty"` // it stands inside another
	Locked  bool      `json:"locked,omitempty"`
	Noted   string    `json:"noted,omitempty"` // worst verdict of fit that speaks of it here, unless it holds
}

// CutView is one cross-section.
type CutView struct {
	X    float64   `json:"x"`
	Line []float64 `json:"line"` // y, z, y, z, … from the left wall at the floor over the roof to the right
}

// RingView is a closed line in space.
type RingView struct {
	Points []float64 `json:"points"` // x, y, z, …
}

// NoteView is a note for people, pinned to an item or a place.
type NoteView struct {
	ID   string  `json:"id"`
	Path string  `json:"path"`
	Text string  `json:"text"`
	By   string  `json:"by,omitempty"`
	Date string  `json:"date,omitempty"`
	On   Subject `json:"on"` // what it is pinned to; without coordinates when that has no place
}

// BayView is what the bay needs of a build: one job for each item to fit, in the order of the kit sheet within each trade.
type BayView struct {
	Build    string   `json:"build"`
	Name     string   `json:"name"`
	Revision int      `json:"revision"`
	Status   string   `json:"status"`
	Hold     string   `json:"hold,omitempty"`
	Scale    string   `json:"scale"` // the unit a bare reading of the scale has
	Jobs     []BayJob `json:"jobs"`
	Trades   []Choice `json:"trades"`
	Kept     []string `json:"kept"` // ids of all entries of the record, so that the page knows what arrived
}

// BayJob is one item to fit.
type BayJob struct {
	Item   string     `json:"item"`
	Number int        `json:"number"`
	Name   string     `json:"name"`
	Trade  string     `json:"trade"`
	Facts  []string   `json:"facts"` // size, mass, how many, how fixed
	Tapes  []BayTape  `json:"tapes"` // at most six
	First  []BayFirst `json:"first"` // what must be true first
	Views  []string   `json:"views"` // scenes to show, with the item in them: plan and one more
	Box    []float64  `json:"box"`   // where it stands, x, y, z of the least and of the greatest corner in millimetres; empty: not known
	Done   *BayMark   `json:"done,omitempty"`
	Weight *BayMark   `json:"weighed,omitempty"`
	Photos []BayMark  `json:"photos"`
}

// BayTape is one measure from a line that the fitter can see.
type BayTape struct {
	Length string `json:"length"`
	From   string `json:"from"`
	To     string `json:"to"`
	Text   string `json:"text"`
}

// BayFirst is something that must be true before the item goes in.
type BayFirst struct {
	Text string `json:"text"`
	Item string `json:"item,omitempty"` // another job
	Done bool   `json:"done"`
	Care bool   `json:"care,omitempty"` // it stops the work until somebody has settled it
}

// BayMark is one line of the record about an item.
type BayMark struct {
	ID   string `json:"id"`
	Text string `json:"text"`
	By   string `json:"by,omitempty"`
	At   string `json:"at"`
}

// BayEntry is appended to the record. Kind: done, not-done, weighed (Text: the reading, such as "12.4").
type BayEntry struct {
	ID   string `json:"id"` // made by the page
	Kind string `json:"kind"`
	Item string `json:"item"`
	By   string `json:"by,omitempty"`
	Text string `json:"text,omitempty"`
	At   string `json:"at,omitempty"` // when it was pressed, RFC 3339: the network may have been away since
}
