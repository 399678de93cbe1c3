package edit

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"berthwright/docfile"
	"berthwright/unit"
)

func TestPropTradeIsGuessedByName(t *testing.T) {
	for name, want := range map[string]string{
		"Compressor fridge 72 L": "kitchen", "Fresh water tank, 92 L": "water", "Pump": "water", "LiFe battery 100 Ah": "electric", "Solar panels": "electric",
		"Inverter": "electric", "Side window": "body", "Awning": "body", "Roof light": "body", "Diesel heater": "heating", "Gas heater": "heating", "Cassette toilet": "washroom",
		"Shower tray": "washroom", "Mattress": "bunks", "Bed": "bunks", "Bench with battery": "seats", "Table": "seats", "Gas cylinder": "gas", "Gas locker": "gas",
		"Overhead lockers": "overhead", "Wall lining": "lining", "Insulation": "lining", "Water heater": "heating", "Battery box under the bench": "electric",
		"Batteries": "electric", "Gizmo": "", "": "", "Bedroom eyes": "", "Tablet holder": "",
	} {
		if got := trade(name); got != want {
			t.Errorf("%q is of the trade %q, want %q", name, got, want)
		}
	}
	for group := range trades {
		if !strings.Contains(" "+strings.Join(tradeOrder(), " ")+" ", " "+group+" ") {
			t.Errorf("the file has no trade %q", group)
		}
	}
}

// TestCrossTradeAgreesWithBuilds: where a word tells, it mostly tells what the people who wrote the example builds said.
func TestCrossTradeAgreesWithBuilds(t *testing.T) {
	files, err := filepath.Glob("../examples/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no example builds: %v", err)
	}
	same, other := 0, 0
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, it := range docfile.Read(name, text).Build.Items {
			switch trade(it.Name) {
			case "":
			case it.Group:
				same++
			default:
				other++
				t.Logf("%q: %s, written %s", it.Name, trade(it.Name), it.Group)
			}
		}
	}
	if same < 40 || other*5 > same {
		t.Errorf("%d agree, %d do not", same, other)
	}
}

func plain(s string) string { return strings.ReplaceAll(s, unit.Space, " ") }

func TestPropRowsStandInForAllowances(t *testing.T) {
	text := strings.Replace(small, "items:\n", `items:
  - {id: allow-kitchen, name: Kitchen, group: kitchen, mass: 60 kg, allowance: true, zone: mid left low}
  - {id: allow-water, name: Water, group: water, mass: 40 kg, allowance: true, zone: mid left low}
`, 1)
	p, err := Paste(read(t, text), env, "kit", "Item\tkg\nFridge 2\t20\nSink\t10\nPump\t50\n", "", Corrected{})
	if err != nil {
		t.Fatal(err)
	}
	if plain(p.Says) != "these stand in for: kitchen, water (−70 kg of allowances); 30 kg of allowances still stand: kitchen" {
		t.Errorf("says %q", p.Says)
	}
	f, _ := did(t, read(t, text), p.Gestures...)
	if value(t, f, "items/pump/group") != "water" {
		t.Errorf("%s", f.Text)
	}
	p, err = Paste(read(t, text), env, "kit", "Item\tkg\tTrade\nFridge 2\t20\tloose\n", "", Corrected{})
	if err != nil || !strings.HasPrefix(plain(p.Says), "these stand in for no allowance; 100 kg") {
		t.Errorf("says %q %v", p.Says, err)
	}
	if p, err = Paste(read(t, small), env, "kit", "Item\tkg\nFridge 2\t20\n", "", Corrected{}); err != nil || p.Says != "" {
		t.Errorf("says %q %v", p.Says, err)
	}
}
