package pages

import (
	"slices"
	"testing"

	"github.com/valvechest/valvechest/internal/book"
)

// Every page that a maker names is one of the booklet, or its sections would be lost;
// and the sections of one page stand together, in the order in which they were made.
func TestInOrder(t *testing.T) {
	for _, m := range makers {
		if !slices.Contains(booklet, m.page) {
			t.Errorf("%q is not a page of the booklet", m.page)
		}
	}
	made := []book.Section{
		{Key: "all well"}, {Key: "steam", Page: "Before steam"}, {Key: "valve", Page: valvePage}, {Key: "laps"},
		{Key: "offset", Page: eccentricPage}, {Key: "face", Page: valvePage},
	}
	var order []string
	for _, s := range inOrder(made) {
		order = append(order, s.Key+"/"+s.Page)
	}
	want := []string{"all well/", "valve/" + valvePage, "laps/", "face/", "offset/" + eccentricPage, "steam/Before steam"}
	if !slices.Equal(order, want) {
		t.Errorf("%q, want %q", order, want)
	}
}
