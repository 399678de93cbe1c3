package web

// This file is the whole contract between the server and the page. The page's types
// (web/ui/src/api.gen.ts) are generated from these structs and those of api_scene.go by go run ./internal/gen/api. Every printed number, word and verdict comes ready
// made from the server; the page computes nothing that ends up on paper. Absent optional values are omitted.
//
// Addresses (all JSON unless said otherwise; errors are Problem with a matching HTTP status):
//
//	GET    /api/builds?deleted=1                BuildList (deleted ones only when asked for)
//	POST   /api/builds                          NewBuild -> BuildView
//	GET    /api/choices                         Choices (classes, groups, states, units: what a new build can start from)
//	GET    /api/builds/{id}?state=&client=      BuildView (client: whose undo is told of)
//	DELETE /api/builds/{id}                     BuildRow (kept as deleted; can be brought back)
//	POST   /api/builds/{id}/restore             BuildRow (brings a deleted build back)
//	POST   /api/builds/{id}/changes             ChangeRequest -> ChangeResult (409 with Conflict where a path changed since)
//	POST   /api/builds/{id}/preview             ChangeRequest with Seq -> Preview (never stored)
//	POST   /api/builds/{id}/undo                UndoRequest -> ChangeResult
//	POST   /api/builds/{id}/paste               PasteRequest -> PasteMatch (nothing stored; rows come back as edits)
//	GET    /api/builds/{id}/text                TextView
//	PUT    /api/builds/{id}/text                TextRequest -> TextView (409 with Conflict; unreadable text is kept as a draft)
//	DELETE /api/builds/{id}/text                drops the draft -> TextView
//	GET    /api/builds/{id}/scene?view=&state=&against=   Scene
//	GET    /api/builds/{id}/slip?key=           Slip (the working behind one figure)
//	GET    /api/builds/{id}/history             History
//	GET    /api/builds/{id}/diff?from=&to=      DiffView
//	GET    /api/builds/{id}/swap?van=           SwapView (the same items in another base van: a class, or another build's)
//	GET    /api/builds/{id}/record              RecordView (weighings, reconciliation)
//	POST   /api/builds/{id}/record              WeighingRequest -> RecordView
//	GET    /api/builds/{id}/events              server-sent events: Event
//	GET    /api/builds/{id}/papers/{name}       PDF: mass-statement.pdf, placard.pdf, hole-register.pdf, templates.pdf?hole=, fixing-map.pdf, states.pdf, change.pdf?from=&to=, drawing.pdf|svg|dxf?view=&state=
//	GET    /api/builds/{id}/export              the build's YAML text
//	POST   /api/import                          raw YAML body -> BuildView
//	GET    /api/parts?q=&group=                 PartList
//	GET    /api/workshop, PUT                   WorkshopView / TextRequest
//	GET    /api/health                          Health
//	GET    /openapi.json                        published, generates nothing

// Quantity is one value: coherent SI with its SI unit, and the ready text in the reader's unit system.
type Quantity struct {
	SI   float64 `json:"si"`
	Unit string  `json:"unit"`
	Text string  `json:"text"`
}

// Problem is what every refused call answers.
type Problem struct {
	Code   string   `json:"code"`
	Text   string   `json:"text"`           // one clear line for people
	Hint   string   `json:"hint,omitempty"` // what to do
	Fields []Marked `json:"fields,omitempty"`
}

// Marked says what is wrong at one document path.
type Marked struct {
	Path     string `json:"path"`
	Line     int    `json:"line"`
	Column   int    `json:"column"`
	EndLine  int    `json:"endLine"`
	EndCol   int    `json:"endColumn"`
	Severity string `json:"severity"` // error, warning
	Code     string `json:"code"`
	Text     string `json:"text"`
	Hint     string `json:"hint,omitempty"`
	Found    string `json:"found,omitempty"` // the offending text
}

// Health tells that the server is up and which program it is.
type Health struct {
	Program string `json:"program"`
	Parts   string `json:"parts"`
}

// BuildList is the list of builds.
type BuildList struct {
	Builds []BuildRow `json:"builds"`
}

