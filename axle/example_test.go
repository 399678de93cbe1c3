package axle_test

import (
	"fmt"

	"berthwright/axle"
	"berthwright/unit"
)

// A van weighed at both axles, a full water tank just ahead of the rear axle and a rack behind it.
func ExampleSum() {
	van := axle.Geometry{Wheelbase: 4 * unit.Metre}
	kg := func(m, half float64) unit.MassEst {
		return unit.MassEst{Value: unit.Mass(m), Spread: unit.Spread{Kind: unit.Absolute, Abs: half}}
	}
	unknown := unit.Opt[unit.Length]{}
	ticket := van.Ticket(kg(1410, 10), kg(1409, 10), unknown, unknown)
	split, err := axle.Sum(van, append(ticket[:],
		axle.Load{ID: "fresh-water", Mass: 92 * unit.Kilogram, At: axle.Place{X: unit.Some(3880 * unit.Millimetre)}},
		axle.Load{ID: "rack", Mass: 64 * unit.Kilogram, At: axle.Place{X: unit.Some(5620 * unit.Millimetre)}},
	))
	if err != nil {
		fmt.Println(err)
		return
	}
	front, _ := split.Front.Get()
	rear, _ := split.Rear.Get()
	_, sides := split.Left.Get()
	fmt.Printf("front %.1f kg, rear %.1f kg, total %.1f kg, sides known: %v\n", front.Kilograms(), rear.Kilograms(), split.Total.Kilograms(), sides)
	// Output: front 1386.8 kg, rear 1588.2 kg, total 2975.0 kg, sides known: false
}

// The most on the rear axle that a declared plan allows, and what it is made of.
func ExampleWorst() {
	van := axle.Geometry{Wheelbase: 4 * unit.Metre}
	at := func(id string, kg unit.Mass, x unit.Length) axle.Load {
		return axle.Load{ID: id, Mass: kg, At: axle.Place{X: unit.Some(x)}}
	}
	base, err := axle.Sum(van, []axle.Load{at("finished van", 2686, 2033*unit.Millimetre)})
	if err != nil {
		fmt.Println(err)
		return
	}
	worst, err := axle.Worst(base, []axle.Group{
		{ID: "people", Variables: []axle.Variable{axle.Must(at("driver", 84, 1190*unit.Millimetre)), axle.Whole(at("passenger", 75, 1190*unit.Millimetre), 1)}},
		axle.Water([]axle.Variable{axle.UpTo(at("fresh", 92, 3880*unit.Millimetre))}, []axle.Variable{axle.UpTo(at("waste", 76, 2980*unit.Millimetre))}, axle.UsedWaterLeavesFresh),
		{ID: "luggage", Cap: unit.Some(100 * unit.Kilogram), Variables: []axle.Variable{axle.UpTo(at("cab", 8, 1400*unit.Millimetre)), axle.UpTo(at("kitchen", 38, 2800*unit.Millimetre)), axle.UpTo(at("garage", 85, 4380*unit.Millimetre))}},
	}, van.Rear(), axle.Most)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range worst.Picks {
		fmt.Printf("%-9s %4.0f kg at %.2f kg per kg\n", p.Load.ID, p.Mass.Kilograms(), p.Lever.Share())
	}
	fmt.Printf("rear axle %.1f kg\n", worst.Value.Kilograms())
	// Output:
	// driver      84 kg at 0.30 kg per kg
	// passenger   75 kg at 0.30 kg per kg
	// fresh       92 kg at 0.97 kg per kg
	// waste        0 kg at 0.74 kg per kg
	// garage      85 kg at 1.09 kg per kg
	// kitchen     15 kg at 0.70 kg per kg
	// cab          0 kg at 0.35 kg per kg
	// rear axle 1605.3 kg
}
