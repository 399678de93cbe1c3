package paper

import (
	"fmt"
	"time"

	"berthwright/drawing"
	"berthwright/drawing/drawingtest"
)

// All figures below are invented.

func head() Head {
	return Head{Workshop: "Marram Lane", Build: "Curlew", Customer: "the Curlew party", Status: "for quotation", Revision: "14",
		Hash: "3f9a 2c71 08de", Program: "berthwright 0.1", Date: "1 November 2026", Made: time.Date(2026, 11, 1, 9, 0, 0, 0, time.UTC)}
}

func statement() Statement {
	in := drawingtest.Curlew()
	for i := range in.Things {
		var kg float64
		fmt.Sscan(in.Things[i].Mass, &kg)
		in.Things[i].Measured, in.Things[i].Quiet = false, kg < 12 || in.Things[i].Kind != drawing.Item
	}
	o := drawing.Options{Scale: 50, Dimensions: true, Labels: true}
	s := Statement{Head: head(), State: "travel"}
	s.Plan = Figure{Scene: drawing.Plan(in, o), Caption: "Plan, front at left; numbers as in the annex"}
	s.Side = Figure{Scene: drawing.SideLeft(in, o), Caption: "Elevation from the left, left wall taken away"}
	s.Verdict = Sentence{Text: "Holds every limit as far as computed here; the rear axle is tight.", Sub: "Worst case of the declared loading plan: four aboard, fresh water refilled without emptying, all luggage in the rear.", Verdict: Tight}
	s.Deciding = []Sentence{
		{Text: "rear axle 14 kg in hand, ± 16", Sub: "1 886 kg of 1 900 kg, worst case", Verdict: Tight},
		{Text: "33 kg left, four aboard, water full", Sub: "3 467 kg of 3 500 kg, worst case", Verdict: Holds},
		{Text: "241 kg left as this party travels", Sub: "3 259 kg, tanks as declared", Plain: true},
	}
	s.Limits = []LimitRow{
		{What: "permissible total mass", Case: "worst total, refilled, larger of 75 kg and own", Load: "3 467", Limit: "3 500", Margin: "33.0", Spread: "21.1", From: "plate", Verdict: Holds},
		{What: "front axle", Case: "worst front, refilled, larger of 75 kg and own", Load: "1 619", Limit: "1 860", Margin: "241", Spread: "14.2", From: "plate", Verdict: Holds},
		{What: "rear axle", Case: "worst rear, refilled, larger of 75 kg and own", Load: "1 886", Limit: "1 900", Margin: "14.3", Spread: "15.8", From: "plate", Verdict: Tight},
		{What: "tyres, rear, index 110", Case: "worst rear", Load: "1 886", Limit: "2 120", Margin: "234", Spread: "15.8", From: "two tyres at 1 060 kg", Verdict: Holds},
		{What: "front axle share", Case: "driver alone, rear loaded", Load: "44.7 %", Limit: "30 %", Margin: "14.7 %", From: "minimum when laden", Verdict: Holds},
		{What: "roof load", Case: "everything on the roof", Load: "100", Limit: "150", Margin: "50", Spread: "3", From: "declared by the workshop", Verdict: Holds},
		{What: "late rack with two bicycles", Case: "as an option, 64 kg at 5 620 mm", Load: "1 976", Limit: "1 900", Margin: "−76", Spread: "16", From: "plate", Verdict: DoesNotHold},
		{What: "train", Case: "no trailer declared", Limit: "5 600", From: "plate", Verdict: Unknown},
	}
	s.Cautions = []string{"The rear axle holds only while the waste tank is emptied before the fresh tank is refilled, or the garage stays at 85 kg. The placard says so; the driver has to keep to it.",
		"Seats, belts and their fixings are not computed here. They need the tested evidence for this floor."}
	s.Findings = []Finding{
		{Verdict: Tight, Text: "Rear axle: 14.3 kg in hand against a doubt of 15.8 kg.", Basis: "worst rear, refilled, travel", Evidence: "ticket of 2 March 2026, 104 items, 61 weighed", Advice: "Weigh the kitchen next: it carries 40 % of the doubt on the rear axle."},
		{Verdict: DoesNotHold, Text: "Option \"rack with two bicycles\": rear axle 76 kg over, total 31 kg over.", Basis: "worst rear, refilled, travel", Evidence: "catalogue", Advice: "Moving the fresh tank 0.5 m forward gives back 12 kg; it is not enough."},
		{Verdict: Unknown, Text: "Train: no nose weight is declared.", Advice: "Declare the trailer or strike the tow bar from the brief."},
	}
	rowsOf := [][9]string{
		{"finished, dry, no fuel, nobody", "", "", "1 321", "1 365", "2 686"},
		{"running order", "driver 75 kg", "fuel 90 %", "1 410", "1 409", "2 818"},
		{"running order, water and gas full", "driver 75 kg", "fuel 90 %, fresh, hot, gas, flush full", "1 412", "1 519", "2 931", "448", "381", "569"},
		{"approval laden", "driver and 3 x 75 kg", "as above, pay-mass 100.2 kg", "1 541", "1 715", "3 256", "319", "185", "244"},
		{"as this party travels", "84, 68, 47, 36 kg", "as declared", "1 542", "1 717", "3 259", "318", "183", "241"},
		{"worst rear, normal water", "larger of 75 kg and own", "used water leaves the fresh tank", "1 562", "1 829", "3 391", "298", "71", "109"},
		{"worst rear, refilled", "larger of 75 kg and own", "fresh refilled, waste full", "1 581", "1 886", "3 467", "279", "14.3", "33.0"},
		{"worst front, refilled", "larger of 75 kg and own", "fresh refilled, waste full", "1 619", "1 805", "3 424", "241", "95", "76"},
	}
	for i, r := range rowsOf {
		c := CaseRow{Name: r[0], People: r[1], Fills: r[2], Front: r[3], Rear: r[4], Total: r[5], MarginFront: r[6], MarginRear: r[7], Margins: r[8]}
		c.Judged = i > 1
		c.Verdict = Holds
		if i == 6 {
			c.Verdict, c.Deciding = Tight, true
		}
		s.Cases = append(s.Cases, c)
	}
	s.Basis = []Pair{
		{Name: "plate", Value: "total 3 500 kg, front 1 860 kg, rear 1 900 kg, train 5 600 kg", Note: "read from the plate, 2 March 2026"},
		{Name: "empty van", Value: "front 1 180 kg ± 10 kg, rear 770 kg ± 10 kg", Note: "public weighbridge, scale division 10 kg; nobody aboard, 38 of 76 L diesel, bulkhead, double bench, load floor, wall panels, spare wheel, tools"},
		{Name: "base van", Value: "wheelbase 4.00 m, overall 6.02 x 2.04 x 2.60 m", Note: "shell measured by tape, closing error 3 mm in 3 390"},
		{Name: "rules", Value: "as in force in the United Kingdom on 1 November 2026", Note: "editions under Sources"},
		{Name: "state", Value: "travel: everything latched and in its travelling place"},
	}
	s.Room = []RoomRow{{"on the bulkhead line", "32", "total mass"}, {"over the kitchen", "20", "rear axle"}, {"over the rear axle", "14", "rear axle"}, {"at the rear doors", "11", "rear axle"}}
	s.Groups = []GroupRow{{"body and openings", "107.8", "8.0", "18.1", "81.7"}, {"insulation, lining, floor", "114.6", "33.5", "21.0", "60.1"},
		{"seats, bench, table", "137.4", "39.0", "69.3", "29.1"}, {"kitchen", "91.6", "", "26.9", "64.7"}, {"bunks and garage", "99.4", "", "−7.9", "107.3"}, {"net, all groups", "865.8", "98.0", "160.8", "607.0"}}
	s.Spreads = []Pair{{Name: "weighbridge ticket", Value: "± 10 kg on each axle"}, {Name: "items, each by itself", Value: "± 9.4 kg on the rear axle"},
		{Name: "catalogue masses lean together", Value: "3 %: ± 23.9 kg on the rear axle", Note: "counted when three items in ten or more are known from data sheets only"},
		{Name: "nose down by one degree", Value: "at least ± 3.2 kg on each axle"}}
	s.Assumed = []Assumption{{"mass of a person", "75 kg", "no own mass given for the spare seat", "rear axle ± 6 kg"}, {"unlisted small parts", "24 kg ± 12 kg", "screws, glue, edging, tape; until the finished van is weighed", "rear axle ± 9 kg"},
		{"density of diesel", "0.835 kg/L", "common practice", "front axle ± 1 kg"}}
	s.Sources = []Source{{"Regulation (EU) 2021/535", "annex XIII, part 2, 4.2", "from memory", "running order, pay-mass"}, {"plate of this van", "lines 1 to 4", "read in the publication", "limits"},
		{"EN 1645-2", "clause 5", "read in a text that quotes it", "user payload 10 (n + L)"}}
	s.Slips = []Slip{{ID: "axle.split", Title: "Mass on the rear axle, worst rear, refilled", Lines: []SlipLine{
		{Symbol: "l", Says: "wheelbase", Kind: "given", Result: "4.000 m", Source: "tape, 2 March 2026"},
		{Symbol: "m_i", Says: "masses of the empty van, 104 items, 5 removed, people, contents, luggage", Kind: "given", Result: "3 467.0 kg in 131 rows, annex"},
		{Symbol: "M", Says: "moment about the front axle", Formula: "sum(m_i * x_i)", Numbers: "770.0 kg * 4.000 m + 19.2 kg * 3.040 m + 25.5 kg * 2.790 m + 21.0 kg * 2.390 m + …", Result: "7 542.8 kg·m", Source: "statics: moments about the front axle"},
		{Symbol: "m_r", Says: "mass on the rear axle", Formula: "M / l", Numbers: "7 542.8 kg·m / 4.000 m", Result: "1 885.7 kg", Source: "statics"},
		{Symbol: "m_max", Says: "permissible on the rear axle", Kind: "limit", Result: "1 900 kg", Source: "plate, line 4"},
		{Symbol: "d", Says: "in hand", Formula: "m_max - m_r", Numbers: "1 900 kg - 1 885.7 kg", Result: "14.3 kg"}},
		Notes: []string{"Left out: the change of axle loads by the attitude of the van (see How sure) and by movement."}},
		{ID: "axle.pay-mass", Title: "Minimum pay-mass", Lines: []SlipLine{
			{Symbol: "n", Says: "people besides the driver", Kind: "given", Result: "4"}, {Symbol: "L", Says: "overall length", Kind: "given", Result: "6.02 m"},
			{Symbol: "m_p", Says: "minimum pay-mass", Formula: "10 * (n + L)", Numbers: "10 * (4 + 6.02)", Result: "100.2 kg", Source: "EN 1645-2, clause 5; from a text that quotes it"}}}}
	for _, t := range in.Things {
		kg := t.Mass[:len(t.Mass)-3]
		where := fmt.Sprintf("x %.0f, y %.0f, z %.0f", t.Centre.X.Millimetres(), t.Centre.Y.Millimetres(), t.Centre.Z.Millimetres())
		s.Items = append(s.Items, ItemRow{Number: t.Number, Name: t.Name, Group: t.Layer, Mass: kg, Spread: "0.8", Known: "weighed", Place: where, Removed: t.Removed})
	}
	s.Sign = []Signature{{"for the workshop", ""}, {"weighed by", ""}, {"customer", ""}}
	return s
}

