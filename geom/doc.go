// Package geom answers: does it fit, by how much not, and what is the shortest move that mends it?
//
// Outline is a polygon in plan, Solid an outline between two heights, Shell the van's measured inside, Sweep a part that
// turns or slides. Solid.Clash tells whether two solids overlap, how deep, and what clears it; Shell.Fit whether a solid
// stays inside the walls; Sweep.Meets how far a part goes before it touches; WidestWay how wide the way to a door is.
//
// Axes: x rearwards from the front axle, y to the right of the centre line facing forward, z up from the bare load floor
// (right-handed). A turn is counter-clockwise seen from above: a quarter turn takes +x to +y.
//
// Outlines and solids are whole micrometres and their predicates are exact; touching is not overlapping. Turned outlines
// are rounded outwards once. Shells and sweeps are computed in metres with one tolerance (Tolerance) and converted at the
// end: room is rounded down, want of room up. The method, its range and its checks are in docs/methods/fit.md.
package geom
