package seal

import (
	"slices"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
)

// limitRow is a shipped row of the limits, with the key of its source.
type limitRow struct {
	by string
	printed[Limit]
}

func limitRows(t *testing.T) []limitRow {
	t.Helper()
	rows, _, err := table.Read(files, "tables/limits.csv", func(r *table.Row) limitRow {
		return limitRow{r.Text("source"), readLimit(r)}
	})
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

// The limits against other works, and against the pages that they are from.
func TestLimitsPrinted(t *testing.T) {
	rows := limitRows(t)
	find := func(r *check.Row, by string, has func(Limit) bool) (Limit, bool) {
		i := slices.IndexFunc(rows, func(l limitRow) bool {
			return l.by == by && l.row.Printed == r.Optional("printed") && slices.Contains(l.materials, r.Text("material")) && has(l.row)
		})
		if i < 0 {
			t.Errorf("%s: no such row", r.ID)
			return Limit{}, false
		}
		row := rows[i].row
		if !slices.ContainsFunc(mustLimits(t, r.Text("material")), func(l Limit) bool {
			return l.Printed == row.Printed && l.Dry == row.Dry && l.Steam == row.Steam && l.Pressure == row.Pressure
		}) {
			t.Errorf("%s: not among the limits of the material", r.ID)
		}
		return row, true
	}
	f := check.Open(t, "gasket/seal/limits.csv")
	for r := range f.Rows() {
		of := map[string]func(Limit) float64{
			"dry_c": func(l Limit) float64 { return l.Dry.Celsius() }, "steam_c": func(l Limit) float64 { return l.Steam.Celsius() },
			"pressure_bar": func(l Limit) float64 { return l.Pressure.In(units.Bar) },
		}[r.Text("quantity")]
		if of == nil {
			t.Fatalf("%s: quantity %s", r.ID, r.Text("quantity"))
		}
		stated := map[string]func(Limit) bool{
			"dry_c": func(l Limit) bool { return l.Dry != 0 }, "steam_c": func(l Limit) bool { return l.Steam != 0 },
			"pressure_bar": func(l Limit) bool { return l.Pressure != 0 },
		}[r.Text("quantity")]
		if l, ok := find(r, r.Text("by"), stated); ok {
			r.Within("value", of(l), 0)
		}
	}
	f = check.Open(t, "gasket/seal/limits_fahrenheit.csv")
	for r := range f.Rows() {
		if l, ok := find(r, r.Text("source"), func(Limit) bool { return true }); ok {
			// a whole degree Celsius is within half of one, 0.9 degrees Fahrenheit
			r.Within("fahrenheit", l.Dry.Celsius()*1.8+32, 0.9)
			// the table cuts its bars: 34 of them stand for 34 to 35
			r.Within("psi", (l.Pressure + units.Bar/2).In(units.PSI), (units.Bar / 2).In(units.PSI))
		}
	}
}

func TestSheetsPrinted(t *testing.T) {
	f := check.Open(t, "gasket/seal/sheet.csv")
	for r := range f.Rows() {
		rows, err := SheetsFor(of(t, r.Text("material")))
		i := slices.IndexFunc(rows, func(s Sheet) bool { return s.Printed == r.Text("printed") })
		if err != nil || i < 0 {
			t.Errorf("%s: no such row, %v", r.ID, err)
			continue
		}
		r.Compare("least_um", rows[i].Min.MM()*1000)
		r.Compare("most_um", rows[i].Max.MM()*1000)
	}
}

func TestPressedPrinted(t *testing.T) {
	f := check.Open(t, "gasket/seal/pressed.csv")
	for r := range f.Rows() {
		rows, err := PressedFor(of(t, r.Text("material")))
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range rows {
			r.Compare("load_mpa", p.Under.In(units.Megapascal))
			// the standard rounds 34.47 MPa, its 5000 psi, to 34.5
			r.Within("load_psi", p.Under.In(units.PSI), (50 * units.Kilopascal).In(units.PSI))
		}
	}
}