func placard() LoadingPlacard {
	in := drawingtest.Curlew()
	in.Things, in.Curve, in.Axles, in.Centre = in.Things[:0], nil, nil, nil
	for _, t := range drawingtest.Curlew().Things {
		switch t.ID {
		case "kitchen-carcass", "washroom-walls", "wardrobe", "drying-locker", "bench-belted", "lower-mattress", "seat-passenger", "garage-mat":
			t.Number = 0
			in.Things = append(in.Things, t)
		}
	}
	return LoadingPlacard{Head: head(), Together: "145 kg",
		Zones: []PlacardZone{{Where: "garage", Limit: "85 kg", Note: "heavy things low and forward, strapped to the rails"}, {Where: "kitchen", Limit: "38 kg", Note: ""}, {Where: "drying locker", Limit: "24 kg", Note: "wet clothes count"},
			{Where: "wardrobe", Limit: "22 kg", Note: ""}, {Where: "bunks", Limit: "20 kg", Note: "bedding"}, {Where: "dinette lockers", Limit: "14 kg", Note: ""}, {Where: "cab", Limit: "8 kg", Note: ""}, {Where: "washroom", Limit: "6 kg", Note: ""}, {Where: "kayaks", Limit: "2 x 24 kg", Note: "on the roof", Apart: true}},
		Seats:  []Pair{{Name: "driver, front passenger", Value: "84 + 75 kg"}, {Name: "bench, two child seats", Value: "75 + 75 kg"}},
		Rules:  []string{"Empty the waste tank before you fill the fresh tank. It is worth 57 kg on the rear axle.", "No bicycles or boxes behind the rear doors."},
		Totals: []Pair{{Name: "whole van", Value: "3 500 kg"}, {Name: "front axle", Value: "1 860 kg"}, {Name: "rear axle", Value: "1 900 kg"}},
		Basis:  "Computed for the declared loading plan of revision 14: worst rear, refilled, larger of 75 kg and own mass; 14 kg in hand on the rear axle. A weighbridge has the last word.",
		Plan:   drawing.Plan(in, drawing.Options{Scale: 60, Labels: true})}
}

