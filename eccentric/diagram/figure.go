package diagram

import (
	"slices"
	"strings"
)

func sorted(values []float64) []float64 {
	slices.Sort(values)
	return values
}

// picture returns the picture of a plate that holds, or what was wrong with it. Its
// caption has what found no place on it.
func picture(p *plate, name, title, alt, caption string) (Picture, error) {
	if err := p.Err(); err != nil {
		return Picture{}, err
	}
	if len(p.without) > 0 {
		caption += " There was no room on it for: " + strings.Join(p.without, "; ") + "."
	}
	return Picture{Name: name, Title: title, Alt: alt, Caption: caption, drawing: p.Drawing}, nil
}
