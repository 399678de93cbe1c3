package drawing

// Role tells what a primitive stands for; it decides line weight, dashes, ink and DXF layer.
// Weights follow the two-weight scheme of ISO 128-2 (from memory): 0.5 mm for visible outlines, 0.25 mm for the rest.
type Role string

// The roles of lines and areas.
const (
	Outline      Role = "outline"       // visible outline of the van, thick continuous
	Thin         Role = "thin"          // lesser visible edge of the van, thin continuous
	Hidden       Role = "hidden"        // hidden edge, dashed
	CentreLine   Role = "centre-line"   // axes of symmetry and of axles, long dash dot
	Datum        Role = "datum"         // a line people tape from: bulkhead, rear door, floor
	Hatch        Role = "section-hatch" // cut material
	Grid         Role = "grid"          // 100 mm grid
	ItemEdge     Role = "item"          // an item that is there, seen from here
	ItemHidden   Role = "item-hidden"   // an item under or behind another
	ItemAbove    Role = "item-above"    // an item above the height the plan is cut at, long dash two dots
	ItemRemoved  Role = "item-removed"  // taken out of the base van
	ItemGhost    Role = "item-ghost"    // where it was, or where it was changed from
	ItemMarked   Role = "item-marked"   // picked out
	ZoneArea     Role = "zone"          // somewhere in here, not yet measured
	ItemCut      Role = "item-cut"      // an item cut by the plane of a section
	ItemBeyond   Role = "item-beyond"   // an item behind the plane of a section
	MemberEdge   Role = "member"        // pillar, rib or bow in the wall
	HoleEdge     Role = "hole"          // edge of a hole to cut
	Stretch      Role = "stretch"       // spread from here to there
	Mark         Role = "mark"          // mass without a size
	Dimension    Role = "dimension"     // dimension and extension lines, their ends and figures
	Leader       Role = "leader"        // from a label to its thing
	Balloon      Role = "balloon"       // circle around an item number
	LoadArrow    Role = "load-arrow"    // axle load
	CentreOfMass Role = "centre-of-mass"
	Curve        Role = "curve" // a graph
	Frame        Role = "frame" // sheet frame, title block, table rules
	Rule         Role = "rule"  // thin rule of a table
	Plate        Role = "plate" // paper under a text, without a line
)

// The roles of texts.
const (
	Label   Role = "label"   // name or number of an item
	Note    Role = "note"    // remark
	Heading Role = "heading" // heading of a view, sheet or table; a bookmark in a PDF
	Figure  Role = "figure"  // a deciding figure
	Cell    Role = "cell"    // text in a table
	Strong  Role = "strong"  // text or mark that must be seen first, in the accent
)

// Ink is a colour of the drawing set. The zero value is the main ink.
type Ink uint8

// The inks.
const (
	Black  Ink = iota // lines and text
	Grey              // second rank
	Faint             // grid
	Accent            // the one accent
)

// RGB returns the ink as printed.
func (i Ink) RGB() (r, g, b uint8) {
	switch i {
	case Grey:
		return 0x6b, 0x66, 0x5e
	case Faint:
		return 0xdd, 0xd8, 0xcd
	case Accent:
		return 0xa6, 0x3d, 0x1f
	}
	return 0x22, 0x1f, 0x1b
}

// Fill tells what the inside of a path is filled with. The zero value is nothing.
type Fill uint8

// The fills.
const (
	NoFill Fill = iota
	Paper       // hides what is under it
	Tint        // paper, a shade darker
	Solid       // the ink of the role
)

// String names the fill for the page.
func (f Fill) String() string { return [...]string{"", "paper", "tint", "solid"}[f] }

// RGB returns the fill as printed, for Paper and Tint.
func (f Fill) RGB() (r, g, b uint8) {
	if f == Tint {
		return 0xf3, 0xef, 0xe6
	}
	return 0xff, 0xff, 0xff
}

// Pen is how a role is drawn on paper.
type Pen struct {
	Width float64   // millimetres of paper; 0: no line
	Dash  []float64 // millimetres of paper
	Ink   Ink
}

// Pen returns how lines of the role are drawn; texts take its ink only.
func (r Role) Pen() Pen {
	switch r {
	case Outline, ItemCut, HoleEdge:
		return Pen{Width: 0.5}
	case MemberEdge:
		return Pen{Width: 0.18, Dash: []float64{6, 1, 0.6, 1}, Ink: Grey}
	case ItemEdge:
		return Pen{Width: 0.3}
	case ItemMarked:
		return Pen{Width: 0.5, Ink: Accent}
	case Hidden, ItemHidden:
		return Pen{Width: 0.18, Dash: []float64{1.6, 0.8}}
	case ItemAbove:
		return Pen{Width: 0.25, Dash: []float64{4, 0.8, 0.5, 0.8, 0.5, 0.8}}
	case CentreLine:
		return Pen{Width: 0.18, Dash: []float64{6, 1, 0.6, 1}}
	case ItemRemoved:
		return Pen{Width: 0.18, Dash: []float64{0.6, 0.9}, Ink: Grey}
	case ItemGhost:
		return Pen{Width: 0.18, Dash: []float64{2.4, 1.2}, Ink: Accent}
	case ZoneArea:
		return Pen{Width: 0.18, Dash: []float64{1, 1}, Ink: Grey}
	case Datum:
		return Pen{Width: 0.25}
	case Grid:
		return Pen{Width: 0.1, Ink: Faint}
	case Hatch:
		return Pen{Width: 0.13}
	case Strong:
		return Pen{Width: 0.35, Ink: Accent}
	case LoadArrow:
		return Pen{Width: 0.5, Ink: Accent}
	case CentreOfMass:
		return Pen{Width: 0.3}
	case Curve:
		return Pen{Width: 0.4, Ink: Accent}
	case Frame:
		return Pen{Width: 0.5}
	case Rule:
		return Pen{Width: 0.13, Ink: Grey}
	case Plate:
		return Pen{}
	case Stretch, Mark, Balloon:
		return Pen{Width: 0.25}
	case Note:
		return Pen{Width: 0.18, Ink: Grey}
	}
	return Pen{Width: 0.18} // Thin, ItemBeyond, Dimension, Leader and every text
}

// Roles lists every role that draws a line, for style sheets and DXF layers.
func Roles() []Role {
	return []Role{Outline, Thin, Hidden, CentreLine, Datum, Hatch, Grid, ItemEdge, ItemHidden, ItemAbove, ItemRemoved,
		ItemGhost, ItemMarked, ItemCut, ItemBeyond, MemberEdge, HoleEdge, ZoneArea, Stretch, Mark, Dimension, Leader, Balloon, LoadArrow, CentreOfMass, Curve,
		Frame, Rule, Plate, Label, Note, Heading, Figure, Cell, Strong}
}