// BuildRow is one build in the list, with its deciding sentence.
type BuildRow struct {
	ID       string     `json:"id"`
	Name     string     `json:"name"`
	Customer string     `json:"customer,omitempty"`
	Stage    string     `json:"stage,omitempty"`
	Revision int        `json:"revision"`
	Changed  string     `json:"changed"` // RFC 3339
	Items    int        `json:"items"`
	Deciding []Sentence `json:"deciding"`
	Draft    bool       `json:"draft,omitempty"` // there is unreadable text kept beside it
	Deleted  bool       `json:"deleted,omitempty"`
}

// Sentence is one deciding figure said in words.
type Sentence struct {
	Key     string `json:"key"` // finding key or "payload-left"
	Text    string `json:"text"`
	Detail  string `json:"detail,omitempty"` // state, case, basis in small letters
	Verdict string `json:"verdict"`          // holds, tight, does-not-hold, unknown, not-begun
	Slip    string `json:"slip,omitempty"`   // key of the slip it opens
	Ageing  bool   `json:"ageing,omitempty"`
}

// Choices is what a new build can start from.
type Choices struct {
	Classes   []Choice `json:"classes"`
	Countries []Choice `json:"countries"`
	Groups    []Choice `json:"groups"`
	States    []Choice `json:"states"`
	Views     []Choice `json:"views"`
	Demos     []Choice `json:"demos"` // builds of our own to look at: NewBuild kind "demo"
}

// Choice is one word with its reading.
type Choice struct {
	ID   string `json:"id"`
	Text string `json:"text"`
	Note string `json:"note,omitempty"`
}

// NewBuild starts a build. Kind: "enquiry" (class of van, party, allowance rows), "empty", "duplicate" (From), "demo" (From).
type NewBuild struct {
	Kind    string `json:"kind"`
	Name    string `json:"name"`
	Class   string `json:"class,omitempty"`
	Country string `json:"country,omitempty"`
	People  int    `json:"people,omitempty"`
	From    string `json:"from,omitempty"`
}

// BuildView is everything the sheets show for one revision, except scenes.
type BuildView struct {
	ID       string   `json:"id"`
	Name     string   `json:"name"`
	Revision int      `json:"revision"`
	Hash     string   `json:"hash"`
	Program  string   `json:"program"`
	Basis    []string `json:"basis"`  // editions of parts and rules, date judged by
	Status   string   `json:"status"` // of the papers of the weight: "for talk", "for quotation", "for building"
	Why      []string `json:"why"`    // why not a higher status
	State    string   `json:"state"`
	Units    string   `json:"units"`
	CanUndo  string   `json:"canUndo,omitempty"` // title of the change that Undo would take back
	CanRedo  string   `json:"canRedo,omitempty"` // title of the change that Undo with Redo would do again

	Title    []Sentence     `json:"title"`
	Findings []FindingView  `json:"findings"` // worst first
	Concerns []ConcernView  `json:"concerns"` // one line each, begun or not
	Measure  []MeasureNext  `json:"measure"`
	Axles    AxleView       `json:"axles"`
	Cases    []CaseView     `json:"cases"`
	Party    []PartyRow     `json:"party"` // payload by party and fill
	Added    AddedView      `json:"added"`
	Wheels   *WheelsView    `json:"wheels,omitempty"` // absent while a side or a track is unknown
	Plates   []PlateView    `json:"plates"`           // as it is, then the alternatives
	Standing []StandingView `json:"standing"`
	Clears   []ClearView    `json:"clears"`
	Job      []FormSection  `json:"job"`
	Van      []FormSection  `json:"van"`
	Loading  LoadingView    `json:"loading"`
	Kit      KitView        `json:"kit"`
	Marks    []Marked       `json:"marks"`   // diagnostics of the text
	Assumed  []AssumedView  `json:"assumed"` // every default in use
	Sources  []SourceView   `json:"sources"`
	Cautions []string       `json:"cautions"`
	Notes    []NoteView     `json:"notes"`  // for people, pinned to a place
	Papers   []PaperView    `json:"papers"` // each with its own issue status
}

// PaperView is how far one paper may be relied on, as far as computed here.
type PaperView struct {
	Name   string   `json:"name"`
	File   string   `json:"file"`
	Status string   `json:"status"` // "for talk", "for quotation", "for building"
	Why    []string `json:"why"`    // what keeps it from a higher status
}

