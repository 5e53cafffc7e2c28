package template

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

func at(x, y float64) gasket.Point { return gasket.Point{X: units.MM(x), Y: units.MM(y)} }

func drilled(name string, x, y, diameter float64) gasket.Hole {
	return gasket.Hole{Name: name, At: at(x, y), Diameter: units.MM(diameter)}
}

// keptSheets are invented parts, as unlike as may be, laid out.
func keptSheets(t *testing.T) map[string]*Template {
	t.Helper()
	all := map[string]*Template{}
	part := func(name string, p Part, errOutline error, o Options) {
		m, err := New(p, o)
		if err != nil || errOutline != nil {
			t.Fatal(name, err, errOutline)
		}
		all[name] = m
	}
	marking := func(name string, m Marking, o Options) {
		one, err := NewMarking(m, o)
		if err != nil {
			t.Fatal(name, err)
		}
		all[name] = one
	}
	part("cover", Part{Outline: cover(t), Thickness: units.MM(0.25)}, nil, Options{})

	studs, errStuds := gasket.Rectangle(3, 4, units.Inch(2.25), units.Inch(3))
	chest, err := gasket.Rectangular("Steam chest", gasket.Rect{Width: units.Inch(2.75), Height: units.Inch(3.5), Corner: units.Inch(0.25)},
		[]gasket.Rect{{Centre: at(0, 4), Width: units.Inch(1.5), Height: units.Inch(2), Corner: units.Inch(0.125)},
			{Centre: at(0, -28), Width: units.MM(12), Height: units.MM(5)}}, studs.Drilled(units.Inch(0.15)))
	if errStuds != nil {
		t.Fatal(errStuds)
	}
	chest.Holes[0].Name, chest.Holes[1].Diameter = "oil", units.Thou(200)
	part("chest", Part{Outline: chest, Thickness: units.Thou(10), Engine: "Invented engine", Material: "Graphited sheet",
		Warnings: []string{"Each stud must hold 1018 N, and a preload of 340 N leaves 272 N when the joint has relaxed: the cover lifts and lets steam out."},
		Remarks:  []string{"The web beside hole 2 is thin.", "It is hot."}},
		err, Options{Inch: true, Paper: Letter, Correction: Correction{X: 1.02, Y: 0.99}})

	oval, err := gasket.Oval("Gland", units.MM(24), units.MM(12), units.MM(10),
		gasket.Pattern{drilled("", 30, 20, 5), drilled("", 70, 28, 5)})
	part("gland", Part{Outline: oval, Thickness: units.Thou(120), Material: "Paper"}, err, Options{Inch: true})

	odd := gasket.Outline{Name: "Odd", Outside: gasket.Loop{ // corners rounded by 10, 10 and 4, and one hollowed out
		{Point: at(-10, -5)}, {Point: at(40, -5), Bulge: 0.41421356}, {Point: at(50, 5)}, {Point: at(50, 31), Bulge: 0.41421356},
		{Point: at(46, 35)}, {Point: at(-2, 35), Bulge: -0.41421356}, {Point: at(-10, 27)}},
		Cutouts: []gasket.Loop{gasket.Circle(at(20, 16), units.MM(14)), gasket.Circle(at(38, 20), units.MM(6))},
		Holes: gasket.Pattern{drilled("a", -6, 0, 2), drilled("", -6, 8, 2.5), drilled("", 42, 4, 3.1), drilled("", 40, 30, 4),
			drilled("dowel", 3, 30, 4.8), drilled("", 0, 20, 6.35), drilled("", 3, 15, 1), drilled("", 33, 8, 30.0/9)}}
	part("odd", Part{Outline: odd, Thickness: units.MM(0.5), Engine: "Invented engine"}, nil, Options{Paper: A3,
		Punches: []units.Length{units.MM(5), units.MM(3), units.MM(2), units.MM(6.5)}})

	var ring gasket.Pattern
	for i := range 12 {
		ring = append(ring, drilled("", float64(20+20*i), 12, 4), drilled("", float64(20+20*i), 288, 4))
	}
	for i := range 12 {
		ring = append(ring, drilled("", 12, float64(40+20*i), 5), drilled("", 248, float64(40+20*i), 5.5))
	}
	large, err := gasket.Rectangular("Large cover", gasket.Rect{Centre: at(130, 150), Width: units.MM(260), Height: units.MM(300), Corner: units.MM(8)},
		[]gasket.Rect{{Centre: at(130, 150), Width: units.MM(210), Height: units.MM(250), Corner: units.MM(105)}}, ring)
	part("large", Part{Outline: large, Thickness: units.MM(1), Remarks: []string{"Two sheets lie on each other."}}, err, Options{})

	marking("head", Marking{Face: cover(t), Engine: "Invented engine", Material: "Gunmetal", Depth: units.MM(5),
		Notes: []string{"Drill through.", strings.Repeat("Spot face the seats of the nuts. ", 5)}}, Options{})
	dowel := cover(t)
	dowel.Holes = append(dowel.Holes, drilled("dowel", 7.9375, 13.75, 3.175))
	marking("lid", Marking{Face: dowel, Warnings: []string{"The dowel breaks out."},
		Unseen: []gasket.Loop{gasket.Circle(gasket.Point{}, units.MM(26))}}, Options{Inch: true})
	var ports []gasket.Loop
	for _, p := range [][2]float64{{-5.5, 2}, {0, 4}, {5.5, 2}} {
		loop, err := gasket.Rect{Centre: at(p[0], 0), Width: units.MM(p[1]), Height: units.MM(10)}.Loop()
		if err != nil {
			t.Fatal(err)
		}
		ports = append(ports, loop)
	}
	marking("face", Marking{Face: gasket.Outline{Name: "Port face", Cutouts: ports}, Notes: []string{"From the middle."},
		Unseen: []gasket.Loop{gasket.Circle(at(9, 3), units.MM(4))}, Lines: []Line{{Name: "middle"},
			{Name: "outer edge", At: units.MM(-6.5)}, {Name: "inner edge", At: units.MM(-4.5)}, {Name: "outer edge", At: units.MM(6.5)},
			{Name: "end of the ports", Level: true, At: units.MM(-5)}, {Name: "end of the ports", Level: true, At: units.MM(5)},
			{Name: strings.Repeat("the valve, furthest out ", 3), At: units.MM(10.9), Unseen: true}, {Name: "middle", Level: true}}}, Options{})
	marking("levels", Marking{Face: gasket.Outline{Name: "Side"}, Lines: []Line{{Name: "top", Level: true, At: units.MM(30)},
		{Name: "bore", Level: true, At: units.MM(11.5)}, {Name: "foot", Level: true, At: units.MM(-4)}}}, Options{Inch: true, Paper: Legal})
	marking("uprights", Marking{Face: gasket.Outline{Name: "Bar"}, Lines: []Line{{Name: "end", At: units.MM(3)},
		{Name: "seen from behind", At: units.MM(-20), Unseen: true}, {Name: "shoulder", At: units.MM(4.4)}}}, Options{Paper: Tabloid})
	name := strings.Repeat("a long name ", 20)
	long, err := gasket.Rectangular(name, gasket.Rect{Width: units.MM(150), Height: units.MM(120)}, nil, nil)
	for i := range 90 {
		long.Holes = append(long.Holes, drilled("", float64(i%15)*9-63, float64(i/15)*9-40, 3))
	}
	part("long", Part{Outline: long, Thickness: units.MM(0.8), Engine: name, Material: name, Warnings: []string{strings.Repeat("a b ", 200)}}, err, Options{})
	notes := make([]string, 11)
	for i := range notes {
		notes[i] = fmt.Sprint("Note ", i+1)
	}
	marking("notes", Marking{Face: cover(t), Notes: notes}, Options{Paper: A3})
	return all
}

