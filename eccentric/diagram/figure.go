package diagram

import (
	"slices"

	"github.com/valvechest/valvechest/internal/sheet"
)

func sorted(values []float64) []float64 {
	slices.Sort(values)
	return values
}

// picture returns the picture of a drawing that holds, or what was wrong with it.
func picture(d *sheet.Drawing, name, title, alt, caption string) (Picture, error) {
	if err := d.Err(); err != nil {
		return Picture{}, err
	}
	return Picture{Name: name, Title: title, Alt: alt, Caption: caption, drawing: d}, nil
}