func change() Change {
	return Change{Head: head(), Number: "7", What: "Bicycle rack at the rear doors, for two bicycles; battery 1.2 m forward", Asked: "the customer, 28 October 2026",
		Deciding: []Sentence{{Text: "rear axle 76 kg over, was 14 kg in hand", Sub: "worst case of the declared plan", Verdict: DoesNotHold}},
		Lines: []ChangeLine{{"rack on the rear doors", "–", "5 620 mm, with two bicycles", "+64.0", "+ 410.00"}, {"battery", "2 390 mm", "1 190 mm", "0", "+ 95.00"},
			{"battery cables", "2 200 mm of 35 mm²", "1 000 mm of 35 mm²", "−1.4", "− 22.00"}},
		Compare: []CompareRow{{"total mass, in hand", "33.0 kg", "−31.0 kg", "−64.0 kg", DoesNotHold, true}, {"rear axle, in hand", "14.3 kg", "−75.7 kg", "−90.0 kg", DoesNotHold, true},
			{"front axle, in hand", "241 kg", "267 kg", "+26 kg", Holds, true}, {"left for this party", "241 kg", "177 kg", "−64 kg", Unknown, false}},
		Price: "+ 483.00 GBP before tax", Delay: "two days later", Reopens: []string{"cable sizes of the battery, ventilation of the bench box"},
		Sign: []Signature{{"customer", ""}, {"for the workshop", ""}}}
}
