package symptom

import (
	"embed"
	"strings"

	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units/source"
)

//go:embed tables/*.csv
var tables embed.FS

// A cause is a fault of the catalogue that no size of the gear is.
type cause struct {
	order                   int // of its table, among what is as good in all else
	name, short, text, cure string
	refs                    source.Refs
}

// A sign is a symptom that a fault shows by what is written of it.
type sign struct {
	cause   string
	symptom Symptom
	shown   float64
	refs    source.Refs
}

// A trial is a test that says yes with some faults and no with the others.
type trial struct {
	effort Effort
	text   string
	yes    []string
	refs   source.Refs
}

// How surely a fault shows a sign of the table: our own figures for three words.
const (
	always    = 0.9
	often     = 0.6
	sometimes = 0.3
)

var howNames = names.Set{Package: "symptom", Type: "how", Field: "how", Texts: []string{"always", "often", "sometimes"}}

var causeTable = table.Table[cause]{FS: &tables, Name: "tables/causes.csv", Row: func(r *table.Row) cause {
	return readCause(r, "cause", r.Text("cure"))
}}

var gearTable = table.Table[cause]{FS: &tables, Name: "tables/gear.csv", Row: func(r *table.Row) cause {
	return readCause(r, "fault", r.Optional("cure"))
}}

func readCause(r *table.Row, name, cure string) cause {
	return cause{r.Int("order"), r.Text(name), r.Text("short"), r.Text("text"), cure, r.Refs()}
}

var signTable = table.Table[sign]{FS: &tables, Name: "tables/signs.csv", Row: func(r *table.Row) sign {
	how := table.As(r, "how", howNames.Value)
	return sign{
		cause: r.Text("cause"), symptom: table.As(r, "symptom", Parse),
		shown: [...]float64{always, often, sometimes}[how], refs: r.Refs(),
	}
}}

var trialTable = table.Table[trial]{FS: &tables, Name: "tables/tests.csv", Row: func(r *table.Row) trial {
	return trial{effort: table.As(r, "effort", ParseEffort), text: r.Text("test"), yes: strings.Fields(r.Text("causes")), refs: r.Refs()}
}}

// written returns how surely a fault shows each symptom by what is written of it, and
// where that is.
func written(cause string) (shown [symptomCount]float64, refs source.Refs) {
	for _, s := range signTable.Rows() {
		if s.cause == cause {
			shown[s.symptom] = max(shown[s.symptom], s.shown)
			refs = refs.With(s.refs)
		}
	}
	return shown, refs
}
