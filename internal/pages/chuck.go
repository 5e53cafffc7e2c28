package pages

import (
	"fmt"

	"github.com/valvechest/valvechest/eccentric/marking"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
)

// A ChuckQuestion asks how work is set in a chuck.
type ChuckQuestion struct {
	Blank, Offset *units.Length
	Jaw           units.Length // width of the flat faces of the jaws; zero: narrow
}

// Chuck answers the question.
func Chuck(ask ChuckQuestion) (book.Book, error) {
	if ask.Blank == nil || ask.Offset == nil {
		return book.Book{}, cli.ErrUsage("wanted: -blank with -offset")
	}
	return threeJaw(ask)
}

// threeJaw is the packing under one jaw.
func threeJaw(ask ChuckQuestion) (book.Book, error) {
	chuck := marking.ThreeJaw{Blank: *ask.Blank, Offset: *ask.Offset, Jaw: ask.Jaw}
	packing, err := chuck.Packing()
	if err != nil {
		return book.Book{}, flagged(err, chuckFlags)
	}
	jaws := "narrow jaws"
	if !ask.Jaw.IsZero() {
		jaws = fmt.Sprintf("jaws %s wide", ask.Jaw)
	}
	return book.Book{
		Title: fmt.Sprintf("%s off centre on %s, in a three-jaw chuck", chuck.Offset, chuck.Blank),
		Sections: []book.Section{{Top: true, Items: []book.Item{{Values: []book.Value{
			{Key: "packing", Label: "packing under one jaw", What: book.LengthThou(packing.Thickness, 3, 1), Remark: jaws, Refs: packing.Refs},
			{Key: "packing_wide", Label: "under wide flat jaws", What: book.LengthThou(packing.Wide, 3, 1),
				Remark: fmt.Sprintf("from %s on", packing.WideFrom.Text(units.Millimetres, 2))},
		}}}}},
		Precautions: append(marking.Precautions(), speeds.Turning.Precautions()...),
	}, nil
}

// chuckFlags are the flags of what the package refuses.
var chuckFlags = map[string]string{"blank": "-blank", "offset": "-offset", "width of the jaws": "-jaw"}
