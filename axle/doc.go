// Package axle answers: where does the mass go, and what is the worst the declared plan allows?
//
// Sum adds loads up to a Split: total, axles, sides, mass centre. Worst and WorstShare find the plan
// within Groups that is hardest on one Measure. Spread tells how well a measure is known and which
// weighing would help most, Room what can still be added and where, Clears what would mend a
// limit that fails, Reconcile what a weighing says about the masses.
//
// Axes: x rearwards from the front axle, y to the right of the centre line facing forward, z above
// ground. Every mass is in kg, "an axle load" too. A half-width is a 95 % half-width, 1.96 standard
// deviations. What is unknown is absent, never nought. The package knows no document, no
// rule and no clock; limits come from the caller. The method, its range and its checks are in
// docs/methods/weight.md.
package axle