// FindingView is one check's answer.
type FindingView struct {
	Key      string    `json:"key"` // stable: check, state, case, subject
	Check    string    `json:"check"`
	Concern  string    `json:"concern"`
	Title    string    `json:"title"`
	Text     string    `json:"text"` // the sentence
	Verdict  string    `json:"verdict"`
	State    string    `json:"state"`
	Case     string    `json:"case"`
	Value    *Quantity `json:"value,omitempty"`
	Limit    *Quantity `json:"limit,omitempty"`
	Margin   *Quantity `json:"margin,omitempty"` // positive when it holds
	Half     *Quantity `json:"half,omitempty"`   // 95 % half-width of the margin
	Basis    string    `json:"basis"`
	Evidence string    `json:"evidence"`
	Rule     string    `json:"rule"`
	Subjects []Subject `json:"subjects"`
	Missing  []Subject `json:"missing"`
	Advice   string    `json:"advice,omitempty"`
	Caution  string    `json:"caution,omitempty"`
	Slip     string    `json:"slip,omitempty"`
	Moves    []Offer   `json:"moves"`              // each clears it
	Advisory bool      `json:"advisory,omitempty"` // no limit of a rule: said, never counted as failing
	Note     bool      `json:"note"`               // shown as a margin note on the drawing (at most seven are true)
}

// Subject is something in the document that a text speaks of.
type Subject struct {
	Path string `json:"path"`
	Name string `json:"name"`
	X    *int64 `json:"xUm,omitempty"` // where a leader points, van axes
	Y    *int64 `json:"yUm,omitempty"`
	Z    *int64 `json:"zUm,omitempty"`
}

// ConcernView is one line per concern of the trade.
type ConcernView struct {
	ID      string `json:"id"`
	Name    string `json:"name"`
	Verdict string `json:"verdict"` // worst, or not-begun
	Text    string `json:"text"`
}

// MeasureNext is one of the top five doubts.
type MeasureNext struct {
	Text    string  `json:"text"` // "weigh the kitchen unit: 40 % of the doubt on the rear axle"
	Share   string  `json:"share"`
	Subject Subject `json:"subject"`
}

// AxleView is what stands under the axles on the drawing.
type AxleView struct {
	Case  string     `json:"case"`
	Lines []AxleLine `json:"lines"`
	Known bool       `json:"known"`
}

// AxleLine is one load with its limit.
type AxleLine struct {
	ID      string    `json:"id"` // front, rear, total, left, right
	Name    string    `json:"name"`
	Value   *Quantity `json:"value,omitempty"`
	Limit   *Quantity `json:"limit,omitempty"`
	Margin  *Quantity `json:"margin,omitempty"`
	Half    *Quantity `json:"half,omitempty"`
	Share   float64   `json:"share"` // of the limit, for the bar; 0 when unknown
	Verdict string    `json:"verdict"`
	Slip    string    `json:"slip,omitempty"`
	Case    string    `json:"case,omitempty"` // name of the case it is read in, under the drawing
}

// CaseView is one named load case.
type CaseView struct {
	ID       string     `json:"id"`
	Name     string     `json:"name"`
	Says     string     `json:"says"` // party and fill in words
	Lines    []AxleLine `json:"lines"`
	Deciding bool       `json:"deciding"`
	Verdict  string     `json:"verdict"`
	Slip     string     `json:"slip,omitempty"`
	Order    []string   `json:"order"` // filling order of a worst case, ready text
}

// PartyRow is payload left for a party and a fill.
type PartyRow struct {
	Who     string    `json:"who"`
	Fill    string    `json:"fill"`
	Left    *Quantity `json:"left,omitempty"`
	Ends    string    `json:"ends"` // which limit ends it
	Verdict string    `json:"verdict"`
}

// AddedView is what can still be added, by place.
type AddedView struct {
	Known  bool         `json:"known"`
	Why    string       `json:"why,omitempty"`
	Points []AddedPoint `json:"points"`
	Zones  []AddedZone  `json:"zones"`
	Marks  []AddedMark  `json:"marks"` // lines people know, to be ticked under the curve
}

// AddedPoint is one break of the curve; between two points the curve is smooth and the server sends enough of them.
type AddedPoint struct {
	X    int64   `json:"xUm"`
	Kg   float64 `json:"kg"`
	Text string  `json:"text"`
	Ends string  `json:"ends"`
}

// AddedMark is a line of the van.
type AddedMark struct {
	X    int64  `json:"xUm"`
	Text string `json:"text"`
}

// AddedZone is one row of the table by zone.
type AddedZone struct {
	Zone string    `json:"zone"`
	Kg   *Quantity `json:"kg,omitempty"`
	Ends string    `json:"ends"`
}