// layersOf returns the layers of a DXF file with their colours and kinds of line.
func layersOf(t *testing.T, write func(io.Writer) error) string {
	t.Helper()
	var file bytes.Buffer
	if err := write(&file); err != nil {
		return err.Error()
	}
	pairs := strings.Split(file.String(), "\r\n")
	text, in := "", false
	for i := 0; i+1 < len(pairs); i += 2 {
		switch code := strings.TrimSpace(pairs[i]); {
		case code == "0":
			in = pairs[i+1] == "LAYER"
		case in && code == "2":
			text += "; " + pairs[i+1]
		case in && (code == "62" || code == "6"):
			text += " " + strings.TrimSpace(pairs[i+1])
		}
	}
	return strings.TrimPrefix(text, "; ")
}

// Kept is all that stands on the sheets, the picture and the files of parts that are as
// unlike as may be: every line, word and place. Whether those are right is measured by the
// other tests, for random parts.
func TestSheetsKept(t *testing.T) {
	for name, m := range keptSheets(t) {
		t.Run(name, func(t *testing.T) {
			var text strings.Builder
			say := func(what string, write func(io.Writer) error) {
				var file bytes.Buffer
				fmt.Fprintf(&text, "== %s ==\n", what)
				if err := write(&file); err != nil {
					fmt.Fprintln(&text, err)
					return
				}
				text.WriteString(check.ReadPicture(t, file.String()).List())
			}
			fmt.Fprintln(&text, m.Holes())
			for page := 1; page <= m.Pages(); page++ {
				say(fmt.Sprint("sheet ", page), func(w io.Writer) error { return m.WriteSVG(w, page) })
			}
			say("picture", m.WritePicture)
			say("for a machine", m.WriteCutSVG)
			say("whole", func(w io.Writer) error {
				d, err := m.whole()
				if err != nil {
					return err
				}
				return sheet.WriteSVG(w, name, d)
			})
			fmt.Fprintf(&text, "layers %s\nfor a machine %s\n", layersOf(t, m.WriteDXF), layersOf(t, m.WriteCutDXF))
			check.Kept(t, "gasket/template/kept/"+name+".txt", text.String())
		})
	}
}
