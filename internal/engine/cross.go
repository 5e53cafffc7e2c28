package engine

import "strings"

// checks are what is compared between the tables of a file. Each must do with a
// file that lacks keys: what is not there is not compared.
var checks = []func(*Engine) error{
	(*Engine).studs,
	(*Engine).shafts,
	(*Engine).bore,
	(*Engine).gaskets,
	(*Engine).chest,
	(*Engine).clearanceHoles,
	(*Engine).parts,
	(*Engine).flywheel,
	(*Engine).sheave,
}

// Cross complains of places of the file that say different things of one thing.
// Each complaint names both places; a file with one cannot be used, as nobody
// knows which of the two is meant.
func (e *Engine) Cross() error {
	var all []error
	for _, check := range checks {
		all = append(all, check(e))
	}
	return Join(all...)
}

// placeName returns the name of a place in the form in which two are compared:
// "The cylinder covers" is "cylinder cover". Capitals, articles and the s of a
// plural do not count.
func placeName(where string) string {
	var words []string
	for word := range strings.FieldsSeq(strings.ToLower(where)) {
		switch word {
		case "the", "a", "an":
			continue
		}
		words = append(words, singular(word))
	}
	return strings.Join(words, " ")
}

func singular(word string) string {
	rest, plural := strings.CutSuffix(word, "s")
	if !plural || len(word) < 4 || strings.HasSuffix(rest, "s") { // its, gas, boss
		return word
	}
	if stem, ok := strings.CutSuffix(rest, "e"); ok {
		for _, end := range []string{"s", "x", "z", "ch", "sh"} { // bosses, boxes, bushes
			if strings.HasSuffix(stem, end) {
				return stem
			}
		}
	}
	return rest
}