// ClearView is one way to clear what does not hold.
type ClearView struct {
	Text    string   `json:"text"`
	Clears  bool     `json:"clears"`
	Gain    Quantity `json:"gain"`
	Reopens []string `json:"reopens"`
	Subject Subject  `json:"subject"`
	Edits   []Edit   `json:"edits,omitempty"` // does it
	Finding string   `json:"finding"`         // key of what it clears
}

// FormSection is a part of a form written from the field table, in the order of the trade.
type FormSection struct {
	ID     string      `json:"id"`
	Title  string      `json:"title"`
	Says   string      `json:"says,omitempty"`
	Fields []FieldView `json:"fields"`
}

// FieldView is one field of a form. It is set by an Edit of kind "field" with its Path.
type FieldView struct {
	Path    string   `json:"path"` // opaque to the reader; never shown
	Label   string   `json:"label"`
	Help    string   `json:"help,omitempty"`
	Kind    string   `json:"kind"`           // mass, length, ratio, count, text, long-text, date, choice, yes-no, volume, money, ...
	Unit    string   `json:"unit,omitempty"` // what a bare number means
	Text    string   `json:"text"`           // as stored
	Shown   string   `json:"shown"`          // as people read it
	Choices []Choice `json:"choices,omitempty"`
	Assumed string   `json:"assumed,omitempty"` // the default in use, with its basis, when not given
	Derived string   `json:"derived,omitempty"` // a value computed beside it: "closing error 4 mm"
	Mark    *Marked  `json:"mark,omitempty"`
}

// LoadingView is the load plan.
type LoadingView struct {
	Plan    []FormSection `json:"plan"`
	People  GridView      `json:"people"`
	Zones   GridView      `json:"zones"`
	Tanks   GridView      `json:"tanks"`
	Carried GridView      `json:"carried"`
	Placard []Sentence    `json:"placard"` // the loading rules in words
}

// KitView is the kit sheet.
type KitView struct {
	GridView
	Total string `json:"total"`
}

// GridView is a sheet of rows; a cell is set by an Edit of kind "cell" with the grid's ID, the row's ID and the column's ID.
type GridView struct {
	ID      string       `json:"id"` // kit, people, zones, tanks, carried
	Columns []ColumnView `json:"columns"`
	Rows    []RowView    `json:"rows"`
	CanAdd  bool         `json:"canAdd"`
}

// ColumnView is one column.
type ColumnView struct {
	ID      string   `json:"id"`
	Title   string   `json:"title"`
	Kind    string   `json:"kind"`
	Unit    string   `json:"unit,omitempty"`
	Choices []Choice `json:"choices,omitempty"`
	Width   int      `json:"width"` // in characters
	Right   bool     `json:"right"` // aligned to the right
	Fixed   bool     `json:"fixed"` // cannot be typed into
	Help    string   `json:"help,omitempty"`
}

// RowView is one row.
type RowView struct {
	ID      string          `json:"id"`
	Number  int             `json:"number"` // item number on the drawing; 0 for none
	Cells   map[string]Cell `json:"cells"`
	Verdict string          `json:"verdict,omitempty"`
	Marks   []Marked        `json:"marks,omitempty"`
	Locked  string          `json:"locked,omitempty"`
	Kind    string          `json:"kind"` // fitted, removed, in-ticket, allowance
	Path    string          `json:"path"`
}

// Cell is one cell.
type Cell struct {
	Text    string `json:"text"`              // as people read it
	Edit    string `json:"edit,omitempty"`    // what the editor starts with, where it differs
	Derived bool   `json:"derived,omitempty"` // computed or assumed, not given
	Mark    string `json:"mark,omitempty"`    // what is wrong with it
}

// AssumedView is one default in use.
type AssumedView struct {
	Text string `json:"text"`
	From string `json:"from"`
	Path string `json:"path"`
}

// SourceView is one publication used, with its evidence.
type SourceView struct {
	Key      string `json:"key"`
	Title    string `json:"title"`
	At       string `json:"at"`
	Evidence string `json:"evidence"`
}

