package geom

import (
	"encoding/csv"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"berthwright/unit"
)

// TestPropClashVectors holds the clashes solved by hand in testdata/vectors/geom-clash.csv.
func TestPropClashVectors(t *testing.T) {
	f, err := os.Open("../testdata/vectors/geom-clash.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	const columns = "case,x1,y1,z1,dx1,dy1,dz1,turn1,x2,y2,z2,dx2,dy2,dz2,turn2,depth_um,by_um,move,arithmetic"
	if len(rows) < 8 || !slices.Equal(rows[0], strings.Split(columns, ",")) {
		t.Fatalf("%d rows, columns %v", len(rows), rows[0])
	}
	for _, row := range rows[1:] {
		number := func(k int) float64 { return must(strconv.ParseFloat(row[k], 64)) }
		body := func(k int) Solid {
			var l [6]unit.Length
			for i := range l {
				l[i] = unit.MetresLength(number(k+i) / 1000)
			}
			o := must(TurnedBox(Vec2{l[0], l[1]}, Vec2{l[3], l[4]}, unit.Angle(number(k+6))*unit.Degree))
			return must(NewSolid(o, l[2], l[2]+l[5]))
		}
		a, b := body(1), body(8)
		c, clash := a.Clash(b)
		depth, by := unit.Length(number(15)), unit.Length(number(16))
		near(t, row[0]+": depth", c.Depth, depth, by)
		if clash != (row[17] != "none") {
			t.Errorf("%s: clash %v", row[0], clash)
			continue
		}
		d := map[string]unit.Length{"-x": -c.Move.X, "+x": c.Move.X, "-y": -c.Move.Y, "+y": c.Move.Y, "-z": -c.Move.Z, "+z": c.Move.Z}[row[17]]
		if axis := row[17]; axis != "none" && axis != "plan" {
			near(t, row[0]+": move", d, depth, by)
		}
		if clash && a.Move(c.Move).Overlaps(b) {
			t.Errorf("%s: %v does not clear", row[0], c.Move)
		}
	}
}
