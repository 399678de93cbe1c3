package doc

import "berthwright/unit"

// Record is what was read off the finished or half-finished van: append-only, tied to a revision, never undone.
// It lives beside the build (the store, or a file of its own), not in it.
type Record struct {
	Version   int        `doc:"berthwright-record,required" range:"1..1" why:"this program reads version 1" help:"version of this file format"`
	Build     string     `doc:"build,required" help:"id of the build"`
	Weighings []Weighing `doc:"weighings" help:"readings of a scale"`
}

// Weighing is one reading, or the readings taken at one visit.
type Weighing struct {
	ID         string            `doc:"id,id,required" help:"id of the weighing"`
	Date       Opt[Date]         `doc:"date" help:"when"`
	Stage      string            `doc:"stage" enum:"empty|lined|furniture|finished|part" help:"stage of the build; part: pieces on a hook scale"`
	Revision   string            `doc:"revision" help:"the revision of the build it belongs to"`
	Total      Opt[unit.MassEst] `doc:"total" unit:"kg" range:"0 kg..9000 kg" help:"whole van"`
	Front      Opt[unit.MassEst] `doc:"front" unit:"kg" range:"0 kg..6000 kg" help:"front axle"`
	Rear       Opt[unit.MassEst] `doc:"rear" unit:"kg" range:"0 kg..6000 kg" help:"rear axle"`
	Left       Opt[unit.MassEst] `doc:"left" unit:"kg" range:"0 kg..6000 kg" help:"left side"`
	Right      Opt[unit.MassEst] `doc:"right" unit:"kg" range:"0 kg..6000 kg" help:"right side"`
	FrontLeft  Opt[unit.MassEst] `doc:"front-left" unit:"kg" range:"0 kg..3000 kg" help:"front left wheel"`
	FrontRight Opt[unit.MassEst] `doc:"front-right" unit:"kg" range:"0 kg..3000 kg" help:"front right wheel"`
	RearLeft   Opt[unit.MassEst] `doc:"rear-left" unit:"kg" range:"0 kg..3000 kg" help:"rear left wheel"`
	RearRight  Opt[unit.MassEst] `doc:"rear-right" unit:"kg" range:"0 kg..3000 kg" help:"rear right wheel"`
	Pieces     Opt[unit.MassEst] `doc:"pieces" unit:"kg" range:"0 kg..3000 kg" help:"hook-scale reading of the items listed"`
	Items      []string          `doc:"items" ref:"item" help:"items on the hook, or items fitted so far; absent: everything"`
	Missing    []string          `doc:"missing" ref:"item" help:"items not yet fitted"`
	Driver     Opt[unit.Mass]    `doc:"driver" unit:"kg" range:"0 kg..250 kg" help:"driver aboard while weighing; 0 when nobody"`
	Fills      []Fill            `doc:"fills" help:"fill of each tank; absent: empty, fuel unknown"`
	Division   Opt[unit.Mass]    `doc:"division" unit:"kg" range:"0.1 kg..100 kg" help:"scale division"`
	By         string            `doc:"by" help:"who read it"`
	Note       string            `doc:"note" help:"anything else"`
}