// Edit is a gesture; the server compiles it to operations. Kind:
//
//	cell    Grid, Row, Column, Text       type into a sheet
//	field   Path, Text                    type into a form ("" unsets)
//	move    Row, DX, DY, DZ               move an item by so much (a taped item keeps its measure)
//	turn    Row, Text                     turn to so many degrees
//	add     Grid, Text, Row, Cells        new row after Row ("^": the one added just before; name in Text), or from a part (Part), cells typed
//	remove  Grid, Row                     take a row out
//	copy    Grid, Row                     the same again beside it
//	van     Text                          swap the base van: a class or another build's id
//	ops     Ops                           plain operations
type Edit struct {
	Kind   string            `json:"kind"`
	Grid   string            `json:"grid,omitempty"`
	Row    string            `json:"row,omitempty"`
	Column string            `json:"column,omitempty"`
	Path   string            `json:"path,omitempty"`
	Text   string            `json:"text,omitempty"`
	Part   string            `json:"part,omitempty"`
	State  string            `json:"state,omitempty"` // move: only in this state
	DX     int64             `json:"dxUm,omitempty"`
	DY     int64             `json:"dyUm,omitempty"`
	DZ     int64             `json:"dzUm,omitempty"`
	Cells  map[string]string `json:"cells,omitempty"`
	Ops    []OpView          `json:"ops,omitempty"`
}

// OpView is one operation on the text.
type OpView struct {
	Op    string `json:"op"` // set, unset, insert, remove
	Path  string `json:"path"`
	Value string `json:"value,omitempty"`
	After string `json:"after,omitempty"`
	Found string `json:"found,omitempty"`
}

// ChangeRequest is a change that applies whole or not at all.
type ChangeRequest struct {
	ID     string `json:"id"`            // made by the page; a repeated id is applied once
	Client string `json:"client"`        // whose undo it belongs to
	Base   int    `json:"base"`          // revision it was made on
	Seq    int    `json:"seq,omitempty"` // preview only: newest wins
	Title  string `json:"title"`
	State  string `json:"state,omitempty"`
	View   string `json:"view,omitempty"` // preview: the scene whose changed primitives are wanted
	Edits  []Edit `json:"edits"`
}

// ChangeResult is the build after the change.
type ChangeResult struct {
	View    BuildView `json:"view"`
	Made    []string  `json:"made"`    // ids of the rows added, in order
	Refused []Marked  `json:"refused"` // cells kept and marked, or edits that could not be read; nothing is lost
}

// Conflict is answered with status 409.
type Conflict struct {
	Revision int            `json:"revision"` // now
	Paths    []ConflictPath `json:"paths"`
}

// ConflictPath shows both values.
type ConflictPath struct {
	Path   string `json:"path"`
	Name   string `json:"name"`
	Yours  string `json:"yours"`
	Theirs string `json:"theirs"`
}

// Preview is what an unstored change would do.
type Preview struct {
	Seq      int           `json:"seq"`
	Base     int           `json:"base"`
	Title    []Sentence    `json:"title"`
	Axles    AxleView      `json:"axles"`
	Findings []FindingView `json:"findings"`
	Added    AddedView     `json:"added"`
	Changed  []any         `json:"changed" ts:"Prim[]"` // drawing primitives that changed
	Gone     []string      `json:"gone"`
	Marks    []Marked      `json:"marks"`
}

// UndoRequest takes back the client's own last change.
type UndoRequest struct {
	ID     string `json:"id"`
	Client string `json:"client"`
	Base   int    `json:"base"`
	Redo   bool   `json:"redo,omitempty"`
	State  string `json:"state,omitempty"` // of the view that is answered
}

// PasteRequest is a table from a spreadsheet. Columns may be given after the matcher was corrected.
type PasteRequest struct {
	Grid    string   `json:"grid"`
	Text    string   `json:"text"`
	After   string   `json:"after,omitempty"`
	Columns []string `json:"columns,omitempty"` // "" skips a column
	Header  *bool    `json:"header,omitempty"`
}

// PasteMatch is how the table was understood; Edits does it when it is sent as a change.
type PasteMatch struct {
	Columns []string   `json:"columns"`
	Titles  []string   `json:"titles"`
	Header  bool       `json:"header"`
	Sample  [][]string `json:"sample"`
	Rows    int        `json:"rows"`
	Bad     []Marked   `json:"bad"`
	Edits   []Edit     `json:"edits"`
	Says    string     `json:"says,omitempty"` // what allowances these rows stand in for
}

// TextView is the text with its diagnostics in place.
type TextView struct {
	Revision int      `json:"revision"`
	Text     string   `json:"text"`
	Draft    bool     `json:"draft"` // the text is a kept draft that could not be read
	Marks    []Marked `json:"marks"`
}

// TextRequest replaces the text.
type TextRequest struct {
	ID     string `json:"id"`
	Client string `json:"client"`
	Base   int    `json:"base"`
	Text   string `json:"text"`
}

// Slip is the working behind one figure.
type Slip struct {
	Key      string      `json:"key"`
	Title    string      `json:"title"`
	Lines    []SlipLine  `json:"lines"`
	Tables   []SlipTable `json:"tables"`
	Notes    []string    `json:"notes"`
	Revision int         `json:"revision"`
	Hash     string      `json:"hash"`
}

// SlipLine is one step.
type SlipLine struct {
	Symbol  string `json:"symbol"`
	Says    string `json:"says"`
	Kind    string `json:"kind"` // given, constant, assumed, derived, limit, choice, balance
	Formula string `json:"formula,omitempty"`
	Numbers string `json:"numbers,omitempty"`
	Result  string `json:"result"`
	Source  string `json:"source,omitempty"`
	Path    string `json:"path,omitempty"`
}

// SlipTable is a table behind a list step or a certificate.
type SlipTable struct {
	Title string     `json:"title"`
	Heads []string   `json:"heads"`
	Rows  [][]string `json:"rows"`
}

// History is the list of revisions, newest first.
type History struct {
	Rows []HistoryRow `json:"rows"`
}

// HistoryRow is one revision.
type HistoryRow struct {
	Revision int      `json:"revision"`
	At       string   `json:"at"`
	Client   string   `json:"client"`
	Title    string   `json:"title"`
	Paths    []string `json:"paths"`
}

// DiffView is the difference of two revisions or two builds.
type DiffView struct {
	From    string    `json:"from"`
	To      string    `json:"to"`
	Figures []DiffRow `json:"figures"` // kg, axles, payload, price
	Entries []DiffRow `json:"entries"` // what was added, taken out, changed
}

// DiffRow is one line of a difference.
type DiffRow struct {
	Path   string `json:"path"`
	Name   string `json:"name"`
	Kind   string `json:"kind"` // added, removed, changed, same
	Before string `json:"before"`
	After  string `json:"after"`
	Change string `json:"change"`
}

// RecordView is the weighings and what they say of the sum.
type RecordView struct {
	Weighings []WeighingRow `json:"weighings"`
	Form      []FormSection `json:"form"` // the fields of a new weighing
	Says      []Sentence    `json:"says"`
	Residuals []ResidualRow `json:"residuals"`
	Suspects  []Subject     `json:"suspects"`
	Refused   string        `json:"refused,omitempty"`
}

// WeighingRow is one visit to the scale.
type WeighingRow struct {
	ID    string `json:"id"`
	Date  string `json:"date"`
	Stage string `json:"stage"`
	Text  string `json:"text"`
	By    string `json:"by"`
}

// ResidualRow is one reading against the sum.
type ResidualRow struct {
	Name     string   `json:"name"`
	Read     Quantity `json:"read"`
	Expected Quantity `json:"expected"`
	Off      Quantity `json:"off"`
	Within   string   `json:"within"`
	Verdict  string   `json:"verdict"`
}

// WeighingRequest appends one weighing; values are typed texts by field path.
type WeighingRequest struct {
	ID     string            `json:"id"`
	Fields map[string]string `json:"fields"`
}

// Event is one server-sent event. Kind: revision, record, deleted.
type Event struct {
	Kind     string `json:"kind"`
	Build    string `json:"build"`
	Revision int    `json:"revision"`
	Client   string `json:"client"`
}

// PartList is the plan chest.
type PartList struct {
	Edition string     `json:"edition"`
	Groups  []Choice   `json:"groups"`
	Parts   []PartView `json:"parts"`
}

// PartView is one part.
type PartView struct {
	Ref   string `json:"ref"`
	Name  string `json:"name"`
	Group string `json:"group"`
	Mass  string `json:"mass"`
	Size  string `json:"size"`
	Basis string `json:"basis"`
	Own   bool   `json:"own"`
}

// WorkshopView is the workshop file.
type WorkshopView struct {
	Number int           `json:"number"` // version of the file; the base of a TextRequest
	Text   string        `json:"text"`
	Marks  []Marked      `json:"marks"`
	Form   []FormSection `json:"form"`
}
